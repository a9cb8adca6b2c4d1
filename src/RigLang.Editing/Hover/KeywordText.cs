using System.Collections.Frozen;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>What each keyword of the language says, and the smallest example of it.</summary>
public static class KeywordText
{
    /// <summary>An entry for every keyword; a test holds that none is missing.</summary>
    public static IReadOnlyDictionary<Keyword, (string Text, string Example)> Table { get; } = new Dictionary<Keyword, (string, string)>
    {
        [Keyword.Rig] = ("What holds for the whole evening: title, tempo, mains, length of the set. All of it may be left out.",
            "rig \"Tide Table\" {\n  tempo 112 bpm\n}"),
        [Keyword.Import] = ("Brings in what another file declares. A path that starts with shared/ is the library that comes with the tool.",
            "import \"shared/leads.rig\""),
        [Keyword.Gear] = ("A kind of box: its jacks, and what happens inside. A device on the table is then one of it.",
            "gear Tern {\n  out line : audio mono line on ts 6.35 mm\n}"),
        [Keyword.Lead] = ("A kind of cable or adapter: its plugs, and which contacts its wires join. Without a block it is wired straight.",
            "lead Patch : ts 6.35 mm to ts 6.35 mm"),
        [Keyword.Device] = ("A box on the table: its name, its gear, where it stands, and in its block how it is set.",
            "device bass : Tern at (0.4 m, 1 m)"),
        [Keyword.Connect] = ("A cable, from a jack to a jack. Without a lead, the simplest one that fits is taken.",
            "connect bass.line to desk.ch1 with Patch 3 m"),
        [Keyword.Stock] = ("What is in the box of cables. It plans nothing by itself; it is there to be packed from.",
            "stock {\n  4 Patch 3 m\n}"),
        [Keyword.Must] = ("What you rely on: it has to arrive. If it does not, a finding says where the way ends.",
            "must audio from bass reach desk"),
        [Keyword.Never] = ("What must not happen: it may not arrive there. If it does, a finding shows the way.",
            "never start, stop from keys reach drums"),
        [Keyword.In] = ("A jack that takes a signal. After must … reach, in stereo or in mono says how it has to arrive.",
            "in midi : midi on din-5"),
        [Keyword.Out] = ("A jack that gives a signal.",
            "out line : audio mono line on ts 6.35 mm"),
        [Keyword.On] = ("Before a connector: where the signal is. Before channel: the MIDI channel. After phantom, local or thru: switched on.",
            "in mic : audio mono mic on xlr-3"),
        [Keyword.Route] = ("What comes in at the first goes out at the second, by way of the electronics. Latency and gain may follow.",
            "route in to out latency 2 ms"),
        [Keyword.Join] = ("Metal to metal: the jacks are one, as in a splitter, a daisy chain or a socket strip.",
            "join in to out1..out3"),
        [Keyword.To] = ("Between where something comes from and where it goes.",
            "connect seq.midi to bass.midi"),
        [Keyword.Part] = ("A voice, drum or section that plays when notes arrive on its channel.",
            "part voice receives midi on channel any, sounds at line"),
        [Keyword.Receives] = ("The jacks where a part listens for notes.",
            "part kit receives midi, usb on channel 10"),
        [Keyword.Sounds] = ("With at: the outputs where a part is heard.",
            "part kit receives midi on channel 10, sounds at mix"),
        [Keyword.At] = ("Where a box stands, in metres or feet from the front left corner; after sounds, the outputs of a part.",
            "device bass : Tern at (0.4 m, 1 m)"),
        [Keyword.Track] = ("A track, a row of pads or a keyboard that plays others.",
            "track a, b sends midi"),
        [Keyword.Sends] = ("The jacks where a track sends its notes, or where a box gives its clock.",
            "clock sends midi, sync"),
        [Keyword.Follows] = ("Where a box can take its tempo or its start and stop from: internal, or jacks.",
            "clock follows internal, midi"),
        [Keyword.Clock] = ("The pulse that tempo is taken from. In a device, where it takes it from: internal, or a jack.",
            "clock midi"),
        [Keyword.Transport] = ("Start, stop and continue, where they come from elsewhere than the clock.",
            "transport internal"),
        [Keyword.Filters] = ("The MIDI messages that a box can be set to drop, or any.",
            "filters clock, start, stop"),
        [Keyword.Battery] = ("The gear can run without a supply, for so long; runs on battery in a device says that it does tonight.",
            "battery 5 h"),
        [Keyword.Drops] = ("Messages that are filtered out at this jack; all others pass.",
            "thru drops start, stop"),
        [Keyword.Passes] = ("With only: the messages that pass this jack; all others are dropped.",
            "out4 passes only clock, transport"),
        [Keyword.Only] = ("After passes: these messages and no others.",
            "out4 passes only notes"),
        [Keyword.Runs] = ("Says that the box runs on its battery tonight and needs no supply.",
            "runs on battery"),
        [Keyword.Channel] = ("A MIDI channel: 1 to 16, any, off, or auto to have the lowest free one chosen.",
            "voice on channel 2"),
        [Keyword.Layered] = ("Sharing this channel is meant: several parts sound together.",
            "voice on channel 2 layered"),
        [Keyword.With] = ("The lead that is used, and its length. A plus sign puts leads and adapters in a row.",
            "connect seq.midi to bass.midi with MidiDin 1.5 m"),
        [Keyword.From] = ("Where it comes from: a device, or one of its tracks, parts or jacks.",
            "must notes from seq.a reach bass"),
        [Keyword.Reach] = ("Where it has to arrive, or may not.",
            "must clock from seq reach bass, drums"),
        [Keyword.Within] = ("How late it may arrive at worst. What the gear itself takes to answer is not counted.",
            "must notes from seq.a reach bass within 5 ms"),
        [Keyword.Switch] = ("As route, but one input at a time.",
            "switch in1, in2 to out"),
        [Keyword.Maps] = ("In gear, maps channels: it can move messages to other channels. In a device, which channel goes on on which.",
            "in maps channel 1 to 2, 3"),
        [Keyword.Plays] = ("The parts of its own box that a track plays inside, unless local control is off.",
            "track keys sends out, plays voice"),
        [Keyword.Up] = ("With to: how many notes a track plays at once at the most. The load of its cables is worked out from it.",
            "a up to 8 notes at once"),
    }.ToFrozenDictionary();

    internal static string Of(Keyword keyword, EditorStyle style)
    {
        var (text, example) = Table[keyword];
        var page = new HoverPage(style);
        return page.Title(page.Name(Keywords.Spelling(keyword))).Line(text).Rig(example).ToString();
    }
}
