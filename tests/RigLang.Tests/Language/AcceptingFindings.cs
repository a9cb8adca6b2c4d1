using RigLang.Editing;
using RigLang.Formatting;
using RigLang.Symbols;
using RigLang.Tests.Editing;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>`accept CHECK on PLACE because "reason"`: what is read, and what is said of one that cannot be.</summary>
public class AcceptingFindings
{
    private const string Table = """
        gear Rook {
          out midi, aux : midi on din-5
          track a sends midi
        }
        device seq : Rook
        device box1, box2 : Rook

        """;

    private static AcceptSymbol Accept(string line)
    {
        var compilation = Rigs.Compile(Table + line);
        Assert.DoesNotContain(compilation.Findings, f => f.Check.Name is not ("unwired-device" or "accept-meets-nothing"));
        return Assert.Single(compilation.Rig.Names.Accepts);
    }

    private static Findings.Finding Fault(string line) =>
        Rigs.Compile(Table + line).Findings.Single(f => f.Check.Name != "unwired-device");

    [Fact]
    public void It_names_a_check_places_and_a_reason()
    {
        var accept = Accept("accept lead-too-long on seq.midi because \"short, and quiet in rehearsal\"");
        Assert.Equal("lead-too-long", accept.CheckName);
        Assert.Equal("short, and quiet in rehearsal", accept.Reason);
        Assert.Equal(["seq.midi"], accept.Targets.Select(t => t.Text));
    }

    [Theory]
    [InlineData("seq", "seq")]
    [InlineData("seq.midi, seq.aux", "seq.midi seq.aux")]
    [InlineData("box1..box2", "box1 box2")]
    [InlineData("box1.a, seq", "box1.a seq")]
    public void Places_are_devices_and_what_is_inside_them(string on, string targets) =>
        Assert.Equal(targets.Split(' '), Accept($"accept unwired-device on {on} because \"it is new\"").Targets.Select(t => t.Text));

    [Fact]
    public void A_range_of_ports_is_each_of_them()
    {
        var compilation = Rigs.Compile("""
            gear Desk {
              in ch1..ch4 : audio mono line on ts 6.35 mm
            }
            device desk : Desk
            accept level-mismatch on desk.ch2..ch4 because "they have pads"
            """);
        Assert.Equal(["desk.ch2", "desk.ch3", "desk.ch4"], compilation.Rig.Names.Accepts[0].Targets.Select(t => t.Text));
    }

    [Fact]
    public void A_check_that_is_spelled_wrong_is_told_with_the_right_name()
    {
        var fault = Fault("accept lead-to-long on seq because \"it is quiet\"");
        Assert.Equal(("unknown-name", "There is no check called `lead-to-long`."), (fault.Check.Name, fault.What));
        Assert.Contains("`lead-too-long`", fault.Advice, StringComparison.Ordinal);
        Assert.Equal("lead-too-long", fault.Fixes[0].Edits[0].NewText);
    }

    [Fact]
    public void A_check_that_shares_a_word_is_offered() =>
        Assert.Contains("ground-loop", Fault("accept ground-noise on seq because \"it is quiet\"").Advice, StringComparison.Ordinal);

    [Theory]
    [InlineData("accept unwired-device because \"new\"", "accepted everywhere, it would hide new mistakes")]
    [InlineData("accept unwired-device on seq", "`because`")]
    [InlineData("accept unwired-device on seq because", "in quotes")]
    [InlineData("accept", "the name of a check")]
    public void A_part_that_is_missing_is_asked_for(string line, string asked)
    {
        var fault = Fault(line);
        Assert.Equal("syntax-error", fault.Check.Name);
        Assert.Contains(asked, fault.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"\"")]
    [InlineData("\"  \"")]
    public void A_reason_that_says_nothing_is_none(string reason) =>
        Assert.Equal("incomplete-declaration", Fault($"accept unwired-device on seq because {reason}").Check.Name);

    [Theory]
    [InlineData("desk", "device")]
    [InlineData("seq.line", "port, part or track of Rook")]
    [InlineData("box1..box3", "device")]
    public void A_place_that_nothing_has_is_told_once(string on, string kind)
    {
        var fault = Fault($"accept unwired-device on {on} because \"new\"");
        Assert.Equal("unknown-name", fault.Check.Name);
        Assert.Contains($"There is no {kind} called", fault.What, StringComparison.Ordinal);
    }

    [Fact]
    public void The_word_is_a_name_anywhere_else() =>
        Assert.Equal("accept", Rigs.Compile("gear accept {\n  out because : midi on din-5\n}\ndevice like : accept").Rig.Names.Devices[0].Gear!.Name);

    [Fact]
    public void Lines_that_follow_each_other_share_their_columns() =>
        Assert.Equal(
            "accept unwired-device on seq      because \"new\"\naccept lead-too-long  on seq.midi because \"quiet\"\n",
            Formatter.Format(new SourceText("a.rig", "accept unwired-device on seq because \"new\"\naccept   lead-too-long on seq . midi because \"quiet\"\n")));

    [Fact]
    public void Checks_that_speak_now_are_suggested_first()
    {
        var labels = Completed.Labels(Table + "accept $0");
        Assert.Equal("unwired-device", labels[0]);
        Assert.Contains("ground-loop", labels);
    }

    [Fact]
    public void Then_the_places_and_the_reason()
    {
        Assert.Equal(["on"], Completed.Labels(Table + "accept unwired-device $0"));
        Assert.Equal(["seq", "box1", "box2"], Completed.Labels(Table + "accept unwired-device on $0"));
        Assert.Equal(["midi", "aux", "a"], Completed.Labels(Table + "accept unwired-device on seq.$0"));
        Assert.Equal(["because"], Completed.Labels(Table + "accept unwired-device on seq $0"));
    }

    [Fact]
    public void The_name_of_the_check_shows_its_page()
    {
        var caret = Caret.In(Table + "accept unwired-dev$0ice on seq because \"new\"");
        Assert.Contains("A device on the table that nothing is plugged into", HoverFinder.At(caret.View, caret.Offset, Completed.Metres)!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_is_renamed_there_too()
    {
        var caret = Caret.In(Table + "accept unwired-device on s$0eq because \"new\"");
        Assert.Equal("seq", caret.View.NameAt(caret.Offset)!.Of.Name);
    }

    [Theory]
    [InlineData("accept $0", "CHECK")]
    [InlineData("accept unwired-device on $0", "WHERE")]
    [InlineData("accept unwired-device on seq because $0", "REASON")]
    public void The_line_is_explained_while_it_is_typed(string text, string place)
    {
        var caret = Caret.In(text);
        var signature = SignatureFinder.At(caret.View, caret.Offset)!;
        Assert.Equal(place, signature.Label[signature.Parameters[signature.Active].Start..signature.Parameters[signature.Active].End]);
    }
}
