using RigLang.Flow.Ground;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>A compiled rig, as the checks and every tool read it: the names, what is joined to what, and what reaches what.</summary>
public sealed class Rig(RigNames names, RigWiring wiring, LinkTable links)
{
    private IReadOnlyList<Outcome>? _outcomes;

    public RigNames Names { get; } = names;
    public RigWiring Wiring { get; } = wiring;
    public LinkTable Links { get; } = links;
    /// <summary>Messages: what reaches what, on which channel, and who leads.</summary>
    public MidiModel Midi => field ??= MidiModel.Of(Names, Wiring, Links);

    public MidiTraffic Traffic => field ??= new MidiTraffic(this);

    /// <summary>Audio: where each channel of every source can go.</summary>
    public AudioModel Audio => field ??= AudioModel.Of(Names, Wiring, Links);

    /// <summary>Power from the wall to the loads, and what each takes.</summary>
    public PowerTree Power => field ??= PowerTree.Of(this);
    /// <summary>Ground loops and their cure.</summary>
    public GroundLoops Ground => field ??= new GroundLoops(GroundGraph.Of(this));

    /// <summary>What is missing on ways that do not get there.</summary>
    internal GapFinder Gaps => field ??= new GapFinder(this);

    public Nets Nets => Wiring.Nets;

    /// <summary>What became of each `must` and `never`, one outcome a target.</summary>
    public IReadOnlyList<Outcome> Outcomes => _outcomes ??= Expectations.Judge(this);
}
