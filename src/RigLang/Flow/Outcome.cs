using RigLang.Symbols;

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
/// <param name="Reached">For one that fails because nothing arrives at the target's device: the devices that are reached.</param>
public sealed record Outcome(
    ExpectationSymbol Expectation,
    Verdict Verdict,
    Target Target,
    IReadOnlyList<WayStep> Hops,
    string Stopped,
    IReadOnlyCollection<DeviceSymbol> Reached)
{
    public bool Holds => Verdict == Verdict.Holds;
}
