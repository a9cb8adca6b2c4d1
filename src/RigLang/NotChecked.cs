using System.Collections.Immutable;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang;

/// <summary>
/// Figures and lines that can be written and that nothing is worked out from: a player who wrote them should not take silence for a verdict.
/// A kind leaves the list when a check begins to use it.
/// </summary>
internal static class NotChecked
{
    public static ImmutableArray<UncheckedFigures> Of(Rig rig)
    {
        var found = new SortedDictionary<Kind, (int Count, Location First)>();
        var seen = new HashSet<GearSymbol>(ReferenceEqualityComparer.Instance);
        foreach (var device in rig.Names.Devices)
        {
            if (device.Gear is { } gear && seen.Add(gear))
            {
                AddGear(gear, found);
            }
        }
        foreach (var stock in rig.Names.Stock)
        {
            Add(Kind.Stock, stock.At, found);
        }
        return [.. found.Select(f => new UncheckedFigures(f.Value.Count, Text(f.Key, f.Value.Count == 1), f.Value.First))];
    }

    private enum Kind
    {
        AudioLatency,
        Gain,
        Level,
        Impedance,
        AudioVoltage,
        ControlVoltage,
        MainsFrequency,
        Stock,
    }

    private static string Text(Kind kind, bool isOne) => (kind, isOne) switch
    {
        (Kind.AudioLatency, true) => "latency of an audio route",
        (Kind.AudioLatency, false) => "latencies of audio routes",
        (Kind.Gain, true) => "gain of a route",
        (Kind.Gain, false) => "gains of routes",
        (Kind.Level, true) => "nominal level",
        (Kind.Level, false) => "nominal levels",
        (Kind.Impedance, true) => "impedance",
        (Kind.Impedance, false) => "impedances",
        (Kind.AudioVoltage, true) => "voltage of an audio port",
        (Kind.AudioVoltage, false) => "voltages of audio ports",
        (Kind.ControlVoltage, true) => "voltage of a control that is not a gate or trigger",
        (Kind.ControlVoltage, false) => "voltages of controls that are not gates or triggers",
        (Kind.MainsFrequency, true) => "mains frequency of a port",
        (Kind.MainsFrequency, false) => "mains frequencies of ports",
        (_, true) => "line of stock, which is not counted against the connections",
        _ => "lines of stock, which are not counted against the connections",
    };

    private static void AddGear(GearSymbol gear, SortedDictionary<Kind, (int, Location)> found)
    {
        foreach (var read in gear.Lines)
        {
            // What is wrong with a line was told when the gear was read, and nothing can be noted any more.
            var line = read with { Reading = read.Reading.Silent };
            switch (line.Statement)
            {
                case RouteLine { Extras.Count: > 0 } route:
                    AddRoute(route, line, gear, found);
                    break;
                case PortLine port when line.Names(port.Names, "port") is [var name, ..] && gear.PortsByName.GetValueOrDefault(name.Text)?.Signal is { } signal:
                    foreach (var node in port.Signal)
                    {
                        if (node.Unit is { } unit && Units.Table.TryGetValue(unit.Text, out var measure) && KindOf(signal, measure.Dimension) is { } kind)
                        {
                            Add(kind, line.Reading.At(node.Span), found);
                        }
                    }
                    break;
            }
        }
    }

    private static Kind? KindOf(Signal signal, Dimension dimension) => (signal.Kind, dimension) switch
    {
        (SignalKind.Audio or SignalKind.Insert, Dimension.SignalLevel) => Kind.Level,
        (SignalKind.Audio, Dimension.Resistance) => Kind.Impedance,
        (SignalKind.Audio, Dimension.Voltage) => Kind.AudioVoltage,
        (SignalKind.Control, Dimension.Voltage) when signal.Control is not (ControlKind.Gate or ControlKind.Trigger) => Kind.ControlVoltage,
        (SignalKind.Mains, Dimension.Frequency) => Kind.MainsFrequency,
        _ => null,
    };

    private static void AddRoute(RouteLine route, GearLine line, GearSymbol gear, SortedDictionary<Kind, (int, Location)> found)
    {
        // The latency of a route for messages is counted where a promise has a limit.
        var isAudio = gear.PortsByName.GetValueOrDefault(route.From[0].First.Text)?.Signal?.Kind is SignalKind.Audio or SignalKind.Insert;
        foreach (var node in route.Extras)
        {
            if (node is { IsWord: true, Value.Text: "gain" })
            {
                Add(Kind.Gain, line.Reading.At(node.Span), found);
            }
            else if (isAudio && node is { IsWord: true, Value.Text: "latency" })
            {
                Add(Kind.AudioLatency, line.Reading.At(node.Span), found);
            }
        }
    }

    private static void Add(Kind kind, Location at, SortedDictionary<Kind, (int Count, Location First)> found) =>
        found[kind] = found.TryGetValue(kind, out var known) ? (known.Count + 1, known.First) : (1, at);
}
