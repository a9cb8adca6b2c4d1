using System.Globalization;
using System.Text;

namespace RigLang.Benchmarks;

/// <summary>
/// Writes a rig of an exact number of lines that has no mistake, so that every stage of a check has its full work. The same
/// number gives the same text. It is made of corners: a table with its own kind of synthesizer, drums, pad, thru box, desk and
/// supply. A corner hangs off the one before it in a tree of two branches, as big stages are wired: no way is longer than the
/// logarithm of the size.
/// </summary>
public static class RigGenerator
{
    private const string Gear = """
        rig "Two hundred lanterns" {
          tempo 112 bpm
          mains 230 V 50 Hz
          set 75 min
        }

        import "shared/leads.rig"

        // ---- Gear that stands in every corner ----

        gear Wall {
          out o1..o3 : mains 230 V earthed on mains
        }

        gear Brick {
          in  inlet    : mains 230 V earthed on iec-c14
          out dc1..dc6 : dc 9 V centre-positive isolated, 500 mA on barrel 5.5x2.1 mm
        }

        /// Five-way MIDI thru box with filters.
        gear Weir {
          in  power      : dc 9 V centre-positive, 60 mA on barrel 5.5x2.1 mm
          in  in         : midi on din-5
          out out1..out5 : midi on din-5
          route in to out1..out5
          filters any
        }

        gear Sill {
          in  inlet       : mains 230 V earthed on iec-c14
          in  ch1..ch4    : audio mono line isolated   on ts 6.35 mm
          in  sub1..sub2  : audio stereo line isolated on 2 ts 6.35 mm
          out main        : audio stereo line          on 2 ts 6.35 mm
          route ch1..ch4, sub1..sub2 to main
        }

        gear Recorder {
          in line : audio stereo line on 2 ts 6.35 mm
          battery 5 h
        }

        gear Rook {
          in  power : dc 9 V centre-positive, 200 mA on barrel 5.5x2.1 mm
          out midi  : midi on din-5
          track <tracks> sends midi
          clock follows internal
          clock sends midi
        }

        device seq : Rook {
          a on channel 2
          clock internal
        }
        device tape : Recorder {
          runs on battery
        }
        connect seq.midi to thru0.in with MidiDin 1.5 m
        connect supply0.dc5 to seq.power with DcLead 1 m
        connect desk0.main to tape.line with Patch 2 m
        """;

    private const string Corner = """

        // ---- Corner # ----

        /// Two-oscillator synthesizer, the # of its kind.
        gear Tern# {
          in  power : dc 9 V centre-positive, 250 mA   on barrel 5.5x2.1 mm
          in  midi  : midi                             on din-5
          out thru  : midi                             on din-5
          in  sync  : pulse 2 ppqn 5 V                 on ts 3.5 mm
          out line  : audio mono line                  on ts 6.35 mm
          route midi to thru
          part voice receives midi on channel any, sounds at line
          clock follows internal, midi, sync
        }

        device wall#   : Wall at (0 m, 0 m)
        device supply# : Brick at (0.2 m, 0.1 m)
        device desk#   : Sill at (0.6 m, 0.2 m)
        device thru#   : Weir at (0.5 m, 0.9 m) {
          out3 drops start, stop       // the arranger's stop button must not stop the pad
          out1 drops velocity
        }
        device bass#   : Tern# at (0.8 m, 0.4 m) {
          voice on channel 2 layered   // what you dial in on the box
          clock midi
        }

        connect wall#.o1 to supply#.inlet with MainsLead 1.5 m
        connect wall#.o2 to desk#.inlet
        connect supply#.dc1 to thru#.power with DcLead 1.5 m
        connect supply#.dc2 to bass#.power with DcLead 1.5 m red
        connect thru#.out1 to bass#.midi with MidiDin 1.5 m yellow "B#"
        connect bass#.line to desk#.ch1                      // no lead named: the simplest one that fits

        must  notes from seq.a reach bass#
        must  clock from seq reach bass#
        must  audio from bass# reach tape
        """;

    /// <summary>The other half of a corner: drums and a pad. The smallest rig does without.</summary>
    private const string DrumsAndPad = """

        /// Drum machine with voices on fixed channels.
        gear Knock# {
          in  power : dc 9 V centre-positive, 300 mA on barrel 5.5x2.1 mm
          in  midi  : midi on din-5
          out trig  : pulse 2 ppqn 5 V on ts 3.5 mm
          out mix   : audio mono line on ts 6.35 mm
          part kit receives midi on channel 10, sounds at mix
          clock follows internal, midi
        }

        gear Heron# {
          in  power  : dc 9 V centre-positive, 180 mA on barrel 5.5x2.1 mm
          in  midi   : midi on trs 3.5 mm type-a
          out phones : audio stereo headphone on trs 3.5 mm
          part pad receives midi on channel any, sounds at phones
          clock follows internal, midi
        }

        device drums# : Knock# at (1.1 m, 0.4 m) {
          kit on channel 10 layered
          clock midi
        }
        device pad#   : Heron# at (1.4 m, 0.4 m) {
          pad on channel 3 layered
          clock midi
        }

        connect supply#.dc3 to drums#.power
        connect supply#.dc4 to pad#.power with DcLead 1.5 m
        connect thru#.out2 to drums#.midi with MidiDin 1.5 m
        connect thru#.out3 to pad#.midi with MidiTrsA 1.5 m
        connect drums#.trig to bass#.sync with MiniMono 0.6 m
        connect drums#.mix to desk#.ch2 with Patch 1.5 m
        connect pad#.phones to desk#.ch3, desk#.ch4 with Breakout 1.5 m

        must  notes from seq.b reach drums#
        must  notes from seq.c reach pad#
        must  clock from seq reach drums#, pad#
        never start, stop from seq reach pad#
        must  audio from pad# reach tape
        """;

    private const string BranchToParent = """
        connect thru<.out> to thru#.in with MidiDin 3 m
        connect desk#.main to desk<.sub> with Patch 3 m
        """;

    private const string Stock = """

        stock {
          4 MidiDin 1.5 m
          2 Breakout 1.5 m yellow
        }
        """;

    /// <summary>From this many lines on there are drums and pads, and tracks that play them.</summary>
    private static readonly int WithDrums = LineCount(Gear) + 2 + LineCount(Corner) + LineCount(DrumsAndPad + Corner + BranchToParent);

    /// <param name="lines">100 or more.</param>
    public static string Rig(int lines)
    {
        var text = new List<string>(lines);
        Add(text, Gear.Replace("<tracks>", lines < WithDrums ? "a" : "a, b, c", StringComparison.Ordinal)
            .Replace("a on channel 2\n", lines < WithDrums ? "a on channel 2\n" : "a on channel 2\n  b on channel 10\n  c on channel 3\n", StringComparison.Ordinal));
        Add(text, Corner);
        for (var corner = 0; text.Count + LineCount(DrumsAndPad + Corner + BranchToParent) <= lines; corner++)
        {
            Add(text, DrumsAndPad, corner);
            Add(text, Corner, corner + 1);
            Add(text, BranchToParent, corner + 1);
        }
        while (text.Count + LineCount(Stock) <= lines)
        {
            Add(text, Stock);
        }
        while (text.Count < lines)
        {
            text.Add("// end of the sheet");
        }
        return new StringBuilder().AppendJoin('\n', text).Append('\n').ToString();
    }

    private static int LineCount(string part) => part.AsSpan().Count('\n') + 1;

    private static void Add(List<string> text, string part, int corner = 0)
    {
        var parent = (corner - 1) / 2;
        var branch = (corner - 1) % 2;
        text.AddRange(part
            .Replace("#", Number(corner), StringComparison.Ordinal)
            .Replace("<.out>", $"{Number(parent)}.out{Number(4 + branch)}", StringComparison.Ordinal)
            .Replace("<.sub>", $"{Number(parent)}.sub{Number(1 + branch)}", StringComparison.Ordinal)
            .Split('\n'));
    }

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
