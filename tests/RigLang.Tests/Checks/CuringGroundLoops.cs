using System.Text;
using RigLang.Findings;
using RigLang.Tests.Examples;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>What the ground-loop check offers mends the rig, all of it at once.</summary>
public class CuringGroundLoops
{
    private const string Twin = "examples/mistakes/lath-shed.rig";

    /// <summary>An earthed laptop whose battery lasts the set, and what hangs on its USB.</summary>
    private const string PortableAndSynth = """
        import "shared/leads.rig"
        import "shared/gear.rig"

        rig "R" {
          mains 230 V 50 Hz
          set   1 h
        }
        gear Portable {
          in  power : mains 230 V earthed, 60 W on iec-c14
          out usb   : usb host 5 V 900 mA       on usb-a
          track software sends usb
          battery 3 h
        }
        gear Synth {
          in  usb  : usb device      on usb-b
          out line : audio mono line on ts 6.35 mm
          part voice receives usb on channel any, sounds at line
          battery 9 h
        }

        """;

    [Fact]
    public void Three_hums_at_once_are_cured_by_the_edits_that_the_findings_offer()
    {
        var before = Shipped.Compile(Twin);
        Assert.Equal(3, before.Findings.Length);
        var cured = Cured(before);
        Assert.True(cured.Findings.IsEmpty, cured.Told());
        Assert.DoesNotContain(cured.Rig.Ground.Loops, l => l.IsHeard);
    }

    [Fact]
    public void The_cure_of_the_three_is_one_supply_and_two_isolators()
    {
        var loops = Shipped.Compile(Twin).Rig.Ground;
        Assert.True(loops.IsProven);
        Assert.Equal(
            ["chain.out2 to surf.power", "surf.out to desk.line1", "rack.line to desk.line2"],
            loops.Cure.Select(c => c.Bundle.Links[0].Text));
    }

    [Fact]
    public void Between_an_earthed_computer_and_an_earthed_desk_a_USB_isolator_goes_into_the_cable()
    {
        var before = Rigs.Compile("""
            import "shared/leads.rig"
            import "shared/gear.rig"

            rig "R" {
              mains 230 V 50 Hz
            }
            gear Desk {
              in power : mains 230 V earthed, 40 W on iec-c14
              in usb   : usb device                on usb-b
            }
            device wall : WallSocket
            device computer : Computer
            device desk : Desk
            connect wall.socket1 to computer.power
            connect wall.socket2 to desk.power
            connect computer.usb1 to desk.usb with UsbAB 1 m
            """);
        Assert.Equal(["ground-loop"], before.Names());
        var cured = Cured(before);
        Assert.True(cured.Findings.IsEmpty, cured.Told());
        Assert.Contains(cured.Rig.Names.Devices, d => d.Gear!.Name == "UsbIsolator");
    }

    [Theory]
    [InlineData("device laptop : Portable")]
    [InlineData("device laptop : Portable {\n  software on channel 1\n}")]
    [InlineData("device laptop : Portable { // hers\n  software on channel 1\n}")]
    [InlineData("device laptop : Portable { software on channel 1 }")]
    public void An_earthed_laptop_whose_battery_lasts_the_set_is_unplugged_and_its_cable_becomes_a_comment(string laptop)
    {
        var before = Rigs.Compile(PortableAndSynth + $$"""
            device wall : WallSocket
            device desk : SmallMixer
            {{laptop}}
            device synth : Synth {
              runs on battery
            }
            connect wall.socket1 to desk.power
            connect wall.socket2 to laptop.power with MainsLead 2 m
            connect laptop.usb to synth.usb
            connect synth.line to desk.line1
            """);
        Assert.Equal(["ground-loop"], before.Names());
        var cured = Cured(before);
        Assert.True(cured.Findings.IsEmpty, cured.Told());
        Assert.True(cured.Rig.Names.DevicesByName["laptop"].OnBattery);
        Assert.Contains("// connect wall.socket2 to laptop.power with MainsLead 2 m", cured.Rig.Names.Files[0].Source.Content, StringComparison.Ordinal);
    }

    [Fact]
    public void A_box_is_declared_behind_the_last_device_of_the_file_and_its_leads_are_chosen_where_the_old_one_does_not_fit()
    {
        var cured = Cured(Rigs.Compile("""
            import "shared/leads.rig"
            import "shared/gear.rig"

            rig "R" {
              mains 230 V 50 Hz
            }
            gear Rack {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono line           on ts 3.5 mm
            }
            gear Desk {
              in power : mains 230 V earthed, 40 W on iec-c14
              in line  : audio mono line           on rca
            }
            lead Odd : ts 3.5 mm to rca
            device wall : WallSocket
            device rack : Rack
            device desk : Desk {
            }

            connect wall.socket1 to rack.power
            connect wall.socket2 to desk.power
            connect rack.line to desk.line with Odd 3 m red "A"
            """));
        Assert.Contains("device desk : Desk {\n}\ndevice isolator : LineIsolator\n\nconnect wall", cured.Files[0].Content, StringComparison.Ordinal);
        Assert.Contains("connect rack.line to isolator.in.left with 3 m red \"A\"\nconnect isolator.out.left to desk.line", cured.Files[0].Content, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_box_behind_a_device_and_the_battery_of_that_device_do_not_get_into_each_others_way(bool isLastFirst)
    {
        var before = Rigs.Compile(PortableAndSynth + """
            gear Rack {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono line           on ts 6.35 mm
            }
            device wall : WallSocket
            device strip : MainsStrip
            device desk : SmallMixer
            device rack : Rack
            device synth : Synth {
              runs on battery
            }
            device laptop : Portable
            connect wall.socket1 to strip.plug
            connect strip.outlet1 to desk.power
            connect strip.outlet2 to rack.power
            connect wall.socket2 to laptop.power with MainsLead 2 m
            connect laptop.usb to synth.usb
            connect synth.line to desk.line1
            connect rack.line to desk.line2
            """);
        Assert.Equal(["ground-loop", "ground-loop"], before.Names());
        var cured = Cured(before, isLastFirst);
        Assert.True(cured.Findings.IsEmpty, cured.Told());
        Assert.True(cured.Rig.Names.DevicesByName["laptop"].OnBattery);
        Assert.Contains(cured.Rig.Names.Devices, d => d.Gear!.Name == "LineIsolator");
    }

    [Fact]
    public void Each_of_several_fixes_brings_the_import_that_it_needs()
    {
        var before = Rigs.Compile("""
            import "shared/leads.rig"
            gear Wall {
              out s1, s2, s3 : mains 230 V earthed on mains
            }
            gear Desk {
              in power    : mains 230 V earthed, 40 W on iec-c14
              in ch1, ch2 : audio mono line           on ts 6.35 mm
            }
            gear Rack {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono line           on ts 6.35 mm
            }
            device wall : Wall
            device desk : Desk
            device one  : Rack
            device two  : Rack
            connect wall.s1  to desk.power
            connect wall.s2  to one.power
            connect wall.s3  to two.power
            connect one.line to desk.ch1
            connect two.line to desk.ch2
            """);
        Assert.Equal(2, before.Findings.Length);
        Assert.All(before.Findings, finding => Assert.Single(With(Assert.Single(finding.Fixes).Edits).Findings));
        Assert.Empty(Cured(before).Findings);
    }

    /// <summary>The rig with every first fix applied.</summary>
    private static Compilation Cured(Compilation before, bool isLastFirst = false)
    {
        var findings = isLastFirst ? before.Findings.Reverse() : before.Findings;
        return With(findings.SelectMany(f => Assert.Single(f.Fixes).Edits));
    }

    /// <summary>The rig with these edits; an import that several bring counts once.</summary>
    private static Compilation With(IEnumerable<TextEdit> fixes)
    {
        var edits = fixes.Distinct().ToList();
        var source = Assert.Single(edits.Select(e => e.Source).Distinct());
        var text = new StringBuilder();
        var end = 0;
        foreach (var edit in edits.OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End))
        {
            text.Append(source.Content, end, edit.Span.Start - end).Append(edit.NewText);
            end = edit.Span.End;
        }
        text.Append(source.Content, end, source.Length - end);
        return Compilation.Create(new SourceText(source.Path, text.ToString()), _ => new OpenedFile(null, "only the library is imported"));
    }
}
