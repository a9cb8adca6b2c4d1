using System.Collections.Frozen;

namespace RigLang.Editing;

/// <summary>What the words say that are neither keywords nor names: message kinds, signals, settings.</summary>
public static class WordText
{
    /// <summary>Every message kind of the language. Source: MIDI 1.0 (IEC 63035).</summary>
    public static IReadOnlyDictionary<string, string> MessageKinds { get; } = new Dictionary<string, string>
    {
        ["notes"] = "Note on and note off: what makes a part sound. They carry a channel.",
        ["velocity"] = "How hard a note is struck. It travels inside the note messages.",
        ["aftertouch"] = "Pressure on keys that are held down, of the whole keyboard or key by key.",
        ["controllers"] = "Knobs, wheels and pedals: 128 numbers of 0 to 127 on each channel, with the channel mode messages.",
        ["program change"] = "Calls up another sound or pattern.",
        ["pitch bend"] = "The pitch wheel, in 16,384 steps.",
        ["system exclusive"] = "Messages of a maker's own, such as sound dumps. They can be long, and hold up what waits behind them.",
        ["clock"] = "24 pulses a quarter note, which followers take their tempo from. It has no channel.",
        ["start"] = "Begins from the top, with the next clock pulse.",
        ["stop"] = "Stops where it is.",
        ["continue"] = "Goes on from where it stopped.",
        ["song position"] = "Where in the song the next continue goes on, counted in sixteenths.",
        ["active sensing"] = "A sign of life at least every 300 ms; when it fails to come, a receiver falls silent.",
        ["transport"] = "Start, stop and continue together.",
        ["any"] = "Every kind of message.",
    }.ToFrozenDictionary();

    /// <summary>The words after the colon of a port.</summary>
    public static IReadOnlyDictionary<string, string> Signals { get; } = new Dictionary<string, string>
    {
        ["midi"] = "MIDI on a serial cable, one way. On small jacks say type-a (the standard, RP-054) or type-b behind the connector.",
        ["pulse"] = "Clock as pulses on one contact. Say its rate, such as 2 ppqn.",
        ["din-sync"] = "Run and clock on a DIN socket, from before MIDI. It looks like MIDI and is not.",
        ["audio"] = "Sound, as a voltage. Say mono or stereo, and its level.",
        ["insert"] = "Send and return on one jack: send on the tip, return on the ring.",
        ["control"] = "A control voltage, an expression pedal or a foot switch. Say which: pitch, gate, trigger, expression or switch.",
        ["pitch"] = "A voltage that says how high a note is.",
        ["gate"] = "A voltage that is high as long as a note lasts.",
        ["trigger"] = "A short pulse that starts something; clock pulses do so too.",
        ["expression"] = "A pedal with a potentiometer: the box sends a voltage out, and the wiper brings a part of it back.",
        ["switch"] = "A foot switch: a contact that opens or closes.",
        ["volt-per-octave"] = "An octave up is a volt more.",
        ["hertz-per-volt"] = "An octave up is twice the voltage.",
        ["wiper"] = "With tip or ring: the contact that the wiper of the pedal is on.",
        ["tip"] = "The foremost contact of the plug.",
        ["ring"] = "The middle contact of the plug.",
        ["normally"] = "With open or closed: how the switch is until it is pressed.",
        ["open"] = "Open until it is pressed.",
        ["closed"] = "Closed until it is pressed.",
        ["inverted"] = "On when its contact is shorted to ground.",
        ["dc"] = "Low-voltage supply, direct current. Say voltage, polarity and current as they are printed beside the jack.",
        ["ac"] = "Low-voltage supply, alternating current. Never into a DC jack.",
        ["mains"] = "The voltage of the wall. Leave its wiring to a licensed electrician and the local code.",
        ["usb"] = "USB: say device, host or charger. A device with a current is fed by the bus.",
        ["mono"] = "One channel.",
        ["stereo"] = "Two channels, left and right: on two contacts of one jack, or on a pair of jacks.",
        ["mic"] = "Microphone level: a few thousandths of a volt.",
        ["instrument"] = "What a passive pickup gives: it wants an input of high impedance.",
        ["line"] = "Line level: what most boxes give and take.",
        ["headphone"] = "Made to drive headphones: louder than line.",
        ["speaker"] = "Made to drive a loudspeaker. It never belongs in an input that is not one.",
        ["balanced"] = "Two contacts carry the signal, one of them inverted, so that hum cancels out.",
        ["unbalanced"] = "One contact carries the signal against ground.",
        ["impedance-balanced"] = "Balanced for the cable, with one contact driven. It may feed an unbalanced input.",
        ["transformer-balanced"] = "Balanced by a transformer. It may feed an unbalanced input.",
        ["phantom"] = "48 V for microphones, on the signal wires (IEC 61938): an input can supply it, an output needs it.",
        ["normalled"] = "Of a pair of jacks, the left one alone serves as mono.",
        ["isolated"] = "Not joined to the ground of the box.",
        ["centre-positive"] = "Plus on the inner contact of the barrel.",
        ["centre-negative"] = "Minus on the inner contact of the barrel.",
        ["any-polarity"] = "It takes plus on either contact.",
        ["positive-ground"] = "Its case and the ground of its audio are its plus.",
        ["earthed"] = "Class I: it needs the protective earth (IEC 61140).",
        ["double-insulated"] = "Class II: made to be safe without an earth (IEC 61140).",
        ["device"] = "The side of USB that is asked.",
        ["host"] = "The side of USB that asks: a computer, or the outlets of a hub.",
        ["charger"] = "USB power without data.",
        ["captive"] = "A plug on a cable that is part of the gear.",
        ["type-a"] = "MIDI on a small jack as the standard has it (RP-054): source on the ring, sink on the tip.",
        ["type-b"] = "MIDI on a small jack the other way round: source on the tip, sink on the ring.",
    }.ToFrozenDictionary();

    /// <summary>Words of settings and of the rig block.</summary>
    public static IReadOnlyDictionary<string, string> Settings { get; } = new Dictionary<string, string>
    {
        ["tempo"] = "The tempo of the evening. The load of MIDI cables is worked out for it.",
        ["mains"] = "What comes out of the wall here: voltage, frequency, and what the fuse holds.",
        ["set"] = "How long the set lasts.",
        ["internal"] = "The box's own clock.",
        ["auto"] = "The lowest channel that stands in nobody's way is chosen, the same for a track and the part it is meant for.",
        ["any"] = "It listens on every channel.",
        ["off"] = "Not used, or switched off.",
        ["phantom"] = "The switch for phantom power, 48 V on the microphone jack.",
        ["local"] = "Whether a keyboard plays its own box from inside.",
        ["thru"] = "Whether an output passes on what comes in.",
        ["longest"] = "The longest that this lead may be.",
        ["gauge"] = "How thick its wires are.",
        ["latency"] = "How long the electronics take.",
        ["gain"] = "How much louder or softer it goes out.",
        ["stereo"] = "Left has to arrive on the left, and right on the right.",
        ["mono"] = "It has to arrive as one channel.",
        ["socket"] = "This end is a socket that a plug goes into.",
        ["channels"] = "MIDI channels.",
    }.ToFrozenDictionary();

    internal static string? Of(IReadOnlyDictionary<string, string> table, string word, EditorStyle style)
    {
        var page = new HoverPage(style);
        return table.TryGetValue(word, out var text) ? page.Title(page.Name(word)).Line(text).ToString() : null;
    }
}
