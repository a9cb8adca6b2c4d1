using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Checks.Audio;

/// <summary>Where audio comes to an end that nobody meant: what the checks of this kind ask of gear and plugs.</summary>
internal static class SoundEnds
{
    /// <summary>The devices of which all lines could be read: of the others nothing is missed.</summary>
    public static IEnumerable<DeviceSymbol> Known(Rig rig) =>
        rig.Names.Devices.Where(device => device.Gear is { IsIncomplete: false } && !rig.Names.NamesInBrokenLines.Contains(device.Name));

    /// <summary>Inputs with a plug in them whose sound is routed to outputs of which none has one; each with these outputs.</summary>
    public static IEnumerable<(PortSymbol Input, IReadOnlyList<PortSymbol> Outputs)> DeadInputs(Rig rig, DeviceSymbol device)
    {
        var gear = device.Gear!;
        foreach (var input in gear.Ports)
        {
            if (input is not { IsOutput: false, IsPassive: false, Signal.Kind: SignalKind.Audio } || gear.Records.Contains(input) || !rig.Wiring.IsPlugged(device, input))
            {
                continue;
            }
            var behind = Behind(gear, input);
            // What is recorded inside has arrived.
            if (behind.Exists(port => gear.Records.Contains(port) || rig.Wiring.IsPlugged(device, port)))
            {
                continue;
            }
            var outputs = behind.Where(IsWayOn).ToList();
            if (outputs.Count > 0)
            {
                yield return (input, outputs);
            }
        }
    }

    /// <summary>
    /// Outputs by which sound is meant to go on. Headphones are to listen in, and the link of a loudspeaker to hang on another: a box without other outputs
    /// is an end, such as a recorder.
    /// </summary>
    private static bool IsWayOn(PortSymbol port) => !IsLink(port)
        && port is { IsOutput: true, Signal: { Kind: SignalKind.Audio, Level: not AudioLevel.Headphone } } or { IsBus: false, Signal.Kind: SignalKind.Usb };

    /// <summary>True for a place where audio is meant to end: a loudspeaker, headphones, a recorder, and nothing that would pass it on.</summary>
    public static bool IsForEars(Rig rig, AudioDestination destination) => destination.End == AudioEnd.Recorded
        || !Behind(destination.Device.Gear!, destination.Port).Exists(IsWayOn);

    /// <summary>
    /// True when something is heard or recorded on this table. Where nothing is, the table ends before the loudspeakers, at somebody else's desk or amplifier,
    /// and no box is a dead end.
    /// </summary>
    public static bool IsAnythingHeard(Rig rig) => rig.Audio.Flow.Shares.Any(share => IsForEars(rig, share.To));

    /// <summary>Loudspeakers and the like with power or another plug, and none for sound; boxes that record, or take sound by USB, may have it from elsewhere.</summary>
    public static IEnumerable<(DeviceSymbol Device, IReadOnlyList<PortSymbol> Inputs)> DeafSinks(Rig rig)
    {
        foreach (var device in Known(rig))
        {
            var gear = device.Gear!;
            var inputs = gear.Ports.Where(port => port is { IsOutput: false, IsPassive: false, Signal: { Kind: SignalKind.Audio, Level: not AudioLevel.Mic } }).ToList();
            if (inputs.Count == 0 || gear.Records.Count > 0 || gear.Parts.Count > 0 || gear.Tracks.Count > 0 || inputs.Exists(input => Behind(gear, input).Exists(IsWayOn))
                || gear.Ports.Exists(port => port is { Signal.Kind: not (SignalKind.Audio or SignalKind.Mains or SignalKind.Dc or SignalKind.Ac) } or { IsOutput: true, Signal.Kind: SignalKind.Audio } && !IsLink(port)))
            {
                continue;
            }
            if (!gear.Ports.Exists(port => port.Signal is { Kind: SignalKind.Audio } && rig.Wiring.IsPlugged(device, port)) && Whole.UnwiredDevice.IsWired(rig, device))
            {
                yield return (device, inputs);
            }
        }
    }

    private static bool IsLink(PortSymbol port) => port.Name is "link" or "thru" or "through";

    /// <summary>Instruments with a plug in them somewhere, and none in any output for sound.</summary>
    public static IEnumerable<(DeviceSymbol Device, IReadOnlyList<PortSymbol> Outputs)> Mute(Rig rig)
    {
        foreach (var sources in rig.Audio.Flow.Sources.Where(s => s.Port is not null).GroupBy(s => s.Device))
        {
            var outputs = sources.Select(s => s.Port!).Where(port => port.Signal is { Kind: SignalKind.Audio, Level: not AudioLevel.Headphone }).ToList();
            if (outputs.Count > 0 && !outputs.Exists(port => rig.Wiring.IsPlugged(sources.Key, port)) && Whole.UnwiredDevice.IsWired(rig, sources.Key)
                && !sources.Any(s => s.IsPlugged) && sources.Key.Gear is { IsIncomplete: false, Records.Count: 0 } && !rig.Names.NamesInBrokenLines.Contains(sources.Key.Name))
            {
                yield return (sources.Key, outputs);
            }
        }
    }

    /// <summary>All that a port is routed to, by way of busses too.</summary>
    private static List<PortSymbol> Behind(GearSymbol gear, PortSymbol input)
    {
        var behind = new List<PortSymbol>(gear.Routes.From(input).Where(IsAudio));
        for (var at = 0; at < behind.Count; at++)
        {
            if (behind[at].IsBus)
            {
                behind.AddRange(gear.Routes.From(behind[at]).Where(port => IsAudio(port) && !behind.Contains(port)).ToList());
            }
        }
        return behind;
    }

    /// <summary>Outputs with a plug in them that only pass on what comes in, where nothing can come in: every input that is routed to them is free.</summary>
    public static IEnumerable<(PortSymbol Output, IReadOnlyList<PortSymbol> Inputs)> DeadOutputs(Rig rig, DeviceSymbol device)
    {
        var gear = device.Gear!;
        if (gear.Parts.Count > 0 || gear.Tracks.Count > 0 || gear.Sounds.Count > 0 || gear.Ports.Exists(port => port.Signal is { Kind: SignalKind.Usb, Usb: UsbRole.Host }))
        {
            yield break;
        }
        foreach (var output in gear.Ports)
        {
            if (output is not { IsOutput: true, IsPassive: false, Signal.Kind: SignalKind.Audio } || !rig.Wiring.IsPlugged(device, output))
            {
                continue;
            }
            var inputs = Before(gear, output);
            if (inputs.Exists(input => input.Signal is { Kind: SignalKind.Audio }) && !inputs.Exists(input => rig.Wiring.IsPlugged(device, input)))
            {
                yield return (output, inputs);
            }
        }
    }

    private static List<PortSymbol> Before(GearSymbol gear, PortSymbol output)
    {
        var before = new List<PortSymbol>(gear.Routes.To(output).Where(IsAudio));
        for (var at = 0; at < before.Count; at++)
        {
            if (before[at].IsBus)
            {
                before.AddRange(gear.Routes.To(before[at]).Where(port => IsAudio(port) && !before.Contains(port)).ToList());
            }
        }
        before.RemoveAll(port => port.IsBus);
        return before;
    }

    private static bool IsAudio(PortSymbol port) => port.IsBus || port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb };

    /// <summary>"drive.out", "desk.main, desk.record and desk.usb".</summary>
    public static string Named(DeviceSymbol device, IEnumerable<PortSymbol> ports, string last = " and ") =>
        Text.Prose.InOrder([.. ports.Select(port => $"{Wording.Written(device.Name)}.{Wording.Written(port.Name)}").Distinct()], last, Most);

    private const int Most = 4;
}
