using System.CommandLine;
using RigLang.Cli.Output;
using RigLang.Flow.Ground;

namespace RigLang.Cli.Commands;

/// <summary><c>rig hum FILE --heard SOUND</c>: which ground loop to suspect.</summary>
internal static class HumCommand
{
    public static int Run(string path, HumSound sound, string? format, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        OneRig.MentionErrors(compilation.FindingsAbout(GroundPage.Topics), path, host);
        var suspects = HumSuspects.For(rig.Ground, sound);
        if (format == "json")
        {
            JsonOut.Write(host, HumDocument.Of(sound, suspects), FlowDocumentContext.Default.HumDocument);
        }
        else
        {
            GroundPage.WriteHum(host.Out, rig.Ground, sound, suspects);
        }
        return ExitCode.Clear;
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var heard = Choice.Of("--heard", "The sound: hum is low and even, buzz harsher and an octave up, whine high and changing", [.. HumSounds.Words]);
        var format = Choice.Of("--format", "How to show it: for reading or for other programs", "text", "json");
        var verb = new RigVerb("hum", "Says which ground loop to suspect, by what is heard")
        {
            Operands = "FILE",
            Page =
            [
                "The loops that are heard, the likeliest first, each with its cables and the reasons. rig ground tells what to isolate.",
                "Exit code: 0 with an answer, 2 when the file could not be read.",
            ],
            Examples = [("rig hum trio.rig --heard whine", "a whine that changes with the screen")],
        };
        verb.Add(files);
        verb.Add(heard);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) switch
        {
            [var file] => Run(file, HumSounds.Named(result.GetValue(heard)!)!.Value, result.GetValue(format), host),
            [] or null => Usage.NoOperand(host, verb, "hum needs the name of a rig file."),
            _ => Usage.NoOperand(host, verb, "hum looks at one rig at a time."),
        });
        return verb;
    }
}
