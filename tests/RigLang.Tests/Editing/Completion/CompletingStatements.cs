using RigLang.Editing;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Editing;

public class CompletingStatements
{
    private const string Stage = """
        gear Rook {
          out midi : midi on din-5
          out line : audio mono line on ts 6.35 mm
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          in  tape : audio mono line on ts 6.35 mm
          part voice receives midi on channel any
        }
        device seq  : Rook
        device bass : Tern

        """;

    [Theory]
    [InlineData("$0")]
    [InlineData("con$0")]
    public void The_start_of_a_line_has_every_statement_as_a_word_and_as_a_snippet(string line)
    {
        var all = Completed.At(Stage + line);
        Assert.Equal(["connect", "device", "must", "never", "gear", "lead", "stock", "import", "rig", "accept"], all.Where(s => !s.IsSnippet).Select(s => s.Label));
        Assert.Equal(10, all.Count(s => s.IsSnippet));
    }

    [Fact]
    public void Every_snippet_of_a_statement_can_be_read_as_it_stands()
    {
        foreach (var snippet in Completed.At("$0").Where(s => s.IsSnippet))
        {
            Assert.DoesNotContain("syntax-error", Rigs.Compile(Filled(snippet.Insert) + "\n").Names());
        }
    }

    [Theory]
    [InlineData("gear Odd {\n  $0\n}")]
    [InlineData("rig \"Odd\" {\n  $0\n}")]
    [InlineData("lead Odd : ts 3.5 mm to ts 3.5 mm {\n  $0\n}")]
    public void Every_snippet_of_a_line_in_a_block_can_be_read_as_it_stands(string block)
    {
        var snippets = Completed.At(block).Where(s => s.IsSnippet).ToList();
        Assert.NotEmpty(snippets);
        foreach (var snippet in snippets)
        {
            Assert.DoesNotContain("syntax-error", Rigs.Compile(block.Replace("$0", Filled(snippet.Insert), StringComparison.Ordinal) + "\n").Names());
        }
    }

    [Fact]
    public void Imports_name_the_files_beside_then_the_library_and_last_what_is_there_already() =>
        Assert.Equal(["our-gear.rig", "shared/gear.rig", "shared/leads.rig"],
            Completed.At("import \"shared/leads.rig\"\nimport \"$0", "our-gear.rig").Select(s => s.Label));

    [Fact]
    public void An_import_without_quotes_gets_them() =>
        Assert.Equal("import \"shared/leads.rig\"", Completed.Taken("import sh$0", "shared/leads.rig"));

    [Fact]
    public void An_open_quote_is_closed() => Assert.Equal("import \"shared/leads.rig\"", Completed.Taken("import \"sh$0", "shared/leads.rig"));

    [Theory]
    [InlineData("rig \"A\" {\n  tempo 112 $0\n}", "bpm")]
    [InlineData("rig \"A\" {\n  set 75 $0\n}", "min h s")]
    [InlineData("rig \"A\" {\n  mains 230 $0\n}", "V Hz A")]
    [InlineData("gear A {\n  in power : dc 9 $0\n}", "V mV kV A mA")]
    [InlineData("gear A {\n  in sync : pulse 2 $0\n}", "ppqn V mV kV")]
    [InlineData("device a : B at (0.5 $0", "m cm ft inch")]
    [InlineData("lead A : ts 3.5 mm to ts 3.5 mm {\n  gauge 24 $0\n}", "awg")]
    public void Units_are_of_what_is_measured(string text, string units) => Assert.Equal(units.Split(' '), Completed.Labels(text));

    [Fact]
    public void Behind_must_stand_audio_power_and_the_messages()
    {
        var words = Completed.Labels(Stage + "must $0");
        Assert.Contains("audio", words);
        Assert.Contains("program change", words);
    }

    [Theory]
    [InlineData("must program $0", "change")]
    [InlineData("must clock $0", "from")]
    [InlineData("must clock from seq $0", "reach")]
    [InlineData("must audio from seq reach bass $0", "in stereo")]
    [InlineData("must audio from seq reach bass in $0", "stereo")]
    [InlineData("must notes from seq reach bass within 5 $0", "ms")]
    public void An_expectation_goes_on_with_the_word_that_may_follow(string line, string word) => Assert.Equal(word, Completed.Labels(Stage + line)[0]);

    [Fact]
    public void Behind_from_stand_devices_that_can_send_it_first() =>
        Assert.Equal(["seq", "bass"], Completed.Labels(Stage + "must notes from $0"));

    [Fact]
    public void A_source_of_messages_has_its_tracks_first_and_no_audio() =>
        Assert.Equal(["a", "midi"], Completed.Labels(Stage + "must notes from seq.$0"));

    [Fact]
    public void A_target_of_messages_has_its_parts_first() =>
        Assert.Equal(["voice", "midi"], Completed.Labels(Stage + "must notes from seq.a reach bass.$0"));

    [Fact]
    public void A_target_of_audio_has_its_audio_inputs() =>
        Assert.Equal(["tape"], Completed.Labels(Stage + "must audio from seq reach bass.$0"));

    [Fact]
    public void Behind_the_colon_of_a_port_stand_the_signals() =>
        Assert.Equal(GearSuggestions.Signals.Keys, Completed.Labels("gear A {\n  in x : $0\n}"));

    [Fact]
    public void Every_word_of_every_signal_is_understood_by_the_compiler()
    {
        foreach (var (signal, (_, words, _)) in GearSuggestions.Signals)
        {
            foreach (var word in words)
            {
                // What a wiper or a scale is of comes first.
                var of = word switch
                {
                    "wiper" or "tip" or "ring" => "expression ",
                    "normally" or "open" or "closed" => "switch ",
                    "volt-per-octave" or "hertz-per-volt" => "pitch ",
                    "inverted" => "gate ",
                    _ => "",
                };
                Assert.DoesNotContain("unknown-word", Rigs.Compile($"gear A {{\n  in x : {signal} {of}{word} on usb-c\n}}\n").Names());
            }
        }
    }

    [Fact]
    public void Only_connectors_that_can_carry_the_signal_are_named()
    {
        var forms = Completed.Labels("gear A {\n  in x : midi on $0\n}");
        Assert.Contains("din-5", forms);
        Assert.DoesNotContain("rca", forms);
    }

    [Fact]
    public void A_stereo_signal_may_be_on_a_pair() =>
        Assert.Contains("2 ts 6.35 mm", Completed.Labels("gear A {\n  in x : audio stereo line on $0\n}"));

    [Fact]
    public void Lines_of_a_gear_name_its_own_ports() =>
        Assert.Equal(["midi"], Completed.Labels("gear A {\n  in midi : midi on din-5\n  out thru : midi on din-5\n  route $0\n}"));

    [Fact]
    public void A_wire_joins_contacts_of_the_first_plug_to_those_of_the_second()
    {
        const string Lead = "lead A : trs 3.5 mm to ts 6.35 mm left, ts 6.35 mm right {\n  ";
        Assert.Equal(["tip", "ring", "sleeve", "longest", "gauge"], Completed.Labels(Lead + "$0\n}"));
        Assert.Equal(["left", "right"], Completed.Labels(Lead + "tip to $0\n}"));
        Assert.Equal(["tip", "sleeve"], Completed.Labels(Lead + "tip to left.$0\n}"));
    }

    [Theory]
    [InlineData("connect $0", "seq", "Rook")]
    [InlineData("device x : $0", "Tern", "tape")]
    [InlineData("connect seq.$0", "line", "audio")]
    [InlineData("con$0", "connect", "connect bass.line to desk.ch1")]
    public void A_suggestion_tells_more_when_it_is_asked(string line, string label, string says)
    {
        var caret = Caret.In(Stage + line);
        var key = Completed.Find(Stage + line, label).Key;
        Assert.Contains(says, CompletionFinder.Documentation(caret.View, key!, Completed.Metres), StringComparison.Ordinal);
    }

    [Fact]
    public void A_key_that_is_not_known_has_nothing_to_tell() =>
        Assert.Null(CompletionFinder.Documentation(Caret.ViewOf(Stage), "port\nnobody\nnothing", Completed.Metres));

    /// <summary>A snippet as it stands when every placeholder is left as it is.</summary>
    private static string Filled(string snippet) =>
        System.Text.RegularExpressions.Regex.Replace(snippet, @"\$\{\d+:([^}]*)\}|\$\d+", "$1");
}
