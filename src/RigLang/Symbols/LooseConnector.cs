using System.Globalization;
using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>
/// What players call connectors, and what the language calls them. Where the word leaves open which of several is meant, and the signal does not tell,
/// the player is asked. Source: common practice.
/// </summary>
internal static class LooseConnector
{
    private static readonly Dictionary<string, string[]> Others = new(StringComparer.OrdinalIgnoreCase)
    {
        ["xlr"] = ["xlr-3"],
        ["din"] = ["din-5"],
        ["phono"] = ["rca"],
        ["cinch"] = ["rca"],
        ["combi"] = ["combo"],
        ["usb"] = ["usb-a", "usb-b", "usb-c"],
        ["type-c"] = ["usb-c"],
        ["micro-usb"] = ["usb-b micro"],
        ["usb-micro"] = ["usb-b micro"],
        ["mini-usb"] = ["usb-b mini"],
        ["usb-mini"] = ["usb-b mini"],
        ["iec"] = ["iec-c14", "iec-c13"],
        ["kettle"] = ["iec-c14", "iec-c13"],
    };

    /// <summary>Words for any phone jack, with its size where the word says it.</summary>
    private static readonly Dictionary<string, string> Phones = new(StringComparer.OrdinalIgnoreCase)
    {
        ["jack"] = "",
        ["phone"] = "",
        ["ts"] = "",
        ["trs"] = "",
        ["trrs"] = "",
        ["minijack"] = "3.5",
        ["mini-jack"] = "3.5",
        ["mini"] = "3.5",
        ["quarter-inch"] = "6.35",
    };

    /// <summary>How to write what these words mean; null when they mean no connector that is known.</summary>
    public static WrongForm? Of(IReadOnlyList<AttributeNode> words, Signal? signal, Reading reading)
    {
        if (words.Count == 0)
        {
            return null;
        }
        var span = words[0].Span.To(words[^1].Span);
        var kept = new List<string>();
        var kind = "";
        var size = "";
        var isPhone = false;
        string[]? other = null;
        foreach (var node in words)
        {
            var word = node.IsWord ? node.Value.Text! : "";
            switch (word)
            {
                case "captive" or "type-a" or "type-b" or "socket":
                    kept.Add(word);
                    break;
                case "ts" or "trs" or "trrs":
                    (kind, isPhone) = (word, true);
                    break;
                case "mono" or "unbalanced" when kind.Length == 0:
                    kind = "ts";
                    break;
                case "stereo" or "balanced" when kind.Length == 0:
                    kind = "trs";
                    break;
                case { Length: > 0 } when Phones.TryGetValue(word, out var said):
                    (isPhone, size) = (true, said.Length > 0 ? said : size);
                    break;
                case { Length: > 0 } when Others.TryGetValue(word, out var names):
                    other = names;
                    break;
                case "" when SizeOf(node) is { } measured:
                    (isPhone, size) = (true, measured);
                    break;
            }
        }
        IReadOnlyList<string> ways = isPhone ? PhoneWays(kind, size, signal) : other ?? [];
        if (ways.Count == 0)
        {
            return null;
        }
        var prefix = kept.Remove("captive") ? "captive " : kept.Remove("socket") ? "socket " : "";
        var suffix = kept.Count > 0 ? " " + kept[0] : "";
        var texts = ways.Select(way => prefix + way + suffix).ToList();
        var written = reading.Source.Slice(span);
        return new WrongForm(reading.At(span),
            texts.Count == 1 ? $"`{written}` is `{texts[0]}` here." : $"`{written}` leaves open which connector it is.",
            texts.Count == 1 ? $"Write `{texts[0]}`."
                : isPhone ? $"Write {Or(texts)}: ts has two contacts (mono, unbalanced), trs three (stereo, balanced, insert, MIDI)."
                : $"Write {Or(texts)}: look at the jack.",
            [.. texts.Select(text => new Rewrite($"Write {text}", span, text))]);
    }

    private static string Or(List<string> texts) =>
        string.Join(", ", texts.Take(texts.Count - 1).Select(t => $"`{t}`")) + $" or `{texts[^1]}`";

    private static List<string> PhoneWays(string kind, string size, Signal? signal)
    {
        string[] kinds = kind.Length > 0 ? [kind] : KindsFor(signal);
        string[] sizes = size.Length > 0 ? [size] : ["6.35", "3.5"];
        return [.. sizes.SelectMany(s => kinds.Select(k => $"{k} {s} mm")).Where(name => Forms.Find(name) is not null)];
    }

    /// <summary>What the signal needs: two contacts for its two channels or its two wires, one for one.</summary>
    private static string[] KindsFor(Signal? signal) => signal switch
    {
        { Kind: SignalKind.Audio, IsStereo: true } or { Kind: SignalKind.Insert or SignalKind.Midi } => ["trs"],
        { Kind: SignalKind.Audio, Balance: not Balance.Unbalanced } => ["trs"],
        { Kind: SignalKind.Audio, Level: AudioLevel.Instrument or AudioLevel.Speaker } => ["ts"],
        _ => ["ts", "trs"],
    };

    private static string? SizeOf(AttributeNode node) =>
        node is { Value.Kind: TokenKind.Number, Unit: { } unit }
        && double.TryParse(node.Value.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            ? Size(unit.Text switch { "mm" => value, "inch" or "in" => value * 25.4, _ => 0 })
            : null;

    /// <summary>The nearest of the sizes that there are; a quarter of an inch is 6.35 mm, and an eighth is what the 3.5 mm jack is called.</summary>
    public static string? Size(double millimetres) => millimetres switch
    {
        >= 6 and <= 6.6 => "6.35",
        >= 3.1 and <= 3.6 => "3.5",
        >= 2.3 and <= 2.6 => "2.5",
        _ => null,
    };
}
