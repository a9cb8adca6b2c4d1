using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Judges every `must` and `never` of a rig by following what it speaks of.</summary>
internal static class Expectations
{
    public static List<Outcome> Judge(RigNames names, RigWiring wiring, LinkTable links)
    {
        var outcomes = new List<Outcome>();
        Lazy<ILookup<PortRef, (Arrival, Term)>> arrivals = new(() => AudioReach.BySource(wiring, links));
        foreach (var expectation in names.Expectations)
        {
            foreach (var target in expectation.To)
            {
                var way = expectation.Signal switch
                {
                    ExpectedSignal.Audio => OfAudio(wiring, links, arrivals.Value, expectation, target),
                    ExpectedSignal.Power => OfPower(links, expectation, target),
                    _ => OfMessages(links, expectation, target),
                };
                outcomes.Add(new Outcome(expectation, way.Arrives == expectation.Must, target, way.Hops, way.Stopped));
            }
        }
        return outcomes;
    }

    /// <summary>Whether it arrives; the way it takes; and, if it does not arrive, what stops it.</summary>
    private readonly record struct Way(bool Arrives, IReadOnlyList<Hop> Hops, string Stopped);

    private static Way OfMessages(LinkTable links, ExpectationSymbol expectation, Target target)
    {
        // `must` wants every kind to arrive; `never` wants none: each kind is followed by itself.
        var best = new Way(expectation.Must, [], "");
        foreach (var kind in Each(expectation.Messages))
        {
            var way = OfKind(links, expectation, target, kind);
            if (way.Arrives != expectation.Must)
            {
                return way;
            }
            best = way;
        }
        return best;
    }

    private static Way OfKind(LinkTable links, ExpectationSymbol expectation, Target target, MessageKinds kind)
    {
        var nearest = new Way(false, [], $"nothing in {expectation.From.Text} sends {MessageKindNames.Describe(kind)}");
        foreach (var (ports, channel) in Senders(expectation, kind))
        {
            var reach = MessageReach.From(links, expectation.From.Device, ports, kind);
            foreach (var (port, _) in reach.Arrived)
            {
                if (ReferenceEquals(port.Device, target.Device) && Hears(target, port.Port, kind, channel))
                {
                    return new Way(true, reach.PathTo(port), "");
                }
            }
            nearest = Nearest(reach, target, kind, channel);
        }
        return nearest;
    }

    private static Way Nearest(MessageReach reach, Target target, MessageKinds kind, int? channel)
    {
        var name = MessageKindNames.Describe(kind);
        foreach (var (port, _) in reach.Arrived)
        {
            if (ReferenceEquals(port.Device, target.Device))
            {
                var reason = (MessageKinds.Channel & kind) != 0 && channel is { } c
                    ? $"{name} on channel {c} arrive at {port}, but {target.Text} does not listen there on that channel"
                    : $"{name} arrives at {port}, but {target.Text} does not listen to it there";
                return new Way(false, reach.PathTo(port), reason);
            }
        }
        if (reach.Dropped.Count > 0)
        {
            return new Way(false, [reach.Dropped[0]], reach.Dropped[0].Text);
        }
        return reach.Farthest is { } last
            ? new Way(false, reach.PathTo(last), $"the way ends at {last}")
            : new Way(false, [], $"{name} does not leave the device");
    }

    /// <summary>The ports that send this kind of message, each with the channel it is on if it has one.</summary>
    private static IEnumerable<(IEnumerable<PortSymbol> Ports, int? Channel)> Senders(ExpectationSymbol expectation, MessageKinds kind)
    {
        var from = expectation.From;
        var gear = from.Device.Gear!;
        if (from.Track is { } track)
        {
            yield return (track.Sends, ChannelOf(from.Device, track.Name, track.Channels));
        }
        else if (from.Port is { } port)
        {
            yield return ([port], expectation.OnChannel);
        }
        else if ((kind & MessageKinds.Clock) != 0)
        {
            yield return (gear.ClockSends, null);
        }
        else if ((kind & (MessageKinds.Transport | MessageKinds.SongPosition)) != 0)
        {
            yield return (gear.TransportSends.Count > 0 ? gear.TransportSends : gear.ClockSends, null);
        }
        else
        {
            foreach (var any in gear.Tracks.Values)
            {
                yield return (any.Sends, ChannelOf(from.Device, any.Name, any.Channels));
            }
        }
    }

    private static bool Hears(Target target, PortSymbol port, MessageKinds kind, int? channel)
    {
        if (target.Port is { } wanted && !ReferenceEquals(wanted, port))
        {
            return false;
        }
        var device = target.Device;
        var gear = device.Gear!;
        if ((kind & MessageKinds.Clock) != 0 && target.Port is null)
        {
            return device.Clock is { } clock ? ReferenceEquals(clock.Port, port) : gear.ClockFollows.Count == 0 || gear.ClockFollows.Exists(s => ReferenceEquals(s.Port, port));
        }
        if ((kind & MessageKinds.Transport) != 0 && target.Port is null)
        {
            // Without a setting of its own, transport is taken from wherever the clock is taken.
            return (device.Transport ?? device.Clock) is { } source
                ? ReferenceEquals(source.Port, port)
                : (gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows) is { Count: > 0 } can
                    ? can.Exists(s => ReferenceEquals(s.Port, port))
                    : true;
        }
        if ((kind & MessageKinds.Channel) == 0 || gear.Parts.Count == 0)
        {
            return true;
        }
        return gear.Parts.Values.Any(part =>
            (target.Part is null || ReferenceEquals(target.Part, part))
            && part.Receives.Contains(port)
            && (channel is null || ChannelOf(device, part.Name, part.Channels) is not { } own || own == channel)
            && !(device.Channels.TryGetValue(part.Name, out var assigned) && assigned.Word == "off"));
    }

    private static int? ChannelOf(DeviceSymbol device, string name, ChannelChoice choice) =>
        device.Channels.TryGetValue(name, out var assigned) ? assigned.Channel : choice.IsFixed ? choice.First : null;

    private static Way OfAudio(
        RigWiring wiring, LinkTable links, ILookup<PortRef, (Arrival, Term)> arrivals, ExpectationSymbol expectation, Target target)
    {
        var from = expectation.From;
        var starts = from.Port is { } port ? [port] : from.Device.Gear!.Ports.Where(p => p.IsOutput && p.Signal is { Kind: SignalKind.Audio or SignalKind.Insert });
        var reach = AudioReach.From(wiring, links, arrivals, from.Device, starts);
        Way? nearest = null;
        foreach (var wanted in target.Device.Gear!.Ports)
        {
            if ((target.Port is not null && !ReferenceEquals(target.Port, wanted)) || (wanted.IsOutput && target.Port is null && wanted.Signal is not { Kind: SignalKind.Usb }))
            {
                continue;
            }
            var here = new PortRef(target.Device, wanted);
            var content = reach.At(here);
            if (content.IsNone || (ReferenceEquals(target.Device, from.Device) && wanted.IsOutput))
            {
                continue;
            }
            if (expectation.InStereo is not { } stereo || stereo == content.IsStereo)
            {
                return new Way(true, reach.PathTo(here), "");
            }
            nearest = new Way(false, reach.PathTo(here), stereo
                ? $"it arrives at {here}, but not left on the left and right on the right"
                : $"it arrives at {here} in stereo");
        }
        return nearest ?? (reach.Farthest is { } last
            ? new Way(false, reach.PathTo(last), $"the way ends at {last}")
            : new Way(false, [], $"{from.Text} has no audio output"));
    }

    private static Way OfPower(LinkTable links, ExpectationSymbol expectation, Target target)
    {
        // Power is followed from the load back, through every device that passes it on.
        var hops = new List<Hop>();
        var seen = new HashSet<DeviceSymbol> { target.Device };
        var open = new Queue<DeviceSymbol>([target.Device]);
        while (open.TryDequeue(out var device))
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                foreach (var link in links.ArrivingAt(new PortRef(device, port)))
                {
                    if (link.Kind is not (SignalKind.Dc or SignalKind.Ac or SignalKind.Mains))
                    {
                        continue;
                    }
                    hops.Add(new Hop(link.Hookup.Connection.At, $"{link.From} to {link.To}"));
                    if (ReferenceEquals(link.From.Device, expectation.From.Device)
                        && (expectation.From.Port is null || ReferenceEquals(expectation.From.Port, link.From.Port)))
                    {
                        hops.Reverse();
                        return new Way(true, hops, "");
                    }
                    if (seen.Add(link.From.Device))
                    {
                        open.Enqueue(link.From.Device);
                    }
                }
            }
        }
        return new Way(false, hops, hops.Count == 0 ? $"nothing feeds {target.Device.Name}" : $"what feeds {target.Device.Name} does not come from {expectation.From.Text}");
    }

    private static IEnumerable<MessageKinds> Each(MessageKinds kinds) =>
        MessageKindNames.Table.Values.Where(k => k is not (MessageKinds.Transport or MessageKinds.All) && (kinds & k) != 0).Order();
}
