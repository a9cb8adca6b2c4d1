using System.CommandLine;
using RigLang.Cli.Files;
using RigLang.Cli.Output;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Cli.Commands;

/// <summary>Compiles a text and all it imports. <see cref="Compilation.Create"/>, except in tests of what comes after.</summary>
internal delegate Compilation Compile(SourceText root, OpenFile open);

internal enum CheckFormat
{
    Text,
    Json,
    Sarif,
}

/// <summary>What <c>rig check</c> was asked.</summary>
internal sealed record CheckRequest(
    IReadOnlyList<string> Named,
    CheckFormat Format = CheckFormat.Text,
    Severity FailOn = Severity.Error,
    ColorChoice Color = ColorChoice.Auto,
    FindingSort Sort = FindingSort.Harm);

/// <summary><c>rig check FILE…</c>: what is wrong, or what was verified.</summary>
internal static class CheckCommand
{
    public static int Run(CheckRequest request, Host host, Compile? compile = null)
    {
        compile ??= Compilation.Create;
        var report = ReportFor(request, host);
        var tally = new Tally();
        var order = new FindingOrder();
        var reader = new SourceReader(host);

        foreach (var path in RigFiles.Find(request.Named, host, OnProblem))
        {
            host.At = path;
            var opened = reader.Open(path);
            if (opened.Text is not { } text)
            {
                OnProblem(new(path == RigFiles.StandardInput ? RigFiles.StandardInputPath : path, opened.Problem ?? "it could not be read"));
                continue;
            }
            Compilation rig;
            try
            {
                rig = compile(text, reader.ImportsOf(path));
            }
            catch (Exception e) when (!Fault.IsTraced(host))
            {
                // The other files are still checked.
                OnProblem(new(path, Fault.Sentence(e)));
                continue;
            }
            tally.Rigs++;
            var findings = order.NewIn(rig);
            foreach (var finding in findings)
            {
                tally.Count(finding);
            }
            report.Add(rig, findings);
        }
        report.End(tally);
        return tally.Problems > 0 ? ExitCode.CouldNot
            : tally.AtOrAbove(request.FailOn) > 0 ? ExitCode.Findings
            : ExitCode.Clear;

        void OnProblem(FileProblem problem)
        {
            tally.Problems++;
            report.Add(problem);
        }
    }

    private static CheckReport ReportFor(CheckRequest request, Host host) => request.Format switch
    {
        CheckFormat.Json => new JsonReport(host),
        CheckFormat.Sarif => new SarifReport(host),
        _ => new TextReport(host, Terminal.For(host, request.Color), request.Sort),
    };

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show the result: for reading, or for other programs", "text", "json", "sarif");
        var failOn = Choice.Of("--fail-on", "The mildest finding that makes the exit code 1", "error", "warning", "hint");
        var color = Choice.Of("--color", "Colours: on a terminal only, always, or never", "auto", "always", "never");
        var sort = Choice.Of("--sort", "What comes first when it is shown for reading: what does the most harm, or the first line", "harm", "place");
        var verb = new RigVerb("check", "Tells what is wrong with a rig before a plug is pushed in")
        {
            Operands = "FILE…",
            Page =
            [
                "Reads each rig with everything it imports and works out what is joined to what. For each mistake it shows "
                + "the line, what is wrong, why it matters on stage and what to do; what can hurt people comes first, then what destroys gear. A rig without mistakes gets the list of "
                + "what was verified. A folder is searched for .rig files, and - reads what another program hands over.",
                "Exit code: 0 when all is well, 1 when there are findings, 2 when a file could not be checked at all.",
            ],
            Examples =
            [
                ("rig check trio.rig", "one rig"),
                ("rig check .", "every rig in this folder and below"),
                ("rig check --fail-on warning trio.rig", "be strict"),
            ],
        };
        verb.Add(files);
        verb.Add(format);
        verb.Add(failOn);
        verb.Add(color);
        verb.Add(sort);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) is { Length: > 0 } named
            ? Run(new(named, FormatOf(result.GetValue(format)), ThresholdOf(result.GetValue(failOn)), ColorOf(result.GetValue(color)), SortOf(result.GetValue(sort))), host)
            : Usage.NoOperand(host, verb, "check needs the name of a rig file or a folder."));
        return verb;
    }

    private static CheckFormat FormatOf(string? word) => word switch
    {
        "json" => CheckFormat.Json,
        "sarif" => CheckFormat.Sarif,
        _ => CheckFormat.Text,
    };

    private static Severity ThresholdOf(string? word) => word switch
    {
        "hint" => Severity.Hint,
        "warning" => Severity.Warning,
        _ => Severity.Error,
    };

    private static FindingSort SortOf(string? word) => word == "place" ? FindingSort.Place : FindingSort.Harm;

    internal static ColorChoice ColorOf(string? word) => word switch
    {
        "always" => ColorChoice.Always,
        "never" => ColorChoice.Never,
        _ => ColorChoice.Auto,
    };
}
