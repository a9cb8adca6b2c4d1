using RigLang.Cli.Files;
using RigLang.Findings;

namespace RigLang.Cli.Output;

/// <summary>
/// What <c>rig check</c> hands over, piece by piece, in the order the files were named. Each piece is written as it comes: of a folder of rigs no
/// more is held than one.
/// </summary>
internal abstract class CheckReport
{
    /// <summary>One rig, compiled.</summary>
    /// <param name="rig">The compilation of the file and its imports.</param>
    /// <param name="findings">Its findings by place, less those that an earlier rig with the same import already gave.</param>
    public abstract void Add(Compilation rig, IReadOnlyList<Finding> findings);

    public abstract void Add(FileProblem problem);

    public abstract void End(Tally tally);
}

/// <summary>How many of each.</summary>
internal sealed class Tally
{
    public int Rigs { get; set; }
    public int Problems { get; set; }
    public int Errors { get; private set; }
    public int Warnings { get; private set; }
    public int Hints { get; private set; }

    public int Findings => Errors + Warnings + Hints;

    public void Count(Finding finding)
    {
        switch (finding.Severity)
        {
            case Severity.Error:
                Errors += finding.Count;
                break;
            case Severity.Warning:
                Warnings += finding.Count;
                break;
            default:
                Hints += finding.Count;
                break;
        }
    }

    public int AtOrAbove(Severity threshold) => threshold switch
    {
        Severity.Error => Errors,
        Severity.Warning => Errors + Warnings,
        _ => Findings,
    };
}

/// <summary>Severity as a word, the same in every format.</summary>
internal static class SeverityWord
{
    public static string Of(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "hint",
    };
}

/// <summary>Harm as a word, the same in every format.</summary>
internal static class HarmWord
{
    public static string Of(Harm harm) => harm switch
    {
        Harm.People => "people",
        Harm.Gear => "gear",
        Harm.Stage => "stage",
        _ => "none",
    };
}
