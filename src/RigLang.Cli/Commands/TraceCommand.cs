using System.CommandLine;
using RigLang.Cli.Output;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Cli.Commands;

/// <summary><c>rig trace FILE "QUESTION"</c>: where messages go, what arrives, and why not.</summary>
internal static class TraceCommand
{
    public static int Run(string path, string question, bool asJson, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        var (trace, mistake) = Tracer.Answer(rig, question);
        if (trace is null)
        {
            return Usage.Error(host, mistake!.ToString(), $"{Marked(question, mistake.At)}rig trace --help shows what can be asked.");
        }
        OneRig.MentionErrors(compilation.Findings, path, host);
        if (asJson)
        {
            JsonOut.Write(host, TraceDocument.Of(trace), FlowDocumentContext.Default.TraceDocument);
        }
        else
        {
            new TracePage(host.Out, compilation.Files[0]).Write(trace);
        }
        return ExitCode.Clear;
    }

    private const int WidestQuestion = 100;

    /// <summary>The question with the wrong words underlined; nothing where it is all wrong, or too short.</summary>
    private static string Marked(string question, TextSpan at)
    {
        if (at.Length == 0 || at.Length == question.Trim().Length)
        {
            return "";
        }
        var excerpt = Excerpt.Of(new SourceText("", question), at, WidestQuestion);
        return $"  {excerpt.Text}\n  {new string(' ', excerpt.MarkColumn)}{new string('~', excerpt.MarkWidth)}\n";
    }

    public static RigVerb Define(Host host)
    {
        var words = new Argument<string[]>("QUESTION") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show the answer: for reading, or for other programs", "text", "json");
        var verb = new RigVerb("trace", "Follows messages, audio and power through a rig: who plays, who follows, what feeds what, and why not")
        {
            Operands = "FILE \"QUESTION\"",
            Page =
            [
                "Ask where something goes (notes from seq.a, clock from drums, transport from keys), what comes to a device "
                + "(what reaches bass), or why something does not arrive (why not clock from drums to pad). Every kind of "
                + "message of the language can be asked for, and several with commas: start, stop from keys. Audio and power are asked "
                + "for alike: audio from drums, power to bass, what feeds bass, why not audio from keys to desk.",
                "The answer shows each jack on the way, set in under the one before it, with the line of the cable in your file. "
                + "A star marks who hears it, an x where a filter drops it, and at which line the filter stands.",
                "Exit code: 0 with an answer, 2 when the question or the file could not be read.",
            ],
            Examples =
            [
                ("rig trace trio.rig \"notes from seq.a\"", "who plays?"),
                ("rig trace trio.rig \"what reaches bass\"", "what comes in, and on which channel?"),
                ("rig trace trio.rig \"power to bass\"", "from which socket, by which supply?"),
                ("rig trace trio.rig \"why not clock from drums to pad\"", "what is in the way?"),
            ],
        };
        verb.Add(words);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(words) switch
        {
            [var file, _, ..] all => Run(file, string.Join(' ', all[1..]), result.GetValue(format) == "json", host),
            [_] => Usage.NoOperand(host, verb, "trace needs a question after the name of the file."),
            _ => Usage.NoOperand(host, verb, "trace needs the name of a rig file and a question."),
        });
        return verb;
    }
}
