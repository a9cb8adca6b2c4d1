using System.Text;
using RigLang.Findings;

namespace RigLang.Cli.Output;

/// <summary>A check's page, for a terminal, as bare text and as Markdown.</summary>
internal static class CheckPage
{
    private const int Gutter = 10;

    public static void Write(TextWriter output, Check check, Terminal terminal)
    {
        var paint = terminal.Paint;
        output.WriteLine($"{paint.Strong(check.Name)}  {paint.Severity(check.Severity, SeverityWord.Of(check.Severity))}");
        output.WriteLine(check.Title);
        output.WriteLine();
        Labelled("Why", check.Why);
        Labelled("Do", check.Advice);
        Labelled("Source", check.Source);
        output.WriteLine();
        Example("A rig that gives it:", check.BadExample);
        output.WriteLine();
        Example("Put right:", check.GoodExample);

        void Labelled(string label, string text)
        {
            var head = paint.Faint($"  {label}".PadRight(Gutter));
            foreach (var line in Wrap.Lines(text, terminal.Width - Gutter))
            {
                output.WriteLine(head + line);
                head = new string(' ', Gutter);
            }
        }

        void Example(string title, string rig)
        {
            output.WriteLine(paint.Faint($"  {title}"));
            output.WriteLine();
            foreach (var line in LinesOf(rig))
            {
                output.WriteLine(line.Length == 0 ? "" : $"    {line}");
            }
        }
    }

    public static string PlainText(Check check) => $"{check.Why}\n{check.Advice}\nSource: {check.Source}";

    public static string Markdown(Check check)
    {
        var page = new StringBuilder();
        page.Append($"## {check.Name}\n\n");
        page.Append($"**{SeverityWord.Of(check.Severity)}**: {check.Title}\n\n");
        page.Append($"{check.Why.Trim()}\n\n");
        page.Append($"**What to do:** {check.Advice.Trim()}\n\n");
        page.Append($"**Source:** {check.Source}\n\n");
        page.Append("A rig that gives it:\n\n");
        Fence(check.BadExample);
        page.Append("\nPut right:\n\n");
        Fence(check.GoodExample);
        return page.ToString();

        void Fence(string rig)
        {
            page.Append("```rig\n");
            foreach (var line in LinesOf(rig))
            {
                page.Append(line).Append('\n');
            }
            page.Append("```\n");
        }
    }

    /// <summary>Without blank lines around, as raw string literals may have them.</summary>
    private static string[] LinesOf(string rig) => rig.ReplaceLineEndings("\n").Trim('\n').Split('\n');
}
