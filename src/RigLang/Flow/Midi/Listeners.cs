using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>A part of a device, and the nodes where its messages come in.</summary>
public sealed record Listener(DeviceSymbol Device, PartSymbol Part, KnownChannel Channel, IReadOnlyList<int> Nodes)
{
    public string Text => $"{Device.Name}.{Part.Name}";

    /// <summary>True when a plug is in at least one of its ports.</summary>
    public required bool IsWired { get; init; }

    public static List<Listener> Of(RigNames names, ChannelTable channels, Wiring.RigWiring wiring)
    {
        var listeners = new List<Listener>();
        foreach (var device in names.Devices)
        {
            foreach (var part in device.Gear?.Parts.Values ?? Enumerable.Empty<PartSymbol>())
            {
                listeners.Add(new Listener(device, part, channels.Of(device, part), [.. part.Receives.Select(p => MidiGraph.In(device, p)).Where(n => n >= 0)])
                {
                    IsWired = part.Receives.Any(p => wiring.IsPlugged(device, p)),
                });
            }
        }
        return listeners;
    }
}
