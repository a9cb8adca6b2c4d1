using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow.Ground;

/// <summary>A piece of metal that is at one potential: a device's ground, an isolated jack of it, or the protective earth.</summary>
/// <param name="Device">Null for the protective earth.</param>
public sealed record GroundDomain(int Index, string Name, DeviceSymbol? Device);

/// <summary>By what kind of cable two domains are joined.</summary>
public enum GroundLinkKind
{
    Audio,
    Midi,
    /// <summary>Pulses or DIN sync.</summary>
    Sync,
    Control,
    /// <summary>The minus wire of a low-voltage supply.</summary>
    Supply,
    Usb,
    /// <summary>Through an earthed mains plug. Never isolated.</summary>
    ProtectiveEarth,
}

/// <summary>What <see cref="ScreenNoise.Current"/> in the screen of an unbalanced cable adds to its signal.</summary>
/// <param name="Ohms">Of the screen: by gauge and length where the lead says them, else what is common.</param>
/// <param name="Level">Beside the signal's nominal level, in dB.</param>
public readonly record struct LoopNoise(double Ohms, double Level)
{
    /// <summary>"300 µA in 1 Ω: 60 dB under it".</summary>
    public override string ToString() =>
        $"{Units.Figure(Math.Round(ScreenNoise.Current.Value * 1e6))} µA in {Units.Figure(Math.Round(Ohms, 2))} Ω: {Units.Figure(Math.Round(-Level))} dB under it";
}

/// <summary>A conductive link between two ground domains: a screen, a supply's return, a USB ground, a protective earth.</summary>
/// <param name="JackA">Its end at domain <paramref name="A"/>; for a protective earth both ends are the device's mains jack.</param>
/// <param name="IsHeard">True when a current in it is heard.</param>
/// <param name="Noise">What a current in its screen adds to the sound; null where the screen is no part of it.</param>
/// <param name="Battery">The run on its battery, of the one device that this link feeds; null when it has none, or one that does not last the set.</param>
public sealed record GroundLink(
    int Index, int A, int B, GroundLinkKind Kind, Hookup Hookup, JackRef JackA, JackRef JackB, Metre? Length, bool IsHeard,
    LoopNoise? Noise = null, BatteryRun? Battery = null)
{
    public bool IsEarth => Kind == GroundLinkKind.ProtectiveEarth;

    /// <summary>A signal cable other than USB: several between the same two domains lie side by side.</summary>
    public bool IsSignal => Kind is GroundLinkKind.Audio or GroundLinkKind.Midi or GroundLinkKind.Sync or GroundLinkKind.Control;

    /// <summary>Why a current in it is heard; null where it is not.</summary>
    public string? HeardBecause => !IsHeard ? null
        : Kind == GroundLinkKind.Usb ? "a current in a USB ground whines with what the computer does"
        : Noise is { } noise ? $"unbalanced, so a current in the screen adds to the sound ({noise})"
        : $"{Length} is a long run, even balanced";

    /// <summary>
    /// What it takes to break it; null where that is never done. A protective earth is not isolated: a device with a battery may be
    /// unplugged from the mains altogether.
    /// </summary>
    public int? Cost => (IsolationCost, BatteryCost) switch
    {
        ({ } isolation, { } battery) => Math.Min(isolation, battery),
        var (isolation, battery) => isolation ?? battery,
    };

    /// <summary>True when to run its device on the battery is the cheapest way to break it.</summary>
    public bool GoesByBattery => BatteryCost is { } battery && battery == Cost;

    private int? BatteryCost => Battery is null ? null : Battery.Lasts is null ? IsolationCosts.DoubtfulBattery : IsolationCosts.Battery;

    private int? IsolationCost => Kind switch
    {
        GroundLinkKind.Supply => IsolationCosts.OwnSupply,
        GroundLinkKind.Audio => IsolationCosts.LineIsolator,
        GroundLinkKind.Midi => IsolationCosts.OptoIsolator,
        GroundLinkKind.Usb => IsolationCosts.UsbIsolator,
        GroundLinkKind.Sync or GroundLinkKind.Control => IsolationCosts.Converter,
        _ => null,
    };

    /// <summary>As a player reads it: "bass.line to desk.line3", "the mains plug of desk".</summary>
    public string Text => IsEarth ? $"the mains plug of {JackA.Device.Name}" : $"{JackA} to {JackB}";
}

/// <summary>A link, or several signal cables side by side between the same two domains, which are isolated together or not at all.</summary>
public sealed record GroundBundle(int Index, IReadOnlyList<GroundLink> Links)
{
    public int A => Links[0].A;
    public int B => Links[0].B;
    public GroundLinkKind Kind => Links[0].Kind;

    /// <summary>A cable from a device to itself makes a loop that is too small to be heard.</summary>
    public bool IsHeard { get; } = Links[0].A != Links[0].B && Links.Any(l => l.IsHeard);

    /// <summary>One box a connection.</summary>
    public int? Cost { get; } = Links.Count == 1 ? Links[0].Cost : Links.Any(l => l.Cost is null) ? null : Links.GroupBy(l => l.Hookup).Sum(g => g.Max(l => l.Cost!.Value));
}
