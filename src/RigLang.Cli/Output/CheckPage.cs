using RigLang.Editing;
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
        if (check.Caution is { } caution)
        {
            Labelled("Care", caution);
        }
        Labelled("Source", check.Source);
        if (check.BadExample.Length > 0)
        {
            output.WriteLine();
            Example("A rig that gives it:", check.BadExample);
            output.WriteLine();
            Example("Put right:", check.GoodExample);
        }

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

    public static string PlainText(Check check) => $"{check.Why}\n{check.Advice}\n{(check.Caution is { } caution ? caution + "\n" : "")}Source: {check.Source}";

    public static string Markdown(Check check) => CheckText.Markdown(check);

    /// <summary>Without blank lines around, as raw string literals may have them.</summary>
    private static string[] LinesOf(string rig) => rig.ReplaceLineEndings("\n").Trim('\n').Split('\n');
}
