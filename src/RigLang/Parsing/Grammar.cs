using Pidgin;
using RigLang.Syntax;
using static Pidgin.Parser;
using static RigLang.Parsing.Pieces;
using static RigLang.Parsing.Tokens;

namespace RigLang.Parsing;

/// <summary>
/// The grammar, one line at a time; <c>grammar/README.md</c> has it in EBNF. Each parser takes the tokens of one line
/// and must use them all. Which lines a block may hold depends on the statement that opens it.
/// </summary>
internal static class Grammar
{
    public static readonly Parser<Token, Statement> FileLine = WholeLine(Choose((first, second) => first?.Keyword switch
    {
        Keyword.Rig => Rig,
        Keyword.Import => Import,
        Keyword.Gear => Gear,
        Keyword.Lead => Lead,
        Keyword.Device => Device,
        Keyword.Connect => Connect,
        Keyword.Stock => Stock,
        Keyword.Must or Keyword.Never => Expect,
        Keyword.Accept => Accept,
        _ => NoStatement,
    }));

    public static readonly Parser<Token, Statement> RigLine = WholeLine(Map(
        (name, values) => (Statement)new RigSetting(name, values),
        Name("`tempo`, `mains` or `set`"),
        ManyOf(Quantity("a number and its unit, such as 112 bpm"))));

    public static readonly Parser<Token, Statement> GearLine = WholeLine(Choose((first, second) => first?.Keyword switch
    {
        Keyword.In or Keyword.Out => Port,
        Keyword.Route => Route,
        Keyword.Join => Join,
        Keyword.Switch => Switch,
        Keyword.Maps => Maps,
        Keyword.Part => Part,
        Keyword.Track => Track,
        Keyword.Clock or Keyword.Transport => Clock,
        Keyword.Filters => Filters,
        Keyword.Battery => Battery,
        Keyword.Bus => Bus,
        Keyword.Assign => Assign,
        Keyword.Sound => Sound,
        Keyword.Records => Records,
        _ => NoGearLine,
    }));

    public static readonly Parser<Token, Statement> LeadLine = WholeLine(Choose((first, second) =>
        second?.Kind == TokenKind.Number ? LeadFact : Wire));

    // A port or part may be called `runs` or `clock`: what follows tells.
    public static readonly Parser<Token, Statement> DeviceLine = WholeLine(Choose((first, second, third) => first?.Keyword switch
    {
        Keyword.Runs when second?.Keyword == Keyword.On && third?.Keyword != Keyword.Channel => OnBattery,
        Keyword.Clock or Keyword.Transport when !NamesPort(second) => ClockChoice,
        _ => Setting,
    }));

    private static bool NamesPort(Token? next) =>
        next is { Keyword: Keyword.On or Keyword.Drops or Keyword.Passes } or { Kind: TokenKind.Comma or TokenKind.DotDot };

    public static readonly Parser<Token, Statement> StockLine = WholeLine(Map(
        (count, lead, length, colours) => (Statement)new StockLine(count, lead, length, colours),
        Kind(TokenKind.Number, "how many, for example `6 MidiDin 1.5 m`"),
        NameOfImport("the name of a lead"),
        MaybeClass(Quantity("a length such as 1.5 m")),
        ManyOf(Name("a colour"))));

    // Statements of a file.

    private static Parser<Token, Statement> Rig => field ??= Map(
        (_, title) => (Statement)new RigStatement(title),
        Word(Keyword.Rig),
        MaybeStruct(Quoted("the rig's name in quotes")));

    private static Parser<Token, Statement> Import => field ??= Map(
        (_, path, prefix) => (Statement)new ImportStatement(path, prefix),
        Word(Keyword.Import),
        Quoted("a file in quotes, such as \"our-gear.rig\""),
        MaybeStruct(PlainWord("as").Then(Name("a name to put before what it brings, as in `as tide`"))));

    private static Parser<Token, Statement> Gear => field ??= Map(
        (_, name, like) => (Statement)new GearStatement(name, like),
        Word(Keyword.Gear),
        Name("a name for this kind of gear"),
        MaybeStruct(Word(Keyword.Like).Then(Name("the gear that it is like"))));

    private static Parser<Token, Statement> Lead => field ??= Map(
        (_, name, _, near, _, far) => (Statement)new LeadStatement(name, near, far),
        Word(Keyword.Lead),
        Name("a name for this kind of lead"),
        Colon,
        LeadEnds,
        Word(Keyword.To),
        LeadEnds);

    private static Parser<Token, IReadOnlyList<LeadEndNode>> LeadEnds => field ??= ListOf(
        OneOrMoreOf(Attribute("a plug such as `trs 3.5 mm`", Keyword.To)).Select(words => new LeadEndNode(words)));

    private static Parser<Token, Statement> Device => field ??= Map(
        (_, names, _, gear, at) => (Statement)new DeviceStatement(names, gear, at ?? []),
        Word(Keyword.Device),
        ListOf(RangeOf("a name for this device")),
        Colon,
        NameOfImport("the gear it is"),
        MaybeClass(Word(Keyword.At).Then(Open).Then(Place).Before(Close)));

    private static Parser<Token, IReadOnlyList<QuantityNode>> Place => field ??= Map(
        (x, _, y) => (IReadOnlyList<QuantityNode>)[x, y],
        Quantity("a place such as (0.8 m, 0.4 m)"),
        Comma,
        Quantity("a second length"));

    private static Parser<Token, Statement> Connect => field ??= Map(
        (_, from, _, to, tail) => (Statement)new ConnectStatement(from, to, tail.Leads, tail.Colours, tail.Label),
        Word(Keyword.Connect),
        Ends("a jack to start from, written device.port"),
        Word(Keyword.To),
        Ends("the jack it goes to, written device.port"),
        Map(
            (leads, colours, label) => (Leads: leads ?? [], Colours: colours, Label: label),
            MaybeClass(Word(Keyword.With).Then(LeadChain)),
            ManyOf(new OneToken<Name>(t => t.Kind == TokenKind.Word, t => new Name(t), "a colour")),
            MaybeStruct(Quoted("a label in quotes"))));

    private static Parser<Token, IReadOnlyList<PathNode>> Ends(string what) => ListOf(Path(what));

    private static Parser<Token, IReadOnlyList<LeadUseNode>> LeadChain => field ??= Separated(
        Choose((first, _) => first?.Kind == TokenKind.Number ? UnnamedLead : NamedLead),
        Plus);

    private static Parser<Token, LeadUseNode> UnnamedLead => field ??=
        Quantity("a length such as 1.5 m").Select(length => new LeadUseNode(null, length));

    private static Parser<Token, LeadUseNode> NamedLead => field ??= Map(
        (lead, length) => new LeadUseNode(lead, length),
        NameOfImport("the name of a lead, or a length"),
        MaybeClass(Quantity("a length such as 1.5 m")));

    private static Parser<Token, Statement> Stock => field ??= Word(Keyword.Stock).Select(_ => (Statement)new StockStatement());

    private static Parser<Token, Statement> Expect => field ??= Map(
        (verb, what, _, from, _, to, qualifiers) =>
            (Statement)new ExpectStatement(verb.Keyword == Keyword.Must, verb.Span, what, from, to, qualifiers),
        Word(Keyword.Must, Keyword.Never),
        Kinds(Keyword.From),
        Word(Keyword.From),
        Ends("where it comes from: a device or device.track"),
        Word(Keyword.Reach),
        Ends("what it reaches: a device or device.port"),
        ManyOf(Qualifier));

    private static Parser<Token, QualifierNode> Qualifier => field ??= OneOf(
        Map(
            (word, mode) => new QualifierNode(Keyword.In, word.Span.To(mode.Span), mode, null, null),
            Word(Keyword.In),
            Name("`stereo` or `mono`")),
        Choose((_, second) => second?.Keyword == Keyword.Track ? OnTrack : OnChannelAsked),
        Map(
            (word, limit) => new QualifierNode(Keyword.Within, word.Span.To(limit.Span), null, null, limit),
            Word(Keyword.Within),
            Quantity("a time such as 5 ms")));

    private static Parser<Token, QualifierNode> OnChannelAsked => field ??= Map(
        (word, channel) => new QualifierNode(Keyword.Channel, word.Span.To(channel.Span), null, channel, null),
        Word(Keyword.On),
        Word(Keyword.Channel).Then(Channel));

    private static Parser<Token, QualifierNode> OnTrack => field ??= Map(
        (word, number) => new QualifierNode(Keyword.Track, word.Span.To(number.Span), null, null, null) { Number = number },
        Word(Keyword.On),
        Word(Keyword.Track).Then(Kind(TokenKind.Number, "the number of a track, as in `on track 3`")));

    private static Parser<Token, Statement> Accept => field ??= Map(
        (_, check, on, _, reason) => (Statement)new AcceptStatement(check, on, reason),
        Word(Keyword.Accept),
        Name("the name of a check, such as `lead-too-long`"),
        new OneToken<Token>(t => t.Keyword == Keyword.On, t => t,
            "`on` and the device or port that it holds for: accepted everywhere, it would hide new mistakes")
            .Then(Ends("a device, or device.port")),
        Word(Keyword.Because),
        Quoted("the reason in quotes, such as \"short, and quiet in rehearsal\""));

    private static Parser<Token, Statement> NoStatement => field ??= Nothing(
        "a statement: `rig`, `import`, `gear`, `lead`, `device`, `connect`, `stock`, `must`, `never` or `accept`");

    // Lines of a gear block.

    private static Parser<Token, Statement> Port => field ??= Map(
        (direction, names, _, signal, on) => (Statement)new PortLine(
            direction.Keyword == Keyword.Out, names, signal, on?.Word, on?.Jack ?? []),
        Word(Keyword.In, Keyword.Out),
        Ranges,
        Colon,
        Description("a signal such as `midi` or `audio mono line`", Keyword.On),
        MaybeStruct(Map(
            (word, jack) => (Word: word.Span, Jack: jack),
            Word(Keyword.On),
            Description("a connector such as `din-5` or `ts 6.35 mm`"))));

    /// <summary>Words and measures; commas between them may be written where they help the eye.</summary>
    private static Parser<Token, IReadOnlyList<AttributeNode>> Description(string what, params Keyword[] stops) =>
        ListOf(OneOrMoreOf(Attribute(what, stops)))
            .Select(groups => groups.Count == 1 ? groups[0] : (IReadOnlyList<AttributeNode>)[.. groups.SelectMany(group => group)]);

    private static Parser<Token, Statement> Route => field ??= Map(
        (_, from, _, to, pairs, extras) => (Statement)new RouteLine(from, to, pairs is not null, [.. extras]),
        Word(Keyword.Route),
        Ranges,
        Word(Keyword.To),
        Ranges,
        InPairs,
        ManyOf(Attribute("`in pairs`, or `latency`, `gain` or `channels` with its figure")));

    private static Parser<Token, Token?> InPairs => field ??= MaybeStruct(Word(Keyword.In).Then(Word(Keyword.Pairs)));

    private static Parser<Token, Statement> Join => field ??= Map(
        (_, from, _, to, pairs) => (Statement)new JoinLine(from, to, pairs is not null),
        Word(Keyword.Join),
        Ranges,
        Word(Keyword.To),
        Ranges,
        InPairs);

    private static Parser<Token, Statement> Switch => field ??= Map(
        (_, from, _, to, pairs) => (Statement)new SwitchLine(from, to, pairs is not null),
        Word(Keyword.Switch),
        Ranges,
        Word(Keyword.To),
        Ranges,
        InPairs);

    private static Parser<Token, Statement> Maps => field ??= Map(
        (_, _) => (Statement)new MapsLine(),
        Word(Keyword.Maps),
        PlainWord("channels"));

    private static Parser<Token, Statement> Part => field ??= Map(
        (_, names, _, receives, channel, sounds) => (Statement)new PartLine(names, receives, channel, sounds ?? []),
        Word(Keyword.Part),
        Ranges,
        Word(Keyword.Receives),
        RangesBeforeSoundsAt,
        MaybeClass(OnChannel),
        MaybeClass(Comma.Then(Word(Keyword.Sounds)).Then(Word(Keyword.At)).Then(Ranges)));

    /// <summary>A list that ends before <c>, sounds at</c>; a port called <c>sounds</c> may still stand in it.</summary>
    private static Parser<Token, IReadOnlyList<NameRange>> RangesBeforeSoundsAt => field ??=
        Separated(
            Pieces.Range,
            Choose((_, second, third) => second?.Keyword == Keyword.Sounds && third?.Keyword == Keyword.At ? NoComma : Comma));

    private static readonly Parser<Token, Token> NoComma = new OneToken<Token>(_ => false, t => t, "`,`");

    private static Parser<Token, Statement> Track => field ??= Map(
        (_, names, _, sends, only, channel, plays) => (Statement)new TrackLine(names, sends, only ?? [], channel, plays ?? []),
        Word(Keyword.Track),
        Ranges,
        Word(Keyword.Sends),
        RangesBeforePlays,
        MaybeClass(Word(Keyword.Only).Then(KindsBeforePlays)),
        MaybeClass(OnChannel),
        MaybeClass(Comma.Then(Word(Keyword.Plays)).Then(Ranges)));

    /// <summary>A list that ends before <c>, plays</c> and a part; a port called <c>plays</c> may still stand last in it.</summary>
    private static Parser<Token, IReadOnlyList<NameRange>> RangesBeforePlays => field ??=
        Separated(Pieces.Range, CommaBeforeNoPlays);

    private static Parser<Token, IReadOnlyList<KindNode>> KindsBeforePlays => field ??=
        Separated(OneKind(Keyword.On), CommaBeforeNoPlays);

    private static Parser<Token, Token> CommaBeforeNoPlays => field ??=
        Choose((_, second, third) => second?.Keyword == Keyword.Plays && third?.IsName == true ? NoComma : Comma);

    private static Parser<Token, Statement> Clock => field ??= Map(
        (subject, verb, names) => (Statement)new ClockLine(subject.Keyword == Keyword.Transport, verb.Keyword == Keyword.Sends, names),
        Word(Keyword.Clock, Keyword.Transport),
        Word(Keyword.Follows, Keyword.Sends),
        Ranges);

    private static Parser<Token, Statement> Filters => field ??= Map(
        (_, kinds) => (Statement)new FiltersLine(kinds),
        Word(Keyword.Filters),
        Kinds());

    private static Parser<Token, Statement> Battery => field ??= Map(
        (_, time) => (Statement)new BatteryLine(time),
        Word(Keyword.Battery),
        MaybeClass(Quantity("a running time such as 5 h")));

    private static Parser<Token, Statement> Bus => field ??= Map(
        (_, names, _, signal, on) => (Statement)new BusLine(names, signal, on ?? []),
        Word(Keyword.Bus),
        Ranges,
        Colon,
        Description("what it sums: `audio mono` or `audio stereo`", Keyword.On),
        MaybeClass(Word(Keyword.On).Then(Description("a connector, which no bus has"))));

    private static Parser<Token, Statement> Assign => field ??= Map(
        (_, from, _, to, pairs) => (Statement)new AssignLine(from, to, pairs is not null),
        Word(Keyword.Assign),
        Ranges,
        Word(Keyword.To),
        Ranges,
        InPairs);

    private static Parser<Token, Statement> Sound => field ??= Map(
        (_, names, _, at, channels) => (Statement)new SoundLine(names, at, channels),
        Word(Keyword.Sound),
        Ranges,
        Word(Keyword.At),
        Ranges,
        MaybeClass(PlainWord("channels").Then(Channel)));

    private static Parser<Token, Statement> Records => field ??= Map(
        (_, names) => (Statement)new RecordsLine(names),
        Word(Keyword.Records),
        Ranges);

    private static Parser<Token, Statement> NoGearLine => field ??= Nothing(
        "a line about the gear: `in`, `out`, `route`, `join`, `switch`, `bus`, `assign`, `part`, `track`, `sound`, `records`, `clock`, `transport`, `filters`, `maps` or `battery`");

    // Lines of a lead block.

    private static Parser<Token, Statement> Wire => field ??= Map(
        (from, _, to) => (Statement)new WireLine(from, to),
        ContactPath("a contact such as `tip`"),
        Word(Keyword.To),
        ListOf(ContactPath("a contact such as `left.tip`")));

    private static Parser<Token, Statement> LeadFact => field ??= Map(
        (name, value) => (Statement)new LeadProperty(name, value),
        Name("`longest` or `gauge`"),
        Quantity("a number and its unit"));

    // Lines of a device block.

    private static Parser<Token, Statement> OnBattery => field ??= Map(
        (_, _, _) => (Statement)new BatterySetting(),
        Word(Keyword.Runs),
        Word(Keyword.On),
        Word(Keyword.Battery));

    private static Parser<Token, Statement> ClockChoice => field ??= Map(
        (subject, source) => (Statement)new ClockSetting(subject.Keyword == Keyword.Transport, source),
        Word(Keyword.Clock, Keyword.Transport),
        Name("where the clock comes from: `internal` or a port"));

    private static Parser<Token, Statement> Setting => field ??= Ranges.Then(
        Choose((first, second) => first?.Keyword switch
        {
            _ when IsUnclear(first, second) => WordsLeftOut,
            Keyword.On => ToChannel,
            Keyword.Drops => DropsKinds,
            Keyword.Passes => PassesOnly,
            Keyword.Maps => MapsChannel,
            Keyword.Up => NotesAtOnce,
            Keyword.To => AssignedTo,
            _ when second is null && first is { IsName: true, Text: "muted" or "mono" } => State,
            _ when second is { Kind: TokenKind.Number } => Level,
            _ => SwitchState,
        }),
        (names, make) => make(names));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> ToChannel => field ??= Map(
        (channel, layered) => Make(names => new ChannelSetting(names, channel, layered is not null)),
        OnChannel,
        MaybeStruct(Word(Keyword.Layered)));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> DropsKinds => field ??= Map(
        (_, kinds, way) => Make(names => new FilterSetting(names, false, kinds, way ?? PortWay.Both)),
        Word(Keyword.Drops),
        Kinds(Keyword.Coming, Keyword.Going),
        Way);

    private static Parser<Token, PortWay?> Way => field ??= MaybeStruct(Choose((first, _) => first?.Keyword == Keyword.Going ? GoingOut : ComingIn));

    private static Parser<Token, PortWay> ComingIn => field ??= Word(Keyword.Coming).Then(Word(Keyword.In)).Select(_ => PortWay.ComingIn);

    private static Parser<Token, PortWay> GoingOut => field ??= Word(Keyword.Going).Then(Word(Keyword.Out)).Select(_ => PortWay.GoingOut);

    /// <summary>`a off`, `voice 3`, `voice channel 3`, `voice on 3`: what is meant can be told, and is told.</summary>
    private static bool IsUnclear(Token? first, Token? second) =>
        (first is { Kind: TokenKind.Word, Text: "off" or "mute" } && second is null)
        || (first is { Kind: TokenKind.Number } && second is null)
        || (first is { Keyword: Keyword.Channel or Keyword.On } && second is { Kind: TokenKind.Number });

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> WordsLeftOut => field ??=
        ManyOf(new OneToken<Token>(_ => true, t => t, "a setting")).Select(words => Make(names => new UnclearSetting(names, words)));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> PassesOnly => field ??= Map(
        (_, _, kinds, way) => Make(names => new FilterSetting(names, true, kinds, way ?? PortWay.Both)),
        Word(Keyword.Passes),
        Word(Keyword.Only),
        Kinds(Keyword.Coming, Keyword.Going),
        Way);

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> MapsChannel => field ??= Map(
        (_, from, _, to, way) => Make(names => new MapSetting(names, from, to, way ?? PortWay.Both)),
        Word(Keyword.Maps).Then(Word(Keyword.Channel)),
        Channel,
        Word(Keyword.To),
        ListOf(Channel),
        Way);

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> NotesAtOnce => field ??= Map(
        (_, count, _) => Make(names => new NotesSetting(names, count)),
        Word(Keyword.Up).Then(Word(Keyword.To)),
        Kind(TokenKind.Number, "how many, as in `up to 8 notes at once`"),
        PlainWord("notes").Then(Word(Keyword.At)).Then(PlainWord("once")));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> AssignedTo => field ??= Word(Keyword.To).Then(Ranges)
        .Select(to => Make(names => new AssignSetting(names, to)));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> State => field ??=
        new OneToken<Token>(token => token.IsName, token => token, "`muted` or `mono`").Select(state => Make(names => new StateSetting(names, state)));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> Level => field ??= Map(
        (what, level) => Make(names => new LevelSetting(names, what, level)),
        Name("`gain`, or where it is sent"),
        Quantity("a level such as -6 dB"));

    private static Parser<Token, Func<IReadOnlyList<NameRange>, Statement>> SwitchState => field ??= Map(
        (name, state) => Make(names => new SwitchSetting(names, name, state)),
        Name("a setting: `on channel 2`, `drops …`, `passes only …`, `phantom on`"),
        Name("`on` or `off`"));

    private static Func<IReadOnlyList<NameRange>, Statement> Make(Func<IReadOnlyList<NameRange>, Statement> make) => make;

    // Help.

    /// <summary>A word that is none of the keywords, in the one place where it is wanted.</summary>
    private static Parser<Token, Token> PlainWord(string word) =>
        new OneToken<Token>(t => t.Kind == TokenKind.Word && t.Text == word, t => t, "`" + word + "`");

    private static Parser<Token, Name> Quoted(string what) => new OneToken<Name>(t => t.Kind == TokenKind.String, t => new Name(t), what);

    private static Parser<Token, Statement> WholeLine(Parser<Token, Statement> line) =>
        line.Before(new EndOfLine());

    /// <summary>Fails at the next token, asking for what the label says.</summary>
    private static Parser<Token, Statement> Nothing(string label) =>
        new OneToken<Statement>(_ => false, _ => new BrokenLine(), label);
}
