using RigLang.Connectors;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>What one serial cable has to carry at worst.</summary>
/// <param name="Share">Of 31,250 baud; 1 is all of it.</param>
/// <param name="Tracks">Whose notes pass.</param>
/// <param name="ClockWait">How long a clock byte can wait where it leaves for this cable; 0 where nothing joins it, or none passes.</param>
public sealed record CableLoad(Link Link, double Share, IReadOnlyList<MidiSource> Tracks, bool HasClock, Second ClockWait);

/// <summary>The longest that a message can take, and the places on its way where it can wait.</summary>
public sealed record MidiDelay(Second Longest, IReadOnlyList<(PortRef At, Second Wait)> Waits)
{
    /// <summary>A limit that is met to the nanosecond is met.</summary>
    public bool IsOver(Second limit) => Longest.Value > limit.Value + 1e-9;

    public override string ToString() =>
        $"{Longest}{(Waits.Count == 0 ? "" : $", of which {Text.Prose.InOrder(Waits.Select(w => $"{w.Wait} at {w.At}"), " and ")}")}";
}

/// <summary>
/// How full the MIDI cables get and how late messages can be: what the serial line and the places where streams join cost at worst,
/// at the tempo of the rig, and the latency of routes where the gear says it. What else the gear takes to answer is not known, and not counted.
/// </summary>
public sealed class MidiTraffic(Rig rig)
{
    /// <summary>When the rig does not say its tempo. Source: the default of Standard MIDI Files.</summary>
    private static readonly Bpm UsualTempo = new(120);

    /// <summary>A full-speed USB device is asked once a frame at worst. Source: USB 2.0, 5.3: frames of 1 ms.</summary>
    private static readonly Second UsbFrame = new(1e-3);

    private const MessageKinds RealTime = MessageKinds.Clock | MessageKinds.Transport | MessageKinds.ActiveSensing;
    private const MessageKinds TwoBytes = MessageKinds.ProgramChange | MessageKinds.Aftertouch;

    private readonly MidiFlow _flow = rig.Midi.Flow;

    public Bpm Tempo { get; } = rig.Names.Tempo ?? UsualTempo;

    /// <summary>Every serial MIDI cable, in the order of the rig.</summary>
    public IEnumerable<CableLoad> Cables
    {
        get
        {
            foreach (var link in rig.Links.Links)
            {
                if (link.Kind == SignalKind.Midi)
                {
                    yield return LoadOf(link);
                }
            }
        }
    }

    /// <summary>How many notes a track sounds at once: as declared, or one.</summary>
    public static int NotesAtOnce(MidiSource source) =>
        source.Track is { } track && source.Device.NotesAtOnce.TryGetValue(track.Name, out var notes) ? notes : MidiLoad.DefaultNotesAtOnce;

    /// <summary>
    /// How long a message can wait where it goes out: real time for the one message under way, where streams join; others for a
    /// note of every other track at the same moment.
    /// </summary>
    /// <param name="kinds">What goes out; of several the one that waits longest counts.</param>
    /// <param name="own">The source of the message, which does not wait for itself; null when there are several.</param>
    public Second WaitAt(int node, MessageKinds kinds, MidiSource? own)
    {
        if (MidiGraph.IsIn(node))
        {
            return default;
        }
        var (inputs, isSender) = StreamsAt(node);
        if ((kinds & ~RealTime) == 0)
        {
            return inputs + (isSender ? 1 : 0) > 1 ? MidiLoad.ClockDelayAtMerge(interleaves: false) : default;
        }
        if (inputs < 2 && !isSender)
        {
            // What comes in as one stream is in order already.
            return default;
        }
        var others = TracksAt(node).Where(t => t != own).Select(NotesAtOnce).ToList();
        return others.Count == 0 ? default : MidiLoad.StepTime(others);
    }

    /// <summary>The longest that one message takes to a step of its walk.</summary>
    public MidiDelay To(MessageWalk walk, WalkStep step, MidiSource? own = null)
    {
        // Of a chord the last note counts: those of its own track go before it, one after the other.
        var chord = (walk.Kind & MessageKinds.Notes) != 0 && own is not null ? NotesAtOnce(own) : 1;
        var message = MidiWire.TimeOf((walk.Kind & RealTime) != 0 ? 1 : (walk.Kind & TwoBytes) != 0 ? 2 : 3);
        var way = walk.WayTo(step);
        var longest = 0.0;
        var isSent = false;
        var waits = new List<(PortRef, Second)>();
        foreach (var at in way)
        {
            if (at.Cable is not null && !isSent && IsSerial(at.Node))
            {
                // Thru boxes pass bits on as they come: the line costs once, and again wherever a stream is put together anew.
                longest += message.Value * chord;
                (isSent, chord) = (true, 1);
            }
            if (LatencyAt(walk, at) is { Value: > 0 } latency)
            {
                longest += latency.Value;
                waits.Add((walk.Graph.PortOf(at.Node), latency));
            }
            longest += at.Cable is not null && IsUsb(at.Node) ? UsbFrame.Value : 0;
            if (WaitAt(at.Node, walk.Kind, own) is { Value: > 0 } wait)
            {
                longest += wait.Value;
                isSent = false;
                waits.Add((walk.Graph.PortOf(at.Node), wait));
            }
        }
        return new MidiDelay(new Second(longest), waits);
    }

    /// <summary>What the gear says that the route takes by which a message comes to an output.</summary>
    private static Second LatencyAt(MessageWalk walk, WalkStep step)
    {
        if (step.Parent < 0 || step.Cable is not null)
        {
            return default;
        }
        var (device, output) = walk.Graph.PortOf(step.Node);
        var input = walk.Graph.PortOf(walk.Steps[step.Parent].Node).Port;
        return device.Gear!.Latencies.Of(input, output);
    }

    private CableLoad LoadOf(Link link)
    {
        var node = MidiGraph.Out(link.From.Device, link.From.Port);
        if (!_loads.TryGetValue(_flow.GroupOf(node), out var load))
        {
            var all = TracksAt(node);
            var isClocked = _flow.AtomsAt(node, MessageKinds.Clock).Any();
            _loads[_flow.GroupOf(node)] = load = (all, isClocked, MidiLoad.LinkLoad(isClocked, Tempo, all.Select(NotesAtOnce)));
        }
        var (tracks, hasClock, share) = load;
        return new CableLoad(link, share, tracks, hasClock, hasClock ? WaitAt(node, MessageKinds.Clock, null) : default);
    }

    /// <summary>What is carried where, once for all cables that carry the same.</summary>
    private readonly Dictionary<int, (List<MidiSource> Tracks, bool HasClock, double Share)> _loads = [];

    private List<MidiSource> TracksAt(int node)
    {
        var tracks = new List<MidiSource>();
        foreach (var (atom, _) in _flow.AtomsAt(node, MessageKinds.Notes))
        {
            // The channels of one source are numbered one after the other.
            if (tracks.Count == 0 || tracks[^1].Index != atom.Source)
            {
                tracks.Add(rig.Midi.Sources[atom.Source]);
            }
        }
        return tracks;
    }

    /// <summary>What is put together at an output: from how many inputs something comes at once, and whether the device sends there itself.</summary>
    private (int Inputs, bool IsSender) StreamsAt(int node)
    {
        var inputs = 0;
        foreach (var edge in rig.Midi.Graph.To(node))
        {
            inputs += !edge.IsSwitched && _flow.AtomsAt(edge.From, MessageKinds.All).Any() ? 1 : 0;
        }
        return (inputs, Senders.Contains(node));
    }

    private HashSet<int> Senders => field ??= [.. rig.Midi.Sources.SelectMany(s => s.Starts).Select(start => start.Node)];

    private bool IsSerial(int node) => rig.Midi.Graph.PortOf(node).Port.Signal is { Kind: SignalKind.Midi };

    private bool IsUsb(int node) => rig.Midi.Graph.PortOf(node).Port.Signal is { Kind: SignalKind.Usb };
}
