using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>How each statement, and each line of each block, goes.</summary>
internal static class SignatureTable
{
    private const string Jacks = "device.port; a comma between several, and .left or .right for one of a pair.";
    private const string OwnPorts = "Ports of this gear; a comma between several, out1..out5 for a row of them.";
    private const string Kinds = "Message kinds: notes, clock, start, stop, program change, … or any.";

    /// <summary>The form that the line's words choose; null where none is begun.</summary>
    public static SignatureForm? Of(TypedLine line, IReadOnlyList<Token> typed) => line.Block switch
    {
        Keyword.None => Statements.GetValueOrDefault(typed[0].Keyword),
        Keyword.Rig => typed[0].Text switch { "mains" => Mains, "tempo" => Tempo, "set" => SetLength, _ => null },
        Keyword.Gear => typed[0].Keyword is Keyword.Clock or Keyword.Transport && HasWord(line, Keyword.Sends)
            ? ClockSends
            : GearLines.GetValueOrDefault(typed[0].Keyword),
        Keyword.Lead => typed[0].Text switch { "longest" => Longest, "gauge" => Gauge, _ => Wire },
        Keyword.Stock => typed[0].Kind == TokenKind.Number ? Stock : null,
        Keyword.Device => SettingOf(line, typed),
        _ => null,
    };

    private static SignatureForm SettingOf(TypedLine line, IReadOnlyList<Token> typed) => typed[0].Keyword switch
    {
        Keyword.Clock => ClockSetting,
        Keyword.Transport => TransportSetting,
        Keyword.Runs => Battery,
        _ => HasWord(line, Keyword.Drops) ? Drops
            : HasWord(line, Keyword.Passes) ? Passes
            : HasWord(line, Keyword.Maps) ? Map
            : HasWord(line, Keyword.Up) ? Notes
            : !HasWord(line, Keyword.Channel) && line.Tokens.Any(t => t.Text is "phantom" or "local" or "thru" && t.Start > line.Tokens[0].Start) ? Switch
            : Channel,
    };

    private static bool HasWord(TypedLine line, Keyword keyword) => line.Tokens.Skip(1).Any(t => t.Keyword == keyword);

    private static readonly Dictionary<Keyword, SignatureForm> Statements = new()
    {
        [Keyword.Rig] = new("rig <TITLE>", "What holds for the whole evening.", ("rig", "The title, in quotes; it may be left out.")),
        [Keyword.Import] = new("import <PATH>", "Brings in what another file declares.",
            ("import", "The path in quotes, seen from this file; \"shared/…\" is the library.")),
        [Keyword.Gear] = new("gear <NAME> [like <GEAR>]", "A kind of box.",
            ("gear", "What it is called. A block with its ports follows."),
            ("like", "Gear whose lines it has too; its block says only what differs.")),
        [Keyword.Lead] = new("lead <NAME> : <PLUG> to <PLUG>", "A kind of cable or adapter.",
            ("lead", "What it is called."),
            (":", "The connector at one end, such as trs 3.5 mm; `socket` before it for one that a plug goes into."),
            ("to", "The connectors at the other end; a comma between several, each with a name.")),
        [Keyword.Device] = new("device <NAME> : <GEAR> at (<X>, <Y>)", "A box on the table.",
            ("device", "What you call it; two of the same gear get different names. A comma between several of the same kind, box2..box6 for a row."),
            (":", "The gear that it is."),
            ("at", "Across, from the left corner in front, such as 0.4 m. The place may be left out."),
            (",", "Away from the audience's edge, such as 1 m.")),
        [Keyword.Connect] = new("connect <FROM> to <TO> with <LEAD> <LENGTH> [<label>]", "A cable.",
            ("connect", "Where it comes from: " + Jacks),
            ("to", "Where it goes: " + Jacks),
            ("with", "The lead; + puts leads in a row. Left out, the simplest that fits is taken."),
            ("NAME", "How long it is, such as 1.5 m."),
            ("TEXT", "What is written on its label, in quotes; a colour may stand before it.")),
        [Keyword.Must] = Expectation("must", "What you rely on."),
        [Keyword.Never] = Expectation("never", "What must not happen."),
        [Keyword.Accept] = new("accept <CHECK> on <WHERE> because <REASON>", "A finding that you leave as it is.",
            ("accept", "The name of the check, as the finding gives it."),
            ("on", "A device, or device.port; a comma between several, desk.ch1..ch4 for a row."),
            ("because", "Why, in quotes.")),
    };

    private static SignatureForm Expectation(string verb, string documentation) => new(
        $"{verb} <WHAT> from <FROM> reach <TO> [<how>]", documentation,
        (verb, "audio, power, or message kinds: notes, clock, start, stop, …"),
        ("from", "A device, or device.track or device.port."),
        ("reach", "Devices, or their parts or ports; a comma between several."),
        ("in|on|within", "in stereo, in mono, on channel 2, within 5 ms; it may be left out."));

    private static readonly Dictionary<Keyword, SignatureForm> GearLines = new()
    {
        [Keyword.In] = Port("in", "A jack that takes a signal."),
        [Keyword.Out] = Port("out", "A jack that gives a signal."),
        [Keyword.Route] = new("route <FROM> to <TO> [<latency or gain>]", "What comes in at the first goes out at the second.",
            ("route", "Inputs. " + OwnPorts), ("to", "Outputs. " + OwnPorts), ("latency|gain|channels", "latency 3 ms, gain 6 dB; to or from USB, channels 1..8; all may be left out.")),
        [Keyword.Join] = new("join <NAMES> to <NAMES>", "Metal to metal.", ("join", OwnPorts), ("to", OwnPorts)),
        [Keyword.Switch] = new("switch <FROM> to <TO>", "One input at a time.", ("switch", "Inputs. " + OwnPorts), ("to", "Outputs. " + OwnPorts)),
        [Keyword.Part] = new("part <NAMES> receives <PORTS> on channel <CHANNEL>, sounds at <PORTS>", "A voice, drum or section.",
            ("part", "What it is called; a comma between several."),
            ("receives", "Where its notes come in. " + OwnPorts),
            ("on", "A number that cannot be changed, a range such as 1..4, or any."),
            ("sounds", "Where it is heard. " + OwnPorts)),
        [Keyword.Track] = new("track <NAMES> sends <PORTS> on channel <CHANNEL>, plays <PARTS>", "What plays others.",
            ("track", "What it is called; a comma between several."),
            ("sends", "Where its notes go out. " + OwnPorts),
            ("on", "A number that cannot be changed, or a range such as 1..4; it may be left out."),
            ("plays", "Parts of the same gear that it plays inside; it may be left out.")),
        [Keyword.Clock] = new("clock follows <SOURCES>", "Where the tempo may come from.", ("clock", "internal, or ports.")),
        [Keyword.Transport] = new("transport follows <SOURCES>", "Where start and stop may come from.", ("transport", "internal, or ports.")),
        [Keyword.Filters] = new("filters <KINDS>", "What it can be set to drop.", ("filters", Kinds)),
        [Keyword.Maps] = new("maps <channels>", "It can move messages to other channels.", ("maps", "The word channels.")),
        [Keyword.Bus] = new("bus <NAMES> : <SIGNAL>", "A sum inside, without a jack.",
            ("bus", "What it is called; a comma between several."), (":", "audio mono, or audio stereo.")),
        [Keyword.Assign] = new("assign <FROM> to <TO>", "Routes that are chosen channel by channel.", ("assign", "Inputs. " + OwnPorts), ("to", "Busses and outputs. " + OwnPorts)),
        [Keyword.Sound] = new("sound <NAMES> at <PORTS> [<channels>]", "What it plays by itself.",
            ("sound", "What it is called; a comma between several."), ("at", "Where it comes out. " + OwnPorts), ("channels", "Of a USB jack, such as channels 1..2; it may be left out.")),
        [Keyword.Records] = new("records <PORTS>", "What it records, in the order of its tracks.", ("records", OwnPorts)),
        [Keyword.Battery] = new("battery <HOURS>", "It can run without a supply.", ("battery", "For how long, such as 5 h; it may be left out.")),
    };

    private static SignatureForm Port(string direction, string documentation) => new(
        $"{direction} <NAMES> : <SIGNAL> on <CONNECTOR>", documentation,
        (direction, "What is printed beside it; a comma between several, out1..out5 for a row."),
        (":", "midi, audio mono line, dc 9 V centre-positive, 250 mA, …"),
        ("on", "din-5, ts 6.35 mm, 2 trs 6.35 mm for a stereo pair, barrel 5.5x2.1 mm, …"));

    private static readonly SignatureForm ClockSends = new("clock sends <PORTS>", "Where it gives clock, or start and stop.", ("sends", OwnPorts));

    private static readonly SignatureForm Tempo = new("tempo <TEMPO>", "The tempo of the evening.", ("tempo", "Such as 112 bpm."));

    private static readonly SignatureForm SetLength = new("set <LENGTH>", "How long the set lasts.", ("set", "Such as 75 min."));

    private static readonly SignatureForm Mains = new("mains <FIGURES>", "What comes out of the wall.", ("mains", "Such as 230 V 50 Hz 16 A."));

    private static readonly SignatureForm Longest = new("longest <LENGTH>", "The longest that this lead may be.", ("longest", "Such as 2 m."));

    private static readonly SignatureForm Gauge = new("gauge <GAUGE>", "How thick its wires are.", ("gauge", "Such as 24 awg."));

    private static readonly SignatureForm Wire = new("<CONTACT> to <CONTACTS>", "A wire.",
        ("", "A contact of the plug before `to`, such as tip, or left.tip where there are several plugs."),
        ("to", "Contacts of the other end; a comma between several."));

    private static readonly SignatureForm Stock = new("<COUNT> <LEAD> <LENGTH> [<colour>]", "Leads in the box.",
        ("", "How many."), ("NUMBER", "Which lead."), ("NAME", "How long, such as 1.5 m; it may be left out."), ("NAME", "A colour; it may be left out."));

    private static readonly SignatureForm Channel = new("<NAMES> on channel <CHANNEL> [<layered>]", "The channel of a part or track.",
        ("", "Parts or tracks; a comma between several."),
        ("on", "1 to 16, any, off, or auto to have one chosen."),
        ("layered", "When sharing the channel is meant."));

    private static readonly SignatureForm Drops = new("<PORTS> drops <KINDS>", "Messages that are filtered out.", ("", OwnPorts), ("drops", Kinds));

    private static readonly SignatureForm Passes = new("<PORTS> passes only <KINDS>", "The only messages that pass.", ("", OwnPorts), ("passes", Kinds));

    private static readonly SignatureForm Map = new("<PORTS> maps channel <FROM> to <TO>", "Messages that change their channel.",
        ("", OwnPorts), ("maps", "The channel that comes in."), ("to", "The channels that go on; a comma between several."));

    private static readonly SignatureForm Notes = new("<TRACKS> up to <COUNT> notes at once", "How much a track plays at the most.",
        ("", "Tracks of this device."), ("up", "How many notes sound together."));

    private static readonly SignatureForm Switch = new("<NAMES> <SWITCH> <STATE>", "A switch on the panel.",
        ("", "Ports, or tracks for local."), ("NAME", "phantom, local or thru."), ("phantom|local|thru", "on or off."));

    private static readonly SignatureForm ClockSetting = new("clock <SOURCE>", "Where it takes its tempo from.", ("clock", "internal, or one of its ports."));

    private static readonly SignatureForm TransportSetting = new("transport <SOURCE>", "Where it takes start and stop from.", ("transport", "internal, or one of its ports."));

    private static readonly SignatureForm Battery = new("runs on <battery>", "It needs no supply tonight.", ("runs", "The word battery."));
}
