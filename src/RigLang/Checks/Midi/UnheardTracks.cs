using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>The tracks whose notes leave their device, and that no part hears: read off the flow, without following any.</summary>
internal sealed class UnheardTracks
{
    private readonly bool[] _isUnheard;

    private UnheardTracks(bool[] isUnheard)
    {
        _isUnheard = isUnheard;
    }

    public bool Contains(MidiSource source) => _isUnheard[source.Index];

    public static UnheardTracks Of(Rig rig)
    {
        var midi = rig.Midi;
        // A channel that the gear fixes is nobody's choice, and so no mistake.
        bool[] isOpen =
        [
            .. midi.Sources.Select(s => s is { Track: { } track, Channel: > 0 } && s.Device.Channels.ContainsKey(track.Name)
                // One that plays parts of its own device is heard.
                && !(track.Plays.Count > 0 && !s.Device.LocalOff.Contains(track.Name))),
        ];
        var open = isOpen.Count(o => o);
        for (var node = 0; node < midi.Graph.NodeCount && open > 0; node++)
        {
            if (!MidiGraph.IsIn(node) || midi.Flow.RowAt(node) is not { IsEmpty: false } row || HearingAt(rig, midi.Graph.PortOf(node)) is not { Count: > 0 } hearing)
            {
                continue;
            }
            for (var atom = 0; atom < row.Length; atom++)
            {
                var (source, channel) = midi.Flow.Atoms[atom];
                if ((row[atom] & (ushort)MessageKinds.Notes) != 0 && isOpen[source] && MayHear(hearing, channel))
                {
                    isOpen[source] = false;
                    open--;
                }
            }
        }
        for (var source = 0; source < isOpen.Length; source++)
        {
            isOpen[source] = isOpen[source] && Leaves(midi, midi.Sources[source]);
        }
        return new UnheardTracks(isOpen);
    }

    /// <summary>What the parts at a port listen to; empty when none is there.</summary>
    private static List<KnownChannel> HearingAt(Rig rig, PortRef port)
    {
        var gear = port.Device.Gear!;
        var hearing = new List<KnownChannel>();
        foreach (var part in gear.Parts.Values)
        {
            if (part.Receives.Contains(port.Port))
            {
                hearing.Add(rig.Midi.Channels.Of(port.Device, part));
            }
        }
        // A box without parts of its own (a recorder, a computer) may take anything.
        if (gear.Parts.Count == 0 && gear.Routes.From(port.Port).Count == 0)
        {
            hearing.Add(new KnownChannel { IsAny = true });
        }
        return hearing;
    }

    private static bool MayHear(List<KnownChannel> hearing, int channel)
    {
        foreach (var own in hearing)
        {
            if (own.Hears(channel) != false)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>True when a cable takes the notes to another device, though a filter may stop them at its door.</summary>
    private static bool Leaves(MidiModel midi, MidiSource source) =>
        Spreading.From(source.Starts.Where(s => (s.Kinds & MessageKinds.Notes) != 0).Select(s => s.Node), (node, into) =>
        {
            if ((midi.Flow.OfSource(node, source.Index) & MessageKinds.Notes) == MessageKinds.None)
            {
                return;
            }
            foreach (var edge in midi.Graph.From(node))
            {
                if ((edge.Carries & MessageKinds.Notes) != MessageKinds.None)
                {
                    into.Add(edge.To);
                }
            }
        }).Any(node => !ReferenceEquals(midi.Graph.PortOf(node).Device, source.Device));
}
