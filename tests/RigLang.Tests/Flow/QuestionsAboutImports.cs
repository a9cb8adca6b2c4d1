using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>Questions name devices as the checked file does: <c>audio from tide.bass</c>.</summary>
public class QuestionsAboutImports
{
    private const string Deep = "gear Eddy {\n  in in : audio mono line on ts 6.35 mm\n}\ndevice swirl : Eddy\n";

    private const string Tide = """
        import "deep.rig" as deep
        gear Tern {
          in  midi  : midi on din-5
          in  power : dc 9 V centre-negative, 300 mA on barrel 5.5x2.1 mm
          out line  : audio mono line on ts 6.35 mm
          part voice receives midi on channel any, sounds at line
        }
        gear Adapter {
          out out : dc 9 V centre-negative, 1 A on captive barrel 5.5x2.1 mm
        }
        device bass   : Tern {
          voice on channel 2
        }
        device supply : Adapter
        connect supply.out to bass.power
        connect bass.line to deep.swirl.in

        """;

    private const string Main = """
        import "shared/leads.rig"
        import "tide.rig" as tide
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device seq  : Rook {
          a on channel 2
        }
        device desk : Desk
        connect seq.midi to tide.bass.midi

        """;

    private static (Trace? Trace, TraceMistake? Mistake) Ask(string question) =>
        Tracer.Answer(Rigs.Compile(Main, ("tide.rig", Tide), ("deep.rig", Deep)).Rig, question);

    [Theory]
    [InlineData("audio from tide.bass", "Audio from tide.bass reaches tide.deep.swirl.")]
    [InlineData("audio from tide.bass.line", "Audio from tide.bass.line reaches tide.deep.swirl.")]
    [InlineData("audio from \"tide\".\"bass\"", "Audio from tide.bass reaches tide.deep.swirl.")]
    [InlineData("audio to tide.deep.swirl", "Audio comes to tide.deep.swirl from tide.bass.")]
    [InlineData("audio to tide.deep.swirl.in", "Audio comes to tide.deep.swirl.in from tide.bass.")]
    [InlineData("power to tide.bass", "Power comes to tide.bass from tide.supply.")]
    [InlineData("what feeds tide.bass", "tide.supply")]
    [InlineData("what reaches tide.bass", "seq")]
    [InlineData("notes from seq.a", "tide.bass")]
    [InlineData("why not notes from seq to tide.bass.voice", "It does arrive")]
    [InlineData("why not audio from tide.bass to desk", "Audio from tide.bass does not get to desk: no cable is in desk.ch1, and")]
    public void Every_question_takes_names_of_imports(string question, string answer)
    {
        var (trace, mistake) = Ask(question);
        Assert.Null(mistake);
        Assert.Contains(answer.Replace(", and", "", StringComparison.Ordinal), trace!.Summary + string.Join(' ', trace.Ways.SelectMany(w => w.Steps).Select(s => s.Port)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("audio from tied.bass", "there is no device and no import called \"tied\". Imports with a name are tide. Did you mean tide.bass?")]
    [InlineData("audio from ocean.gull", "there is no device and no import called \"ocean\". Imports with a name are tide.")]
    [InlineData("audio from tide.bas", "tide has no device called \"bas\"; it has bass and supply. Did you mean tide.bass?")]
    [InlineData("audio from tide.deep.swril", "tide.deep has no device called \"swril\"; it has swirl. Did you mean tide.deep.swirl?")]
    [InlineData("audio from tide", "tide is an import, not a device; it has bass and supply.")]
    [InlineData("audio from bass", "there is no device called \"bass\". Did you mean tide.bass?")]
    [InlineData("audio from tide.bass.lien", "tide.bass has no track or port called \"lien\". Did you mean tide.bass.line?")]
    [InlineData("audio from tide.bass.line.left", "\"left\" is one name too many: a question goes to a device, or to a port, part or track of one.")]
    [InlineData("why not audio from seq to tied.bass", "there is no device and no import called \"tied\". Imports with a name are tide. Did you mean tide.bass?")]
    public void A_name_that_is_wrong_is_answered_with_those_that_there_are(string question, string answer)
    {
        var (trace, mistake) = Ask(question);
        Assert.Null(trace);
        Assert.Equal(answer, mistake!.ToString());
    }
}
