using System.CommandLine;
using RigLang.Cli.Output;

namespace RigLang.Cli.Commands;

/// <summary><c>rig ground FILE</c>: the ground loops and what to isolate.</summary>
internal static class GroundCommand
{
    public static int Run(string path, string? format, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        OneRig.MentionErrors(compilation.FindingsAbout(GroundPage.Topics), path, host);
        if (format == "json")
        {
            JsonOut.Write(host, GroundDocument.Of(rig.Ground), FlowDocumentContext.Default.GroundDocument);
        }
        else
        {
            GroundPage.Write(host.Out, rig);
        }
        return ExitCode.Clear;
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show it: for reading or for other programs", "text", "json");
        var verb = new RigVerb("ground", "Shows the ground loops, which of them are heard, and the cheapest cure")
        {
            Operands = "FILE",
            Page =
            [
                "Every independent loop of audio screens, supply returns, USB grounds and protective earths, cable by cable, and why it is heard "
                + "or not. Then the cheapest set of links to isolate that leaves no loop that is heard. A protective earth is never lifted; a device with a battery may be unplugged from the mains altogether.",
                "Exit code: 0 with an answer, 2 when the file could not be read.",
            ],
            Examples = [("rig ground trio.rig", "the loops and the cure"), ("rig ground trio.rig --format json", "for another program")],
        };
        verb.Add(files);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) switch
        {
            [var file] => Run(file, result.GetValue(format), host),
            [] or null => Usage.NoOperand(host, verb, "ground needs the name of a rig file."),
            _ => Usage.NoOperand(host, verb, "ground shows one rig at a time."),
        });
        return verb;
    }
}
