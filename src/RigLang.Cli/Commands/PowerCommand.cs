using System.CommandLine;
using RigLang.Cli.Output;

namespace RigLang.Cli.Commands;

/// <summary><c>rig power FILE</c>: from the wall to the loads, with what each takes.</summary>
internal static class PowerCommand
{
    public static int Run(string path, string? format, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        var findings = compilation.FindingsAbout(PowerPage.Topics);
        OneRig.MentionErrors(findings, path, host);
        if (format == "json")
        {
            JsonOut.Write(host, PowerDocument.Of(rig, findings), FlowDocumentContext.Default.PowerDocument);
        }
        else
        {
            PowerPage.Write(host.Out, rig, findings);
        }
        return ExitCode.Clear;
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show it: for reading or for other programs", "text", "json");
        var verb = new RigVerb("power", "Shows the power from the wall to every device: what each takes, and what is left")
        {
            Operands = "FILE",
            Page =
            [
                "A tree from each wall socket, battery and computer to what hangs on it, with voltage, plug, what is taken of what is given, and "
                + "how much is spare. Mains is counted in VA; gear that declares watts at a power factor of 0.6. "
                + "Below stand batteries against the length of the set, the order of switching on, and cautions.",
                "Exit code: 0 with an answer, 2 when the file could not be read.",
            ],
            Examples =
            [
                ("rig power trio.rig", "the tree"),
                ("rig power trio.rig --format json", "for other programs"),
            ],
        };
        verb.Add(files);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) switch
        {
            [var file] => Run(file, result.GetValue(format), host),
            [] or null => Usage.NoOperand(host, verb, "power needs the name of a rig file."),
            _ => Usage.NoOperand(host, verb, "power shows one rig at a time."),
        });
        return verb;
    }
}
