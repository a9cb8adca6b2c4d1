using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>The tracks of a recorder, in the order in which its gear names what it records; of a computer the channels of each stream.</summary>
internal static class RecordedTracks
{
    /// <summary>For each port or bus that is recorded its lanes and the number of its first track, from 1.</summary>
    public static IEnumerable<(PortSymbol Port, Lanes Lanes, int First)> Of(AudioMap map, DeviceSymbol device)
    {
        var next = 1;
        foreach (var port in device.Gear!.Records)
        {
            // What goes out of a mixer is recorded as it goes out; by USB, what comes in.
            var lanes = port.IsBus || (port.IsOutput && port.Signal is not { Kind: SignalKind.Usb }) ? map.Out(device, port) : map.In(device, port);
            // By USB each stream has channels of its own.
            var isStream = port.Signal is { Kind: SignalKind.Usb };
            yield return (port, lanes, isStream ? 1 : next);
            next += isStream ? 0 : lanes.Count;
        }
    }
}
