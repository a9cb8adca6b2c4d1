using System.Globalization;
using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>Reads the small things that all declarations share, and notes what is wrong with them.</summary>
internal sealed class Reading(SourceText source, GatheredList<Fault> faults)
{
    /// <summary>A range of numbered names is one panel's jacks; nothing on a table has more.</summary>
    private const int LongestRange = 128;

    public SourceText Source { get; } = source;

    public Location At(TextSpan span) => new(Source, span);

    /// <summary>Signals that were read without fault, by the words they were read from: one rig says the same of many ports.</summary>
    public Dictionary<string, Signal> KnownSignals { get; } = new(StringComparer.Ordinal);

    /// <summary>Connectors that use all the words of their description, by those words.</summary>
    private readonly Dictionary<string, Form> _knownForms = new(StringComparer.Ordinal);

    /// <summary>The words of a description as they stand, for looking up one that is known.</summary>
    public ReadOnlySpan<char> TextOf(IReadOnlyList<AttributeNode> words)
    {
        var span = words[0].Span.To(words[^1].Span);
        return Source.Content.AsSpan(span.Start, span.Length);
    }

    /// <summary>A list of names as it is written.</summary>
    public string TextOf(IReadOnlyList<NameRange> names) => Source.Slice(names[0].Span.To(names[^1].Span));

    /// <summary>How many faults there are by now: a line that grew it is not asked for more.</summary>
    public int FaultCount => faults.Count;

    public void Note(Fault fault) => faults.Add(fault);

    /// <summary>Reads the same text and keeps what it notes to itself, for what has been told once.</summary>
    public Reading Silent => field ??= new Reading(Source, []);

    /// <summary>The names of a list, ranges written out. A range that is none is noted and left out.</summary>
    public Name[] Expand(IReadOnlyList<NameRange> names)
    {
        if (names is [{ Last: null } only])
        {
            return [only.First];
        }
        var all = new List<Name>(names.Count);
        foreach (var range in names)
        {
            if (range.Last is { } last)
            {
                all.AddRange(ExpandRange(range.First, last));
            }
            else
            {
                all.Add(range.First);
            }
        }
        return [.. all];
    }

    public Name[] ExpandRange(Name first, Name last)
    {
        var span = first.Span.To(last.Span);
        if (Split(first.Text) is var (prefix, from) && Split(last.Text) is var (prefix2, to)
            && prefix == prefix2 && from <= to && to - from < LongestRange)
        {
            var names = new Name[to - from + 1];
            for (var i = 0; i < names.Length; i++)
            {
                names[i] = new Name(prefix + (from + i).ToString(CultureInfo.InvariantCulture), span);
            }
            return names;
        }
        Note(new OutOfRange(At(span), "the range", $"{first}..{last}", "the same name with a lower and a higher number, such as out1..out5"));
        return [];

        static (string Prefix, int Number)? Split(string name)
        {
            var digits = name.Length;
            while (digits > 0 && char.IsAsciiDigit(name[digits - 1]))
            {
                digits--;
            }
            return digits < name.Length && int.TryParse(name.AsSpan(digits), CultureInfo.InvariantCulture, out var number)
                ? (name[..digits], number)
                : null;
        }
    }

    /// <summary>The quantity in base units, or null when it is not one of <paramref name="wanted"/>; says why.</summary>
    public (Dimension Dimension, double Value, double UpTo)? Quantity(AttributeNode node, params ReadOnlySpan<Dimension> wanted)
    {
        if (node.Unit is not { } unit)
        {
            Note(new IncompleteDeclaration(At(node.Span), $"`{Source.Slice(node.Span)}`", "its unit, such as " + ExampleOf(wanted)));
            return null;
        }
        return Quantity(node.Value, node.UpTo, unit, wanted);
    }

    public double? Quantity(QuantityNode node, params ReadOnlySpan<Dimension> wanted) =>
        Quantity(node.Number, null, node.Unit, wanted)?.Value;

    /// <summary>How long a battery lasts, or what it holds.</summary>
    public Battery? BatteryOf(QuantityNode node) =>
        Quantity(node.Number, null, node.Unit, [Dimension.Time, Dimension.Energy, Dimension.Charge]) is not { } quantity ? null
        : quantity.Dimension switch
        {
            Dimension.Time => new Battery(new Second(quantity.Value), null),
            Dimension.Energy => new Battery(null, quantity.Value),
            _ => new Battery(null, BatteryLife.WattHours(quantity.Value)),
        };

    /// <summary>A coordinate of a place on the stage: a length that may be negative.</summary>
    public Metre? Coordinate(QuantityNode node)
    {
        var isNegative = node.Number.Text is ['-', ..];
        var positive = isNegative ? node with { Number = node.Number with { Text = node.Number.Text![1..] } } : node;
        return Length(positive) is { } metres ? new Metre(isNegative ? -metres.Value : metres.Value) : null;
    }

    public Metre? Length(QuantityNode? node) =>
        node is not null && Quantity(node, Dimension.Length) is { } metres ? new Metre(metres) : null;

    private (Dimension Dimension, double Value, double UpTo)? Quantity(Token number, Token? upTo, Name unit, ReadOnlySpan<Dimension> wanted)
    {
        if (!Units.Table.TryGetValue(unit.Text, out var found))
        {
            Note(new UnknownUnit(At(unit.Span), unit.Text, At(number.Span.To((upTo ?? number).Span)), wanted.ToArray()));
            return null;
        }
        var span = number.Span.To(unit.Span);
        if (!wanted.Contains(found.Dimension))
        {
            Note(new WrongDimension(At(span), Source.Slice(span), found.Dimension, [.. wanted]));
            return null;
        }
        var value = Number(number) * found.InBaseUnits;
        var last = upTo is { } end ? Number(end) * found.InBaseUnits : value;
        if (unit.Text == "dBV")
        {
            value += SignalLevels.DbuOfZeroDbv;
            last += SignalLevels.DbuOfZeroDbv;
        }
        var (low, high) = Bounds(found.Dimension);
        if (!(value >= low && last <= high && value <= last))
        {
            Note(new OutOfRange(At(span), Units.Describe(found.Dimension), Source.Slice(span),
                $"{Units.Figure(low)} to {Units.Figure(high)} {Units.Of(found.Dimension).First()}",
                value / 1000 >= low && last / 1000 <= high && Units.Table.ContainsKey("m" + unit.Text) ? $"{Source.Slice(number.Span.To((upTo ?? number).Span))} m{unit.Text}" : null));
            return null;
        }
        return (found.Dimension, value, last);
    }

    /// <summary>A whole number within bounds, or null; says why.</summary>
    public int? Whole(Token token, string what, int low, int high)
    {
        if (token.Kind == TokenKind.Number && int.TryParse(token.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value)
            && value >= low && value <= high)
        {
            return value;
        }
        Note(new OutOfRange(At(token.Span), what, token.Text ?? Source.Slice(token.Span), $"{low} to {high}"));
        return null;
    }

    /// <summary>The channels that a gear's part or track can be set to; nothing written means any.</summary>
    public ChannelChoice ChannelChoice(ChannelNode? node)
    {
        if (node is null || node.Value.Text == "any")
        {
            return Symbols.ChannelChoice.Any;
        }
        var first = Whole(node.Value, "a MIDI channel", 1, 16);
        var last = node.UpTo is { } upTo ? Whole(upTo, "a MIDI channel", 1, 16) : first;
        return first is { } f && last is { } l && f <= l ? new ChannelChoice(f, l) : Symbols.ChannelChoice.Any;
    }

    public MessageKinds Kinds(IReadOnlyList<KindNode> nodes)
    {
        var kinds = MessageKinds.None;
        foreach (var node in nodes)
        {
            if (MessageKindNames.Table.TryGetValue(node.Text, out var kind))
            {
                kinds |= kind;
            }
            else
            {
                Note(new UnknownWord(At(node.Span), node.Text, "a list of MIDI messages", [.. MessageKindNames.Table.Keys.Order(StringComparer.Ordinal)]));
            }
        }
        return kinds;
    }

    /// <summary>
    /// A connector out of a description: <c>trs 3.5 mm</c>, <c>usb-b mini</c>, <c>barrel 5.5x2.1 mm</c>. The words it does not use
    /// are handed back. Null when there is none, which is noted.
    /// </summary>
    /// <param name="signal">What is on it, where that is known: it tells which jack is meant by a word that leaves it open.</param>
    public Form? Connector(IReadOnlyList<AttributeNode> words, out IReadOnlyList<AttributeNode> rest, Signal? signal = null)
    {
        rest = [];
        if (words.Count > 0 && _knownForms.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(TextOf(words), out var form))
        {
            return form;
        }
        form = null;
        var others = new List<AttributeNode>();
        rest = others;
        for (var i = 0; i < words.Count; i++)
        {
            if (form is not null || !words[i].IsWord)
            {
                others.Add(words[i]);
                continue;
            }
            var word = words[i].Value.Text!;
            var next = i + 1 < words.Count ? words[i + 1] : null;
            if (word == "barrel")
            {
                form = next is { Value.Kind: TokenKind.Size, Unit.Text: "mm" } ? BarrelOf(next.Value.Text!) : null;
                if (form is null)
                {
                    Note(new IncompleteDeclaration(At(words[i].Span), "a barrel connector", "its outer and inner size, such as barrel 5.5x2.1 mm"));
                    return null;
                }
                i++;
            }
            else if (next is not null && FormOf(word, next) is { } two)
            {
                form = two;
                i++;
            }
            else if (Forms.Find(word) is { } one)
            {
                form = one;
            }
            else
            {
                others.Add(words[i]);
            }
        }
        if (form is null)
        {
            var span = words.Count == 0 ? default : words[0].Span.To(words[^1].Span);
            Note(LooseConnector.Of(words, signal, this) ?? (Fault)new UnknownWord(At(span), Source.Slice(span), "a connector", KnownConnectors));
        }
        else if (others.Count == 0)
        {
            _knownForms[TextOf(words).ToString()] = form;
        }
        return form;
    }

    /// <summary>How many words from one on belong to a connector: a form of one word or two, or how it is built; 0 when they do not.</summary>
    public int ConnectorLength(IReadOnlyList<AttributeNode> words, int at)
    {
        if (!words[at].IsWord)
        {
            return 0;
        }
        var next = at + 1 < words.Count ? words[at + 1] : null;
        return words[at].Value.Text! switch
        {
            "barrel" when next is { Value.Kind: TokenKind.Size } => 2,
            "captive" or "type-a" or "type-b" => 1,
            var word when next is not null && FormOf(word, next) is not null => 2,
            // `mains` is a signal before it is a plug.
            var word when word != "mains" && Forms.Find(word) is not null => 1,
            _ => 0,
        };
    }

    /// <summary>A connector of two words, or of a word and a size; most words that follow one another are none.</summary>
    private Form? FormOf(string word, AttributeNode next)
    {
        Span<char> name = stackalloc char[32];
        var value = Source.Content.AsSpan(next.Value.Start, next.Value.Length);
        return next.Unit is { } unit
            ? name.TryWrite($"{word} {value} {unit.Text}", out var length) ? Forms.Find(name[..length]) : null
            : name.TryWrite($"{word} {value}", out length) ? Forms.Find(name[..length]) : null;
    }

    public static IReadOnlyList<string> KnownConnectors { get; } = [.. Forms.All.Select(f => f.Name), "barrel 5.5x2.1 mm"];

    private static Form? BarrelOf(string size)
    {
        var parts = size.Split('x');
        var outer = double.Parse(parts[0], CultureInfo.InvariantCulture);
        var inner = double.Parse(parts[1], CultureInfo.InvariantCulture);
        return outer > 0 && inner > 0 && outer < 50 && inner < outer ? Forms.Barrel(outer, inner) : null;
    }

    private static double Number(Token token) =>
        double.TryParse(token.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? value : double.NaN;

    private static string ExampleOf(ReadOnlySpan<Dimension> wanted)
    {
        foreach (var dimension in wanted)
        {
            return Units.Of(dimension).First();
        }
        return "V";
    }

    /// <summary>What can stand on a table of instruments; beyond that it is a slip of the keys. In the first unit of the dimension.</summary>
    private static (double Low, double High) Bounds(Dimension dimension) => dimension switch
    {
        Dimension.Voltage => (0, 1000),
        Dimension.Current => (0, 200),
        Dimension.Power or Dimension.ApparentPower => (0, 100_000),
        Dimension.Length => (0, 1000),
        Dimension.Time => (0, 604_800),
        Dimension.Frequency => (0, 1_000_000),
        Dimension.Tempo => (1, 1000),
        Dimension.PulseRate => (1, 960),
        Dimension.SignalLevel => (-150, 60),
        Dimension.Gain => (-150, 150),
        Dimension.Resistance => (0, 1e9),
        Dimension.Energy => (0, 1e6),
        Dimension.Charge => (0, 1e5),
        Dimension.WordLength => (1, 64),
        Dimension.WireGauge => (0, 40),
        _ => (double.MinValue, double.MaxValue),
    };
}
