using System.Globalization;
using System.Text;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Benchmarks;

/// <summary>
/// The flow of audio alone: a thousand sources, each through a row of pedals into one of a hundred desks, these into one that feeds two hundred recorders. Names and
/// wiring are there already; timed are the map, its order and what of every source comes to every recorder.
/// </summary>
public static class AudioBenchmark
{
    private const int Sources = 1_000;
    private const int Destinations = 200;
    private const int Pedals = 9;
    private const double MostMilliseconds = 150;
    private const double MostGrowth = 1.3;

    /// <summary>False when an aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick)
    {
        var pace = isQuick ? 0.25 : 1;
        var full = MeasureRig(Rig(Sources, Pedals), pace);
        var doubled = MeasureRig(Rig(Sources, 2 * Pedals), pace);
        output.WriteLine("  audio links  sources   shares        map       flow    spread");
        foreach (var row in new[] { full, doubled })
        {
            output.WriteLine(Line($"{row.Links,13} {row.Sources,8} {row.Shares,8} {row.Map.Median,6:0.00} ms  {row.Flow.Median,6:0.00} ms   ±{row.Flow.Spread * 50,4:0.0} %"));
        }
        output.WriteLine();
        var all = full.Map.Median + full.Flow.Median;
        var growth = doubled.Flow.Median / doubled.Links / (full.Flow.Median / full.Links);
        return ServerBenchmark.Aim(output, $"{Sources:N0} sources to {Destinations} recorders over {full.Links:N0} links under {MostMilliseconds:0} ms", all, MostMilliseconds)
            & ServerBenchmark.Aim(output, $"time a link when links double at most {MostGrowth} times", growth, MostGrowth);
    }

    private sealed record Row(int Links, int Sources, int Shares, Timing Map, Timing Flow);

    private static Row MeasureRig(string text, double pace)
    {
        var rig = Compilation.Read(new SourceText("audio.rig", text), _ => new OpenedFile(null, "the benchmark opens no file")).Rig;
        // A source that reached nothing would make the work look small.
        var shares = rig.Audio.Flow.Shares.Count;
        return new Row(rig.Links.Count(Connectors.SignalKind.Audio), rig.Audio.Flow.Sources.Count, shares, Time(() => AudioModel.Of(rig.Names, rig.Wiring, rig.Links)),
            Time(() => AudioFlow.Of(rig.Audio)));

        Timing Time(Func<object> work) => Measure.Of(work, TimeSpan.FromSeconds(0.7 * pace), TimeSpan.FromSeconds(1.5 * pace));
    }

    private static string Rig(int sources, int pedals)
    {
        var text = new StringBuilder($$"""
            lead Patch : ts 6.35 mm to ts 6.35 mm
            lead Pair  : trs 6.35 mm to trs 6.35 mm
            gear Source {
              out out : audio mono line on ts 6.35 mm
            }
            gear Pedal {
              in  in  : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
              route in to out
            }
            gear Desk {
              in  in0..in9 : audio mono line   on ts 6.35 mm
              out out      : audio stereo line on trs 6.35 mm
              route in0..in9 to out
            }
            gear Hall {
              in  in0..in99   : audio stereo line on trs 6.35 mm
              out out0..out99 : audio stereo line on trs 6.35 mm
              out more0..more99 : audio stereo line on trs 6.35 mm
              route in0..in99 to out0..out99, more0..more99
            }
            gear Tape {
              in line : audio stereo line on trs 6.35 mm
              records line
            }
            device hall : Hall

            """);
        for (var i = 0; i < sources; i++)
        {
            text.AppendLine(Line($"device s{i} : Source"));
            var from = $"s{i}.out";
            for (var k = 0; k < pedals; k++)
            {
                text.AppendLine(Line($"device p{i}x{k} : Pedal\nconnect {from} to p{i}x{k}.in with Patch 1 m"));
                from = $"p{i}x{k}.out";
            }
            if (i % 10 == 0)
            {
                text.AppendLine(Line($"device d{i / 10} : Desk\nconnect d{i / 10}.out to hall.in{i / 10} with Pair 1 m"));
            }
            text.AppendLine(Line($"connect {from} to d{i / 10}.in{i % 10} with Patch 1 m"));
        }
        for (var i = 0; i < Destinations; i++)
        {
            text.AppendLine(Line($"device t{i} : Tape\nconnect hall.{(i < 100 ? "out" : "more")}{i % 100} to t{i}.line with Pair 1 m"));
        }
        return text.ToString();
    }

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
