using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>Where the audio of a device, of one of its ports or of what it plays begins.</summary>
internal static class AudioStarts
{
    /// <summary>
    /// The lanes of a place, each with the channel of the source that it is: left, right or mono (see <see cref="AudioImage"/>). Of a device all that goes out;
    /// of an input what comes in there; a computer that says nothing of what it plays can play at any of its USB ports.
    /// </summary>
    public static List<(int Lane, int Channel)> Of(AudioMap map, Target from)
    {
        var starts = new List<(int, int)>();
        var device = from.Device;
        if (from.Sound is { } sound)
        {
            AddSound(sound);
        }
        else if (from.Port is { } port)
        {
            Add(port.IsOutput || port.IsBus || (port.Signal is { Kind: SignalKind.Usb } && !IsOnlyRead(device, port)) ? map.Out(device, port) : map.In(device, port), null);
        }
        else
        {
            foreach (var output in PortsOf(device))
            {
                Add(map.Out(device, output), null);
            }
            foreach (var played in device.Gear!.Sounds.Values)
            {
                AddSound(played);
            }
        }
        return starts;

        void AddSound(SoundSymbol played)
        {
            foreach (var at in played.LeavesAt)
            {
                Add(map.Out(device, at), at.Signal is { Kind: SignalKind.Usb } ? played.Channels : null);
            }
        }

        void Add(Lanes lanes, (int First, int Last)? channels)
        {
            var (first, count) = channels is var (low, high) ? (low - 1, high - low + 1) : (0, Math.Min(lanes.Count, 2));
            for (var i = 0; i < count && first + i < lanes.Count; i++)
            {
                var channel = count == 1 ? AudioImage.Mono : i % 2 == 0 ? AudioImage.Left : AudioImage.Right;
                if (from.Side == Side.Only || channel == AudioImage.Mono || (from.Side == Side.Right) == (channel == AudioImage.Right))
                {
                    starts.Add((lanes[first + i], channel));
                }
            }
        }
    }

    /// <summary>The ports at which a device gives sound, without what it plays by itself.</summary>
    public static IEnumerable<PortSymbol> PortsOf(DeviceSymbol device)
    {
        var gear = device.Gear!;
        return gear.Ports.Where(port => port is { IsOutput: true, Signal.Kind: SignalKind.Audio or SignalKind.Insert } || (port.Signal is { Kind: SignalKind.Usb } && IsSoundingByUsb(gear, port)));
    }

    private static bool IsSoundingByUsb(GearSymbol gear, PortSymbol port) =>
        gear.Parts.Values.Any(part => part.SoundsAt.Contains(port)) || (gear.Sounds.Count == 0 && port.Signal is { Usb: UsbRole.Host } && !gear.Routes.GroupsTo(port).Any());

    private static bool IsOnlyRead(DeviceSymbol device, PortSymbol port) =>
        !IsSoundingByUsb(device.Gear!, port) && !device.Gear!.Routes.GroupsTo(port).Any() && !device.Gear.Sounds.Values.Any(sound => sound.LeavesAt.Contains(port));
}
