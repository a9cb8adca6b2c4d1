using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Findings;

/// <summary>
/// What one check holds to be wrong, before it is known whether another mistake is behind it. It says nothing about other checks.
/// </summary>
public sealed record Claim(Check Check, Severity Severity, Location At, string What, string Why, string Advice, IReadOnlyList<RelatedPlace> Related)
{
    /// <summary>What it can do at the worst, where that depends on the case.</summary>
    public Harm Harm { get; init; } = Check.Harm;

    /// <summary>Null for a mistake that stands by itself; otherwise what fails to arrive, which something else may explain.</summary>
    public Missing? Missing { get; init; }

    /// <summary>Other lines that the same mistake stands in; it explains what follows from them as well.</summary>
    public IReadOnlyList<Location> AlsoAt { get; init; } = [];

    /// <summary>What it is about, where that is more than the statement it stands in: what an `accept` line can name.</summary>
    public IReadOnlyList<Subject> About { get; init; } = [];

    /// <summary>Messages that come where they should not: a `never` that speaks of them fails for the same reason.</summary>
    public Excess? Excess { get; init; }

    /// <summary>Makes the edits that mend it, when somebody asks.</summary>
    public Func<FixPlan, IEnumerable<Fix>>? Fixes { get; init; }
}

/// <summary>Which device sends what is too much, and of which kinds.</summary>
public sealed record Excess(IReadOnlyList<DeviceSymbol> Senders, MessageKinds Kinds);

/// <summary>A device, or one of its ports.</summary>
public readonly record struct Subject(DeviceSymbol Device, PortSymbol? Port = null);

/// <summary>
/// Something that does not arrive. A claim of this kind is told only where no other mistake keeps it from arriving;
/// those with one origin are told together.
/// </summary>
public abstract record Missing
{
    /// <summary>The jacks, settings or filters where the way breaks off. Claims that share one are told together.</summary>
    public IReadOnlyList<Origin> Origins { get; init; } = [];

    /// <summary>How it is named in the finding that it is told with: "lead follows midi".</summary>
    public RelatedPlace? Consequence { get; init; }
}

/// <summary>Messages that should come by at ports, the nodes of the message graph.</summary>
/// <param name="NeedsAll">True when it is explained only where something is wrong before each of the nodes; otherwise one is enough.</param>
public sealed record NothingComes(IReadOnlyList<int> Nodes, MessageKinds Kinds, bool NeedsAll = false) : Missing
{
    /// <summary>The devices that wait for it.</summary>
    public IReadOnlyList<DeviceSymbol> Waiting { get; init; } = [];
}

/// <summary>What leaves a track or clock section and is heard by nobody.</summary>
/// <param name="Walk">Where it goes; null when it does not leave.</param>
public sealed record NobodyHears(DeviceSymbol Device, TrackSymbol? Track, MessageKinds Kinds, MessageWalk? Walk) : Missing;

/// <summary>Sound that goes into a device or should come out of it, and does not go on.</summary>
public sealed record SoundStops(DeviceSymbol Device) : Missing;

/// <summary>A place where sound should arrive and none does: whatever is wrong before it may be why.</summary>
public sealed record NoSound(DeviceSymbol Device) : Missing;

/// <summary>Left and right that become something else at a step of their way: a promise of stereo that fails for it is told, and this with it.</summary>
public sealed record ShapeChanged(WayStep Step) : Missing;

/// <summary>A `must` that does not hold.</summary>
public sealed record PromiseFails(Outcome Outcome) : Missing;

/// <summary>A `never` that does not hold: it is explained by nothing, and told with others that the same change mends.</summary>
public sealed record NeverComesAllTheSame(Outcome Outcome) : Missing;

/// <summary>Where a way breaks off.</summary>
public abstract record Origin
{
    /// <summary>Ports by their names, in order: jacks without a plug, or that pass nothing on.</summary>
    public sealed record Ports(string Names) : Origin;

    /// <summary>A line: a setting, a filter, a cable.</summary>
    public sealed record Line(Location At) : Origin;
}
