using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Flow.Ground;

/// <summary>How to break a link, in a player's words. Source: common practice; AES48 for screens and grounds.</summary>
public static class GroundAdvice
{
    /// <summary>Stands under everything that is told of ground loops.</summary>
    public const string Safety =
        "A protective earth stays connected, whatever hums: without it metal can go live. Mains wiring follows local code; leave it to a licensed electrician.";

    /// <summary>"Put a line isolator into bass.line to desk.line3".</summary>
    public static string For(GroundBundle bundle)
    {
        var link = bundle.Links[0];
        var cables = Prose.InOrder(bundle.Links.Select(l => l.Hookup).Distinct()
            .Select(h => $"{Ends(h.Connection.From)} to {Ends(h.Connection.To)}").Distinct(), " and ", MostEnds);
        return link.Kind switch
        {
            _ when link.GoesByBattery => OnBattery(link.Battery!, link.IsEarth ? "unplugged from the mains altogether" : $"with {cables} unplugged"),
            GroundLinkKind.Supply => $"Feed {GroundGraph.Load(link.JackA, link.JackB).Name} from an isolated supply output or an adapter of its own, not by {cables}",
            GroundLinkKind.Usb => $"Put a USB isolator into {cables}; most pass full speed only (12 Mbit/s), so ask for what the device needs",
            GroundLinkKind.Audio when bundle.Links.Any(IsFromInstrument) => $"Put a DI box with a transformer into {cables}, or a line isolator",
            GroundLinkKind.Audio => $"Put a line isolator into {cables}",
            GroundLinkKind.Midi => $"Take a MIDI input that is opto-isolated, as the standard asks, for {cables}",
            GroundLinkKind.Sync => $"Take a converter with an isolated output for {cables}; a transformer does not pass pulses",
            GroundLinkKind.Control => $"Take an isolated converter for {cables}; a transformer does not pass control voltages",
            _ => throw new InvalidOperationException("a protective earth is never isolated"),
        };
    }

    private static string OnBattery(BatteryRun battery, string how) =>
        $"Run {battery.Device.Name} on its battery, {how}: {(battery.Lasts is { } lasts ? $"it lasts about {BatteryRun.Words(lasts)}" : "look first how long it lasts")}";

    private static bool IsFromInstrument(GroundLink link) =>
        link.JackA.Jack.Port.Signal is { Level: AudioLevel.Instrument } || link.JackB.Jack.Port.Signal is { Level: AudioLevel.Instrument };

    private static string Ends(GatheredList<Endpoint> ends) => Prose.InOrder(ends.Select(e => e.Text).Distinct(), most: MostEnds);

    /// <summary>Cables, and plugs of one side of a cable, that are named.</summary>
    private const int MostEnds = 4;
}
