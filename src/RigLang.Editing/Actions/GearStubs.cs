using RigLang.Checks;
using RigLang.Findings;
using RigLang.Formatting;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Declares gear that nobody declares, with the ports that the rig plugs something into; what they carry is guessed from the other end.</summary>
internal static class GearStubs
{
    private const string Guess = "audio mono line on ts 6.35 mm";

    public static IEnumerable<EditAction> In(RigView view, IReadOnlyList<Finding> findings)
    {
        foreach (var fault in view.Rig.Names.Faults.OfType<UnknownName>().Where(f => f.Kind == "gear"))
        {
            if (findings.FirstOrDefault(f => f.Check.Name == "unknown-name" && f.Location == fault.At) is { } finding
                && SharedLibrary.FileDeclaring(fault.Name) is null)
            {
                yield return EditAction.Mending($"Declare the gear {fault.Name}", finding, Rewriting.AtEnd(view, Block(view, fault.Name)));
            }
        }
    }

    private static string Block(RigView view, string gear)
    {
        var ports = PortsOf(view, gear);
        var lines = ports.Count == 0 ? "" : string.Concat(ports.Select(p => $"  {p}\n"));
        return Formatter.Format(new SourceText("", $"gear {Wording.Written(gear)} {{\n{lines}}}\n")).TrimEnd();
    }

    private static List<string> PortsOf(RigView view, string gear)
    {
        var devices = view.Rig.Names.Devices.Where(d => d.Statement.Gear.Text == gear).Select(d => d.Name).ToHashSet(StringComparer.Ordinal);
        var lines = new List<string>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var connect in view.Rig.Names.Files.SelectMany(f => f.Statements).OfType<ConnectStatement>())
        {
            AddEnds(connect.From, connect.To, isOutput: true);
            AddEnds(connect.To, connect.From, isOutput: false);
        }
        return lines;

        void AddEnds(IReadOnlyList<PathNode> ends, IReadOnlyList<PathNode> others, bool isOutput)
        {
            foreach (var end in ends.Where(e => e.Parts.Count > 1 && devices.Contains(e.Parts[0].Text)))
            {
                var isPair = end.Parts.Count > 2;
                foreach (var name in NamesOf(view, end))
                {
                    if (seen.Add(name))
                    {
                        lines.Add($"{(isOutput ? "out" : "in")} {Wording.Written(name)} : {SignalFor(view, others, isPair, isOutput)}");
                    }
                }
            }
        }
    }

    private static IEnumerable<string> NamesOf(RigView view, PathNode path) => path.Last is { } last
        ? new Reading(view.Source, []).Expand([new NameRange(path.Parts[1], last)]).Select(n => n.Text)
        : [path.Parts[1].Text];

    /// <summary>The words of the port at the other end, turned round where two ends of a cable differ.</summary>
    private static string SignalFor(RigView view, IReadOnlyList<PathNode> others, bool isPair, bool isOutput)
    {
        foreach (var other in others.Where(o => o.Parts.Count > 1))
        {
            if (view.DeviceCalled(other.Parts[0].Text)?.Gear is { } gear
                && gear.PortsByName.TryGetValue(other.Parts[1].Text, out var port) && LineOf(gear, port) is { On.Count: > 0 } line)
            {
                var signal = Slice(line.Signal);
                var jack = Slice(line.On);
                if (isPair && port.Jacks.Count == 1)
                {
                    return "audio stereo line on 2 ts 6.35 mm";
                }
                return $"{Turned(signal, isOutput)} on {TurnedJack(jack)}";

                string Slice(IReadOnlyList<AttributeNode> words) => port.At.Source.Slice(words[0].Span.To(words[^1].Span)).ReplaceLineEndings(" ");
            }
        }
        return isPair ? "audio stereo line on 2 ts 6.35 mm" : Guess;
    }

    private static PortLine? LineOf(GearSymbol gear, PortSymbol port) =>
        gear.Statement.Body.OfType<PortLine>().FirstOrDefault(line => line.Names.Any(n => n.Span.Start <= port.At.Span.Start && port.At.Span.End <= n.Span.End));

    private static string Turned(string signal, bool isOutput)
    {
        var words = signal.Split(' ', StringSplitOptions.RemoveEmptyEntries).ToList();
        for (var i = 0; i < words.Count; i++)
        {
            words[i] = words[i] switch
            {
                "device" => "host",
                "host" => "device",
                "charger" => "device",
                var word => word,
            };
        }
        // Phantom power is a need at one end and a gift at the other; a guess is silent about it, and about what is ground. An input may be normalled to its left
        // jack, which says nothing of the output.
        words.RemoveAll(word => word is "phantom" or "normalled" or "positive-ground" || (isOutput && word is "any-polarity"));
        return string.Join(' ', words).TrimEnd(',');
    }

    private static string TurnedJack(string jack) => jack.Replace("captive ", "", StringComparison.Ordinal) switch
    {
        "mains" => "iec-c14",
        "iec-c14" or "iec-c6" or "iec-c8" => "mains",
        "usb-a" => "usb-b",
        "usb-b" or "usb-b mini" or "usb-b micro" => "usb-a",
        var other => other,
    };
}
