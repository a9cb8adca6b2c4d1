using RigLang.Connectors;
using RigLang.Trade;

namespace RigLang.Syntax;

/// <summary>
/// Every word of the language, in one place. Keywords, units, message kinds and connectors have tables of their own, which stand behind this one; what is left
/// is here. Readers and completion take their words from it; hovers, the reference and the editors' grammars are held against it by tests.
/// </summary>
public static class Vocabulary
{
    /// <summary>The colour words of cables: those of IEC 60757, and some that leads are sold in.</summary>
    public static IReadOnlyList<string> Colours { get; } =
    [
        "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink", "gold", "turquoise", "silver",
    ];

    /// <summary>The words that may follow each signal, in the order in which they are offered.</summary>
    public static IReadOnlyDictionary<string, string[]> Signals { get; } = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["midi"] = [],
        ["audio"] = ["mono", "stereo", "line", "mic", "instrument", "headphone", "speaker", "balanced", "unbalanced", "impedance-balanced",
            "transformer-balanced", "phantom", "normalled", "isolated"],
        ["dc"] = ["centre-positive", "centre-negative", "any-polarity", "positive-ground", "isolated"],
        ["usb"] = ["device", "host", "charger", "isolated"],
        ["pulse"] = [],
        ["mains"] = ["earthed", "double-insulated"],
        ["insert"] = ["mono"],
        ["control"] = ["pitch", "gate", "trigger", "expression", "switch", "volt-per-octave", "hertz-per-volt", "wiper", "tip", "ring", "normally", "open",
            "closed", "inverted"],
        ["din-sync"] = [],
        ["ac"] = [],
    };

    /// <summary>How a jack is built in, and how a small MIDI jack is wired.</summary>
    public static IReadOnlyList<string> Jacks { get; } = ["captive", "type-a", "type-b"];

    /// <summary>What the end of a lead may be, and the names of the sides of a pair.</summary>
    public static IReadOnlyList<string> LeadEnds { get; } = ["socket", "left", "right"];

    /// <summary>Lines of a `rig` block.</summary>
    public static IReadOnlyList<string> Evening { get; } = ["tempo", "mains", "set"];

    /// <summary>Facts about a lead.</summary>
    public static IReadOnlyList<string> LeadFacts { get; } = ["longest", "gauge"];

    /// <summary>Figures of a route.</summary>
    public static IReadOnlyList<string> RouteFigures { get; } = ["latency", "gain"];

    /// <summary>Switches of a device.</summary>
    public static IReadOnlyList<string> Switches { get; } = ["phantom", "thru", "local"];

    /// <summary>What may stand in the place of a channel.</summary>
    public static IReadOnlyList<string> ChannelWords { get; } = ["any", "auto", "off"];

    /// <summary>What an expectation can speak of beside messages.</summary>
    public static IReadOnlyList<string> Expected { get; } = ["audio", "power"];

    public static IEnumerable<string> Keywords => Syntax.Keywords.Table.Keys;

    public static IEnumerable<string> Statements => Syntax.Keywords.Table.Where(k => Syntax.Keywords.OpensStatement(k.Value)).Select(k => k.Key);

    public static IEnumerable<string> Units => Trade.Units.Table.Keys;

    public static IEnumerable<string> Messages => MessageKindNames.Table.Keys;

    /// <summary>The words that connectors are made of, sizes left out.</summary>
    public static IEnumerable<string> Connectors =>
        Forms.All.SelectMany(form => form.Name.Split(' ')).Where(word => char.IsAsciiLetter(word[0]) && word != "mm").Append("barrel").Distinct();

    /// <summary>All words that may stand behind the colon of a port or a lead.</summary>
    public static IEnumerable<string> SignalWords =>
        Signals.Keys.Concat(Signals.Values.SelectMany(words => words)).Concat(Connectors).Concat(Jacks).Concat(LeadEnds).Distinct();
}
