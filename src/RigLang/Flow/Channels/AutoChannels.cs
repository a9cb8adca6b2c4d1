using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>Parts and tracks on `auto` that cannot all have a channel: those that stand in one another's way, and what would free it.</summary>
/// <param name="Members">As <c>device.name</c>, with the device and the name apart beside it.</param>
/// <param name="Moves">Fixed voices that could move, and where to: "drums.kit to channel 11".</param>
public sealed record AutoConflict(IReadOnlyList<(DeviceSymbol Device, string Name, bool IsAuto)> Members, bool IsSmallest, IReadOnlyList<string> Moves);

/// <summary>
/// Gives every part and track on `on channel auto` its channel. A part must not share with another that hears the same track, nor
/// with a track it is not meant for; a track and the part that a `must` line lets it reach share one. Lowest first in the order
/// of names, so an unrelated line changes nothing.
/// </summary>
internal static class AutoChannels
{
    public static bool IsWanted(RigNames names) => names.Devices.Exists(d => d.Channels.Values.Any(c => c.Word == "auto"));

    /// <summary>Writes the chosen channels into the table, and returns what could not be solved.</summary>
    /// <param name="flow">The flow in which the tracks on `auto` have no channel yet.</param>
    public static List<AutoConflict> Choose(RigNames names, ChannelTable channels, MidiFlow flow, IReadOnlyList<Listener> listeners)
    {
        var voices = new Voices();
        var heard = new List<(int Part, int Source)>();
        var meetings = new HashSet<(int Part, int Track)>();
        foreach (var listener in listeners)
        {
            if (voices.Of(listener.Device, listener.Part.Name, listener.Channel, listener.Part.Channels) is not { } part)
            {
                continue;
            }
            foreach (var source in listener.Nodes.SelectMany(n => flow.AtomsAt(n, MessageKinds.Notes)).Select(a => flow.Sources[a.Atom.Source]).Distinct())
            {
                heard.Add((part, source.Index));
                if (source.Track is { } track && voices.Of(source.Device, track.Name, channels.Of(source.Device, track), track.Channels) is { } voice)
                {
                    meetings.Add((part, voice));
                }
            }
        }
        foreach (var source in flow.Sources)
        {
            // One that no part hears is in nobody's way, and is on a channel all the same.
            if (source.Track is { } track && channels.Of(source.Device, track) is { IsAuto: true } open)
            {
                voices.Of(source.Device, track.Name, open, track.Channels);
            }
        }
        var promised = Promised(names, voices).Where(p => meetings.Contains((p.Part, p.Track))).ToList();
        var same = promised.Where(p => voices.AnyAuto(p.Part, p.Track)).ToList();
        var apart = Apart(voices, heard, meetings, promised);
        var solution = ChannelPuzzle.Solve([.. voices.All.Select(v => v.Voice)], [.. same.Select(p => (p.Part, p.Track))], apart);
        for (var i = 0; i < voices.All.Count; i++)
        {
            if (voices.All[i].IsAuto && solution.Channels[i] > 0)
            {
                channels.Choose(voices.All[i].Device, voices.All[i].Name, solution.Channels[i]);
            }
        }
        return
        [
            .. solution.Conflicts.Select(c => new AutoConflict(
                [.. c.Voices.Select(v => (voices.All[v].Device, voices.All[v].Name, voices.All[v].IsAuto))],
                c.Proof == ConflictProof.Smallest,
                [.. c.Moves.Select(m => $"{voices.All[m.Voice].Voice.Name} to channel {m.Channel}")])),
        ];
    }

    /// <summary>The tracks and parts of one `must notes` line belong together.</summary>
    private static IEnumerable<(int Part, int Track)> Promised(RigNames names, Voices voices)
    {
        foreach (var promise in names.Expectations.Where(e => e.Must && (e.Messages & MessageKinds.Notes) != 0 && e.From.Track is not null))
        {
            foreach (var target in promise.To)
            {
                var part = target.Part ?? (target.Device.Gear!.Parts.Count == 1 ? target.Device.Gear.Parts.Values.First() : null);
                if (part is not null && voices.Find(target.Device, part.Name) is { } p && voices.Find(promise.From.Device, promise.From.Track!.Name) is { } t)
                {
                    yield return (p, t);
                }
            }
        }
    }

    private static List<(int, int)> Apart(Voices voices, List<(int Part, int Source)> heard, HashSet<(int Part, int Track)> meetings, List<(int Part, int Track)> promises)
    {
        var together = new HashSet<(int, int)>();
        foreach (var byTrack in promises.GroupBy(p => p.Track))
        {
            // Parts that one track is promised to are layered by that promise.
            foreach (var (a, _) in byTrack)
            {
                together.UnionWith(byTrack.Select(b => (a, b.Part)));
            }
        }
        var promised = promises.ToHashSet();
        var apart = new HashSet<(int, int)>();
        foreach (var (part, track) in meetings)
        {
            if (!promised.Contains((part, track)) && part != track && voices.AnyAuto(part, track))
            {
                apart.Add((Math.Min(part, track), Math.Max(part, track)));
            }
        }
        foreach (var bySource in heard.GroupBy(h => h.Source))
        {
            var parts = bySource.Select(h => h.Part).Distinct().ToList();
            for (var i = 0; i < parts.Count; i++)
            {
                for (var j = i + 1; j < parts.Count; j++)
                {
                    var (a, b) = (Math.Min(parts[i], parts[j]), Math.Max(parts[i], parts[j]));
                    var layered = voices.All[a].IsLayered && voices.All[b].IsLayered;
                    if (!layered && !together.Contains((a, b)) && voices.AnyAuto(a, b))
                    {
                        apart.Add((a, b));
                    }
                }
            }
        }
        return [.. apart.Order()];
    }

    private sealed class Voices
    {
        private readonly Dictionary<(DeviceSymbol, string), int> _index = [];

        public List<(ChannelVoice Voice, DeviceSymbol Device, string Name, bool IsAuto, bool IsLayered)> All { get; } = [];

        public int? Find(DeviceSymbol device, string name) => _index.TryGetValue((device, name), out var at) ? at : null;

        public bool AnyAuto(int a, int b) => All[a].IsAuto || All[b].IsAuto;

        /// <summary>The voice's number; null when its channel is any, off or not said, so that it stands in nobody's way for sure.</summary>
        public int? Of(DeviceSymbol device, string name, KnownChannel channel, ChannelChoice choice)
        {
            if (Find(device, name) is { } known)
            {
                return known;
            }
            if (!channel.IsAuto && channel.Number is null)
            {
                return null;
            }
            var range = ChannelVoice.Range(choice.First, choice.Last);
            var voice = new ChannelVoice($"{device.Name}.{name}", channel.IsAuto ? range : ChannelVoice.Only(channel.Number!.Value), range);
            _index[(device, name)] = All.Count;
            All.Add((voice, device, name, channel.IsAuto, channel.IsLayered));
            return All.Count - 1;
        }
    }
}
