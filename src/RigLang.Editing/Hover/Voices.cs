using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>Who plays whom and what passes where, asked of one place only: a hover needs no chart of the whole rig.</summary>
internal sealed class Voices(Flow.Rig rig)
{
    private MidiModel Midi => rig.Midi;

    /// <summary>The tracks whose notes a part plays, by cable or inside its own box, as <c>device.name</c>.</summary>
    public IReadOnlyList<string> PlayersOf(DeviceSymbol device, PartSymbol part)
    {
        var channel = Midi.Channels.Of(device, part);
        return
        [
            .. part.Receives.SelectMany(port => Midi.Flow.AtomsAt(MidiGraph.In(device, port), MessageKinds.Notes))
                .Where(a => channel.Hears(a.Atom.Channel) == true)
                .Select(a => Midi.Sources[a.Atom.Source].Text)
                .Concat(device.Gear!.Tracks.Values.Where(t => PlaysInside(device, t, part)).Select(t => $"{device.Name}.{t.Name}"))
                .Distinct(),
        ];
    }

    /// <summary>
    /// The parts that hear a track's notes; where none does, the devices that the notes come to and that have no part to hear them with.
    /// </summary>
    public (IReadOnlyList<string> Parts, IReadOnlyList<string> Ends) HearersOf(DeviceSymbol device, TrackSymbol track)
    {
        IReadOnlyList<string> ends = [];
        var heard = device.Gear!.Parts.Values.Where(p => PlaysInside(device, track, p)).Select(p => $"{device.Name}.{p.Name}").ToList();
        var source = Midi.Sources.FirstOrDefault(s => ReferenceEquals(s.Device, device) && ReferenceEquals(s.Track, track));
        if (source is not null)
        {
            var atoms = Enumerable.Range(0, Midi.Flow.Atoms.Count).Where(i => Midi.Flow.Atoms[i].Source == source.Index).ToList();
            heard.AddRange(Midi.Listeners
                .Where(l => l.Nodes.Any(node => atoms.Exists(a => Brings(node, a) && l.Channel.Hears(Midi.Flow.Atoms[a].Channel) == true)))
                .Select(l => l.Text));
            if (heard.Count == 0)
            {
                ends = [.. EndsWithoutParts().Where(e => atoms.Exists(a => Brings(e.Node, a))).Select(e => e.Device).Distinct()];
            }
        }
        return ([.. heard.Distinct()], ends);
    }

    /// <summary>The devices that take their clock from this one.</summary>
    public IReadOnlyList<string> FollowersOf(DeviceSymbol device) =>
        [.. Midi.Clock.Followers.Where(f => f.Leaders.Contains(device)).Select(f => f.Device.Name)];

    /// <summary>What the cables bring to a node: whose notes, whose clock, who starts and stops.</summary>
    public (IReadOnlyList<string> Notes, IReadOnlyList<string> Clock, IReadOnlyList<string> Transport) PassingAt(HoverPage page, int node) =>
    (
        [.. Midi.Flow.AtomsAt(node, MessageKinds.Notes).Select(a => page.Name(Midi.Sources[a.Atom.Source].Text)
            + (a.Atom.Channel > 0 ? $" on channel {a.Atom.Channel}" : " on a channel that is not set"))],
        [.. Midi.Flow.AtomsAt(node, MessageKinds.Clock).Select(a => Midi.Sources[a.Atom.Source].Device.Name).Distinct().Select(page.Name)],
        [.. Midi.Flow.AtomsAt(node, MessageKinds.Start | MessageKinds.Stop).Select(a => Midi.Sources[a.Atom.Source].Device.Name).Distinct().Select(page.Name)]
    );

    private bool Brings(int node, int atom) => (Midi.Flow.At(node, atom) & MessageKinds.Notes) != 0;

    private static bool PlaysInside(DeviceSymbol device, TrackSymbol track, PartSymbol part) =>
        track.Plays.Contains(part.Name) && !device.LocalOff.Contains(track.Name);

    /// <summary>A computer or recorder has no parts, and takes all that comes; a box that only passes on does not hear.</summary>
    private IEnumerable<(string Device, int Node)> EndsWithoutParts() =>
        from device in rig.Names.Devices
        where device.Gear is { Parts.Count: 0 }
        from port in device.Gear!.Ports
        let node = MidiGraph.In(device, port)
        where node >= 0 && Midi.Graph.From(node).Length == 0
        select (device.Name, node);
}
