using System.CommandLine;
using RigLang.Cli.Output;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Cli.Commands;

/// <summary><c>rig audio FILE</c>: where every sound ends up, and which input of a mixer is what.</summary>
internal static class AudioCommand
{
    public static int Run(string path, string? from, string? to, string? format, Host host)
    {
        if (OneRig.Read(path, host) is not { Rig: { } rig } compilation)
        {
            return ExitCode.CouldNot;
        }
        if ((WrongPlace(rig, from) ?? WrongPlace(rig, to)) is { } wrong)
        {
            return Usage.Error(host, wrong, "Name a device, or device.port.");
        }
        OneRig.MentionErrors(compilation.FindingsAbout(AudioPage.Topics), path, host);
        var answer = AudioAnswer.Of(rig,
            from is null ? null : source => IsAt(from, source.Device.Name, source.Text),
            to is null ? null : destination => IsAt(to, destination.Device.Name, destination.Text));
        if (format == "json")
        {
            JsonOut.Write(host, AudioDocument.Of(answer), FlowDocumentContext.Default.AudioDocument);
        }
        else
        {
            AudioPage.Write(host.Out, answer, compilation.Files[0]);
        }
        return ExitCode.Clear;
    }

    private static bool IsAt(string place, string device, string text) => place == device || place == text;

    /// <summary>What is wrong with a place that was asked for; null for one that there is.</summary>
    private static string? WrongPlace(Rig rig, string? place)
    {
        if (place is null || rig.Names.DevicesByName.ContainsKey(place))
        {
            return null;
        }
        var places = rig.Audio.Flow.Sources.Select(source => source.Text).Concat(rig.Audio.Flow.Destinations.Select(destination => destination.Text)).Distinct().ToList();
        return places.Contains(place) ? null
            : $"nothing called \"{place}\" sounds or is heard here.{(Spelling.Nearest(place, rig.Names.DevicesByName.Keys.Concat(places)) is { } near ? $" Did you mean {near}?" : "")}";
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var from = new Option<string?>("--from") { Description = "Only what comes from this device, or device.port", HelpName = "PLACE" };
        var to = new Option<string?>("--to") { Description = "Only what arrives at this device, or device.port", HelpName = "PLACE" };
        var format = Choice.Of("--format", "How to show it: for reading or for other programs", "text", "json");
        var verb = new RigVerb("audio", "Shows where every sound ends up, on which side and how loud, and which mixer input is what")
        {
            Operands = "FILE",
            Page =
            [
                "For each loudspeaker, pair of headphones and recorder: the sounds that arrive there, in stereo or not, how loud against their source as far as gains are "
                + "said, and the place from which on they are no longer what they were. Then the inputs of each mixer with what comes in, what is dialled in, "
                + "and which are free; and what sounds and is heard nowhere.",
                "Exit code: 0 with an answer, 2 when the file could not be read or there is no such place.",
            ],
            Examples =
            [
                ("rig audio trio.rig", "the sheet for the desk"),
                ("rig audio trio.rig --to tape", "what the recorder gets"),
                ("rig audio trio.rig --from bass --format json", "for other programs"),
            ],
        };
        verb.Add(files);
        verb.Add(from);
        verb.Add(to);
        verb.Add(format);
        ImportRoot.AddTo(verb, host);
        verb.SetAction(result => result.GetValue(files) switch
        {
            [var file] => Run(file, result.GetValue(from), result.GetValue(to), result.GetValue(format), host),
            [] or null => Usage.NoOperand(host, verb, "audio needs the name of a rig file."),
            _ => Usage.NoOperand(host, verb, "audio shows one rig at a time."),
        });
        return verb;
    }
}
