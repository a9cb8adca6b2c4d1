using System.CommandLine;
using RigLang.Cli.Output;
using RigLang.Flow;

namespace RigLang.Cli.Commands;

/// <summary><c>rig channels FILE</c>: who sends and who hears on which channel.</summary>
internal static class ChannelsCommand
{
    public static int Run(string path, string? format, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        OneRig.MentionErrors(compilation.Findings, path, host);
        var chart = ChannelChart.Of(rig);
        switch (format)
        {
            case "json":
                JsonOut.Write(host, ChannelsDocument.Of(chart, rig.Traffic), FlowDocumentContext.Default.ChannelsDocument);
                break;
            case "csv":
                ChannelPage.WriteCsv(host.Out, chart);
                break;
            case "markdown":
                ChannelPage.WriteMarkdown(host.Out, chart, rig.Traffic);
                break;
            default:
                ChannelPage.WriteText(host.Out, chart, rig.Traffic);
                break;
        }
        return ExitCode.Clear;
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var format = Choice.Of("--format", "How to show the chart: for reading, for other programs, a spreadsheet or a document", "text", "json", "csv", "markdown");
        var verb = new RigVerb("channels", "Shows who sends and who hears on which MIDI channel, and which are free")
        {
            Operands = "FILE",
            Page =
            [
                "A chart of all devices and the sixteen channels. Below it stands who hears each track, which parts no "
                + "track reaches, where one track plays several parts that are not called layered, and the channels that are free. "
                + "Then each MIDI cable, with what it has to carry at worst and how long a clock can wait where streams join.",
                "Exit code: 0 with a chart, 2 when the file could not be read.",
            ],
            Examples =
            [
                ("rig channels trio.rig", "the chart"),
                ("rig channels trio.rig --format csv", "for a spreadsheet"),
            ],
        };
        verb.Add(files);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) switch
        {
            [var file] => Run(file, result.GetValue(format), host),
            [] or null => Usage.NoOperand(host, verb, "channels needs the name of a rig file."),
            _ => Usage.NoOperand(host, verb, "channels shows one rig at a time."),
        });
        return verb;
    }
}
