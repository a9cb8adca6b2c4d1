using System.Globalization;
using System.Text;
using RigLang.Text;

namespace RigLang.Benchmarks;

/// <summary>
/// The full check of rigs that make the message checks work hardest: many tracks that nobody hears, each of which gets to
/// thousands of devices. The figures are far above any stage; they show what grows with tracks times devices.
/// </summary>
public static class UnheardBenchmark
{
    private const int Tracks = 250;
    private const int Devices = 10_000;
    private const double MostMilliseconds = 2_500;

    /// <summary>False when an aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick)
    {
        var pace = isQuick ? 0.25 : 1;
        output.WriteLine("  shape      tracks  devices  findings  processor     spread");
        var slow = new List<string>();
        foreach (var shape in Enum.GetValues<StageShape>())
        {
            var text = Rig(Tracks, Devices, shape);
            var findings = Check(text).Findings;
            var unheard = findings.Count(f => f.Check.Name == "channel-nobody-hears");
            if (unheard != Tracks)
            {
                // Tracks that are heard would make the work look small.
                throw new InvalidOperationException(Line($"Of {Tracks} tracks {unheard} are told to be unheard, in the shape {shape}."));
            }
            var time = Measure.Of(() => Check(text), TimeSpan.FromSeconds(1.5 * pace), TimeSpan.FromSeconds(3 * pace), leastSamples: 3);
            output.WriteLine(Line($"  {shape,-9} {Tracks,7} {Devices,8} {findings.Length,9} {time.Median,7:0} ms   ±{time.Spread * 50,4:0.0} %"));
            if (time.Median > MostMilliseconds)
            {
                slow.Add(Line($"{shape} {time.Median:0} ms"));
            }
        }
        output.WriteLine();
        output.WriteLine(Line($"{(slow.Count == 0 ? "met    " : "NOT MET")}  full check of {Tracks} unheard tracks at {Devices} devices under {MostMilliseconds:0} ms{(slow.Count == 0 ? "" : ": " + string.Join(", ", slow))}"));
        return slow.Count == 0;
    }

    private static Compilation Check(string text) =>
        Compilation.Create(new SourceText("unheard.rig", text), _ => new OpenedFile(null, "the benchmark opens no file"));

    /// <summary>
    /// Sequencers of ten tracks on channels 1 to 15, merged into one stream, which goes to the devices; their parts are on channel 16.
    /// </summary>
    public static string Rig(int tracks, int devices, StageShape shape)
    {
        var text = new StringBuilder("""
            gear Rook {
              out midi : midi on din-5
              track t1..t10 sends midi
              clock sends midi
            }
            gear Join {
              in  in1, in2 : midi on din-5
              out out      : midi on din-5
              route in1, in2 to out
              filters any
            }
            gear Split {
              in  in         : midi on din-5
              out out1..out4 : midi on din-5
              route in to out1..out4
            }
            gear Tern {
              in  midi : midi on din-5
              out thru : midi on din-5
              route midi to thru
              part voice receives midi on channel any
            }

            """);
        var sequencers = tracks / 10;
        for (var i = 0; i < sequencers; i++)
        {
            Write($"device seq{i} : Rook {{");
            for (var track = 1; track <= 10; track++)
            {
                Write($"  t{track} on channel {(10 * i + track) % 15 + 1}");
            }
            Write($"}}\ndevice join{i} : Join {{\n  in1 drops clock, transport\n}}\nconnect seq{i}.midi to join{i}.in1");
            if (i > 0)
            {
                Write($"connect join{i - 1}.out to join{i}.in2");
            }
        }
        var from = $"join{sequencers - 1}.out";
        switch (shape)
        {
            case StageShape.Tree:
                WriteTree(from, devices);
                break;
            case StageShape.Chains:
                WriteChains(from, devices);
                break;
            case StageShape.Diamonds:
                WriteDiamonds(from, devices);
                break;
        }
        return text.ToString();

        // Each splitter feeds a synthesizer and three splitters.
        void WriteTree(string from, int devices)
        {
            for (var i = 0; i < devices / 2; i++)
            {
                WriteSplit(i, i == 0 ? from : Line($"split{(i - 1) / 3}.out{(i - 1) % 3 + 2}"));
                WriteTern(i, Line($"split{i}.out1"));
            }
        }

        // Four rows of synthesizers, each plugged into the thru jack of the one before.
        void WriteChains(string from, int devices)
        {
            WriteSplit(0, from);
            for (var i = 0; i < devices; i++)
            {
                WriteTern(i, i < 4 ? Line($"split0.out{i + 1}") : Line($"tern{i - 4}.thru"));
            }
        }

        // Splitters whose ways meet again in a merger, one such pair behind the other.
        void WriteDiamonds(string from, int devices)
        {
            for (var i = 0; i < devices / 3; i++)
            {
                WriteSplit(i, i == 0 ? from : Line($"meet{i - 1}.out"));
                WriteTern(i, Line($"split{i}.out1"));
                Write($"device meet{i} : Join\nconnect split{i}.out2 to meet{i}.in1\nconnect split{i}.out3 to meet{i}.in2");
            }
        }

        void WriteSplit(int number, string from) => Write($"device split{number} : Split\nconnect {from} to split{number}.in");

        void WriteTern(int number, string from) =>
            Write($"device tern{number} : Tern {{\n  voice on channel 16\n}}\nconnect {from} to tern{number}.midi");

        void Write(FormattableString lines) => text.Append(Line(lines)).Append('\n');
    }

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}

/// <summary>How the devices of a stress rig hang together.</summary>
public enum StageShape
{
    Tree,
    Chains,
    Diamonds,
}
