using System.Globalization;
using System.Text;
using CsCheck;
using RigLang.Flow;
using RigLang.Tests.Support;
using UnitsNet;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>What each supply, splitter and strip hands on, added up with UnitsNet from the figures that were written.</summary>
public class SumsAgainstUnitsNet
{
    /// <param name="Splits">Loads of a splitter, one inner list each; a splitter hangs on its supply beside them.</param>
    private sealed record Supply(List<int> Milliamperes, List<List<int>> Splits, int VoltAmperes);

    private static readonly Gen<List<int>> Loads = Gen.Int[1, 900].List[0, 4];

    private static readonly Gen<Supply> Supplies = Gen.Select(Loads, Loads.List[0, 2], Gen.Int[1, 400], (direct, splits, voltAmperes) => new Supply(direct, splits, voltAmperes));

    [Fact]
    public void Every_sum_is_that_of_UnitsNet() => Supplies.List[1, 4].Sample(
        supplies =>
        {
            var power = Rigs.Compile(TextOf(supplies)).Rig.Power;
            double Taken(string name) => power.Nodes.SingleOrDefault(n => n.Device.Name == name)?.Takes.Value ?? 0;

            var strip = Sum(supplies.Select(s => VoltAmperes(s.VoltAmperes)));
            Assert.Equal((double)strip.Voltamperes, Taken("strip"), 1e-6);
            Assert.Equal((double)strip.Kilovoltamperes * 1000, Taken("wall"), 1e-6);
            for (var s = 0; s < supplies.Count; s++)
            {
                // A splitter that feeds nothing stands in no tree.
                for (var i = 0; i < supplies[s].Splits.Count; i++)
                {
                    Assert.Equal(Sum(supplies[s].Splits[i].Select(Milliamperes)).Amperes, Taken($"split{s}-{i}"), 1e-9);
                }
                var given = Sum(supplies[s].Milliamperes.Concat(supplies[s].Splits.SelectMany(l => l)).Select(Milliamperes));
                var node = power.Nodes.Single(n => n.Device.Name == $"supply{s}");
                Assert.Equal(given.Amperes, node.Children.Sum(c => c.Takes.Value), 1e-9);
                Assert.Equal((double)(given * ElectricPotential.FromVolts(9)).Watts, node.Children.Sum(c => c.Watts ?? 0), 1e-6);
            }
        },
        iter: 100);

    private static ElectricCurrent Milliamperes(int value) => ElectricCurrent.FromMilliamperes(value);

    private static ElectricApparentPower VoltAmperes(int value) => ElectricApparentPower.FromVoltamperes(value);

    private static ElectricCurrent Sum(IEnumerable<ElectricCurrent> all) => all.Aggregate(ElectricCurrent.Zero, (a, b) => a + b);

    private static ElectricApparentPower Sum(IEnumerable<ElectricApparentPower> all) => all.Aggregate(ElectricApparentPower.Zero, (a, b) => a + b);

    private static string TextOf(List<Supply> supplies)
    {
        var text = new StringBuilder("""
            gear Wall {
              out socket : mains earthed on mains
            }
            gear Strip {
              in  plug       : mains earthed on captive mains
              out o0..o3     : mains earthed on mains
              join plug to o0..o3
            }
            gear Split {
              in  in     : dc on captive barrel 5.5x2.1 mm
              out o0..o3 : dc on captive barrel 5.5x2.1 mm
              join in to o0..o3
            }
            device wall  : Wall
            device strip : Strip
            connect wall.socket to strip.plug

            """.ReplaceLineEndings("\n"));
        for (var s = 0; s < supplies.Count; s++)
        {
            Line($$"""
                gear Supply{{s}} {
                  in  plug   : mains 230 V double-insulated, {{supplies[s].VoltAmperes}} VA on captive mains
                  out d0..d3 : dc 9 V centre-positive, 4 A on captive barrel 5.5x2.1 mm
                  out s0, s1 : dc 9 V centre-positive, 4 A on barrel 5.5x2.1 mm
                }
                device supply{{s}} : Supply{{s}}
                connect strip.o{{s}} to supply{{s}}.plug
                """);
            for (var i = 0; i < supplies[s].Milliamperes.Count; i++)
            {
                Load($"load{s}-{i}", supplies[s].Milliamperes[i], $"supply{s}.d{i}");
            }
            for (var i = 0; i < supplies[s].Splits.Count; i++)
            {
                Line($"device split{s}-{i} : Split\nconnect supply{s}.s{i} to split{s}-{i}.in");
                for (var j = 0; j < supplies[s].Splits[i].Count; j++)
                {
                    Load($"load{s}-{i}-{j}", supplies[s].Splits[i][j], $"split{s}-{i}.o{j}");
                }
            }
        }
        return text.ToString();

        void Line(string lines) => text.Append(lines.ReplaceLineEndings("\n")).Append('\n');

        void Load(string name, int milliamperes, string from) => Line(string.Create(CultureInfo.InvariantCulture, $$"""
            gear {{name}} {
              in power : dc 9 V centre-positive, {{milliamperes}} mA on barrel 5.5x2.1 mm
            }
            device {{name}} : {{name}}
            connect {{from}} to {{name}}.power
            """));
    }
}
