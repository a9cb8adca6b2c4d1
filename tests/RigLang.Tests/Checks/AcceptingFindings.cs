using RigLang.Checks;
using RigLang.Findings;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>What the player knows of and leaves as it is.</summary>
public class AcceptingFindings
{
    private const string LongLead = """
        gear Rook {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }
        lead Patch : ts 6.35 mm to ts 6.35 mm
        device seq, pad : Rook
        device desk     : Desk
        connect seq.line to desk.ch1 with Patch 9 m
        connect pad.line to desk.ch2 with Patch 9 m

        """;

    [Fact]
    public void It_is_no_finding_any_more_and_is_listed_with_its_reason()
    {
        var compilation = Rigs.Compile(LongLead + "accept lead-too-long on desk.ch1 because \"short set, and quiet in rehearsal\"\n");
        Assert.Equal(["lead-too-long@11"], compilation.Found());
        var accepted = Assert.Single(compilation.Accepted);
        Assert.Equal("short set, and quiet in rehearsal", accepted.AcceptedBecause);
        Assert.Contains(compilation.Facts, f => f is { Count: 1, Text: "finding accepted" });
    }

    [Theory]
    [InlineData("seq")]
    [InlineData("seq.line")]
    [InlineData("desk.ch1")]
    public void A_cable_is_meant_by_either_of_its_ends(string place) =>
        Assert.Equal(["lead-too-long@11"], Rigs.Compile($"{LongLead}accept lead-too-long on {place} because \"quiet\"\n").Found());

    [Fact]
    public void A_whole_device_is_meant_by_its_name() =>
        Assert.Empty(Rigs.Compile(LongLead + "accept lead-too-long on desk because \"quiet\"\n").Findings);

    [Fact]
    public void The_line_stands_where_the_player_likes() =>
        Assert.Empty(Rigs.Compile("accept lead-too-long on desk because \"quiet\"\n" + LongLead).Findings);

    [Fact]
    public void What_meets_nothing_is_a_hint() =>
        Assert.Contains("accept-meets-nothing@12", Rigs.Compile(LongLead + "accept midi-loop-open on desk because \"quiet\"\n").Found());

    [Theory]
    [InlineData("earth-missing", "it can injure or kill people")]
    [InlineData("circuit-overloaded", "it can injure or kill people")]
    [InlineData("polarity-reversed", "it can destroy gear")]
    [InlineData("must-fails", "a promise that does not hold is kept, changed or deleted")]
    public void What_is_too_dangerous_cannot_be_accepted_and_the_line_says_so(string check, string why)
    {
        var compilation = Rigs.Compile($"{LongLead}accept {check} on desk because \"it always worked\"\n");
        var refused = Assert.Single(compilation.Findings, f => f.Check is AcceptRefused);
        Assert.Equal(Severity.Error, refused.Severity);
        Assert.Equal($"`{check}` cannot be accepted: {why}.", refused.What);
    }

    [Fact]
    public void What_destroys_gear_is_told_though_the_rig_accepts_it()
    {
        var page = CheckList.Find("polarity-reversed")!;
        var device = Rigs.Compile(page.BadExample).Rig.Names.Devices[^1].Name;
        Assert.Equal(["accept-refused", "polarity-reversed"],
            Rigs.Compile($"{page.BadExample}\naccept polarity-reversed on {device} because \"it always worked\"\n").Names().Order());
    }

    [Fact]
    public void A_promise_that_fails_because_of_what_is_accepted_is_told()
    {
        var rig = CheckList.Find("channel-nobody-hears")!.BadExample + "\nmust notes from seq.a reach lead\n";
        Assert.Equal(["channel-nobody-hears"], Rigs.Compile(rig).Names());
        Assert.Equal(["must-fails"], Rigs.Compile(rig + "accept channel-nobody-hears on seq because \"a spare track\"\n").Names());
    }

    [Fact]
    public void Every_check_of_what_hurts_people_or_destroys_gear_refuses()
    {
        foreach (var check in CheckList.All.Where(c => c.Harm is Harm.People or Harm.Gear))
        {
            var found = Rigs.Compile(check.BadExample);
            var finding = Assert.Single(found.Findings);
            Assert.True(finding.AcceptableOn is null, check.Name);
        }
    }
}
