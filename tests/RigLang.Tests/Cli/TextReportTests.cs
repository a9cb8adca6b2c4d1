using RigLang.Cli.Commands;
using RigLang.Cli.Output;
using RigLang.Findings;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class TextReportTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private string Report(string content, Compile compile, ColorChoice color = ColorChoice.Auto, FindingSort sort = FindingSort.Harm)
    {
        _stage.Put("trio.rig", content);
        return _stage.With(host => CheckCommand.Run(new(["trio.rig"], Color: color, Sort: sort), host, compile)).Out;
    }

    [Fact]
    public void A_finding_shows_its_place_its_line_what_why_and_what_to_do()
    {
        var text = Report("gear Tern {\n}\nconnect supply.out1 to bass.power\n", (root, _) =>
        {
            var finding = MadeUp.At(root, "supply.out1", what: "The supply gives 12 V; the synthesizer takes 9 V.") with
            {
                Why = "It can be destroyed the moment it is switched on, and nothing on stage will tell you beforehand, "
                    + "because a plug that fits looks like a plug that is right.",
                Related = [new(MadeUp.Place(root, "Tern"), "the synthesizer is described here")],
                Fixes = [new("use supply.out2", true, []), new("leave the cable out", false, [])],
            };
            return MadeUp.Rig(root, finding);
        });
        Assert.Equal(
            """
            trio.rig:3:9  error  plug-upside-down

                 3  connect supply.out1 to bass.power
                            ~~~~~~~~~~~
              What  The supply gives 12 V; the synthesizer takes 9 V.
              Why   It can be destroyed the moment it is switched on, and nothing on stage will tell you
                    beforehand, because a plug that fits looks like a plug that is right.
              Do    Turn it round.
              See   trio.rig:1:6  the synthesizer is described here
                 1  gear Tern {
                         ~~~~
              Fix   use supply.out2
              Fix   leave the cable out

            1 error in 1 file.

            """.ReplaceLineEndings("\n"),
            text);
    }

    [Fact]
    public void A_clean_rig_shows_what_was_verified_in_an_aligned_list()
    {
        var text = Report("", (root, _) => new()
        {
            Rig = MadeUp.NoRig,
            Files = [root],
            Facts = [new(22, "devices"), new(134, "connections"), new(0, "ground loops")],
        });
        Assert.Equal(
            """
            trio.rig holds:
               22  devices
              134  connections
                0  ground loops

            Nothing wrong found in 1 file.

            """.ReplaceLineEndings("\n"),
            text);
    }

    [Fact]
    public void Asked_for_places_findings_come_in_their_order_the_rig_before_its_imports()
    {
        var text = Report("one two", (root, _) =>
        {
            var gear = new SourceText("a-gear.rig", "zero");
            return new()
            {
                Rig = MadeUp.NoRig,
                Files = [root, gear],
                Findings = [MadeUp.At(gear, "zero"), MadeUp.At(root, "two", Severity.Hint), MadeUp.At(root, "one", Severity.Warning)],
            };
        }, sort: FindingSort.Place);
        Assert.Equal(
            ["trio.rig:1:1  warning  plug-upside-down", "trio.rig:1:5  hint  plug-upside-down", "a-gear.rig:1:1  error  plug-upside-down"],
            text.Split('\n').Where(l => l.Contains(".rig:", StringComparison.Ordinal)));
        Assert.EndsWith("1 error, 1 warning, 1 hint in 1 file.\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_can_hurt_people_comes_first_then_what_destroys_gear_then_what_is_silent_on_stage()
    {
        var text = Report("a b c d", (root, _) => MadeUp.Rig(
            root,
            MadeUp.At(root, "a", Severity.Hint) with { Harm = Harm.Rest },
            MadeUp.At(root, "b") with { Harm = Harm.Stage },
            MadeUp.At(root, "c") with { Harm = Harm.Gear },
            MadeUp.At(root, "d") with { Harm = Harm.People }));
        Assert.Equal(
            ["trio.rig:1:7", "trio.rig:1:5", "trio.rig:1:3", "trio.rig:1:1"],
            text.Split('\n').Where(l => l.StartsWith("trio.rig:", StringComparison.Ordinal)).Select(l => l.Split(' ')[0]));
        Assert.EndsWith(
            "Mend first: plug-upside-down at line 1, plug-upside-down at line 1, plug-upside-down at line 1.\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_finding_names_the_promises_that_fail_because_of_it() =>
        Assert.Contains(
            "  Do    Turn it round.\n  Fails must clock from drums to bass (line 2)\n",
            Report("plug\nmust", (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug") with
            {
                Breaks = [new(MadeUp.Place(root, "must"), "clock from drums to bass")],
            })),
            StringComparison.Ordinal);

    [Fact]
    public void The_caution_about_mains_stands_once_at_the_end()
    {
        foreach (var name in (string[])["earth-missing", "circuit-overloaded", "ground-loop"])
        {
            _stage.Put($"{name}.rig", RigLang.Checks.CheckList.Find(name)!.BadExample);
        }
        var text = _stage.Rig("check", ".").Out;
        Assert.Equal(2, text.Split("  Care  A protective earth stays connected").Length);
    }

    [Fact]
    public void A_mark_over_several_lines_says_where_it_ends()
        => Assert.Contains(
            "     1  gear {\n        ~~~~~~ … to line 3\n",
            Report("gear {\n\n}", (root, _) => MadeUp.Rig(root, MadeUp.At(root, "gear {\n\n}"))),
            StringComparison.Ordinal);

    [Fact]
    public void Nothing_a_file_says_reaches_the_terminal_as_a_control_character()
    {
        var text = Report("a \e[2J plug", (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", what: "It is \e[2J\u202E\u0007.") with
        {
            Related = [new(new(new SourceText("\e.rig", "\e"), new(0, 1)), "\e")],
            Fixes = [new("\e", true, [])],
        }));
        Assert.DoesNotContain(text, c => char.IsControl(c) && c != '\n');
        Assert.DoesNotContain('\u202E', text);
    }

    [Fact]
    public void Colour_is_only_added_the_words_stay()
    {
        Compile compile = (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug"));
        var plain = Report("plug", compile, ColorChoice.Never);
        var colored = Report("plug", compile, ColorChoice.Always);
        Assert.DoesNotContain('\e', plain);
        Assert.Contains("\e[1;31merror\e[0m", colored, StringComparison.Ordinal);
        Assert.Equal(plain, System.Text.RegularExpressions.Regex.Replace(colored, "\e\\[[0-9;]*m", ""));
    }

    [Theory]
    [InlineData(0, null, null, false)]
    [InlineData(80, null, null, true)]
    [InlineData(80, "1", null, false)]
    [InlineData(80, "", null, true)]
    [InlineData(80, null, "dumb", false)]
    public void Without_a_choice_there_is_colour_on_a_terminal_that_wants_it(int width, string? noColor, string? term, bool colored)
    {
        _stage.TerminalWidth = width;
        if (noColor is not null)
        {
            _stage.Variables["NO_COLOR"] = noColor;
        }
        if (term is not null)
        {
            _stage.Variables["TERM"] = term;
        }
        Assert.Equal(colored, Report("plug", (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug"))).Contains('\e'));
    }

    [Theory]
    [InlineData(60)]
    [InlineData(100)]
    public void No_line_is_wider_than_the_terminal(int width)
    {
        _stage.TerminalWidth = width;
        var text = Report(
            string.Concat(Enumerable.Repeat("plug ", 100)),
            (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", what: string.Concat(Enumerable.Repeat("低音 word ", 40)) + new string('w', 300))),
            ColorChoice.Never);
        Assert.All(text.Split('\n'), line => Assert.InRange(Cells.WidthOf(line), 0, width + 1));
    }
}
