using System.Text;
using CsCheck;
using RigLang.Findings;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>Whatever hums in a random small rig, the offered edits, all at once or one after the other, cure it and break nothing.</summary>
public class CuringRandomRigs
{
    private static readonly string[] Gears = ["Rack", "Pedal", "Laptop", "Synth", "Desk", "Interface"];

    private const string Declarations = """
        import "shared/leads.rig"
        import "shared/gear.rig"
        rig "Anywhere" {
          mains 230 V 50 Hz
          set   1 h
        }
        gear Wall {
          out s1..s40 : mains 230 V earthed on mains
        }
        gear Brick {
          in  power    : mains 230 V double-insulated, 40 W on iec-c8
          out out      : dc 9 V centre-negative, 2 A          on barrel 5.5x2.1 mm
          out own, far : dc 9 V centre-negative isolated, 1 A on barrel 5.5x2.1 mm
        }
        gear Chain {
          in  in       : dc on barrel 5.5x2.1 mm
          out c1..c12  : dc on captive barrel 5.5x2.1 mm
          join in to c1..c12
        }
        gear Rack {
          in  power      : mains 230 V earthed, 40 W on iec-c14
          in  in1, in2   : audio mono line           on ts 6.35 mm
          out out1, out2 : audio mono line           on ts 6.35 mm
          out pair       : audio stereo line         on 2 ts 6.35 mm
        }
        gear Pedal {
          in  power : dc 9 V centre-negative, 50 mA on barrel 5.5x2.1 mm
          in  in1   : audio mono line               on ts 6.35 mm
          out out1  : audio mono line               on ts 6.35 mm
        }
        gear Laptop {
          in  power      : mains 230 V earthed, 60 W on iec-c14
          out usb1, usb2 : usb host 5 V 900 mA       on usb-a
          battery BATTERY
        }
        gear Synth {
          in  power : dc 9 V centre-negative, 200 mA on barrel 5.5x2.1 mm
          in  usb   : usb device                     on usb-b
          out out1  : audio mono line                on ts 6.35 mm
          battery BATTERY
        }
        gear Desk {
          in  power     : mains 230 V earthed, 40 W on iec-c14
          in  in1..in4  : audio mono line           on ts 6.35 mm
          in  pair      : audio stereo line         on 2 ts 6.35 mm
          out out1      : audio mono line           on ts 6.35 mm
          in  usb       : usb device                on usb-b
        }
        gear Interface {
          in  usb      : usb device 5 V 400 mA on usb-b
          in  in1, in2 : audio mono line       on ts 6.35 mm
          out out1     : audio mono line       on ts 6.35 mm
        }
        device wall  : Wall
        device brick : Brick
        device chain : Chain
        connect wall.s40 to brick.power
        connect brick.out to chain.in

        """;

    /// <param name="Battery">What the gear says of its battery.</param>
    /// <param name="Gear">Of each device.</param>
    /// <param name="Cables">Which free output goes to which free input, by number.</param>
    private sealed record Plan(string Battery, int[] Gear, (int From, int To)[] Cables);

    private static readonly Gen<Plan> Plans = Gen.Select(
        Gen.OneOf(Gen.Const("3 h"), Gen.Const("20 min"), Gen.Const("")), Gen.Int[0, Gears.Length - 1].Array[2, 7], Gen.Select(Gen.Int[0, 50], Gen.Int[0, 50]).Array[2, 12],
        (battery, gear, cables) => new Plan(battery, gear, cables));

    [Fact]
    public void All_at_once() => Plans.Sample(
        plan =>
        {
            var before = Rigs.Compile(TextOf(plan));
            var offered = before.Findings.Where(f => f.Check.Name == "ground-loop").ToList();
            var after = With(offered.SelectMany(f => f.Fixes.Take(1)).SelectMany(f => f.Edits));
            Assert.True(NoneNew(before, after), after?.Told());
            if (after is not null && offered.TrueForAll(f => f.Fixes.Length > 0))
            {
                Assert.DoesNotContain(after.Rig.Ground.Loops, l => l.IsHeard);
            }
        },
        iter: 300);

    [Fact]
    public void One_after_the_other() => Plans.Sample(
        plan =>
        {
            var before = Rigs.Compile(TextOf(plan));
            var now = before;
            for (var left = before.Rig.Ground.Cure.Count; left > 0; left--)
            {
                Assert.Equal(left, now.Rig.Ground.Cure.Count);
                if (now.Findings.FirstOrDefault(f => f is { Check.Name: "ground-loop", Fixes.IsEmpty: false }) is not { } finding)
                {
                    return;
                }
                now = With(finding.Fixes[0].Edits)!;
                Assert.True(NoneNew(before, now), now.Told());
            }
            Assert.DoesNotContain(now.Rig.Ground.Loops, l => l.IsHeard);
        },
        iter: 100);

    private static bool NoneNew(Compilation before, Compilation? after) =>
        after is null || after.Names().All(name => before.Names().Contains(name));

    private static Compilation? With(IEnumerable<TextEdit> fixes)
    {
        var edits = fixes.Distinct().OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End).ToList();
        if (edits.Count == 0)
        {
            return null;
        }
        var source = edits[0].Source;
        var text = new StringBuilder();
        var end = 0;
        foreach (var edit in edits)
        {
            text.Append(source.Content, end, edit.Span.Start - end).Append(edit.NewText);
            end = edit.Span.End;
        }
        return Rigs.Compile(text.Append(source.Content, end, source.Length - end).ToString());
    }

    private static string TextOf(Plan plan)
    {
        var text = new StringBuilder(Declarations.ReplaceLineEndings("\n").Replace("battery BATTERY", $"battery {plan.Battery}".TrimEnd(), StringComparison.Ordinal));
        var (outputs, inputs, hosts, guests) = (new List<string>(), new List<string>(), new List<string>(), new List<string>());
        var (sockets, tails) = (0, 0);
        for (var i = 0; i < plan.Gear.Length; i++)
        {
            var (name, gear) = ($"d{i}", Gears[plan.Gear[i]]);
            text.Append($"device {name} : {gear}\n");
            switch (gear)
            {
                case "Rack":
                    outputs.AddRange([$"{name}.out1", $"{name}.out2"]);
                    inputs.AddRange([$"{name}.in1", $"{name}.in2"]);
                    break;
                case "Pedal":
                    outputs.Add($"{name}.out1");
                    inputs.Add($"{name}.in1");
                    break;
                case "Laptop":
                    hosts.AddRange([$"{name}.usb1", $"{name}.usb2"]);
                    break;
                case "Synth":
                    outputs.Add($"{name}.out1");
                    guests.Add($"{name}.usb");
                    break;
                case "Desk":
                    outputs.Add($"{name}.out1");
                    inputs.AddRange([$"{name}.in1", $"{name}.in2", $"{name}.in3", $"{name}.in4"]);
                    guests.Add($"{name}.usb");
                    break;
                default:
                    outputs.Add($"{name}.out1");
                    inputs.AddRange([$"{name}.in1", $"{name}.in2"]);
                    guests.Add($"{name}.usb");
                    break;
            }
            text.Append(gear switch
            {
                "Rack" or "Laptop" or "Desk" => $"connect wall.s{++sockets} to {name}.power with MainsLead 2 m\n",
                "Pedal" or "Synth" => $"connect chain.c{++tails} to {name}.power\n",
                _ => "",
            });
        }
        foreach (var (from, to) in plan.Cables)
        {
            var isUsb = from % 3 == 0 && hosts.Count > 0 && guests.Count > 0;
            var (givers, takers) = isUsb ? (hosts, guests) : (outputs, inputs);
            if (givers.Count > 0 && takers.Count > 0)
            {
                var (giver, taker) = (givers[from % givers.Count], takers[to % takers.Count]);
                givers.Remove(giver);
                takers.Remove(taker);
                text.Append($"connect {giver} to {taker} with {(isUsb ? "UsbAB" : "Patch")} 1 m\n");
            }
        }
        return text.ToString();
    }
}
