using RigLang.Findings;

namespace RigLang.Editing;

/// <summary>The page of a check: what it finds, why that matters, what to do, and the same rig wrong and put right.</summary>
public static class CheckText
{
    public static string Markdown(Check check) => Of(check, new EditorStyle(Markdown: true, InFeet: false));

    public static string Plain(Check check) => Of(check, new EditorStyle(Markdown: false, InFeet: false));

    internal static string Of(Check check, EditorStyle style)
    {
        var page = new HoverPage(style);
        page
            .Title($"{page.Name(check.Name)} ({Word(check.Severity)})")
            .Line($"{check.Title}.")
            .Line(check.Why)
            .Line($"{(page.IsMarkdown ? "**What to do:**" : "What to do:")} {check.Advice}")
            .Line(check.Caution ?? "")
            .Line($"{(page.IsMarkdown ? "**Source:**" : "Source:")} {check.Source}");
        return check.BadExample.Length == 0
            ? page.ToString()
            : page.Line("A rig that gives it:").Rig(check.BadExample).Line("Put right:").Rig(check.GoodExample).ToString();
    }

    private static string Word(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "hint",
    };
}
