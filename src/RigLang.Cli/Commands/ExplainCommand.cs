using System.CommandLine;
using RigLang.Checks;
using RigLang.Cli.Output;
using RigLang.Findings;

namespace RigLang.Cli.Commands;

internal enum PageFormat
{
    Text,
    Markdown,
    Json,
}

/// <summary><c>rig explain NAME</c>: the page of a check; without a name, the list of all checks.</summary>
internal static class ExplainCommand
{
    public static int Run(IReadOnlyList<string> names, PageFormat format, Host host, IReadOnlyList<Check> all)
    {
        var chosen = new List<Check>();
        foreach (var name in names)
        {
            var check = all.FirstOrDefault(c => c.Name == name);
            if (check is null)
            {
                return Usage.Error(
                    host,
                    $"there is no check called \"{name}\".{Nearest.Suggestion(name, all.Select(c => c.Name))}",
                    "rig explain lists them all.");
            }
            chosen.Add(check);
        }
        switch (format)
        {
            case PageFormat.Json:
                WriteJson(host, names.Count == 0 ? all : chosen);
                break;
            case PageFormat.Markdown when names.Count == 0:
                WriteTable(host.Out, all);
                break;
            case PageFormat.Markdown:
                host.Out.WriteLine(string.Join('\n', chosen.Select(CheckPage.Markdown)));
                break;
            default:
                WriteText(host, names.Count == 0 ? null : chosen, all);
                break;
        }
        return ExitCode.Clear;
    }

    private static void WriteText(Host host, List<Check>? chosen, IReadOnlyList<Check> all)
    {
        var terminal = Terminal.For(host, ColorChoice.Auto);
        if (chosen is null)
        {
            WriteList(host.Out, all, terminal.Paint);
            return;
        }
        for (var i = 0; i < chosen.Count; i++)
        {
            if (i > 0)
            {
                host.Out.WriteLine();
            }
            CheckPage.Write(host.Out, chosen[i], terminal);
        }
    }

    private static void WriteList(TextWriter output, IReadOnlyList<Check> all, Paint paint)
    {
        var nameWidth = all.Select(c => c.Name.Length).DefaultIfEmpty().Max();
        foreach (var check in all)
        {
            var severity = paint.Severity(check.Severity, SeverityWord.Of(check.Severity).PadRight("warning".Length));
            output.WriteLine($"{check.Name.PadRight(nameWidth)}  {severity}  {check.Title}");
        }
        output.WriteLine();
        output.WriteLine($"{Plural.Of(all.Count, "check", "checks")}. rig explain NAME shows one check's page.");
    }

    private static void WriteTable(TextWriter output, IReadOnlyList<Check> all)
    {
        output.WriteLine("| Check | Severity | What it finds |");
        output.WriteLine("|---|---|---|");
        foreach (var check in all)
        {
            output.WriteLine($"| `{check.Name}` | {SeverityWord.Of(check.Severity)} | {check.Title.Replace("|", "\\|")} |");
        }
    }

    private static void WriteJson(Host host, IReadOnlyList<Check> checks) => JsonOut.Write(
        host,
        new ExplainDocument(ExplainDocument.CurrentVersion, [.. checks.Select(Entry)]),
        DocumentContext.Default.ExplainDocument);

    private static CheckEntry Entry(Check check) => new(
        check.Name,
        SeverityWord.Of(check.Severity),
        check.Title,
        check.Why,
        check.Advice,
        check.Caution,
        check.Source,
        check.BadExample,
        check.GoodExample);

    public static RigVerb Define(Host host)
    {
        var names = new Argument<string[]>("NAME") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show the page", "text", "markdown", "json");
        var verb = new RigVerb("explain", "Shows the page of a check: what it finds, why, and what to do")
        {
            Operands = "[NAME…]",
            Page =
            [
                "Every finding of rig check carries a name, such as device-without-power. Its page tells what it means on "
                + "stage, what to do about it and where the rule comes from, with an example that is wrong and the same put right. "
                + "Without a name, all checks are listed.",
            ],
            Examples =
            [
                ("rig explain no-power", "one check's page"),
                ("rig explain", "all checks, one a line"),
            ],
        };
        verb.Add(names);
        verb.Add(format);
        verb.SetAction(result => Run(result.GetValue(names) ?? [], FormatOf(result.GetValue(format)), host, CheckList.All));
        return verb;
    }

    private static PageFormat FormatOf(string? word) => word switch
    {
        "markdown" => PageFormat.Markdown,
        "json" => PageFormat.Json,
        _ => PageFormat.Text,
    };
}
