using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Why nothing of an input goes on to an output, though the gear has a way from one to the other.</summary>
internal static class AudioClosed
{
    /// <summary>Null where the gear has no way, or where it is open.</summary>
    public static Broken? Of(PortRef from, PortSymbol output, RigWiring wiring) => Of(from, from.Port, output, wiring, []);

    /// <summary>By the route itself, else by way of a bus.</summary>
    private static Broken? Of(PortRef from, PortSymbol at, PortSymbol output, RigWiring wiring, HashSet<PortSymbol> seen)
    {
        var (device, gear) = (from.Device, from.Device.Gear!);
        if (gear.Routes.Contains(at, output) && Closing(device, at, output, wiring) is not Broken.Closed { By: MixSetting.Assign } and var direct)
        {
            return direct;
        }
        foreach (var bus in gear.Routes.From(at).Where(port => port.IsBus).OrderBy(port => port.Name, StringComparer.Ordinal))
        {
            // Where the player sends it elsewhere, the way by what he chose is the one to look at.
            if (Closing(device, at, bus, wiring) is not Broken.Closed { By: MixSetting.Assign } && seen.Add(bus) && Of(from, bus, output, wiring, seen) is { } further)
            {
                return Closing(device, at, bus, wiring) ?? further;
            }
        }
        return gear.Routes.Contains(at, output) ? Closing(device, at, output, wiring) : null;
    }

    private static Broken? Closing(DeviceSymbol device, PortSymbol from, PortSymbol to, RigWiring wiring)
    {
        var (here, next) = (new PortRef(device, from), new PortRef(device, to));
        foreach (var setting in device.Mix)
        {
            var isClosed = setting switch
            {
                MixSetting.Muted muted => ReferenceEquals(muted.Port, from) || ReferenceEquals(muted.Port, to),
                MixSetting.Send { Decibels: null } send => ReferenceEquals(send.Port, from) && ReferenceEquals(send.To, to),
                MixSetting.Assign assign => ReferenceEquals(assign.Port, from) && device.Gear!.Assigns.Contains(from, to) && !assign.To.Contains(to),
                _ => false,
            };
            if (isClosed)
            {
                return new Broken.Closed(here, next, setting);
            }
        }
        foreach (var insert in device.Gear!.Routes.From(from))
        {
            if (insert.Signal is { Kind: SignalKind.Insert } && wiring.Plugged[device.FirstJack + insert.Jacks[0].Index] is { } plug && device.Gear.Routes.Contains(insert, to))
            {
                return new Broken.InsertOpen(here, new PortRef(device, insert), plug);
            }
        }
        return null;
    }
}
