using System.Globalization;
using System.Text;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Benchmarks;

/// <summary>
/// The message flow alone, on a stage of nothing but MIDI. Names and wiring are there already; timed are the graph of the
/// messages and the fixed point over it.
/// </summary>
public static class FlowBenchmark
{
    private const int Sources = 500;
    private const int Links = 10_000;
    private const double MostMilliseconds = 30;
    private const double MostGrowth = 1.5;

    /// <summary>False when an aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick)
    {
        var pace = isQuick ? 0.25 : 1;
        var doubled = MeasureRig(Rig(Sources, 2 * Links), pace);
        var full = MeasureRig(Rig(Sources, Links), pace);
        output.WriteLine("  MIDI links  sources   reached  processor     spread    kB a link");
        foreach (var row in new[] { full, doubled })
        {
            output.WriteLine(Line($"{row.Links,12} {row.Sources,8} {row.Reached,9} {row.Time.Median,7:0.000} ms   ±{row.Time.Spread * 50,4:0.0} % {row.Kilobytes / row.Links,12:0.00}"));
        }
        var growth = doubled.Time.Median / doubled.Links / (full.Time.Median / full.Links);
        output.WriteLine();
        var isFast = full.Time.Median <= MostMilliseconds;
        var isLinear = growth <= MostGrowth;
        output.WriteLine(Line($"{Met(isFast)}  flow over {full.Links} MIDI links from {full.Sources} sources under {MostMilliseconds:0} ms: {full.Time.Median:0.00} ms"));
        output.WriteLine(Line($"{Met(isLinear)}  flow: time a link when links double at most {MostGrowth:0.0} times: {growth:0.00} times"));
        return isFast && isLinear;
    }

    private sealed record Row(int Links, int Sources, int Reached, Timing Time, double Kilobytes);

    private static Row MeasureRig(string text, double pace)
    {
        var names = Compilation.Create(new SourceText("flow.rig", text), _ => new OpenedFile(null, "the benchmark opens no file")).Rig.Names;
        var table = LinkTable.Of(RigWiring.Of(names));
        var sources = MidiSource.Of(names, new ChannelTable());
        var before = GC.GetAllocatedBytesForCurrentThread();
        var flow = Flow();
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        // A source that reached nothing would make the work look small.
        var reached = Enumerable.Range(0, flow.Graph.NodeCount).Sum(node => flow.AtomsAt(node, Trade.MessageKinds.All).Count());
        return new Row(table.Count(Connectors.SignalKind.Midi), sources.Count, reached,
            Measure.Of(Flow, TimeSpan.FromSeconds(1.5 * pace), TimeSpan.FromSeconds(3 * pace)), allocated / 1e3);

        MidiFlow Flow() => MidiFlow.Of(MidiGraph.Of(names, table), sources);
    }

    /// <summary>
    /// Sequencers of one track and a clock (two sources each), joined one by one along a chain of mergers; behind the last a tree of
    /// splitters. Every source gets to every splitter, and comes into the chain at another place: the most there is to do.
    /// </summary>
    public static string Rig(int sources, int links)
    {
        var text = new StringBuilder("""
            gear Rook {
              out midi : midi on din-5
              track a sends midi
              clock sends midi
            }
            gear Join {
              in  in1, in2 : midi on din-5
              out out      : midi on din-5
              route in1, in2 to out
            }
            gear Split {
              in  in         : midi on din-5
              out out1..out4 : midi on din-5
              route in to out1..out4
            }

            """);
        var sequencers = sources / 2;
        for (var i = 0; i < sequencers; i++)
        {
            Write($"device seq{i} : Rook {{\n  a on channel {i % 16 + 1}\n}}\ndevice join{i} : Join\nconnect seq{i}.midi to join{i}.in1");
            if (i > 0)
            {
                Write($"connect join{i - 1}.out to join{i}.in2");
            }
        }
        for (var i = 0; i <= links - 2 * sequencers; i++)
        {
            Write($"device split{i} : Split\nconnect {(i == 0 ? $"join{sequencers - 1}.out" : $"split{(i - 1) / 4}.out{(i - 1) % 4 + 1}")} to split{i}.in");
        }
        return text.ToString();

        void Write(FormattableString lines) => text.Append(Line(lines)).Append('\n');
    }

    private static string Met(bool isMet) => isMet ? "met    " : "NOT MET";

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}
