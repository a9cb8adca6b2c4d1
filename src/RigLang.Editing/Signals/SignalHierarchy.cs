using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A device or port in the flow of signals.</summary>
/// <param name="Key">Finds it again in a later compilation: <c>device:audio:desk</c>, with nothing between the colons for all signals.</param>
public sealed record SignalNode(string Key, string Title, string Detail, Location Whole, Location Name);

/// <summary>A neighbour, and the lines that connect to it.</summary>
public sealed record SignalCall(SignalNode Other, IReadOnlyList<Location> Connections);

/// <summary>
/// Follows the cables, one signal at a time: what feeds a device, and what it feeds. A node that was reached by one kind of signal goes
/// on by that kind. USB goes both ways, and an insert comes back to its jack.
/// </summary>
public static class SignalHierarchy
{
    /// <summary>The device or port at an offset; a part or track stands for its device.</summary>
    public static IReadOnlyList<SignalNode> Prepare(RigView view, int offset) => view.NameAt(offset)?.Of switch
    {
        { Symbol: DeviceSymbol device } => [DeviceNode(view, device, "")],
        { Symbol: PortSymbol port, Device: { } device } => [PortNode(device, port)],
        { Symbol: PartSymbol or TrackSymbol, Device: { } device } => [DeviceNode(view, device, "")],
        _ => [],
    };

    /// <summary>What feeds it.</summary>
    public static IReadOnlyList<SignalCall> Incoming(RigView view, string key) => Calls(view, key, isIncoming: true);

    /// <summary>What it feeds.</summary>
    public static IReadOnlyList<SignalCall> Outgoing(RigView view, string key) => Calls(view, key, isIncoming: false);

    private static List<SignalCall> Calls(RigView view, string key, bool isIncoming)
    {
        if (Find(view.Rig, key) is not var (device, port, kind))
        {
            return [];
        }
        return
        [
            .. Steps(view.Rig)
                .Select(step => (Own: isIncoming ? step.To : step.From, Other: isIncoming ? step.From : step.To, step.Kind, step.At))
                .Where(s => s.Own.Device == device && (port is null || ReferenceEquals(s.Own.Port, port)) && (kind.Length == 0 || s.Kind == kind))
                .GroupBy(s => (s.Other.Device, s.Kind))
                .Select(calls => new SignalCall(DeviceNode(view, calls.Key.Device, calls.Key.Kind), [.. calls.Select(s => s.At).Distinct()])),
        ];
    }

    /// <summary>Every step that a signal takes along a cable which is put together rightly.</summary>
    private static IEnumerable<(Endpoint From, Endpoint To, string Kind, Location At)> Steps(Flow.Rig rig)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            foreach (var a in hookup.Connection.From)
            {
                foreach (var b in hookup.Connection.To)
                {
                    foreach (var (from, to) in Directions(a, b))
                    {
                        yield return (from, to, KindOf(from.Port, to.Port), hookup.Connection.At);
                    }
                }
            }
        }
    }

    private static IEnumerable<(Endpoint From, Endpoint To)> Directions(Endpoint a, Endpoint b)
    {
        var isData = Usb(a) && Usb(b) && !Charges(a) && !Charges(b);
        var (forth, back) = (isData, isData);
        if (!isData)
        {
            // Send and return share an insert's jack: which is meant, the other end says.
            forth = IsInsert(a) ? !b.Port.IsOutput : a.Port.IsOutput && (!b.Port.IsOutput || IsInsert(b));
            back = IsInsert(b) ? !a.Port.IsOutput : b.Port.IsOutput && (!a.Port.IsOutput || IsInsert(a));
        }
        if (forth)
        {
            yield return (a, b);
        }
        if (back)
        {
            yield return (b, a);
        }

        static bool IsInsert(Endpoint end) => end.Port.Signal is { Kind: SignalKind.Insert };
        static bool Usb(Endpoint end) => end.Port.Signal is { Kind: SignalKind.Usb };
        static bool Charges(Endpoint end) => end.Port.Signal is { Usb: UsbRole.Charger };
    }

    private static string KindOf(PortSymbol from, PortSymbol to) => (from.Signal, to.Signal) switch
    {
        ({ Usb: UsbRole.Charger, Kind: SignalKind.Usb }, _) => PortWords.Kind(SignalKind.Dc),
        (_, { Kind: var kind }) => PortWords.Kind(kind),
        ({ Kind: var kind }, _) => PortWords.Kind(kind),
        _ => "",
    };

    private static SignalNode DeviceNode(RigView view, DeviceSymbol device, string kind)
    {
        var file = ReferenceEquals(device.At.Source, view.Source) ? view : RigView.Of(view.Compilation, device.At.Source.Path) ?? view;
        var whole = ReferenceEquals(file.Source, device.At.Source) ? file.WholeSpan(device.Statement) : device.Statement.Span;
        return new SignalNode($"device:{kind}:{device.Name}", device.Name, kind.Length > 0 ? kind : device.Gear?.Name ?? "",
            new Location(device.At.Source, whole), device.At);
    }

    private static SignalNode PortNode(DeviceSymbol device, PortSymbol port) => new(
        $"port::{device.Name}\n{port.Name}", $"{device.Name}.{port.Name}", port.Signal is { } signal ? PortWords.Kind(signal.Kind) : "", port.At, port.At);

    /// <summary>No name has a line end in it, so that one stands between those of device and port.</summary>
    private static (DeviceSymbol Device, PortSymbol? Port, string Kind)? Find(Flow.Rig rig, string key)
    {
        if (key.Split(':', 3) is not [var what, var kind, var name])
        {
            return null;
        }
        var names = name.Split('\n', 2);
        if (!rig.Names.DevicesByName.TryGetValue(names[0], out var device))
        {
            return null;
        }
        var port = names.Length == 2 ? device.Gear?.PortsByName.GetValueOrDefault(names[1]) : null;
        return what == "device" || port is not null ? (device, port, kind) : null;
    }
}
