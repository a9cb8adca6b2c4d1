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

/// <summary>A conductive link between two ground domains: a screen, a supply's return, a USB ground, a protective earth.</summary>
/// <param name="JackA">Its end at domain <paramref name="A"/>; for a protective earth both ends are the device's mains jack.</param>
/// <param name="HeardBecause">Why a current in it is heard; null where it is not.</param>
public sealed record GroundLink(
    int Index, int A, int B, GroundLinkKind Kind, Hookup Hookup, JackRef JackA, JackRef JackB, Metre? Length, string? HeardBecause)
{
    public bool IsEarth => Kind == GroundLinkKind.ProtectiveEarth;

    /// <summary>A signal cable other than USB: several between the same two domains lie side by side.</summary>
    public bool IsSignal => Kind is GroundLinkKind.Audio or GroundLinkKind.Midi or GroundLinkKind.Sync or GroundLinkKind.Control;

    /// <summary>What it takes to isolate it; null for a protective earth.</summary>
    public int? Cost => Kind switch
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
    public bool IsHeard { get; } = Links[0].A != Links[0].B && Links.Any(l => l.HeardBecause is not null);

    /// <summary>One box a connection.</summary>
    public int? Cost { get; } = Links.Count == 1 ? Links[0].Cost : Links.Any(l => l.Cost is null) ? null : Links.GroupBy(l => l.Hookup).Sum(g => g.Max(l => l.Cost!.Value));
}
