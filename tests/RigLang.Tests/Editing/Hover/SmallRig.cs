using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>A sequencer, a synthesizer and a desk, for what is told of them; the marker <c>$0</c> is put where a test wants it.</summary>
internal static class SmallRig
{
    private const string Text = """
        import "shared/leads.rig"

        /// One voice.
        /// Passes MIDI on.
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          in  midi  : midi                           on din-5
          out thru  : midi                           on din-5
          out line  : audio mono line                on ts 6.35 mm
          route midi to thru
          filters any
          part voice receives midi on channel any, sounds at line
          clock follows internal, midi
        }

        gear Rook {
          out midi : midi              on din-5
          out main : audio stereo line on 2 ts 6.35 mm
          track a, b sends midi
          clock sends midi
        }

        gear Desk {
          in ch1        : audio mono line   on trs 6.35 mm
          in ch23, ch45 : audio stereo line on 2 ts 6.35 mm
        }

        gear Brick {
          out out1, out2 : dc 9 V centre-positive, 500 mA on captive barrel 5.5x2.1 mm
        }

        /// The bass of the first set.
        device bass  : Tern at (1 m, 1 m) {
          voice on channel 2
          clock midi
          thru drops start, stop
        }
        device seq   : Rook at (1 m, 2 m) {
          a on channel 2
          b on channel 3
        }
        device desk  : Desk
        device brick : Brick

        connect brick.out1 to bass.power
        connect seq.midi   to bass.midi with MidiDin 1.5 m yellow "B1"
        connect bass.line  to desk.ch1
        connect seq.main   to desk.ch23

        stock {
          6 MidiDin 1.5 m
        }

        must  notes from seq.a reach bass
        never clock from bass reach seq
        """;

    /// <summary>The caret on the last letter of some text of the rig, which must stand there once.</summary>
    public static Caret On(string text)
    {
        Assert.Equal(2, Text.Split(text).Length);
        return Caret.In(Text.Replace(text, text[..^1] + "$0" + text[^1], StringComparison.Ordinal));
    }

    public static RigLang.Editing.RigView View => Caret.ViewOf(Text);

    /// <summary>The rig with one stretch of it written in another way.</summary>
    public static Caret With(string before, string after) => Caret.In(Text.Replace(before, after, StringComparison.Ordinal));
}
