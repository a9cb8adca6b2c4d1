using System.Collections.Immutable;
using RigLang.Text;

namespace RigLang.Findings;

/// <summary>
/// error: it cannot work, or can damage or hurt. warning: it works badly or will surprise. hint: it could be better.
/// </summary>
public enum Severity
{
    Hint,
    Warning,
    Error,
}

/// <summary>Another place that has a part in the finding, and what part.</summary>
public sealed record RelatedPlace(Location Location, string Message);

/// <summary>Replace <see cref="Span"/> of <see cref="Source"/> by <see cref="NewText"/>.</summary>
public sealed record TextEdit(SourceText Source, TextSpan Span, string NewText);

/// <summary>Edits that mend the finding, applied together. <see cref="IsSafe"/>: cannot change what else the file means.</summary>
public sealed record Fix(string Title, bool IsSafe, ImmutableArray<TextEdit> Edits);

/// <summary>A `must` or `never` that does not hold because of a finding: "clock from drums to bass", and its line.</summary>
public sealed record BrokenPromise(Location At, string Text, bool Must = true)
{
    /// <summary>"must clock from drums to bass".</summary>
    public string Line => $"{(Must ? "must" : "never")} {Text}";
}

/// <summary>
/// One thing a player should know: what is wrong (with the numbers), why it matters on stage, and what to do.
/// </summary>
/// <param name="Breaks">The promises of the rig that fail because of it; then it is an error.</param>
public sealed record Finding(
    Check Check,
    Severity Severity,
    Location Location,
    string What,
    string Why,
    string Advice,
    ImmutableArray<RelatedPlace> Related,
    ImmutableArray<BrokenPromise> Breaks)
{
    /// <summary>How many mistakes it stands for: one, or as many as a file has beyond those that are told one by one.</summary>
    public int Count { get; init; } = 1;

    /// <summary>What the player said when accepting it; null for a finding that stands.</summary>
    public string? AcceptedBecause { get; init; }

    /// <summary>The device or jack that an `accept` line for it would name, as it is written; null when it cannot be accepted.</summary>
    public string? AcceptableOn { get; init; }

    /// <summary>Edits that mend it, alternatives to one another. Made when somebody asks; those of all findings can be applied together.</summary>
    public ImmutableArray<Fix> Fixes { get => !field.IsDefault ? field : Plan is null ? [] : Plan.FixesOf(this); init; }

    /// <summary>What it can do at the worst. A promise that it breaks makes it a matter of the stage.</summary>
    public Harm Harm { get => field == Harm.Rest && !Breaks.IsEmpty ? Harm.Stage : field; init; } = Check.Harm;

    /// <summary>What all findings of the rig plan together; null where there is nothing to mend.</summary>
    internal FixPlan? Plan { get; init; }

    /// <summary>How the check mends it.</summary>
    internal Func<FixPlan, IEnumerable<Fix>>? MakeFixes { get; init; }
}

/// <summary>A lead that was taken because the connection names none: "desk.main to left.line", "Xlr", how many of it.</summary>
public sealed record ChosenLead(Location At, string Connection, string Lead, int Count);

/// <summary>Something that holds in the rig and was checked: "14", "MIDI links".</summary>
public sealed record Fact(int Count, string Text);

/// <summary>What was read and nothing was worked out from: "3", "nominal levels", and where the first of them stands.</summary>
public sealed record UncheckedFigures(int Count, string Text, Location First);
