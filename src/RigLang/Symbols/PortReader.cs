using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>What a port line says, as a signal and its jacks.</summary>
internal static class PortReader
{
    /// <summary>The signal, or null when it cannot be read; says why.</summary>
    public static Signal? ReadSignal(PortLine line, Reading reading)
    {
        if (reading.KnownSignals.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(reading.TextOf(line.Signal), out var read))
        {
            return read;
        }
        var faults = reading.FaultCount;
        var first = line.Signal[0];
        var kind = KindOf(first.IsWord ? first.Value.Text! : "");
        if (kind is not { } known)
        {
            reading.Note(new UnknownWord(reading.At(first.Span), reading.Source.Slice(first.Span), "the signal of a port", [.. Vocabulary.Signals.Keys]));
            return null;
        }
        var signal = new Signal(known);
        var word = first.Value.Text!;
        var figures = FiguresOf(known);
        var seen = new List<Dimension>();
        for (var i = 1; i < line.Signal.Count; i++)
        {
            var node = line.Signal[i];
            if (node.IsWord)
            {
                if (ApplyWord(signal, node.Value.Text!) is { } changed)
                {
                    signal = changed;
                }
                else
                {
                    reading.Note(new UnknownWord(reading.At(node.Span), node.Value.Text!, $"{Article(word)} {word} port", Vocabulary.Signals[word]));
                }
                continue;
            }
            var wanted = seen.Count == 0 ? figures : Array.FindAll(figures, d => !seen.Contains(d));
            if (reading.Quantity(node, wanted.Length == 0 ? figures : wanted) is { } quantity)
            {
                if (node.UpTo is { } upTo && OneOf(quantity.Dimension) is { } which)
                {
                    var (low, high) = ($"{reading.Source.Slice(node.Value.Span)} {node.Unit}", $"{reading.Source.Slice(upTo.Span)} {node.Unit}");
                    reading.Note(new WrongForm(reading.At(node.Span), $"One figure belongs here, and `{reading.Source.Slice(node.Span)}` is a range.",
                        which.IsMost ? $"Write {which.What}: `{high}`." : $"Write {which.What}: `{low}` or `{high}`.",
                        which.IsMost ? [new Rewrite($"Write {high}", node.Span, high)]
                            : [new Rewrite($"Write {low}", node.Span, low), new Rewrite($"Write {high}", node.Span, high)]));
                }
                seen.Add(quantity.Dimension);
                signal = ApplyFigure(signal, quantity.Dimension, quantity.Value, quantity.UpTo);
            }
        }
        if (reading.FaultCount == faults)
        {
            reading.KnownSignals[reading.TextOf(line.Signal).ToString()] = signal;
        }
        return signal;
    }

    /// <summary>
    /// The line with every word on its side of `on`: what a signal is before it, what a connector is behind it. Notes how to write a line that has them
    /// otherwise, and goes on as if it were written so.
    /// </summary>
    public static PortLine Sorted(PortLine line, Reading reading)
    {
        if (KindOf(line.Signal[0].IsWord ? line.Signal[0].Value.Text! : "") is not { } kind || IsSorted(line, kind, reading))
        {
            return line;
        }
        var signal = new List<AttributeNode>(line.Signal.Count) { line.Signal[0] };
        List<AttributeNode>? toConnector = null;
        for (var i = 1; i < line.Signal.Count;)
        {
            var length = reading.ConnectorLength(line.Signal, i);
            if (length == 0)
            {
                signal.Add(line.Signal[i++]);
                continue;
            }
            (toConnector ??= []).AddRange(line.Signal.Skip(i).Take(length));
            i += length;
        }
        List<AttributeNode>? toSignal = null;
        var on = new List<AttributeNode>(line.On.Count);
        foreach (var node in line.On)
        {
            if (IsOfSignal(node, kind))
            {
                (toSignal ??= []).Add(node);
            }
            else
            {
                on.Add(node);
            }
        }
        signal.AddRange(toSignal ?? []);
        on.AddRange(toConnector ?? []);
        var whole = line.Signal[0].Span.To(line.On.Count > 0 ? line.On[^1].Span : line.Signal[^1].Span);
        var moved = toSignal ?? toConnector!;
        var written = string.Join(' ', moved.Select(n => reading.Source.Slice(n.Span)));
        var text = $"{Text(signal)} on {Text(on)}";
        reading.Note(new WrongForm(reading.At(moved[0].Span.To(moved[^1].Span)),
            toSignal is not null ? $"`{written}` says what the signal is, not the connector." : $"`{written}` says what the connector is, not the signal.",
            $"{(toSignal is not null ? "Write it before `on`" : "Write it behind `on`")}: `{text}`.",
            [new Rewrite($"Write {text}", whole, text)]));
        return line with { Signal = signal, On = on };

        string Text(List<AttributeNode> nodes) => string.Join(' ', nodes.Select(n => reading.Source.Slice(n.Span)));
    }

    private static readonly Signal[] Plain = [.. Enum.GetValues<SignalKind>().Select(kind => new Signal(kind))];

    private static bool IsSorted(PortLine line, SignalKind kind, Reading reading)
    {
        for (var i = 1; i < line.Signal.Count; i++)
        {
            if (reading.ConnectorLength(line.Signal, i) > 0)
            {
                return false;
            }
        }
        var strangers = 0;
        foreach (var node in line.On)
        {
            strangers += IsOfSignal(node, kind) ? 1 : 0;
        }
        return strangers == 0 || strangers == line.On.Count;
    }

    private static bool IsOfSignal(AttributeNode node, SignalKind kind) => node.IsWord
        ? ApplyWord(Plain[(int)kind], node.Value.Text!) is not null
        : node.Unit is { } unit && Units.Table.TryGetValue(unit.Text, out var measure) && FiguresOf(kind).Contains(measure.Dimension);

    /// <summary>The jacks behind `on`, added to the port. Notes what cannot be.</summary>
    public static void ReadJacks(PortLine line, PortSymbol port, Reading reading)
    {
        if (port.Signal is not { } signal)
        {
            return;
        }
        if (line.On.Count == 0)
        {
            reading.Note(new IncompleteDeclaration(reading.At(line.Span), $"the port `{port.Name}`", "its connector, such as `on ts 6.35 mm`"));
            return;
        }
        var count = 1;
        var words = line.On;
        if (words[0] is { Value.Kind: TokenKind.Number, Unit: { } countedUnit } counted && !Units.Table.ContainsKey(countedUnit.Text))
        {
            // `2 ts 6.35 mm` reads as a number with the unit word `ts`: the count, and the first word of the connector.
            count = reading.Whole(counted.Value, "the number of jacks of one port", 1, 2) ?? 1;
            words = [new AttributeNode(new Token(TokenKind.Word, Keyword.None, counted.Unit!.Value.Span.Start, counted.Unit.Value.Span.Length, counted.Unit.Value.Text), null, null), .. words.Skip(1)];
        }
        if (reading.Connector(words, out var rest, signal) is not { } form)
        {
            port.Signal = null;
            return;
        }
        var captive = false;
        foreach (var node in rest)
        {
            switch (node.IsWord ? node.Value.Text : null)
            {
                case "captive":
                    captive = true;
                    break;
                case "type-a":
                    port.Signal = signal = signal with { MidiWiring = MidiWiring.TypeA };
                    break;
                case "type-b":
                    port.Signal = signal = signal with { MidiWiring = MidiWiring.TypeB };
                    break;
                default:
                    reading.Note(new UnknownWord(reading.At(node.Span), reading.Source.Slice(node.Span), "a connector", ["captive", "type-a", "type-b"]));
                    break;
            }
        }
        if (signal.Kind == SignalKind.Midi && form.Family.StartsWith("phone", StringComparison.Ordinal) && form.Contacts.Count == 2)
        {
            port.Signal = signal = signal with { MidiWiring = MidiWiring.TwoPole };
        }
        if (signal.Balance == Balance.Unbalanced && !SaysUnbalanced(line) && !(signal.IsStereo && count == 1) && BalancedByConnector(signal, form))
        {
            port.Signal = signal = signal with { Balance = Balance.Balanced };
        }
        for (var i = 0; i < count; i++)
        {
            var side = count == 1 ? Side.Only : i == 0 ? Side.Left : Side.Right;
            if (ContactRoles.Of(signal, form, side, port.IsOutput, isPassive: false) is not { } roles || (count == 2 && !signal.IsStereo))
            {
                reading.Note(new ImpossibleConnector(reading.At(line.On[0].Span.To(line.On[^1].Span)), signal.Describe(),
                    count == 2 ? $"two {form}" : form.Name, PossibleFor(signal)));
                port.Jacks.Clear();
                port.Signal = null;
                return;
            }
            port.Jacks.Add(new JackSymbol(port, side, form, captive)
            {
                Index = port.Gear.JackCount++,
                FirstContact = port.Gear.ContactCount,
                Roles = roles,
            });
            port.Gear.ContactCount += form.Contacts.Count;
        }
    }

    /// <summary>What must be known of a port that drives or loads; a port that is only joined through need not say it.</summary>
    public static void DemandFigures(PortLine line, PortSymbol port, Reading reading)
    {
        if (port.Signal is not { } signal || port.IsPassive || port.Jacks.Count == 0)
        {
            return;
        }
        if (signal.Kind is SignalKind.Dc or SignalKind.Ac && signal.Volts is null)
        {
            Ask("its voltage, such as 9 V");
        }
        else if (signal.Kind == SignalKind.Dc && signal.Polarity == Polarity.Unknown && port.Jacks[0].Form.IsBarrel)
        {
            Ask("`centre-positive` or `centre-negative`: the small circle diagram beside the jack (IEC 60417-5926) shows which");
        }
        else if (signal.Kind == SignalKind.Pulse && signal.Rate is null)
        {
            Ask("its rate, such as 2 ppqn");
        }

        void Ask(string missing)
        {
            reading.Note(new IncompleteDeclaration(reading.At(line.Signal[0].Span.To(line.Signal[^1].Span)), $"the port `{port.Name}`", missing));
            port.Signal = null;
        }
    }

    private static SignalKind? KindOf(string word) => word switch
    {
        "midi" => SignalKind.Midi,
        "pulse" => SignalKind.Pulse,
        "din-sync" => SignalKind.DinSync,
        "audio" => SignalKind.Audio,
        "insert" => SignalKind.Insert,
        "control" => SignalKind.Control,
        "dc" => SignalKind.Dc,
        "ac" => SignalKind.Ac,
        "mains" => SignalKind.Mains,
        "usb" => SignalKind.Usb,
        _ => null,
    };

    private static string Article(string word) => word is "audio" or "ac" or "insert" ? "an" : "a";

    private static Signal? ApplyWord(Signal signal, string word)
    {
        return (signal.Kind, word) switch
        {
            (SignalKind.Audio, "mono") => signal with { IsStereo = false },
            (SignalKind.Audio, "stereo") => signal with { IsStereo = true },
            (SignalKind.Audio, "mic") when signal is { SaysLevel: true, Level: AudioLevel.Line } => WithLevel(AudioLevel.MicOrLine),
            (SignalKind.Audio, "line") when signal is { SaysLevel: true, Level: AudioLevel.Mic } => WithLevel(AudioLevel.MicOrLine),
            (SignalKind.Audio, "mic") => WithLevel(AudioLevel.Mic),
            (SignalKind.Audio, "instrument") => WithLevel(AudioLevel.Instrument),
            (SignalKind.Audio, "line") => WithLevel(AudioLevel.Line),
            (SignalKind.Audio, "headphone") => WithLevel(AudioLevel.Headphone),
            (SignalKind.Audio, "speaker") => WithLevel(AudioLevel.Speaker),
            (SignalKind.Audio, "balanced") => signal with { Balance = Balance.Balanced },
            (SignalKind.Audio, "unbalanced") => signal with { Balance = Balance.Unbalanced },
            (SignalKind.Audio, "impedance-balanced") => signal with { Balance = Balance.Forgiving },
            // A transformer carries the sound across and joins no grounds.
            (SignalKind.Audio, "transformer-balanced") => signal with { Balance = Balance.Forgiving, Isolated = true },
            (SignalKind.Audio, "phantom") => signal with { Phantom = true },
            (SignalKind.Audio, "normalled") => signal with { Normalled = true },
            (SignalKind.Audio or SignalKind.Dc or SignalKind.Usb, "isolated") => signal with { Isolated = true },
            (SignalKind.Insert, "mono") => signal,
            (SignalKind.Control, "pitch") => Of(ControlKind.Pitch),
            (SignalKind.Control, "gate") => Of(ControlKind.Gate),
            (SignalKind.Control, "trigger") => Of(ControlKind.Trigger),
            (SignalKind.Control, "expression") => Of(ControlKind.Expression),
            (SignalKind.Control, "switch") => Of(ControlKind.Switch),
            (SignalKind.Control, "volt-per-octave") when Is(ControlKind.Pitch) => signal with { PitchScale = PitchScale.VoltPerOctave },
            (SignalKind.Control, "hertz-per-volt") when Is(ControlKind.Pitch) => signal with { PitchScale = PitchScale.HertzPerVolt },
            (SignalKind.Control, "wiper") when Is(ControlKind.Expression) => signal,
            (SignalKind.Control, "tip") when Is(ControlKind.Expression) => signal with { Wiper = Wiper.Tip },
            (SignalKind.Control, "ring") when Is(ControlKind.Expression) => signal with { Wiper = Wiper.Ring },
            (SignalKind.Control, "normally") when Is(ControlKind.Switch) => signal,
            (SignalKind.Control, "open") when Is(ControlKind.Switch) => signal with { NormallyOpen = true },
            (SignalKind.Control, "closed") when Is(ControlKind.Switch) => signal with { NormallyOpen = false },
            (SignalKind.Control, "inverted") when Is(ControlKind.Gate) || Is(ControlKind.Trigger) => signal with { Inverted = true },
            (SignalKind.Dc, "centre-positive") => signal with { Polarity = Polarity.CentrePositive },
            (SignalKind.Dc, "centre-negative") => signal with { Polarity = Polarity.CentreNegative },
            (SignalKind.Dc, "any-polarity") => signal with { Polarity = Polarity.Either },
            (SignalKind.Dc, "positive-ground") => signal with { PositiveGround = true },
            (SignalKind.Mains, "earthed") => signal with { Earth = EarthClass.Earthed },
            (SignalKind.Mains, "double-insulated") => signal with { Earth = EarthClass.DoubleInsulated },
            // Not part of the language: read only so that the danger can be named.
            (SignalKind.Mains, "unearthed" or "lifted" or "earth-lifted" or "ungrounded") => signal with { Earth = EarthClass.Lifted },
            (SignalKind.Mains, "earth") => signal,
            (SignalKind.Usb, "device") => signal with { Usb = UsbRole.Device },
            (SignalKind.Usb, "host") => signal with { Usb = UsbRole.Host },
            (SignalKind.Usb, "charger") => signal with { Usb = UsbRole.Charger },
            _ => null,
        };

        Signal? Of(ControlKind kind) => Is(ControlKind.Any) || Is(kind) ? signal with { Control = kind } : null;

        bool Is(ControlKind kind) => signal.Control == kind;

        Signal WithLevel(AudioLevel level) => signal with { Level = level, SaysLevel = true };
    }

    private static Dimension[] FiguresOf(SignalKind kind) => kind switch
    {
        SignalKind.Pulse => [Dimension.PulseRate, Dimension.Voltage],
        SignalKind.DinSync => [Dimension.PulseRate],
        SignalKind.Audio => [Dimension.SignalLevel, Dimension.Resistance, Dimension.Voltage],
        SignalKind.Insert => [Dimension.SignalLevel],
        SignalKind.Control => [Dimension.Voltage],
        SignalKind.Dc or SignalKind.Ac => [Dimension.Voltage, Dimension.Current],
        SignalKind.Mains => [Dimension.Voltage, Dimension.Frequency, Dimension.Power, Dimension.ApparentPower, Dimension.Current],
        SignalKind.Usb => [Dimension.Voltage, Dimension.Current],
        _ => [],
    };

    /// <summary>Of what only one figure can be told, and which one of a range that is; null for what may be a range.</summary>
    private static (string What, bool IsMost)? OneOf(Dimension dimension) => dimension switch
    {
        Dimension.Current or Dimension.Power or Dimension.ApparentPower => ("the most that it is", true),
        Dimension.PulseRate => ("the rate that it is set to", false),
        _ => null,
    };

    private static Signal ApplyFigure(Signal signal, Dimension dimension, double value, double upTo) => dimension switch
    {
        Dimension.Voltage when signal.Kind is SignalKind.Pulse or SignalKind.Control or SignalKind.Dc or SignalKind.Ac or SignalKind.Mains or SignalKind.Usb =>
            signal with { Volts = new VoltRange(new Volt(value), new Volt(upTo)) },
        Dimension.Current => signal with { Current = new Ampere(upTo) },
        Dimension.PulseRate => signal with { Rate = new Ppqn(value) },
        Dimension.Power or Dimension.ApparentPower => signal with { Watts = upTo, IsApparent = dimension == Dimension.ApparentPower },
        _ => signal,
    };

    private static bool SaysUnbalanced(PortLine line) => line.Signal.Any(n => n.IsWord && n.Value.Text == "unbalanced");

    /// <summary>A mono jack with a contact to spare is balanced unless the gear says otherwise (common practice).</summary>
    private static bool BalancedByConnector(Signal signal, Form form) =>
        signal.Kind == SignalKind.Audio
        && form.Name is "xlr-3" or "combo" or "trs 6.35 mm"
        && signal.Level is AudioLevel.Line or AudioLevel.Mic or AudioLevel.MicOrLine;

    private static string PossibleFor(Signal signal) => signal.Kind switch
    {
        SignalKind.Midi => "din-5, trs 3.5 mm, trs 2.5 mm or ts 3.5 mm",
        SignalKind.Audio when signal.IsStereo => "trs 3.5 mm, trs 6.35 mm, trrs 3.5 mm, or a pair such as 2 ts 6.35 mm",
        SignalKind.Audio => "ts 6.35 mm, trs 6.35 mm, xlr-3, combo, rca, ts 3.5 mm",
        SignalKind.Insert => "trs 6.35 mm",
        SignalKind.Pulse or SignalKind.Control => "ts 3.5 mm, trs 3.5 mm, ts 6.35 mm, trs 6.35 mm",
        SignalKind.DinSync => "din-5",
        SignalKind.Dc => "a barrel such as barrel 5.5x2.1 mm, or a USB connector",
        SignalKind.Ac => "a barrel such as barrel 5.5x2.1 mm",
        SignalKind.Mains => "mains, iec-c14, iec-c6 or iec-c8",
        _ => "usb-a, usb-b, usb-b mini, usb-b micro or usb-c",
    };
}
