namespace RigLang.Tests.Snapshots;

/// <summary>Small rigs, each under the name, in words, of what it makes the command say.</summary>
internal static class MessageRigs
{
    private const string Midi = """
        gear Rook {
          out midi, midi2 : midi on din-5
          track a, b sends midi, midi2
          clock sends midi
        }
        gear Weir {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          out out3       : midi on din-5
          route in to out1, out2
          filters any
          maps channels
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
          clock follows internal, midi
        }
        gear Fixed {
          in midi : midi on din-5
          part drums receives midi on channel 10
        }
        device seq : Rook {
          a on channel 2
        }

        """;

    /// <summary>Somebody who hears the track, so that what is left to tell is the promise.</summary>
    private const string Listener = """
        device lead : Tern {
          voice on channel 2
        }
        connect seq.midi2 to lead.midi

        """;

    private const string ByOut1 = "seq.midi to thru.in\nconnect thru.out1 to bass.midi";
    private const string ByOut3 = "seq.midi to thru.in\nconnect thru.out3 to bass.midi";

    private const string Audio = """
        import "shared/leads.rig"
        import "shared/gear.rig"
        gear Drums {
          in  power : dc 9 V centre-negative, 300 mA on barrel 5.5x2.1 mm
          out main  : audio stereo line              on 2 ts 6.35 mm
          out mono  : audio mono line                on ts 6.35 mm
        }
        gear Desk {
          in  ch1, ch2 : audio mono line   on ts 6.35 mm
          in  ch34     : audio stereo line on 2 ts 6.35 mm
          out main     : audio stereo line on 2 ts 6.35 mm
          out rec      : audio stereo line on 2 ts 6.35 mm
          route ch1, ch2, ch34 to main
          route ch34 to rec
        }
        gear Tape {
          in line : audio stereo line on 2 ts 6.35 mm
        }
        gear Brick {
          in  mains : mains 230 V double-insulated, 20 W on iec-c8
          out out   : dc 9 V centre-negative, 500 mA     on barrel 5.5x2.1 mm
        }
        device wall  : WallSocket
        device drums : Drums
        device desk  : Desk
        device tape  : Tape
        device brick : Brick
        connect wall.socket1 to brick.mains with MainsLeadEight 1 m
        connect brick.out    to drums.power

        """;

    private const string Boxes = """
        gear Seq {
          out midi : midi on din-5
          out thru : midi on din-5
          in  in   : midi on din-5
          in  mic  : audio mono mic phantom on xlr-3
          route in to thru
          part voice receives in
          track a, b sends midi
          track keys sends midi, plays voice
        }
        device seq : Seq {

        """;

    private const string LongLead = """
        gear Rook {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }
        lead Patch : ts 6.35 mm to ts 6.35 mm
        device seq, pad : Rook
        device desk     : Desk
        connect seq.line to desk.ch1 with Patch 9 m
        connect pad.line to desk.ch2 with Patch 9 m

        """;

    /// <summary>What is printed by <c>rig check</c>.</summary>
    public static IReadOnlyDictionary<string, string> Checked { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        // A promise that fails, and where the gap is.
        ["must fails: no cable in this jack"] =
            Thru("", "voice on channel 2", "bass.thru to thru.in", Listener + "must notes from seq.a reach bass"),
        ["must fails: nothing is plugged in at all"] = Midi + """
            device bass : Tern {
              voice on channel 2
            }
            must notes from seq.a reach bass
            """,
        ["must fails: the jack is taken"] = Midi + Listener + """
            device kit : Fixed
            device bass : Tern {
              voice on channel 2
            }
            device other : Rook {
              a on channel 2
            }
            connect seq.midi   to kit.midi
            connect other.midi to bass.midi
            must notes from seq.a reach bass
            """,
        ["must fails: no route from input to output"] =
            Thru("", "voice on channel 2", ByOut3, Listener + "must notes from seq.a reach bass"),
        ["must fails: another channel"] =
            Thru(null, "voice on channel 3", "seq.midi to bass.midi", Listener + "must notes from seq.a reach bass"),
        ["must fails: another channel and nobody else hears it"] =
            Thru(null, "voice on channel 3", "seq.midi to bass.midi", "must notes from seq.a reach bass"),
        ["must fails: a fixed channel"] = Midi + Listener + """
            device kit : Fixed
            connect seq.midi to kit.midi
            must notes from seq.a reach kit
            """,
        ["must fails: the part is off"] =
            Thru(null, "voice on channel off", "seq.midi to bass.midi", Listener + "must notes from seq.a reach bass"),
        ["must fails: the track is off"] = Midi.Replace("a on channel 2", "a on channel off", StringComparison.Ordinal) + """
            device bass : Tern {
              voice on channel 2
            }
            connect seq.midi to bass.midi
            must notes from seq.a reach bass
            """,
        ["must fails: the output does not carry it"] = """
            import "shared/leads.rig"
            gear Rook {
              out sync : pulse 2 ppqn 5 V on ts 3.5 mm
              track a sends sync
              clock sends sync
            }
            gear Weir {
              in  sync : pulse 2 ppqn 5 V on ts 3.5 mm
              out midi : midi             on din-5
              route sync to midi
            }
            gear Tern {
              in midi : midi on din-5
              part voice receives midi on channel any
              clock follows internal, midi
            }
            device seq : Rook {
              a on channel 2
            }
            device box : Weir
            device bass : Tern {
              voice on channel 2
            }
            connect seq.sync to box.sync with MiniMono 1 m
            connect box.midi to bass.midi
            must notes from seq.a reach bass
            """,
        ["must fails: a filter drops it"] =
            Thru("out1 drops stop", "clock midi", ByOut1, "must stop from seq reach bass"),
        ["must fails: a filter drops the clock that is followed"] =
            Thru("out1 drops clock, stop", "clock midi", ByOut1, "must clock from seq reach bass"),
        ["must fails: a filter passes only others"] = Thru("in passes only clock, velocity", "voice on channel 2\n  clock midi",
            ByOut1, Listener + "must notes from seq.a reach bass"),
        ["must fails: a channel map on the way"] = Thru("in maps channel 2 to 5", "voice on channel 2",
            ByOut1, Listener + "must notes from seq.a reach bass"),
        ["must fails: the clock is its own"] =
            Thru(null, "clock internal", "seq.midi to bass.midi", "must clock from seq reach bass"),
        ["must fails: nothing sends it"] =
            Thru("", "voice on channel 2", ByOut1, "must notes from thru reach bass"),
        ["must fails: audio arrives on the other side"] = Audio + """
            connect drums.main.left  to desk.ch1
            connect drums.main.right to desk.ch2
            connect desk.main        to tape.line
            must audio from drums.main.left reach desk.ch2
            """,
        ["must fails: audio arrives in mono"] = Audio + """
            connect drums.main.left to desk.ch1
            connect desk.main       to tape.line
            must audio from drums.main reach desk in stereo
            """,
        ["must fails: audio goes to another output of the desk"] = Audio + """
            connect drums.mono to desk.ch1
            connect desk.rec   to tape.line
            must audio from drums.mono reach tape
            """,
        ["must fails: audio has no cable"] = Audio + """
            connect desk.main to tape.line
            must audio from drums.mono reach tape
            """,
        ["must fails: power has no way"] = Audio + """
            connect drums.main to desk.ch34
            connect desk.main  to tape.line
            must power from brick reach desk
            """,

        // A promise that something stays away.
        ["never fails: a filter keeps it"] =
            Thru("", "clock midi", ByOut1, "never clock from seq reach bass"),
        ["never fails: the cable comes out"] =
            Thru(null, "clock midi", "seq.midi to bass.midi", "never clock from seq reach bass"),
        ["never fails: notes"] =
            Thru(null, "voice on channel 2", "seq.midi to bass.midi", "never notes from seq.a reach bass"),
        ["never fails: audio"] = Audio + """
            connect drums.mono to desk.ch1
            connect desk.main  to tape.line
            never audio from drums reach tape
            """,

        // The current loop of MIDI.
        ["midi loop open: a straight lead between type A and type B"] =
            Minijacks("type-a", "MidiTrs 1 m", "midi on trs 3.5 mm type-b"),
        ["midi loop open: the adapter of the other type"] = Minijacks("type-b", "MidiTrsA 1 m", "midi on din-5"),
        ["midi loop open: a mono lead"] = Minijacks("type-a", "MiniMono 1 m", "midi on trs 3.5 mm type-a"),

        // What is known and left as it is.
        ["accept refused: people"] = LongLead + "accept earth-missing on desk because \"it always worked\"\n",
        ["accept refused: gear"] = LongLead + "accept polarity-reversed on desk because \"it always worked\"\n",
        ["accept refused: a promise"] = LongLead + "accept must-fails on desk because \"it always worked\"\n",
        ["accept meets nothing"] = LongLead + "accept midi-loop-open on desk because \"quiet\"\n",
        ["accept: the reason is missing"] = LongLead + "accept lead-too-long on desk\n",
        ["accept: the place is missing"] = LongLead + "accept lead-too-long because \"quiet\"\n",
        ["accept: no such check"] = LongLead + "accept lead-to-long on desk because \"quiet\"\n",
        ["accept: one of two accepted"] =
            LongLead + "accept lead-too-long on desk.ch1 because \"short set, and quiet in rehearsal\"\n",

        ["rig blocks disagree: mains"] = "rig {\n  mains 120 V\n}\nrig {\n  mains 230 V\n}\n",
        ["rig blocks disagree: tempo"] = "rig {\n  tempo 120 bpm\n}\nrig {\n  tempo 90 bpm\n}\n",

        // Words that players use and the language says otherwise.
        ["said otherwise: seq off"] = Boxes + "  a off\n}\n",
        ["said otherwise: a part off"] = Boxes + "  keys off\n}\n",
        ["said otherwise: a channel without on channel"] = Boxes + "  a 3\n}\n",
        ["said otherwise: jack 6.35 mm"] = Port("audio mono line on jack 6.35 mm"),
        ["said otherwise: jack 6.35 mm, stereo"] = Port("audio stereo line on jack 6.35 mm"),
        ["said otherwise: minijack"] = Port("audio mono line on minijack"),
        ["said otherwise: minijack, midi"] = Port("midi on minijack type-b"),
        ["said otherwise: 1/4 inch"] = Port("audio mono line on 1/4 inch"),
        ["said otherwise: trs 1/4 inch"] = Port("audio mono line on trs 1/4\""),
        ["said otherwise: rca mono"] = Port("audio line on rca mono"),
        ["said otherwise: din"] = Port("midi on din"),
        ["said otherwise: usb"] = Port("usb device on usb"),
        ["said otherwise: a figure behind on"] = Port("dc 9 V centre-negative on barrel 5.5x2.1 mm 250 mA"),
        ["said otherwise: a word of the connector before on"] = Port("midi type-b on trs 3.5 mm"),
        ["said otherwise: on left out"] = Port("audio mono line ts 6.35 mm"),
        ["said otherwise: a range of current"] = Port("dc 9 V centre-negative 250..300 mA on barrel 5.5x2.1 mm"),
        ["said otherwise: a range of pulses"] = Port("pulse 2..4 ppqn on ts 3.5 mm"),
        ["said otherwise: a range of channels"] = "gear Pads {\n  out midi : midi on din-5\n  track pad1..pad10 sends midi\n}\n"
            + "device a : Pads {\n  pad1 on channel 3..5\n}\n",
        ["unequal lists: channels"] = "gear Pads {\n  out midi : midi on din-5\n  track pad1..pad10 sends midi\n}\n"
            + "device a : Pads {\n  pad3..pad10 on channel 3..9\n}\n",
        ["unequal lists: pairs"] = Snake("in1..in8", "core1..core7 in pairs"),
        ["a join of two rows without in pairs"] = Snake("in1..in8", "core1..core8"),

        // A name that nothing has; what fits is offered first.
        ["unknown lead: what fits first"] = Offered("Kable"),
        ["unknown lead: misspelt"] = Offered("Balancd"),
        ["unknown lead: in the library"] = "gear Rook {\n  out line : audio mono line on ts 6.35 mm\n}\ndevice a, b : Rook\n"
            + "connect a.line to b.line with Patch 3 m\n",
        ["unknown port: what fits first"] = Audio + "connect desk.main to tape.line\nconnect drums.mono to desk.line1\n",
        ["unknown device: misspelt"] = Audio + "connect desk.main to tape.line\nconnect drmus.mono to desk.ch1\n",

        ["ground loop: two earthed boxes"] = """
            import "shared/leads.rig"
            import "shared/gear.rig"
            rig "R" {
              mains 230 V 50 Hz
            }
            gear Rack {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono line           on ts 6.35 mm
            }
            device wall : WallSocket
            device desk : SmallMixer
            device rack : Rack
            connect wall.socket1 to desk.power
            connect wall.socket2 to rack.power
            connect rack.line to desk.line1 with Patch 3 m
            """,
        ["ground loop: a computer's USB"] = """
            import "shared/leads.rig"
            import "shared/gear.rig"
            rig "R" {
              mains 230 V 50 Hz
            }
            gear Desk {
              in power : mains 230 V earthed, 40 W on iec-c14
              in usb   : usb device                on usb-b
            }
            device wall     : WallSocket
            device computer : Computer
            device desk     : Desk
            connect wall.socket1 to computer.power
            connect wall.socket2 to desk.power
            connect computer.usb1 to desk.usb with UsbAB 1 m
            """,
        ["ground loop: a laptop that can run on its battery"] = """
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
            device wall   : WallSocket
            device desk   : SmallMixer
            device laptop : Portable
            device synth  : Synth {
              runs on battery
            }
            connect wall.socket1 to desk.power
            connect wall.socket2 to laptop.power with MainsLead 2 m
            connect laptop.usb to synth.usb
            connect synth.line to desk.line1
            """,

        ["mend first: people, then gear, then silence"] = Audio + """
            gear Rack {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono line           on ts 6.35 mm
            }
            lead TwoPole : mains to iec-c14 {
              line to line
              neutral to neutral
            }
            device rack   : Rack
            device nine   : Adapter9Positive
            device strip  : MainsStrip
            device drums2 : Drums
            connect wall.socket2  to strip.plug
            connect strip.outlet1 to rack.power with TwoPole 2 m
            connect strip.outlet2 to nine.plug
            connect nine.out      to drums2.power
            connect rack.line     to desk.ch1   with Patch 14 m
            connect drums.main    to desk.ch34
            connect desk.rec      to tape.line
            must audio from rack reach tape
            """,
    };

    /// <summary>What is printed by other commands.</summary>
    public static IReadOnlyDictionary<string, (string Rig, string[][] Commands)> Asked { get; } =
        new Dictionary<string, (string, string[][])>(StringComparer.Ordinal)
    {
        ["trace: messages"] = (Thru(
            "out1 drops clock", "voice on channel 2\n  clock midi", ByOut1, ""),
        [
            Ask("notes from seq.a"), Ask("clock from seq"), Ask("what reaches bass"), Ask("why not clock from seq to bass"),
            Ask("why not notes from seq.b to bass"), Ask("why not notes from seq.a to bass"),
            Ask("why not clock from bass to seq"),
        ]),
        ["trace: audio and power"] = (Audio + "connect drums.main to desk.ch34\nconnect desk.main to tape.line\n",
        [
            Ask("audio from drums"), Ask("audio to tape"), Ask("power to drums"), Ask("power from brick"),
            Ask("what feeds drums"), Ask("why not audio from drums.mono to desk"),
            Ask("why not audio from drums to tape"), Ask("why not power from brick to tape"),
        ]),
        ["trace: questions that are not understood"] = (Midi,
        [
            Ask("nots from seq"), Ask("notes from sek"), Ask("what reaches"), Ask("why not clock from seq"), Ask("from seq"),
            Ask("notes from seq to bass"),
            ["trace", "small.rig"], ["trace"], ["trace", "other.rig", "notes from seq"],
        ]),
        ["format: a rig typed in a hurry"] = ("""
            gear Tern {
            in midi:midi on din-5
              part voice receives   midi on channel any
            }
            device bass:Tern{
            voice on channel 2
            }

            """,
            [["format", "--check", "small.rig"], ["format", "small.rig"], ["format", "small.rig"]]),
    };

    private static string[] Ask(string question) => ["trace", "small.rig", question];

    /// <summary>A sequencer, a synthesizer, and between them a thru box unless <paramref name="thru"/> is null.</summary>
    private static string Thru(string? thru, string bass, string cables, string promise) => Midi
        + (thru is null ? "" : $"device thru : Weir {{\n  {thru}\n}}\n")
        + $"device bass : Tern {{\n  {bass}\n}}\nconnect {cables}\n{promise}\n";

    private static string Minijacks(string type, string lead, string input) => $$"""
        import "shared/leads.rig"
        gear Rook {
          out midi : midi on trs 3.5 mm {{type}}
        }
        gear Wren {
          in midi : {{input}}
        }
        device seq  : Rook
        device lead : Wren
        connect seq.midi to lead.midi with {{lead}}

        """;

    private static string Port(string signal) => $"gear A {{\n  in x : {signal}\n}}\n";

    private static string Snake(string from, string to) => $$"""
        gear Snake {
          in  in1..in8     : audio mono line on trs 6.35 mm
          out core1..core8 : audio mono line on trs 6.35 mm
          join {{from}} to {{to}}
        }

        """;

    private static string Offered(string lead) => $$"""
        import "shared/leads.rig"
        gear Rook {
          out line : audio mono line balanced on trs 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line balanced on xlr-3
        }
        device seq  : Rook
        device desk : Desk
        connect seq.line to desk.ch1 with {{lead}} 2 m

        """;
}
