using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>A part of a device, and the nodes where its messages come in.</summary>
public sealed record Listener(DeviceSymbol Device, PartSymbol Part, KnownChannel Channel, IReadOnlyList<int> Nodes)
{
    public string Text { get; } = $"{Device.Name}.{Part.Name}";

    /// <summary>True when a plug is in at least one of its ports.</summary>
    public required bool IsWired { get; init; }

    public static List<Listener> Of(RigNames names, ChannelTable channels, Wiring.RigWiring wiring)
    {
        var listeners = new List<Listener>();
        foreach (var device in names.Devices)
        {
            (PartSymbol Part, int[] Nodes, bool IsWired)? last = null;
            foreach (var part in device.Gear?.Parts.Values ?? Enumerable.Empty<PartSymbol>())
            {
                // Parts of one line receive at the same ports.
                var (_, nodes, isWired) = last is { } other && other.Part.Receives.SequenceEqual(part.Receives) ? other
                    : (part, [.. part.Receives.Select(p => MidiGraph.In(device, p)).Where(n => n >= 0)], part.Receives.Any(p => wiring.IsPlugged(device, p)));
                last = (part, nodes, isWired);
                listeners.Add(new Listener(device, part, channels.Of(device, part), nodes) { IsWired = isWired });
            }
        }
        return listeners;
    }
}
