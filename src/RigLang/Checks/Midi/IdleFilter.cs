using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class IdleFilter : Check
{
    public override string Name => "idle-filter";
    public override Severity Severity => Severity.Hint;
    public override string Title => "A filter that never sees what it drops";
    public override string Why => "It does nothing, and the message it was meant for may go another way.";
    public override string Advice => "Take it away, or put it on the port where the message comes by.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Weir {
          in  in   : midi on din-5
          out out1 : midi on din-5
          route in to out1
          filters any
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device thru : Weir {
          in drops clock
        }
        device bass : Tern
        connect seq.midi  to thru.in
        connect thru.out1 to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("track a sends midi", "track a sends midi\n          clock sends midi", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var device in rig.Names.Devices)
        {
            foreach (var group in device.Filters.GroupBy(f => f.At))
            {
                // A line may filter several ports; it is idle only when it is on all of them. An empty port has no messages to judge by.
                var filters = group.ToList();
                var plugged = filters.Where(f => rig.Wiring.IsPlugged(device, f.Port)).ToList();
                if (plugged.Count > 0 && plugged.TrueForAll(f => (Coming(rig, device, f) & f.Drops) == MessageKinds.None) && IsFed(rig, device, plugged))
                {
                    report.Add(this, group.Key, $"{Wording.And(plugged.Select(f => $"{device.Name}.{f.Port.Name}"))} never sees {Shown(filters[0].Drops)}.",
                        related: plugged.SelectMany(f => Cables(rig, device, f)),
                        missing: new NothingComes([.. plugged.Select(f => MidiGraph.In(device, f.Port))], filters[0].Drops) { Origins = [new Origin.Line(group.Key)] });
                }
            }
        }
    }

    private static MessageKinds Coming(Rig rig, DeviceSymbol device, PortFilter filter)
    {
        var node = MidiGraph.In(device, filter.Port);
        return (filter.Stands(isComingIn: true) ? rig.Midi.Flow.BeforeFiltersAt(node) : MessageKinds.None)
            | (filter.Stands(isComingIn: false) ? rig.Midi.Flow.BeforeFiltersAt(node + 1) : MessageKinds.None);
    }

    /// <summary>True when anything at all comes by: a port that hears nothing is a matter of cables, not of filters.</summary>
    private static bool IsFed(Rig rig, DeviceSymbol device, List<PortFilter> filters) => filters.Exists(f => Coming(rig, device, f) != MessageKinds.None);

    private static IEnumerable<RelatedPlace> Cables(Rig rig, DeviceSymbol device, PortFilter filter) =>
        rig.Wiring.Plugged[device.FirstJack + filter.Port.Jacks[0].Index] is { } hookup ? [Wording.Also(hookup.Connection.At, $"what is plugged into {device.Name}.{filter.Port.Name}")] : [];

    private static string Shown(MessageKinds drops)
    {
        var all = MessageKindNames.NamesOf(drops).ToList();
        return all.Count > 6 ? "anything of what it drops" : Wording.Or(all);
    }
}
