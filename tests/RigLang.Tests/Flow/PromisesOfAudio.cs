using CsCheck;
using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>What a promise can speak of: sides, pairs of mono channels, several sources; and what it cannot.</summary>
public class PromisesOfAudio
{
    private const string Gear = """
        import "shared/leads.rig"
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
          out mono : audio mono line on ts 6.35 mm
          out midi : midi on din-5
          in  power : dc 9 V centre-negative, 300 mA on barrel 5.5x2.1 mm
          track a sends midi
          clock sends midi
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
          in ch34     : audio stereo line on 2 ts 6.35 mm
          in midi     : midi on din-5
          out main    : audio stereo line on 2 ts 6.35 mm
          route ch34 to main
          part voice receives midi on channel any
        }
        gear Brick {
          in  mains : mains 230 V 20 W class-2 on iec-c8
          out out   : dc 9 V centre-negative, 1 A on barrel 5.5x2.1 mm
        }
        device drums : Drums {
          a on channel 2
        }
        device desk  : Desk {
          voice on channel 2
        }
        device brick : Brick

        """;

    private const string Apart = "connect drums.main.left to desk.ch1\nconnect drums.main.right to desk.ch2\n";
    private const string Pair = "connect drums.main to desk.ch34\n";

    private static string Verdict(string cables, string line)
    {
        var compilation = Rigs.Compile(Gear + cables + line + "\n");
        var outcomes = compilation.Rig.Outcomes;
        Assert.True(outcomes.Count > 0, compilation.Told());
        return outcomes.FirstOrDefault(o => !o.Holds)?.Stopped ?? "holds";
    }

    [Theory]
    [InlineData(Apart, "must audio from drums.main reach desk in stereo", "holds")]
    [InlineData(Apart, "must audio from drums.main reach desk.ch1, desk.ch2 in stereo", "holds")]
    [InlineData(Apart, "must audio from drums.main.left reach desk.ch1", "holds")]
    [InlineData(Apart, "must audio from drums.main.left reach desk.ch2", "desk.ch2 gets the right only")]
    [InlineData(Apart, "never audio from drums.main.right reach desk.ch1", "holds")]
    [InlineData("connect drums.main.left to desk.ch1\n", "must audio from drums.main reach desk in stereo", "it arrives at desk.ch1, but not left on the left and right on the right")]
    [InlineData(Pair, "must audio from drums.main.left reach desk.ch34.left", "holds")]
    [InlineData(Pair, "must audio from drums.main.left reach desk.ch34.right", "desk.ch34 gets it on the left only")]
    [InlineData(Pair, "must audio from drums reach desk in stereo", "holds")]
    public void Sides_are_kept_apart(string cables, string line, string outcome) => Assert.Equal(outcome, Verdict(cables, line));

    [Fact]
    public void Every_source_of_a_line_is_judged()
    {
        var outcomes = Rigs.Compile(Gear + Pair + "must audio from drums.main, drums.mono reach desk\n").Rig.Outcomes;
        Assert.Equal(["drums.main True", "drums.mono False"], outcomes.Select(o => $"{o.Expectation.From.Text} {o.Holds}"));
    }

    [Theory]
    [InlineData("must audio from drums reach desk on channel 5", "A line about audio does not have a MIDI channel")]
    [InlineData("must power from brick reach drums in stereo", "A line about power does not have stereo")]
    [InlineData("must clock from drums reach desk on channel 5", "A line about clock does not have a MIDI channel")]
    [InlineData("must audio from drums reach desk within 5 ms", "A line about audio does not have a time limit")]
    [InlineData("must notes from drums reach desk in stereo", "A line about notes does not have stereo")]
    [InlineData("must audio, notes from drums reach desk", "One line does not have audio and notes together")]
    public void What_has_no_meaning_is_refused(string line, string what)
    {
        var compilation = Rigs.Compile(Gear + Pair + line + "\n");
        Assert.StartsWith(what, Assert.Single(compilation.Findings, f => f.Check.Name == "missing-ability").What, StringComparison.Ordinal);
        Assert.Empty(compilation.Rig.Outcomes);
    }

    [Theory]
    [InlineData("must notes from drums.a.left reach desk")]
    [InlineData("must audio from drums.mono.left reach desk")]
    [InlineData("must audio from drums.main.middle reach desk")]
    public void A_side_that_is_none_is_refused(string line) =>
        Assert.Contains(Rigs.Compile(Gear + Pair + line + "\n").Findings, f => f.Check.Name == "unknown-word");

    private static string Told(string question)
    {
        var (trace, mistake) = Tracer.Answer(Rigs.Compile(Gear + Pair + "connect brick.out to drums.power\n").Rig, question);
        Assert.Null(mistake);
        return trace!.Summary;
    }

    [Theory]
    [InlineData("audio from drums", "Audio from drums reaches desk.")]
    [InlineData("audio to desk", "Audio comes to desk from drums.")]
    [InlineData("power to drums", "Power comes to drums from brick.")]
    [InlineData("power from brick", "Power from brick reaches drums.")]
    [InlineData("what feeds drums", "Power comes to drums from brick.")]
    [InlineData("why not audio from drums.mono to desk", "Audio from drums.mono does not get to desk: no cable is in desk.ch1. Connect drums.mono to desk.ch1.")]
    [InlineData("why not audio from drums to desk", "It does arrive: audio from drums gets to desk by this way.")]
    [InlineData("why not power from brick to desk", "Power from brick does not get to desk: desk has nowhere for power to come in.")]
    [InlineData("clock to desk", "No clock reaches desk.")]
    public void Audio_and_power_are_followed_as_messages_are(string question, string summary) => Assert.Equal(summary, Told(question));

    [Fact]
    public void A_jack_with_a_lead_in_it_is_not_called_empty()
    {
        // A type A and a type B jack with a straight lead between them: plugged in, and no current runs.
        var rig = Rigs.Compile("""
            import "shared/leads.rig"
            gear A { out midi : midi type-a on trs 3.5 mm
              track a sends midi }
            """.Replace("{ out", "{\n  out", StringComparison.Ordinal).Replace("midi }", "midi\n}", StringComparison.Ordinal) + """

            gear B {
              in midi : midi type-b on trs 3.5 mm
            }
            device a : A {
              a on channel 1
            }
            device b : B
            connect a.midi to b.midi with MiniStereo 1 m
            """).Rig;
        var (trace, _) = Tracer.Answer(rig, "notes from a");
        Assert.DoesNotContain("nothing is plugged in", trace!.Ways.Single().Steps.Select(s => s.Note));
    }

    /// <summary>Every beginning of a question, and words in any order.</summary>
    [Fact]
    public void No_question_makes_it_throw()
    {
        var rig = Rigs.Compile(Gear + Pair).Rig;
        string[] words = ["why", "not", "what", "reaches", "feeds", "from", "to", "audio", "power", "clock", "notes", ",", "drums", "desk.ch34", "\"", "?", ".", "a.b.c", ""];
        Gen.Int[0, words.Length - 1].Array[0, 7].Sample(picks =>
        {
            var question = string.Join(' ', picks.Select(i => words[i]));
            for (var end = 0; end <= question.Length; end++)
            {
                var (trace, mistake) = Tracer.Answer(rig, question[..end]);
                Assert.True(trace is null != mistake is null);
            }
        }, iter: 400);
    }
}
