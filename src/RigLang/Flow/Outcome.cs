using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>Whether an expectation holds. Unproven: something on the way is not known, so that it may or may not.</summary>
public enum Verdict
{
    Holds,
    Fails,
    Unproven,
}

/// <summary>
/// What became of one `must` or `never`. <see cref="Hops"/> is the path of what arrives, or the way to the nearest point
/// that is reached; <see cref="Stopped"/> says what stops it there.
/// </summary>
public sealed record Outcome(
    ExpectationSymbol Expectation,
    Verdict Verdict,
    Target Target,
    IReadOnlyList<WayStep> Hops,
    string Stopped)
{
    public bool Holds => Verdict == Verdict.Holds;

    /// <summary>For a `must` that fails: all that is missing on the way on which the least is missing, from the source to the target.</summary>
    public IReadOnlyList<Broken> Gaps { get; init; } = [];

    /// <summary>Of these, the one nearest to the target; null for a line that holds and for a `never`.</summary>
    public Broken? Broken => Flow.Broken.Told(Gaps);

    /// <summary>The kinds that do not arrive, of a line that speaks of messages.</summary>
    public MessageKinds Missing { get; init; }

    /// <summary>True when mending <see cref="Broken"/> makes the line hold: nothing else is missing, for none of its kinds.</summary>
    public bool IsOnlyGap { get; init; }
}
