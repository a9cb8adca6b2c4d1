using RigLang.Connectors;
using RigLang.Text;

namespace RigLang.Syntax;

// The syntax tree. A node is what one line (or one piece of it) says; it keeps its tokens, so every span is exact.
// A list is never null; a part that a half-typed line does not have yet is null where the type says so.

/// <summary>A name as written; <see cref="Text"/> is without quotes.</summary>
public readonly record struct Name(string Text, TextSpan Span)
{
    public Name(Token token)
        : this(token.Text ?? "", token.Span)
    {
    }

    public override string ToString() => Text;
}

/// <summary>One name, or a range of numbered names: <c>out1..out5</c>.</summary>
public sealed record NameRange(Name First, Name? Last)
{
    public TextSpan Span => Last is { } last ? First.Span.To(last.Span) : First.Span;
}

/// <summary><c>device</c>, <c>device.port</c>, <c>device.port.left</c>, or a range of the last: <c>strip.out1..out3</c>.</summary>
public sealed record PathNode(IReadOnlyList<Name> Parts, Name? Last)
{
    public TextSpan Span => Parts[0].Span.To(Last?.Span ?? Parts[^1].Span);
    public string Text => string.Join('.', Parts.Select(p => p.Text)) + (Last is { } last ? ".." + last.Text : "");
}

/// <summary>A number and its unit word: <c>9 V</c>.</summary>
public sealed record QuantityNode(Token Number, Name Unit)
{
    public TextSpan Span => Number.Span.To(Unit.Span);
}

/// <summary>
/// One attribute of a port or plug: a word, a quantity (<c>9 V</c>, <c>9..12 V</c>), a size (<c>5.5x2.1 mm</c>) or a bare number.
/// </summary>
public sealed record AttributeNode(Token Value, Token? UpTo, Name? Unit)
{
    public TextSpan Span => Value.Span.To(Unit?.Span ?? UpTo?.Span ?? Value.Span);
    public bool IsWord => Value.IsName;
}

/// <summary>A channel: a number, a range, or <c>any</c>, <c>auto</c>, <c>off</c>.</summary>
public sealed record ChannelNode(Token Value, Token? UpTo)
{
    public TextSpan Span => Value.Span.To(UpTo?.Span ?? Value.Span);
}

public abstract record Statement
{
    /// <summary>The statement's own line, without its block.</summary>
    public TextSpan Span { get; internal set; }

    /// <summary>The lines of its block, for statements that have one.</summary>
    public IReadOnlyList<Statement> Body { get; internal set; } = [];
}

/// <summary>A line that does not follow the grammar. It takes part in nothing, and costs no other line.</summary>
public sealed record BrokenLine : Statement;

// Statements of a file.

public sealed record RigStatement(Name? Title) : Statement;

/// <param name="As">What stands before its names, as in <c>tide.bass</c>; null when they come as they are.</param>
public sealed record ImportStatement(Name Path, Name? As = null) : Statement;

/// <param name="Like">The gear whose lines it has too; null for gear that stands by itself.</param>
public sealed record GearStatement(Name Name, Name? Like) : Statement;

public sealed record LeadStatement(Name Name, IReadOnlyList<LeadEndNode> Near, IReadOnlyList<LeadEndNode> Far) : Statement;

/// <summary><c>device bass : Tern</c>; several boxes of one kind: <c>device box2..box6 : Tern</c>.</summary>
public sealed record DeviceStatement(IReadOnlyList<NameRange> Names, Name Gear, IReadOnlyList<QuantityNode> At) : Statement
{
    /// <summary>The name of the only device, or of the first.</summary>
    public Name Name => Names[0].First;

    /// <summary>True when the line names several devices, or looks so.</summary>
    public bool IsSeveral => Names.Count > 1 || Names[0].Last is not null;
}

public sealed record ConnectStatement(
    IReadOnlyList<PathNode> From,
    IReadOnlyList<PathNode> To,
    IReadOnlyList<LeadUseNode> Leads,
    IReadOnlyList<Name> Colours,
    Name? Label) : Statement;

public sealed record StockStatement : Statement;

public sealed record ExpectStatement(
    bool Must,
    TextSpan Verb,
    IReadOnlyList<KindNode> What,
    IReadOnlyList<PathNode> From,
    IReadOnlyList<PathNode> To,
    IReadOnlyList<QualifierNode> Qualifiers) : Statement;

/// <summary><c>accept lead-too-long on bass.line because "quiet in rehearsal"</c>.</summary>
public sealed record AcceptStatement(Name Check, IReadOnlyList<PathNode> On, Name Reason) : Statement;

// Lines of a rig block.

/// <summary><c>tempo 112 bpm</c>, <c>mains 230 V 50 Hz 16 A</c>, <c>set 75 min</c>.</summary>
public sealed record RigSetting(Name Name, IReadOnlyList<QuantityNode> Values) : Statement;

// Lines of a gear block.

public sealed record PortLine(
    bool IsOutput,
    IReadOnlyList<NameRange> Names,
    IReadOnlyList<AttributeNode> Signal,
    TextSpan? OnWord,
    IReadOnlyList<AttributeNode> On) : Statement;

/// <summary><c>bus group1, group2 : audio mono</c>: a sum inside, without a jack.</summary>
/// <param name="On">A connector, which no bus has.</param>
public sealed record BusLine(IReadOnlyList<NameRange> Names, IReadOnlyList<AttributeNode> Signal, IReadOnlyList<AttributeNode> On) : Statement;

/// <summary><c>assign ch1..ch8 to group1, main</c>: routes that the player chooses among, channel by channel.</summary>
public sealed record AssignLine(IReadOnlyList<NameRange> From, IReadOnlyList<NameRange> To, bool InPairs) : Statement;

/// <summary><c>sound click at usb1 channels 7</c>: what the device plays by itself.</summary>
public sealed record SoundLine(IReadOnlyList<NameRange> Names, IReadOnlyList<NameRange> At, ChannelNode? Channels) : Statement;

/// <summary><c>records mic1, mic2, line</c>: what it records, in the order of its tracks.</summary>
public sealed record RecordsLine(IReadOnlyList<NameRange> Names) : Statement;

/// <param name="InPairs">The first to the first, the second to the second, instead of each to all.</param>
public sealed record RouteLine(
    IReadOnlyList<NameRange> From, IReadOnlyList<NameRange> To, bool InPairs, IReadOnlyList<AttributeNode> Extras) : Statement;

/// <summary><c>switch in1, in2 to out</c>: one of them at a time, never both.</summary>
public sealed record SwitchLine(IReadOnlyList<NameRange> From, IReadOnlyList<NameRange> To, bool InPairs) : Statement;

/// <summary><c>maps channels</c>: it can move messages from one MIDI channel to others.</summary>
public sealed record MapsLine : Statement;

public sealed record JoinLine(IReadOnlyList<NameRange> From, IReadOnlyList<NameRange> To, bool InPairs) : Statement;

public sealed record PartLine(
    IReadOnlyList<NameRange> Names,
    IReadOnlyList<NameRange> Receives,
    ChannelNode? Channel,
    IReadOnlyList<NameRange> SoundsAt) : Statement;

/// <param name="Only">The kinds of messages that it sends; empty for all that a track can send.</param>
public sealed record TrackLine(
    IReadOnlyList<NameRange> Names,
    IReadOnlyList<NameRange> Sends,
    IReadOnlyList<KindNode> Only,
    ChannelNode? Channel,
    IReadOnlyList<NameRange> Plays) : Statement;

/// <summary><c>clock follows internal, midi</c>, <c>clock sends midi</c>, and the same of <c>transport</c>.</summary>
public sealed record ClockLine(bool IsTransport, bool Sends, IReadOnlyList<NameRange> Names) : Statement;

public sealed record FiltersLine(IReadOnlyList<KindNode> Kinds) : Statement;

public sealed record BatteryLine(QuantityNode? Runs) : Statement;

// Lines of a lead block.

public sealed record WireLine(PathNode From, IReadOnlyList<PathNode> To) : Statement;

/// <summary><c>longest 2 m</c>, <c>gauge 24 awg</c>.</summary>
public sealed record LeadProperty(Name Name, QuantityNode Value) : Statement;

// Lines of a device block.

public sealed record ChannelSetting(IReadOnlyList<NameRange> Names, ChannelNode Channel, bool Layered) : Statement;

public sealed record ClockSetting(bool IsTransport, Name Source) : Statement;

/// <summary>Which way messages go at a port that goes both ways.</summary>
public enum PortWay : byte
{
    Both,
    ComingIn,
    GoingOut,
}

/// <summary><c>usb drops clock coming in</c>.</summary>
public sealed record FilterSetting(IReadOnlyList<NameRange> Ports, bool PassesOnly, IReadOnlyList<KindNode> Kinds, PortWay Way) : Statement;

/// <summary><c>in maps channel 3 to 10, 11</c>.</summary>
public sealed record MapSetting(IReadOnlyList<NameRange> Ports, ChannelNode From, IReadOnlyList<ChannelNode> To, PortWay Way) : Statement;

/// <summary><c>a up to 8 notes at once</c>.</summary>
public sealed record NotesSetting(IReadOnlyList<NameRange> Names, Token Count) : Statement;

/// <summary><c>ch1 phantom on</c>: a switch on the panel.</summary>
public sealed record SwitchSetting(IReadOnlyList<NameRange> Ports, Name Switch, Name State) : Statement;

public sealed record BatterySetting : Statement;

/// <summary><c>ch1 gain 20 dB</c>, <c>ch1 send1 -6 dB</c>.</summary>
/// <param name="What"><c>gain</c>, or the output or bus that it is sent to.</param>
public sealed record LevelSetting(IReadOnlyList<NameRange> Ports, Name What, QuantityNode Level) : Statement;

/// <summary><c>ch1 muted</c>, <c>main mono</c>.</summary>
public sealed record StateSetting(IReadOnlyList<NameRange> Ports, Token State) : Statement;

/// <summary><c>ch1 to group1, main</c>.</summary>
public sealed record AssignSetting(IReadOnlyList<NameRange> Ports, IReadOnlyList<NameRange> To) : Statement;

/// <summary>What a player writes when he means a setting and leaves out its words: <c>a off</c>, <c>voice 3</c>, <c>voice channel 3</c>.</summary>
public sealed record UnclearSetting(IReadOnlyList<NameRange> Names, IReadOnlyList<Token> Words) : Statement;

// Lines of a stock block.

public sealed record StockLine(Token Count, Name Lead, QuantityNode? Length, IReadOnlyList<Name> Colours) : Statement;

// Pieces.

public sealed record LeadEndNode(IReadOnlyList<AttributeNode> Words)
{
    public TextSpan Span => Words[0].Span.To(Words[^1].Span);
}

/// <summary><c>MidiDin 1.5 m</c>; without a name, the simplest lead of that length.</summary>
public sealed record LeadUseNode(Name? Lead, QuantityNode? Length)
{
    public TextSpan Span => (Lead?.Span ?? Length!.Span).To(Length?.Span ?? Lead!.Value.Span);
}

/// <summary>A message kind, one or two words: <c>clock</c>, <c>program change</c>.</summary>
public sealed record KindNode(string Text, TextSpan Span);

/// <summary><c>in stereo</c>, <c>on channel 2</c>, <c>within 5 ms</c>.</summary>
public sealed record QualifierNode(Keyword Kind, TextSpan Span, Name? Word, ChannelNode? Channel, QuantityNode? Limit)
{
    /// <summary>Of <c>on track 3</c> the number.</summary>
    public Token? Number { get; init; }
}
