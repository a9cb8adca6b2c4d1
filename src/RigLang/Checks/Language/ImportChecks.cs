using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class ImportNotFound : FaultCheck<BadImport>
{
    public override string Name => "import-not-found";
    public override Severity Severity => Severity.Error;
    public override string Title => "An import that brings nothing";
    public override string Why => "The gear and leads it should bring are unknown, so nothing that uses them is checked.";
    public override string Advice => "Write the path as seen from this file, with forward slashes, or \"shared/…\" for the library of the tool.";
    public override string Source => "the language";
    public override string BadExample => """
        import "our-gaer.rig"
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        """;

    protected override void Tell(BadImport fault, Rig rig, Report report)
    {
        if (fault.Trouble == ImportTrouble.NotFound)
        {
            report.Add(this, fault.At, $"\"{fault.Path}\" cannot be imported: {fault.Reason ?? "there is no such file"}.");
        }
        else if (fault.Trouble == ImportTrouble.Absolute)
        {
            report.Add(this, fault.At, $"\"{fault.Path}\" is not a path relative to this file.",
                why: "A rig that names a place on one computer cannot be opened on another.");
        }
    }
}

public sealed class CircularImport : FaultCheck<BadImport>
{
    public override string Name => "circular-import";
    public override Severity Severity => Severity.Error;
    public override string Title => "A file that imports itself, directly or by way of others";
    public override string Why => "Each file waits for the other; the import is passed over, and everything still counts once.";
    public override string Advice => "Delete one of the imports in the circle, or move what both need into a third file.";
    public override string Source => "the language";
    public override string BadExample => """
        import "example.rig"
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        """;

    protected override void Tell(BadImport fault, Rig rig, Report report)
    {
        if (fault.Trouble == ImportTrouble.Circular)
        {
            report.Add(this, fault.At, $"\"{fault.Path}\" is imported in a circle.");
        }
    }
}

public sealed class RepeatedImport : FaultCheck<BadImport>
{
    public override string Name => "repeated-import";
    public override Severity Severity => Severity.Warning;
    public override string Title => "The same file imported twice";
    public override string Why => "It changes nothing, but makes the next reader look for the difference.";
    public override string Advice => "Delete one of the two lines.";
    public override string Source => "the language";
    public override string BadExample => """
        import "shared/leads.rig"
        import "shared/leads.rig"
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        """;

    protected override void Tell(BadImport fault, Rig rig, Report report)
    {
        if (fault is { Trouble: ImportTrouble.Repeated, Other: { } other })
        {
            report.Add(this, fault.At, $"\"{fault.Path}\" is imported already.", related: [Wording.Also(other, "the first import")]);
        }
    }
}
