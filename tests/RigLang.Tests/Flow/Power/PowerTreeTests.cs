using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>The power from the wall to the loads: who hangs on whom, and what each takes.</summary>
public class PowerTreeTests
{
    private const string Gear = """
        gear Wall {
          out socket1, socket2 : mains earthed on mains
        }
        gear Strip {
          in  plug             : mains earthed on captive mains
          out outlet1..outlet8 : mains earthed on mains
          join plug to outlet1..outlet8
        }
        gear Brick {
          in  plug : mains 230 V double-insulated on captive mains
          out out  : dc 9 V centre-negative, 1 A on captive barrel 5.5x2.1 mm
        }
        gear Chain {
          in  in         : dc on barrel 5.5x2.1 mm
          out out1..out5 : dc on captive barrel 5.5x2.1 mm
          join in to out1..out5
        }
        gear Small {
          in power : dc 9 V centre-negative, 100 mA on barrel 5.5x2.1 mm
        }
        gear Middle {
          in power : dc 9 V centre-negative, 250 mA on barrel 5.5x2.1 mm
        }
        gear Large {
          in power : dc 9 V centre-negative, 320 mA on barrel 5.5x2.1 mm
        }
        gear Greedy {
          in power : dc 9 V centre-negative, 400 mA on barrel 5.5x2.1 mm
        }
        gear Mystery {
          in power : dc 9 V centre-negative on barrel 5.5x2.1 mm
        }

        """;

    private const string Three = Gear + """
        device wall  : Wall
        device strip : Strip
        device brick : Brick
        device chain : Chain
        device a     : Small
        device b     : Middle
        device c     : Large
        connect wall.socket1 to strip.plug
        connect strip.outlet3 to brick.plug
        connect brick.out to chain.in
        connect chain.out1 to a.power
        connect chain.out2 to b.power
        connect chain.out4 to c.power
        """;

    private static PowerNode Node(Compilation compilation, string device) => compilation.Rig.Power.Nodes.Single(n => n.Device.Name == device);

    [Fact]
    public void The_tree_goes_from_the_wall_over_strip_supply_and_chain_to_the_loads() =>
        Assert.Equal(["0 wall", "1 strip", "2 brick", "3 chain", "4 a", "4 b", "4 c"],
            Rigs.Compile(Three).Rig.Power.Nodes.Select(n => $"{n.Depth} {n.Device.Name}"));

    [Fact]
    public void Three_loads_on_a_chain_add_up_and_leave_a_third()
    {
        var compilation = Rigs.Compile(Three);
        Assert.Empty(compilation.Found());
        var chain = Node(compilation, "chain");
        Assert.Equal(0.67, chain.Takes.Value, 1e-9);
        Assert.Equal(0.33, chain.Spare!.Value, 1e-9);
        Assert.False(chain.Takes.IsLeast);
        Assert.Equal(["a", "b", "c"], chain.Loads.Select(l => l.Device.Name));
    }

    [Fact]
    public void A_fourth_load_is_70_mA_too_much()
    {
        var compilation = Rigs.Compile(Three + "\ndevice d : Greedy\nconnect chain.out5 to d.power\n");
        var finding = Assert.Single(compilation.Findings);
        Assert.Equal("supply-overloaded", finding.Check.Name);
        Assert.Equal("brick.out gives 1 A, but a, b, c and d together take 1.07 A: 70 mA too much.", finding.What);
    }

    [Fact]
    public void A_load_that_does_not_say_what_it_takes_makes_the_sum_a_least()
    {
        var chain = Node(Rigs.Compile(Three + "\ndevice d : Mystery\nconnect chain.out5 to d.power\n"), "chain");
        Assert.Equal(new Draw(0.67, true), chain.Takes with { Value = Math.Round(chain.Takes.Value, 9) });
    }

    [Fact]
    public void A_supply_that_does_not_say_what_it_takes_takes_at_least_what_it_gives() =>
        Assert.Equal(0.67 * 9 / 0.6, Node(Rigs.Compile(Three), "brick").Takes.Value, 1e-9);

    [Theory]
    [InlineData("150 W", 250)]
    [InlineData("150 VA", 150)]
    [InlineData("500 mA", 115)]
    public void Mains_gear_counts_in_volt_amperes(string takes, double voltAmperes) =>
        Assert.Equal(voltAmperes, Node(Rigs.Compile($$"""
            rig "Yard" {
              mains 230 V 50 Hz
            }
            gear Wall {
              out socket : mains earthed on mains
            }
            gear Amplifier {
              in power : mains 230 V earthed, {{takes}} on captive mains
            }
            device wall : Wall
            device amp  : Amplifier
            connect wall.socket to amp.power
            """), "amp").Takes.Value, 1e-9);

    [Theory]
    [InlineData(90, 90, 90, "")]
    [InlineData(90, 150, 0, "usb-port-overloaded")]
    public void A_hub_on_the_bus_has_a_limit_for_each_port(int first, int second, int third, string found)
    {
        int[] takes = [first, second, third];
        var compilation = Rigs.Compile("import \"shared/gear.rig\"\nimport \"shared/leads.rig\"\n"
            + "device laptop : Laptop {\n  runs on battery\n}\ndevice hub : UsbHubBusPowered\nconnect laptop.usb1 to hub.up\n"
            + string.Concat(takes.Select((t, i) => t == 0 ? "" : $"gear Box{i} {{\n  in usb : usb device 5 V {t} mA on usb-b\n}}\ndevice box{i} : Box{i}\nconnect hub.port{i + 1} to box{i}.usb\n")));
        Assert.Equal(found, string.Join(",", compilation.Names()));
    }

    [Fact]
    public void A_USB_device_with_a_supply_of_its_own_takes_nothing_from_the_bus()
    {
        var compilation = Rigs.Compile("""
            import "shared/gear.rig"
            device laptop : Laptop {
              runs on battery
            }
            gear Adapter {
              out out : dc 9 V centre-positive, 1 A on captive barrel 5.5x2.1 mm
            }
            device nine : Adapter
            device keys : Keyboard
            connect laptop.usb1 to keys.usb
            connect nine.out to keys.power
            """);
        Assert.Equal([0.2, 0], compilation.Rig.Power.Nodes.Where(n => n.Device.Name == "keys").OrderByDescending(n => n.Takes.Value).Select(n => n.Takes.Value));
    }

    [Theory]
    [InlineData("dc 9 V centre-positive", "barrel 5.5x2.1 mm", "centre to centre\n  outer to outer", "24 awg", "2 m", "500 mA", 0.1684, 0)]
    [InlineData("usb charger 5 V", "usb-a", "vbus to vbus\n  gnd to gnd", "28 awg", "1.8 m", "500 mA", 0.3833, 0)]
    [InlineData("usb charger 5 V", "usb-a", "vbus to vbus\n  gnd to gnd", "28 awg", "3 m", "500 mA", 0.6387, 1)]
    public void The_voltage_at_the_load_is_lower_by_the_drop_of_its_lead(
        string supply, string connector, string wires, string gauge, string length, string current, double drop, int warnings)
    {
        var load = supply.StartsWith("usb", StringComparison.Ordinal) ? "usb device 5 V" : supply;
        var compilation = Rigs.Compile($$"""
            gear Source {
              out out : {{supply}}, 2 A on {{connector}}
            }
            gear Box {
              in power : {{load}}, {{current}} on {{connector}}
            }
            lead Thin : {{connector}} to {{connector}} {
              {{wires}}
              gauge {{gauge}}
            }
            device source : Source
            device box    : Box
            connect source.out to box.power with Thin {{length}}
            """);
        Assert.Equal(drop, Node(compilation, "box").Drop.Value, 0.0001);
        Assert.Equal(warnings, compilation.Names().Count(n => n == "voltage-drop"));
        Assert.Equal(warnings, compilation.Findings.Length);
    }

    [Theory]
    [InlineData("20 Ah", 5, "")]
    [InlineData("20 Ah", 6, "battery-short")]
    [InlineData("74 Wh", 5, "")]
    [InlineData("5 h", 6, "battery-short")]
    public void A_power_bank_lasts_by_the_voltage_of_its_cells(string battery, int hours, string found)
    {
        var compilation = Rigs.Compile($$"""
            rig "Long" {
              set {{hours}} h
            }
            gear Bank {
              in  charge : dc 5 V, 2 A             on usb-c
              out out    : usb charger 5 V 3 A on usb-a
              battery {{battery}}
            }
            gear Lamp {
              in usb : usb device 5 V 2.4 A on captive usb-a
            }
            device bank : Bank {
              runs on battery
            }
            device lamp : Lamp
            connect bank.out to lamp.usb
            """);
        Assert.Equal(found, string.Join(",", compilation.Names()));
        Assert.Equal(battery == "5 h" ? 5 : 5.24, compilation.Rig.Batteries().Single().Lasts!.Value.Value / 3600, 0.005);
    }

    [Theory]
    [InlineData("4 h", "circuit-overloaded Error")]
    [InlineData("2 h", "circuit-overloaded Warning")]
    public void A_fifteen_ampere_circuit_with_1500_VA_is_an_error_for_a_long_set_and_a_warning_for_a_short_one(string set, string found)
    {
        var compilation = Rigs.Compile($$"""
            rig "Yard" {
              mains 120 V 60 Hz 15 A
              set {{set}}
            }
            gear Wall {
              out socket : mains earthed on mains
            }
            gear Amplifier {
              in power : mains 120 V earthed, 1500 VA on captive mains
            }
            device wall : Wall
            device amp  : Amplifier
            connect wall.socket to amp.power
            """);
        var finding = Assert.Single(compilation.Findings);
        Assert.Equal(found, $"{finding.Check.Name} {finding.Severity}");
        Assert.Contains("follows local code", finding.Check.Caution, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("5 V", "4.0x1.7", "")]
    [InlineData("9 V", "4.0x1.7", "A barrel 4.0x1.7 mm plug is class 02, for 3.15 V to 6.3 V; Tern.power has 9 V, which is class 03 (4.75x1.7 mm).")]
    [InlineData("12 V", "4.0x1.7", "A barrel 4.0x1.7 mm plug is class 02, for 3.15 V to 6.3 V; Tern.power has 12 V, which is class 04 (5.5x3.3 mm).")]
    [InlineData("9 V", "4.75x1.7", "")]
    [InlineData("12 V", "4.75x1.7", "A barrel 4.75x1.7 mm plug is class 03, for 6.3 V to 10.5 V; Tern.power has 12 V, which is class 04 (5.5x3.3 mm).")]
    [InlineData("12 V", "5.5x3.3", "")]
    [InlineData("9 V", "5.5x2.1", "")]
    public void A_standard_barrel_stands_for_a_range_of_voltages_and_other_barrels_for_none(string volts, string barrel, string said)
    {
        var compilation = Rigs.Compile($$"""
            gear Tern {
              in power : dc {{volts}} centre-positive, 250 mA on barrel {{barrel}} mm
            }
            """);
        Assert.Equal(said, string.Join("; ", compilation.Findings.Select(f => f.What)));
        Assert.All(compilation.Findings, f => Assert.Equal("barrel-voltage-class", f.Check.Name));
    }

    [Theory]
    [InlineData("in line : audio mono line on ts 6.35 mm", "box")]
    [InlineData("in line : audio mono line on ts 6.35 mm\n  out link : audio mono line on ts 6.35 mm", "box")]
    [InlineData("in line : audio mono line on ts 6.35 mm\n  out speaker : audio mono speaker on ts 6.35 mm\n  out link : audio mono line on ts 6.35 mm", "box")]
    [InlineData("in line : audio mono line on ts 6.35 mm\n  out phones : audio stereo headphone on trs 6.35 mm", "")]
    [InlineData("in line : audio mono line on ts 6.35 mm\n  out main, monitor : audio mono line on ts 6.35 mm", "")]
    public void Amplifiers_and_active_speakers_are_switched_on_last_and_desks_are_not(string ports, string last)
    {
        var rig = Rigs.Compile($$"""
            gear Wall {
              out socket1, socket2 : mains earthed on mains
            }
            gear Tern {
              out line : audio mono line on ts 6.35 mm
            }
            gear Box {
              in power : mains earthed, 40 W on captive mains
              {{ports}}
            }
            device wall : Wall
            device tern : Tern
            device box  : Box
            connect wall.socket1 to box.power
            connect tern.line to box.line
            """).Rig;
        Assert.Equal(last, string.Join(",", rig.LastOn().Select(d => d.Name)));
    }

    [Fact]
    public void Supplies_that_feed_each_other_in_a_ring_are_all_there()
    {
        var compilation = Rigs.Compile("""
            gear Bank {
              in  charge : dc 5 V, 2 A         on usb-c
              out out    : usb charger 5 V 2 A on usb-a
              battery 5 h
            }
            lead AC : usb-a to usb-c
            device one : Bank
            device two : Bank
            connect one.out to two.charge with AC 1 m
            connect two.out to one.charge with AC 1 m
            """);
        Assert.Equal(["one", "two"], compilation.Rig.Power.Nodes.Select(n => n.Device.Name).Order());
    }

    [Fact]
    public void A_battery_that_begins_the_trees_of_two_rings_is_told_of_once()
    {
        var compilation = Rigs.Compile("""
            rig "Rings" {
              set 3 h
            }
            gear Bank {
              in  charge1, charge2 : dc 5 V, 2 A         on usb-c
              out out1, out2       : usb charger 5 V 2 A on usb-a
              battery 5 h
            }
            lead AC : usb-a to usb-c
            device one : Bank {
              runs on battery
            }
            device two   : Bank
            device three : Bank
            device four  : Bank
            connect one.out1 to two.charge1 with AC 1 m
            connect two.out1 to one.charge1 with AC 1 m
            connect three.out1 to four.charge1 with AC 1 m
            connect four.out1 to three.charge1 with AC 1 m
            connect three.out2 to one.charge2 with AC 1 m
            """);
        Assert.Equal(2, compilation.Rig.Power.Roots.Count(n => n.Device.Name == "one"));
        Assert.Equal(["one"], compilation.Rig.Batteries().Select(b => b.Device.Name));
    }

    [Fact]
    public void Ten_thousand_boxes_each_behind_the_other_are_summed()
    {
        // Nothing may go down the tree by recursion.
        var text = new System.Text.StringBuilder("""
            gear Relay {
              in  power : dc 9 V           on usb-c
              out out   : dc 9 V           on captive usb-c
            }
            gear Lamp {
              in power : dc 9 V, 50 mA on usb-c
            }
            gear Source {
              out out : dc 9 V, 1 A on captive usb-c
            }
            device r0 : Source

            """);
        for (var i = 0; i < 10_000; i++)
        {
            text.Append($"device r{i + 1} : Relay\nconnect r{i}.out to r{i + 1}.power\n");
        }
        var compilation = Rigs.Compile(text.Append("device lamp : Lamp\nconnect r10000.out to lamp.power\n").ToString());
        Assert.Equal(10_001, Node(compilation, "lamp").Depth);
        Assert.Equal(new Draw(0.05, true), Node(compilation, "r1").Takes);
    }
}
