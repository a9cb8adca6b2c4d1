using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>What a jack carries and how, in a player's words.</summary>
internal static class PortWords
{
    /// <summary>Which way a setting holds, where only one is meant.</summary>
    public static string Way(Syntax.PortWay way) => way switch
    {
        Syntax.PortWay.ComingIn => ", coming in",
        Syntax.PortWay.GoingOut => ", going out",
        _ => "",
    };

    /// <summary>The kind in a word or two, as one says which cable is meant.</summary>
    public static string Kind(SignalKind kind) => kind switch
    {
        SignalKind.Midi => "MIDI",
        SignalKind.Pulse => "clock pulses",
        SignalKind.DinSync => "DIN sync",
        SignalKind.Audio or SignalKind.Insert => "audio",
        SignalKind.Control => "control",
        SignalKind.Usb => "USB",
        _ => "power",
    };

    /// <summary>What a cable from such a port carries; <paramref name="volts"/> is what the supply at its end gives, where that is known.</summary>
    public static string Carried(Signal signal, Trade.VoltRange? volts) => signal.Kind switch
    {
        SignalKind.Usb => signal.Usb == UsbRole.Charger ? "USB power" : "USB",
        SignalKind.Insert => "send and return of an insert",
        SignalKind.Dc or SignalKind.Ac => (signal with { Volts = volts ?? signal.Volts }).Describe(),
        _ => signal.Describe(),
    };

    /// <summary>The signal with all that was said of it.</summary>
    public static string Signal(PortSymbol port) => port.Signal is not { } signal ? "not known" : port.IsPassive ? $"{signal.Describe()}, joined metal to metal inside"
        : string.Join(", ", new[] { signal.Describe() }.Concat(Details(signal, port.IsOutput)));

    private static IEnumerable<string> Details(Signal signal, bool isOutput)
    {
        switch (signal.Kind)
        {
            case SignalKind.Midi when signal.MidiWiring == MidiWiring.TypeB:
                yield return "type B on its small jack";
                break;
            case SignalKind.Audio:
                if (Balance(signal.Balance) is { } balance)
                {
                    yield return balance;
                }
                if (signal.Normalled)
                {
                    yield return "the left jack alone serves as mono";
                }
                if (signal.Phantom)
                {
                    yield return isOutput ? "needs phantom power" : "can supply phantom power";
                }
                break;
            case SignalKind.Dc when signal.Polarity is Polarity.CentrePositive or Polarity.CentreNegative or Polarity.Either:
                yield return signal.Polarity switch
                {
                    Polarity.CentrePositive => "centre positive",
                    Polarity.CentreNegative => "centre negative",
                    _ => "either polarity",
                };
                if (signal.PositiveGround)
                {
                    yield return "its plus is its ground";
                }
                break;
            case SignalKind.Mains:
                if (signal.Volts is { } mains)
                {
                    yield return mains.ToString();
                }
                yield return signal.Earth == EarthClass.DoubleInsulated ? "double insulated (class II)" : "earthed (class I)";
                break;
            case SignalKind.Usb when signal.Volts is { } volts:
                yield return volts.ToString();
                break;
        }
        if (signal.Current is { } current)
        {
            yield return isOutput ? $"up to {current}" : $"takes {current}";
        }
        if (signal.Power is { } power)
        {
            yield return power;
        }
        if (signal.Isolated)
        {
            yield return "isolated from the rest of the box";
        }
    }

    private static string? Balance(Balance balance) => balance switch
    {
        Connectors.Balance.Balanced => "balanced",
        Connectors.Balance.Forgiving => "balanced, may feed an unbalanced input",
        _ => null,
    };

    /// <summary>"a pair of trs 6.35 mm", "a din-5 plug on a cable of its own".</summary>
    public static string Jacks(PortSymbol port) => port.Jacks switch
    {
        [] => "no jack that can be read",
        [{ IsCaptive: true, Form: var plug }] => $"{plug} plug on a cable of its own",
        [var only] => only.Form.Name,
        [var left, ..] => $"a pair of {left.Form}, left and right",
    };

    /// <summary>What a contact does; null when it does nothing.</summary>
    public static string? Role(ContactRole role, bool isHalf) => role.Role switch
    {
        Connectors.Role.Unused => null,
        Connectors.Role.Hot when role.Channel == AudioChannel.Left => "left",
        Connectors.Role.Hot when role.Channel == AudioChannel.Right => "right",
        Connectors.Role.Hot => isHalf ? "hot" : "signal",
        Connectors.Role.Cold => "cold",
        Connectors.Role.Ground => "ground",
        Connectors.Role.HeadsetMic => "headset microphone",
        Connectors.Role.MidiSource => "source",
        Connectors.Role.MidiSink => "sink",
        Connectors.Role.Pulse => "pulse",
        Connectors.Role.SyncRun => "run",
        Connectors.Role.SyncClock => "clock",
        Connectors.Role.Control => "control",
        Connectors.Role.Plus => "plus",
        Connectors.Role.Minus => "minus",
        Connectors.Role.Ac => "AC",
        Connectors.Role.Line => "line",
        Connectors.Role.Neutral => "neutral",
        Connectors.Role.Earth => "protective earth",
        Connectors.Role.DataPlus => "data +",
        Connectors.Role.DataMinus => "data -",
        _ => null,
    };

    /// <summary>What a contact of a jack does: on an insert, send or return.</summary>
    public static string? Role(JackSymbol jack, int contact)
    {
        var role = jack.Roles[contact];
        return jack.Port.Signal is { Kind: SignalKind.Insert } && role.Role == Connectors.Role.Hot
            ? role.Drive == Drive.Out ? "send" : "return"
            : Role(role, jack.Roles.Any(r => r.Role == Connectors.Role.Cold));
    }
}
