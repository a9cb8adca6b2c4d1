using RigLang.Checks;
using RigLang.Editing;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

public class MendingFindings
{
    [Fact]
    public void A_safe_fix_of_a_check_is_offered_first_and_preferred()
    {
        const string Text = "device bass : Mono$0Synth\n";
        var action = Acted.At(Text)[0];
        Assert.Equal(("Import \"shared/gear.rig\"", "quickfix", true), (action.Title, action.Kind, action.IsPreferred));
        Assert.Equal("import \"shared/gear.rig\"\ndevice bass : MonoSynth\n", Acted.After(Text, "Import"));
    }

    [Fact]
    public void A_fix_that_may_change_the_meaning_is_not_preferred()
    {
        const string Text = "gear Tern {\n  out line : audio mono line on ts 6.35 mm\n}\ndevice bass : Te$0nr\n";
        Assert.False(Acted.At(Text).Single(a => a.Title == "Change to Tern").IsPreferred);
    }

    [Fact]
    public void Away_from_the_finding_its_fix_is_not_offered() => Assert.Empty(Acted.At("device bass : MonoSynth\n\n$0\n"));

    public static TheoryData<string> Checks => [.. CheckList.All.Select(c => c.Name)];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_action_that_mends_a_finding_of_a_checks_own_example_takes_it_away(string name)
    {
        var check = CheckList.All.Single(c => c.Name == name);
        var view = Caret.ViewOf(check.BadExample);
        foreach (var finding in view.Compilation.Findings.Where(f => f.Location.Source == view.Source))
        {
            foreach (var action in ActionFinder.In(view, finding.Location.Span).Where(a => a.Mends == finding))
            {
                var after = Rigs.Compile(Acted.Apply(view.Source, action.Edits));
                Assert.DoesNotContain(name, after.Names());
            }
        }
    }

    [Fact]
    public void A_part_on_a_channel_of_another_moves_to_the_next_free_one()
    {
        const string Text = """
            gear Rook {
              out midi : midi on din-5
              track a, b sends midi
            }
            gear Tern {
              in  midi : midi on din-5
              out thru : midi on din-5
              route midi to thru
              part voice receives midi on channel any
            }
            device seq : Rook {
              a on channel 2
              b on channel 3
            }
            device bass : Tern {
              voice on channel 2
            }
            device lead : Tern {
              voi$0ce on channel 2
            }
            connect seq.midi  to bass.midi
            connect bass.thru to lead.midi

            """;
        var action = Acted.At(Text).Single(a => a.Mends?.Check.Name == "shared-channel" && !a.Title.StartsWith("Accept", StringComparison.Ordinal));
        Assert.Equal(("Move to channel 4, which is free", "quickfix"), (action.Title, action.Kind));
        Assert.Contains("device lead : Tern {\n  voice on channel 4\n", Acted.After(Text, "Move to channel"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_channel_number_can_be_moved_without_a_finding_within_what_the_gear_can_do()
    {
        const string Text = """
            gear Tern {
              in  midi : midi on din-5
              part voice receives midi on channel 1..4
            }
            device bass : Tern {
              voice on channel 4$0
            }

            """;
        Assert.Equal("refactor.rewrite", Acted.At(Text).Single(a => a.Title == "Move to channel 1, which is free").Kind);
    }

    [Fact]
    public void A_lead_with_too_few_plugs_is_replaced_by_one_that_fits()
    {
        const string Text = """
            import "shared/leads.rig"
            gear Wren {
              out phones : audio stereo headphone on trs 3.5 mm
            }
            gear Desk {
              in ch12 : audio stereo line on 2 ts 6.35 mm
            }
            device a : Wren
            device b : Desk
            connect a.phones to b.ch12 with Mini$0ToJack 1.5 m "P"

            """;
        Assert.Contains("with Breakout 1.5 m \"P\"", Acted.After(Text, "Use Breakout"), StringComparison.Ordinal);
    }

    [Fact]
    public void Where_no_single_lead_fits_a_lead_and_an_adapter_may()
    {
        const string Text = """
            lead Odd : ts 2.5 mm to ts 3.5 mm
            lead Coupler : socket ts 3.5 mm to rca
            gear Wren {
              out line : audio mono line on ts 2.5 mm
            }
            gear Desk {
              in ch1 : audio mono line on rca
            }
            device bass : Wren
            device desk : Desk
            connect bass.line to desk.c$0h1

            """;
        Assert.Contains("connect bass.line to desk.ch1 with Odd + Coupler", Acted.After(Text, "Use Odd and Coupler"), StringComparison.Ordinal);
    }

    [Fact]
    public void Gear_that_nobody_declares_gets_a_block_with_the_ports_in_use()
    {
        const string Text = """
            gear Rook {
              out midi : midi on din-5
              track a sends midi
            }
            gear Desk {
              in ch1 : audio mono line on ts 6.35 mm
            }
            device seq : Rook
            device desk : Desk
            device bass : Hoop$0oe
            connect seq.midi to bass.midi
            connect bass.line to desk.ch1

            """;
        Assert.EndsWith("""

            gear Hoopoe {
              in  midi : midi            on din-5
              out line : audio mono line on ts 6.35 mm
            }

            """, Acted.After(Text, "Declare the gear Hoopoe"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_block_of_unknown_gear_turns_round_what_differs_at_the_two_ends()
    {
        const string Text = """
            import "shared/gear.rig"
            import "shared/leads.rig"
            device laptop : Laptop
            device strip : MainsStrip
            device box : Hoop$0oe
            connect laptop.usb1 to box.usb
            connect strip.outlet1 to box.power

            """;
        var after = Acted.After(Text, "Declare the gear Hoopoe");
        Assert.Contains("usb device", after, StringComparison.Ordinal);
        Assert.Contains("on iec-c14", after, StringComparison.Ordinal);
        Assert.DoesNotContain("no-lead-fits", Rigs.Compile(after).Names());
    }

    [Fact]
    public void All_safe_fixes_are_made_at_once_and_a_fix_that_two_findings_share_is_made_once()
    {
        var view = Caret.ViewOf("device bass : MonoSynth\ndevice pads : PadController\ndevice thru : MidiThru\nconnect bass.line to thru.in with Patch\n");
        var after = Acted.Apply(view.Source, ActionFinder.FixAll(view));
        Assert.Equal(["import \"shared/gear.rig\"", "import \"shared/leads.rig\""], after.Split('\n')[..2].Order());
        Assert.DoesNotContain("unknown-name", Rigs.Compile(after).Names());
    }

    [Fact]
    public void Nothing_is_offered_in_a_file_of_the_library()
    {
        var view = RigView.AllOf(Rigs.Compile("import \"shared/leads.rig\"\n")).Single(v => v.Source.Path == "shared/leads.rig");
        Assert.Empty(ActionFinder.In(view, new TextSpan(0, view.Source.Length)));
    }
}
