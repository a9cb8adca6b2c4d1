using RigLang.Trade;

namespace RigLang.Connectors;

/// <summary>What a port carries.</summary>
public enum SignalKind
{
    Midi,
    /// <summary>Analogue clock pulses on one contact.</summary>
    Pulse,
    /// <summary>Run and clock at 5 V on a DIN socket.</summary>
    DinSync,
    Audio,
    /// <summary>An insert: send and return on one jack.</summary>
    Insert,
    /// <summary>A control voltage, an expression pedal, a foot switch.</summary>
    Control,
    Dc,
    Ac,
    Mains,
    Usb,
}

public enum AudioLevel
{
    Line,
    Mic,
    /// <summary>An input that takes either, such as a combination jack: microphone on XLR, line on the phone plug.</summary>
    MicOrLine,
    Instrument,
    Headphone,
    Speaker,
}

public enum Balance
{
    Unbalanced,
    /// <summary>Two driven or received contacts; for an output, both are driven by amplifiers.</summary>
    Balanced,
    /// <summary>An output whose cold contact may be tied to ground without harm: impedance- or transformer-balanced.</summary>
    Forgiving,
}

public enum Polarity
{
    Unknown,
    CentrePositive,
    CentreNegative,
    /// <summary>A load that takes either.</summary>
    Either,
}

/// <summary>IEC 61140 protection of a mains port.</summary>
public enum EarthClass
{
    /// <summary>Class I: protective earth through the plug.</summary>
    Earthed,
    /// <summary>Class II: double insulated, no earth contact.</summary>
    DoubleInsulated,
    /// <summary>A class I device whose earth has been taken away. Dangerous; described only to be reported.</summary>
    Lifted,
}

public enum UsbRole
{
    Device,
    Host,
    /// <summary>Power without data.</summary>
    Charger,
}

/// <summary>What a control jack carries. Source: common practice.</summary>
public enum ControlKind
{
    /// <summary>Not said: it may meet any other.</summary>
    Any,
    /// <summary>A voltage that says how high a note is.</summary>
    Pitch,
    /// <summary>A voltage that is high as long as a note lasts.</summary>
    Gate,
    /// <summary>A short pulse that starts something.</summary>
    Trigger,
    /// <summary>A pedal with a potentiometer, which gets its voltage from the box.</summary>
    Expression,
    /// <summary>A contact that opens or closes: a foot switch.</summary>
    Switch,
}

/// <summary>Which contact of a three-pole plug the wiper of an expression pedal is on. Source: common practice, both are met.</summary>
public enum Wiper
{
    Unknown,
    Tip,
    Ring,
}

/// <summary>How a pitch voltage grows. Source: common practice.</summary>
public enum PitchScale
{
    Unknown,
    VoltPerOctave,
    HertzPerVolt,
}

/// <summary>The current source pin of a MIDI TRS jack. Source: RP-054.</summary>
public enum MidiWiring
{
    /// <summary>Ring is the source, tip the sink.</summary>
    TypeA,
    /// <summary>Tip is the source, ring the sink.</summary>
    TypeB,
    /// <summary>On a two-pole jack: tip is the source, sleeve the sink.</summary>
    TwoPole,
}

/// <summary>A port's signal as declared. Figures that were not given are null, and what depends on them is not checked.</summary>
public sealed record Signal(SignalKind Kind)
{
    public bool IsStereo { get; init; }
    public AudioLevel Level { get; init; }

    /// <summary>True when the level was written; line is taken otherwise.</summary>
    public bool SaysLevel { get; init; }
    public Balance Balance { get; init; }
    public bool Phantom { get; init; }
    public bool Normalled { get; init; }
    public bool Isolated { get; init; }
    public VoltRange? Volts { get; init; }
    public Ampere? Current { get; init; }
    public double? Watts { get; init; }

    /// <summary>True when <see cref="Watts"/> was written in VA.</summary>
    public bool IsApparent { get; init; }
    public Polarity Polarity { get; init; }

    /// <summary>True for a load whose case and audio ground are its plus. Source: common practice, some fuzz boxes with germanium transistors.</summary>
    public bool PositiveGround { get; init; }
    public EarthClass Earth { get; init; }
    public UsbRole Usb { get; init; }
    public MidiWiring MidiWiring { get; init; }
    public Ppqn? Rate { get; init; }
    public ControlKind Control { get; init; }
    public Wiper Wiper { get; init; }
    public PitchScale PitchScale { get; init; }

    /// <summary>Of a foot switch: open until it is pressed, or closed; null when it was not said.</summary>
    public bool? NormallyOpen { get; init; }

    /// <summary>True for a gate or trigger that is on when its contact is shorted to ground. Source: common practice.</summary>
    public bool Inverted { get; init; }

    /// <summary>"40 W", "1500 VA"; null when it was not said.</summary>
    public string? Power => Watts is { } watts ? $"{Units.Figure(watts)} {(IsApparent ? "VA" : "W")}" : null;

    public bool IsPower => Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains || (Kind == SignalKind.Usb && Current is not null);

    /// <summary>In a player's words: "stereo line audio", "MIDI", "9 V DC".</summary>
    public string Describe() => Kind switch
    {
        SignalKind.Midi => "MIDI",
        SignalKind.Pulse => Rate is { } rate ? $"clock pulses at {rate}" : "clock pulses",
        SignalKind.DinSync => "DIN sync",
        SignalKind.Audio => $"{(IsStereo ? "stereo" : "mono")} {LevelWord} audio",
        SignalKind.Insert => "an insert (send and return)",
        SignalKind.Control => ControlWord,
        SignalKind.Dc => Volts is { } v ? $"{v} DC" : "DC",
        SignalKind.Ac => Volts is { } v ? $"{v} AC" : "AC",
        SignalKind.Mains => "mains",
        SignalKind.Usb => Usb switch { UsbRole.Host => "a USB host", UsbRole.Device => "a USB device", _ => "USB power" },
        _ => Kind.ToString(),
    };

    private string ControlWord => Control switch
    {
        ControlKind.Pitch => PitchScale switch
        {
            PitchScale.VoltPerOctave => "a pitch voltage (volt per octave)",
            PitchScale.HertzPerVolt => "a pitch voltage (hertz per volt)",
            _ => "a pitch voltage",
        },
        ControlKind.Gate => Inverted ? "an inverted gate" : "a gate",
        ControlKind.Trigger => Inverted ? "an inverted trigger" : "a trigger",
        ControlKind.Expression => Wiper switch
        {
            Wiper.Tip => "an expression pedal (wiper on the tip)",
            Wiper.Ring => "an expression pedal (wiper on the ring)",
            _ => "an expression pedal",
        },
        ControlKind.Switch => NormallyOpen switch
        {
            true => "a foot switch (normally open)",
            false => "a foot switch (normally closed)",
            _ => "a foot switch",
        },
        _ => "a control voltage",
    };

    private string LevelWord => Level switch
    {
        AudioLevel.Mic => "microphone",
        AudioLevel.MicOrLine => "microphone or line",
        AudioLevel.Instrument => "instrument",
        AudioLevel.Headphone => "headphone",
        AudioLevel.Speaker => "loudspeaker",
        _ => "line",
    };
}
