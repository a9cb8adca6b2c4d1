using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Flow;

public enum TraceQuestion
{
    /// <summary>Where messages from a device, track or port go.</summary>
    From,
    /// <summary>What comes to a device, part or port.</summary>
    WhatReaches,
    /// <summary>What of a kind comes to a device, part or port, and by which way.</summary>
    To,
    /// <summary>The power and audio that come to a device or port.</summary>
    WhatFeeds,
    /// <summary>Whether messages from one place get to another, and if not, what stops them.</summary>
    WhyNot,
}

/// <summary>The answer to one question. Which of the lists is filled follows from the question.</summary>
/// <param name="Query">As it was understood.</param>
/// <param name="Ways">For <see cref="TraceQuestion.From"/>, and for audio and power: one tree a sender and message kind; kinds that go the same ways share one.</param>
/// <param name="Ports">For <see cref="TraceQuestion.WhatReaches"/>: each port where messages can come in.</param>
/// <param name="Verdict">For <see cref="TraceQuestion.WhyNot"/>.</param>
/// <param name="Heard">Everyone who hears, each once.</param>
/// <param name="Summary">The answer in one sentence.</param>
public sealed record Trace(
    string Query,
    TraceQuestion Question,
    IReadOnlyList<TraceWay> Ways,
    IReadOnlyList<TracePort> Ports,
    TraceVerdict? Verdict,
    IReadOnlyList<TraceHearer> Heard,
    string Summary);

/// <summary>The ways of some kinds of message from one sender, as a tree written out top-down: each step before those it leads to.</summary>
/// <param name="Channel">1 to 16; 0 when the messages have none, or nobody said.</param>
public sealed record TraceWay(string Source, MessageKinds Kinds, int Channel, IReadOnlyList<TraceStep> Steps)
{
    /// <summary>The kinds in words; <c>audio</c> or <c>power</c> where it is no messages.</summary>
    public string What { get; init; } = MessageKindNames.Describe(Kinds);

    /// <summary>Which way this is, in words; one that leads to a place is told back from there.</summary>
    public string Title { get => field ?? $"{What} from {Source}"; init; }
}

/// <summary>One port that messages come to.</summary>
/// <param name="Parent">Place of the step before it in the same list; -1 at the start.</param>
/// <param name="Depth">0 at the start.</param>
/// <param name="Channel">0 when the messages have none, or nobody said.</param>
/// <param name="Cable">The line that plugs in the cable it came by; null at the start and inside a device.</param>
/// <param name="Move">The channel map that moves it here, or null.</param>
/// <param name="StoppedBy">The filter that drops it here, or null.</param>
/// <param name="Wait">How long a message can wait here for others that go out at the same jack.</param>
/// <param name="Note">What else is to be said of this place, or nothing.</param>
public sealed record TraceStep(
    PortRef Port,
    bool IsIn,
    int Parent,
    int Depth,
    int Channel,
    Location? Cable,
    TraceMove? Move,
    TraceFilter? StoppedBy,
    Second Wait,
    IReadOnlyList<TraceHearer> Heard,
    string Note);

public sealed record TraceMove(int From, int To, Location At);

/// <param name="Drops">Of the kinds that are followed, those that it drops.</param>
public sealed record TraceFilter(PortRef Port, MessageKinds Drops, Location At);

public enum HearingWay
{
    /// <summary>A part sounds.</summary>
    Plays,
    /// <summary>A part, or a device without parts, takes channel messages that are not notes.</summary>
    Hears,
    FollowsClock,
    StartsAndStops,
    /// <summary>System messages that a device gets, and does with as it likes.</summary>
    Gets,
}

/// <summary>Who hears what arrives.</summary>
/// <param name="Who">A device, or one of its parts: <c>bass.voice</c>.</param>
/// <param name="Channel">The channel it hears it on; 0 for messages without one.</param>
/// <param name="IsSure">False when something on which it depends is not set.</param>
public sealed record TraceHearer(string Who, HearingWay How, int Channel, bool IsSure);

/// <summary>A port where messages come in, with all that arrives there.</summary>
public sealed record TracePort(PortRef Port, IReadOnlyList<TraceArrival> Arrivals);

/// <summary>What one sender brings to a port on one channel.</summary>
public sealed record TraceArrival(string Source, MessageKinds Kinds, int Channel, IReadOnlyList<TraceHearer> Heard);

/// <param name="Steps">The way of what arrives, or the way to the nearest point that is reached.</param>
/// <param name="Reason">What stops it there; nothing when it arrives.</param>
/// <param name="Mend">What would mend it, as a sentence; empty when it arrives, or nothing in particular can be advised.</param>
/// <param name="StoppedBy">When a filter is the reason.</param>
public sealed record TraceVerdict(
    MessageKinds Kind, bool Arrives, bool IsSure, IReadOnlyList<TraceStep> Steps, string Reason, string Mend, TraceFilter? StoppedBy)
{
    /// <inheritdoc cref="TraceWay.What"/>
    public string What { get; init; } = MessageKindNames.Describe(Kind);
}

/// <summary>What could not be understood in a question, and what may have been meant.</summary>
public sealed record TraceMistake(string What, string? Nearest)
{
    /// <summary>The words of the question that are wrong; empty at its end where something is missing.</summary>
    public TextSpan At { get; init; }

    public override string ToString() => What + (Nearest is { } nearest ? $" Did you mean {nearest}?" : "");
}
