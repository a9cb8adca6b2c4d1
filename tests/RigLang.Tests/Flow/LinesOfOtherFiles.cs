using RigLang.Findings;
using RigLang.Flow;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>A sentence that names a line of another file names that file: line 12 of this one may be anything.</summary>
public class LinesOfOtherFiles
{
    private const string Tide = """
        gear Rook {
          out midi, midi2 : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Weir {
          in  in  : midi on din-5
          out out, out2 : midi on din-5
          route in to out, out2
          filters any
          maps channels
        }
        gear Tern {
          in midi : midi on din-5
          clock follows internal, midi
          part voice receives midi on channel any
        }

        """;

    private const string Devices = """
        device seq  : Rook {
          a on channel 2
        }
        device thru : Weir {
          out drops notes
        }
        device bass : Tern {
          clock midi
          voice on channel 2 layered
        }
        connect seq.midi to thru.in
        connect thru.out to bass.midi
        device ear : Tern {
          clock internal
          voice on channel 2 layered
        }
        connect thru.out2 to ear.midi

        """;

    private static Compilation Compile(string main, string tide) =>
        Rigs.Compile("import \"shared/leads.rig\"\nimport \"tide.rig\" as tide\n" + main, ("tide.rig", tide));

    private static Finding Told(Compilation rig, string check) => rig.Findings.SingleOrDefault(f => f.Check.Name == check) ?? throw new Xunit.Sdk.XunitException($"no {check}, but\n{rig.Told()}");

    private const string Must = "must notes from tide.seq reach tide.bass\n";

    [Fact]
    public void The_edit_that_would_mend_a_promise_names_the_file_that_it_is_in()
    {
        var rig = Compile(Must, Tide + Devices);
        Assert.Equal("Take `notes` out of what tide.thru.out drops (line 22 of tide.rig).", Told(rig, "must-fails").Advice);
        rig = Compile(Must, Tide + Devices.Replace("out drops notes", "out passes only clock", StringComparison.Ordinal));
        Assert.Equal("Add `notes` to line 22 of tide.rig.", Told(rig, "must-fails").Advice);
        rig = Compile("must notes from tide.seq.a reach tide.bass\n", Tide + Devices.Replace("out drops notes", "out maps channel 2 to 5", StringComparison.Ordinal));
        var outcome = rig.Rig.Outcomes.Single();
        Assert.StartsWith("Take the map out of line 22 of tide.rig, ", BrokenWords.Mend(outcome.Broken!, outcome.Target.At.Source), StringComparison.Ordinal);
    }

    [Fact]
    public void In_the_file_of_the_promise_the_line_is_enough()
    {
        var rig = Compile("", Tide + Devices + Must.Replace("tide.", "", StringComparison.Ordinal));
        Assert.Equal("Take `notes` out of what tide.thru.out drops (line 22).", Told(rig, "must-fails").Advice);
        rig = Rigs.Compile("import \"shared/leads.rig\"\n" + Tide + Devices + Must.Replace("tide.", "", StringComparison.Ordinal));
        Assert.Equal("Take `notes` out of what thru.out drops (line 23).", Told(rig, "must-fails").Advice);
    }

    [Fact]
    public void A_line_of_the_checked_file_is_named_with_it_in_an_import()
    {
        var rig = Rigs.Compile("import \"shared/leads.rig\"\nimport \"tide.rig\"\nimport \"promises.rig\"\n" + Devices,
            ("tide.rig", Tide), ("promises.rig", "must notes from seq reach bass\n"));
        Assert.Equal("Take `notes` out of what thru.out drops (line 8 of example.rig).", Told(rig, "must-fails").Advice);
    }

    [Fact]
    public void The_cable_that_would_keep_a_never_is_named_with_its_file()
    {
        var devices = Devices.Replace("  out drops notes\n", "", StringComparison.Ordinal);
        var rig = Compile("never clock from tide.seq reach tide.bass\n", Tide.Replace("  filters any\n", "", StringComparison.Ordinal) + devices);
        Assert.StartsWith("Take out the cable in line 27 of tide.rig, tide.thru.out to tide.bass.midi", Told(rig, "never-fails").Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void A_jack_that_is_taken_says_by_which_line_of_which_file()
    {
        var rig = Compile("gear Box {\n  out o, o2 : midi on din-5\n  track t sends o\n}\ndevice box : Box {\n  t on channel 2\n}\ndevice pad : tide.Tern\nconnect box.o2 to pad.midi\nmust notes from box.t reach tide.bass\n", Tide + Devices);
        Assert.Contains("is taken (line 29 of tide.rig)", Told(rig, "must-fails").Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void An_answer_to_a_question_is_read_in_the_checked_file()
    {
        var (trace, _) = Tracer.Answer(Compile("", Tide + Devices).Rig, "why not notes from tide.seq to tide.bass");
        Assert.EndsWith("(line 22 of tide.rig).", trace!.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void A_promise_that_a_finding_breaks_is_named_with_its_file()
    {
        var rig = Compile("must notes from tide.seq.a reach tide.bass\n",
            Tide + Devices.Replace("out drops notes", "", StringComparison.Ordinal).Replace("to bass.midi", "to bass.mdi", StringComparison.Ordinal));
        var finding = Told(rig, "unknown-name");
        Assert.Equal("tide.rig", finding.Location.Source.Path);
        Assert.Contains("(line 3 of example.rig).", FindingText.Of(finding), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/rigs/a.rig", "/rigs/gear/tide.rig", "line 1 of gear/tide.rig")]
    [InlineData("/rigs/a.rig", "/gear/tide.rig", "line 1 of /gear/tide.rig")]
    [InlineData("a.rig", "tide.rig", "line 1 of tide.rig")]
    [InlineData("a.rig", "a.rig", "line 1")]
    public void A_file_is_named_as_seen_from_the_one_that_is_read(string reader, string file, string words) =>
        Assert.Equal(words, LineWords.Of(new Location(new SourceText(file, "x"), default), new SourceText(reader, "")));
}
