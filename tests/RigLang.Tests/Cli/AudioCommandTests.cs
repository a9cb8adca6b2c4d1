using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class AudioCommandTests : IDisposable
{
    private const string Small = """
        gear Keys {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Rail {
          out line : audio mono line on ts 6.35 mm
        }
        gear Press {
          in  in  : audio stereo line on 2 ts 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out gain -6 dB
        }
        gear Desk {
          in  ch1, ch2, ch3 : audio mono line   on ts 6.35 mm
          in  ch45          : audio stereo line on 2 ts 6.35 mm
          out main          : audio stereo line on 2 ts 6.35 mm
          route ch1..ch3, ch45 to main
        }
        gear Tape {
          in line : audio stereo line on 2 ts 6.35 mm
          records line
        }
        device keys, spare : Keys
        device rail        : Rail
        device press       : Press
        device tape        : Tape
        device desk : Desk {
          ch1 pan left
          ch1 gain 3 dB
        }
        connect rail.line  to desk.ch1
        connect keys.main  to press.in
        connect press.out  to desk.ch2
        connect desk.main  to tape.line

        """;

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private string Told(string rig, params string[] args)
    {
        _stage.Put("small.rig", rig);
        var (code, text, _) = _stage.Rig(["audio", "small.rig", .. args]);
        Assert.Equal(0, code);
        return text;
    }

    [Fact]
    public void A_sheet_tells_what_arrives_what_is_dialled_in_what_is_free_and_what_is_left_out() => Assert.Equal("""
        What arrives where

          tape.line, recorded on tracks 1, 2
            keys.main  left and right in one  -12 dB  from press.out on (line 24)
            rail.line  mono, on the left      +3 dB   from desk.main on (line 26)

        Inputs of desk

            ch1  rail.line                pan left, gain 3 dB
            ch2  keys.main through press
            free: line ch3; stereo ch45

        Arrives nowhere

            spare.main (no lead)

        """.ReplaceLineEndings("\n"), Told(Small));

    [Fact]
    public void A_mono_channel_on_a_mono_send_of_a_large_desk_is_as_loud_as_it_was() => Assert.Contains("rail.line  mono\n", Told("""
        gear Rail {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in  ch1..ch4 : audio mono line on ts 6.35 mm
          out a, b, c  : audio mono line on ts 6.35 mm
          route ch1..ch4 to a, b, c
        }
        gear Wedge {
          in line : audio mono line on ts 6.35 mm
        }
        device rail  : Rail
        device desk  : Desk
        device wedge : Wedge
        connect rail.line to desk.ch1
        connect desk.b    to wedge.line
        """), StringComparison.Ordinal);

    [Fact]
    public void Left_and_right_on_two_mono_channels_may_be_panned_apart() => Assert.Matches("left and right in one +from desk.main on \\(line 26\\),\\s+unless panned apart", Told(
        Small.Replace("connect keys.main  to press.in\nconnect press.out  to desk.ch2\n", "connect keys.main.left to desk.ch2\nconnect keys.main.right to desk.ch3\n", StringComparison.Ordinal)));

    [Fact]
    public void Only_what_is_asked_for_is_told()
    {
        Assert.Contains("rail.line", Told(Small, "--from", "rail"), StringComparison.Ordinal);
        Assert.DoesNotContain("keys.main", Told(Small, "--from", "rail"), StringComparison.Ordinal);
        Assert.DoesNotContain("Inputs of", Told(Small, "--to", "tape.line"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_place_that_is_none_is_told_with_the_nearest()
    {
        _stage.Put("small.rig", Small);
        var (code, output, error) = _stage.Rig("audio", "small.rig", "--to", "tap");
        Assert.Equal((2, ""), (code, output));
        Assert.StartsWith("rig: nothing called \"tap\" sounds or is heard here. Did you mean tape?", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rig_without_audio_says_so() => Assert.Equal("What arrives where\n\n  Nothing arrives anywhere.\n", Told(""));

    [Fact]
    public void The_JSON_fits_its_schema()
    {
        var schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Root, "grammar", "audio-output.schema.json")));
        var document = JsonNode.Parse(Told(Small, "--format", "json"))!;
        Assert.Equal("", schema.Refusals(document));
        var share = document["arrivals"]![0]!["shares"]!.AsArray().Single(s => (string)s!["source"]! == "rail.line")!;
        Assert.Equal(3, (double)share["decibels"]!);
        Assert.Equal(1, (int)Assert.Single(share["channels"]!.AsArray())!["channel"]!);
    }

    /// <summary>
    /// By hand, cable after cable: what comes into the desk, by which input, and what its main, record, monitor, phones and USB outputs make of it. Mono inputs
    /// are in the middle of all of them; the guitar is mono through drive and box; the voice is a microphone; the keys are one lead in a pair.
    /// </summary>
    [Fact]
    public void The_sheet_of_the_first_example_is_what_a_hand_finds()
    {
        var flow = Compilation.Create(
            new Text.SourceText("examples/pantile-yard.rig", File.ReadAllText(Path.Combine(Repository.Root, "examples", "pantile-yard.rig"))),
            path => File.Exists(Path.Combine(Repository.Root, path)) ? new Text.OpenedFile(new Text.SourceText(path, File.ReadAllText(Path.Combine(Repository.Root, path))), null)
                : new Text.OpenedFile(null, "there is no such file")).Rig.Audio.Flow;
        (string Source, string Shape)[] stage =
        [
            ("bass.line", "Mono"), ("drums.kick", "Mono"), ("drums.mix", "Stereo"), ("guitar.out", "Mono"), ("keys.organ", "Mono"),
            ("laptop.playback", "Stereo"), ("pocket.phones", "Stereo"), ("poly.LINE OUT", "Stereo"), ("voice.out", "Mono"),
        ];
        var expected = new[] { "camera.mic", "cans.plug", "laptop.usb2", "tape.line" }.SelectMany(place => stage.Select(s => $"{s.Source} > {place}: {s.Shape}"))
            .Concat(stage.Select(s => $"{s.Source} > left.line: {(s.Shape == "Stereo" ? "LeftOnly" : "Mono")}"))
            .Concat(stage.Select(s => $"{s.Source} > right.line: {(s.Shape == "Stereo" ? "RightOnly" : "Mono")}"));
        Assert.Equal(expected.Order(StringComparer.Ordinal), flow.Shares.Select(share => $"{share.Source.Text} > {share.To.Text}: {share.Shape}").Order(StringComparer.Ordinal));
    }
}
