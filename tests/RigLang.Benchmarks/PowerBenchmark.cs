using System.Globalization;
using System.Text;
using System.Text.Json;
using RigLang.Checks;
using RigLang.Checks.Power;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Benchmarks;

/// <summary>
/// Power far above any stage: thousands of loads, on many circuits or all on one net, sound and with one mistake that meets them all.
/// Timed are the way from the names to the links, the power tree, the power checks on a tree that is there, and the whole check; beside
/// them the JSON parser of the platform on a document of as many lines and bytes.
/// </summary>
public static class PowerBenchmark
{
    private const int Loads = 5_000;
    private const double MostGrowth = 1.5;
    private const double MostShareOfCheck = 0.25;

    /// <summary>False when an aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick)
    {
        var pace = isQuick ? 0.25 : 1;
        var missed = new List<string>();
        output.WriteLine("  shape       loads  findings      links       tree     checks  all checks   (JSON)  all x JSON");
        foreach (var shape in Enum.GetValues<PowerShape>())
        {
            // The larger first: it warms the compiler for both.
            var doubled = MeasureRig(shape, 2 * Loads, pace);
            var full = MeasureRig(shape, Loads, pace);
            Write(full);
            Write(doubled);
            var growth = doubled.Power / full.Power / 2;
            output.WriteLine(Line($"  {"",-10} growth  a load    {Growth(full.Links, doubled.Links),7:0.00}    {Growth(full.Tree, doubled.Tree),7:0.00}    {Growth(full.Checks, doubled.Checks),7:0.00}     {Growth(full.All, doubled.All),7:0.00}"));
            if (growth > MostGrowth)
            {
                missed.Add(Line($"{shape} grows {growth:0.00} times"));
            }
            if (shape == PowerShape.Circuits && (full.Tree.Median + full.Checks.Median) / full.All.Median is > MostShareOfCheck and var share)
            {
                missed.Add(Line($"tree and power checks of a sound rig are {share:P0} of all"));
            }

            void Write(Row row) => output.WriteLine(Line(
                $"  {shape,-10} {row.Loads,6} {row.Findings,9} {row.Links.Median,7:0.0} ms {row.Tree.Median,7:0.0} ms {row.Checks.Median,7:0.0} ms  {row.All.Median,7:0.0} ms {row.Json.Median,5:0.0} ms {row.All.Median / row.Json.Median,11:0}"));
        }
        output.WriteLine();
        output.WriteLine(Line($"{(missed.Count == 0 ? "met    " : "NOT MET")}  power: time a load for links, tree and checks when loads double at most {MostGrowth:0.0} times, and tree and power checks of a sound rig at most {MostShareOfCheck:P0} of the whole check{(missed.Count == 0 ? "" : ": " + string.Join(", ", missed))}"));
        return missed.Count == 0;
    }

    private sealed record Row(int Loads, int Findings, Timing Links, Timing Tree, Timing Checks, Timing All, Timing Json)
    {
        /// <summary>What power costs, in milliseconds: all but the text and the other checks.</summary>
        public double Power => Links.Median + Tree.Median + Checks.Median;
    }

    private static Row MeasureRig(PowerShape shape, int loads, double pace)
    {
        var text = Rig(shape, loads);
        var names = Compilation.Create(new SourceText("power.rig", text), NoImports).Rig.Names;
        var rig = Wired();
        var checks = CheckList.All.Where(CheckList.IsAboutPower).ToArray();
        var found = Checked().Claims;
        var hanging = rig.Power.Nodes.Count(n => n is { IsPassive: false, In: not null });
        // A load that hung on nothing, or a mistake that was not found, would make the work look small. The wrong way round nothing is fed.
        if ((shape != PowerShape.Reversed && hanging < loads) || found.Count(f => f.Check is not StripInStrip) != (shape is PowerShape.Unearthed or PowerShape.Reversed ? 1 : 0))
        {
            throw new InvalidOperationException(Line($"{shape}: {hanging} of {loads} loads hang in the tree, {found.Count} findings: {found.FirstOrDefault(f => f.Check is not StripInStrip)?.What}"));
        }
        var json = StageBenchmark.JsonOfSameSize(text.AsSpan().Count('\n'), text.Length);
        return new Row(loads, found.Count, Time(Wired), Time(() => PowerTree.Of(rig)), Time(Checked),
            Time(() => Compilation.Create(new SourceText("power.rig", text), NoImports)), Time(() => JsonDocument.Parse(json)));

        Rig Wired()
        {
            var wiring = RigWiring.Of(names);
            return new Rig(names, wiring, LinkTable.Of(wiring));
        }

        Report Checked()
        {
            var report = new Report();
            foreach (var check in checks)
            {
                check.Run(rig, report);
            }
            return report;
        }

        Timing Time(Func<object?> work) => Measure.Of(work, TimeSpan.FromSeconds(0.8 * pace), TimeSpan.FromSeconds(1.6 * pace), leastSamples: 3);
    }

    private static OpenedFile NoImports(string path) => new(null, "the benchmark opens no file");

    public static string Rig(PowerShape shape, int loads)
    {
        var text = new StringBuilder("""
            gear Twig {
              in  plug             : mains earthed       on captive mains
              out outlet1..outlet6 : mains earthed       on mains
              join plug to outlet1..outlet6
            }
            gear Chain {
              in  in         : dc on barrel 5.5x2.1 mm
              out out1..out8 : dc on captive barrel 5.5x2.1 mm
              join in to out1..out8
            }
            gear Supply {
              in  plug       : mains 230 V, 30 W on captive mains
              out out1..out6 : dc 9 V centre-negative isolated, 400 mA on barrel 5.5x2.1 mm
            }
            gear Lamp {
              in plug : mains 230 V earthed, 10 W on captive mains
            }
            gear Laptop {
              in  power      : mains 230 V earthed, 60 W on captive mains
              out usb1, usb2 : usb host 5 V 900 mA on usb-a
            }
            gear Hub {
              in  up           : usb device 5 V 500 mA on usb-b
              out port1..port4 : usb host 5 V 100 mA   on usb-a
              route up to port1..port4
            }
            gear Key {
              in usb : usb device 5 V 80 mA on usb-b
            }
            gear Pedal {
              in power : dc 9 V centre-negative, 30 mA on barrel 5.5x2.1 mm
            }
            lead Dc : barrel 5.5x2.1 mm to barrel 5.5x2.1 mm {
              centre to centre
              outer  to outer
              gauge 20 awg
            }
            lead Usb : usb-a to usb-b

            """);
        switch (shape)
        {
            case PowerShape.Circuits:
                WriteCircuits();
                break;
            case PowerShape.OneNet:
                WriteMains("earthed");
                break;
            case PowerShape.Unearthed:
                WriteMains("double-insulated");
                break;
            case PowerShape.OneSupply:
                WriteChains("centre-negative");
                break;
            case PowerShape.Reversed:
                WriteChains("centre-positive");
                break;
        }
        return text.ToString();

        // A circuit of 20 loads: two strips, a supply with six outputs, one of which feeds a daisy chain, and a laptop with two hubs.
        void WriteCircuits()
        {
            Write($$"""
                rig "Power" {
                  mains 230 V 16 A
                }
                gear Wall {
                  out s1, s2 : mains 230 V earthed on mains
                }
                """);
            for (var c = 0; c < (loads + 19) / 20; c++)
            {
                Write($$"""
                    device wall{{c}} : Wall
                    device a{{c}} : Twig
                    device b{{c}} : Twig
                    device supply{{c}} : Supply
                    device chain{{c}} : Chain
                    device laptop{{c}} : Laptop
                    connect wall{{c}}.s1 to a{{c}}.plug
                    connect wall{{c}}.s2 to b{{c}}.plug
                    connect a{{c}}.outlet1 to supply{{c}}.plug
                    connect b{{c}}.outlet1 to laptop{{c}}.power
                    connect supply{{c}}.out1 to chain{{c}}.in with Dc 1 m
                    """);
                for (var i = 2; i <= 5; i++)
                {
                    Write($"device lamp{c}-{i} : Lamp\nconnect {(i % 2 == 0 ? "a" : "b")}{c}.outlet{i} to lamp{c}-{i}.plug");
                    Write($"device pedal{c}-{i} : Pedal\nconnect supply{c}.out{i} to pedal{c}-{i}.power with Dc 1 m");
                    Write($"device far{c}-{i} : Pedal\nconnect chain{c}.out{i} to far{c}-{i}.power");
                }
                for (var i = 1; i <= 2; i++)
                {
                    Write($"device hub{c}-{i} : Hub\nconnect laptop{c}.usb{i} to hub{c}-{i}.up with Usb");
                    Write($"device key{c}-{i} : Key\nconnect hub{c}-{i}.port1 to key{c}-{i}.usb with Usb");
                }
                Write($"device more{c}-1 : Lamp\nconnect a{c}.outlet6 to more{c}-1.plug\ndevice more{c}-2 : Lamp\nconnect b{c}.outlet6 to more{c}-2.plug");
            }
        }

        // One socket and a tree of strips in strips, each of which feeds four lamps and two strips.
        void WriteMains(string earth)
        {
            Write($$"""
                gear Wall {
                  out socket : mains 230 V {{earth}} on mains
                }
                device wall : Wall
                """);
            for (var i = 0; i < loads; i++)
            {
                var twig = i / 4;
                if (i % 4 == 0)
                {
                    Write($"device twig{twig} : Twig\nconnect {(twig == 0 ? "wall.socket" : Line($"twig{(twig - 1) / 2}.outlet{(twig - 1) % 2 + 5}"))} to twig{twig}.plug");
                }
                Write($"device lamp{i} : Lamp\nconnect twig{twig}.outlet{i % 4 + 1} to lamp{i}.plug");
            }
        }

        // One supply and a tree of daisy chains, each of which feeds seven pedals and the next.
        void WriteChains(string polarity)
        {
            Write($$"""
                gear Plant {
                  out out : dc 9 V {{polarity}}, 1000 A on captive barrel 5.5x2.1 mm
                }
                device plant : Plant
                """);
            for (var i = 0; i < loads; i++)
            {
                var chain = i / 6;
                if (i % 6 == 0)
                {
                    Write($"device chain{chain} : Chain\nconnect {(chain == 0 ? "plant.out" : Line($"chain{(chain - 1) / 2}.out{(chain - 1) % 2 + 7}"))} to chain{chain}.in");
                }
                Write($"device pedal{i} : Pedal\nconnect chain{chain}.out{i % 6 + 1} to pedal{i}.power");
            }
        }

        void Write(FormattableString lines) => text.Append(Line(lines)).Append('\n');
    }

    private static double Growth(Timing full, Timing doubled) => doubled.Median / full.Median / 2;

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}

/// <summary>What the loads of a generated rig hang on.</summary>
public enum PowerShape
{
    /// <summary>Hundreds of circuits with strips, supplies, daisy chains and USB hubs.</summary>
    Circuits,

    /// <summary>One socket and a tree of strips, all one net.</summary>
    OneNet,

    /// <summary>The same without an earth: one mistake that meets every load.</summary>
    Unearthed,

    /// <summary>One low-voltage supply and a tree of daisy chains.</summary>
    OneSupply,

    /// <summary>The same with the wrong polarity.</summary>
    Reversed,
}
