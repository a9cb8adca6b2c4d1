using RigLang.Flow;
using RigLang.Flow.Ground;

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

    /// <summary>What it can do at the worst; findings that can hurt people or destroy gear are told first and cannot be accepted.</summary>
    public virtual Harm Harm => Severity == Severity.Error ? Harm.Stage : Harm.Rest;

    /// <summary>The usual caution where wiring can hurt; told with each finding in an editor, and once at the end of a list.</summary>
    public virtual string? Caution => Harm == Harm.People ? GroundAdvice.Safety : null;

    /// <summary>
    /// Why a finding of it cannot be accepted with an <c>accept</c> line, beside what can hurt people or destroy gear; null when it can.
    /// </summary>
    public virtual string? NeverAcceptedBecause => Topic == Topic.Text ? "what cannot be read has to be put right" : null;

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

    /// <summary>
    /// True when what does not arrive at the device or by the cable may be the fault of this mistake, though it is no error: a device that nothing
    /// is plugged into.
    /// </summary>
    public virtual bool ExplainsAbsence => false;

    /// <summary>What it is about: the folder that it stands in.</summary>
    public Topic Topic => _topic ??= TopicOf(GetType().Namespace);

    /// <summary>
    /// Reads the compiled rig and claims what is wrong. It knows no other check: what follows from another mistake is sorted out
    /// afterwards, see <see cref="Causes"/>. One that throws all the same becomes a finding of its own, and the others stand.
    /// </summary>
    public abstract void Run(Rig rig, Report report);

    private Topic? _topic;

    private static Topic TopicOf(string? name) => name?[(name.LastIndexOf('.') + 1)..] switch
    {
        "Language" => Topic.Text,
        { } folder when Enum.TryParse<Topic>(folder, out var topic) => topic,
        _ => Topic.Whole,
    };
}
