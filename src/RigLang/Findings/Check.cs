using RigLang.Flow;
namespace RigLang.Findings;

/// <summary>
/// One check, one file: how it is called, the page a player reads, two examples that are its tests, and the check itself.
/// The name states the pattern that is wrong, not the cure, and never changes once released.
/// </summary>
public abstract class Check
{
    /// <summary>kebab-case, for example <c>polarity-reversed</c>.</summary>
    public abstract string Name { get; }
    public abstract Severity Severity { get; }

    /// <summary>One line, no full stop: the pattern in a player's words.</summary>
    public abstract string Title { get; }

    /// <summary>Why it matters on stage: one short paragraph.</summary>
    public abstract string Why { get; }

    /// <summary>What to do about it: one short paragraph.</summary>
    public abstract string Advice { get; }

    /// <summary>The published standard, or <c>common practice</c>, or <c>the language</c> for rules of the notation itself.</summary>
    public abstract string Source { get; }

    /// <summary>A whole rig text that gives exactly one finding, of this check.</summary>
    public abstract string BadExample { get; }

    /// <summary>The same rig put right: gives no finding at all.</summary>
    public abstract string GoodExample { get; }

    /// <summary>Reads the compiled rig and reports. Must not throw, whatever the rig says.</summary>
    public abstract void Run(Rig rig, Report report);
}
