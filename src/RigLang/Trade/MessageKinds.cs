namespace RigLang.Trade;

/// <summary>
/// MIDI message kinds as a set of bits, with the names of the MIDI 1.0 specification (IEC 63035). Notes cover note on
/// and note off; aftertouch covers channel and key pressure; controllers cover channel mode messages.
/// </summary>
[Flags]
public enum MessageKinds
{
    None = 0,
    Notes = 1 << 0,
    Velocity = 1 << 1,
    Aftertouch = 1 << 2,
    Controllers = 1 << 3,
    ProgramChange = 1 << 4,
    PitchBend = 1 << 5,
    SystemExclusive = 1 << 6,
    Clock = 1 << 7,
    Start = 1 << 8,
    Stop = 1 << 9,
    Continue = 1 << 10,
    SongPosition = 1 << 11,
    ActiveSensing = 1 << 12,

    /// <summary>Start, stop and continue: what a transport section sends.</summary>
    Transport = Start | Stop | Continue,

    /// <summary>Messages that carry a channel.</summary>
    Channel = Notes | Velocity | Aftertouch | Controllers | ProgramChange | PitchBend,

    All = Channel | SystemExclusive | Clock | Transport | SongPosition | ActiveSensing,
}

public static class MessageKindNames
{
    /// <summary>The words of the language for message kinds.</summary>
    public static IReadOnlyDictionary<string, MessageKinds> Table { get; } = new Dictionary<string, MessageKinds>
    {
        ["notes"] = MessageKinds.Notes,
        ["velocity"] = MessageKinds.Velocity,
        ["aftertouch"] = MessageKinds.Aftertouch,
        ["controllers"] = MessageKinds.Controllers,
        ["program change"] = MessageKinds.ProgramChange,
        ["pitch bend"] = MessageKinds.PitchBend,
        ["system exclusive"] = MessageKinds.SystemExclusive,
        ["clock"] = MessageKinds.Clock,
        ["start"] = MessageKinds.Start,
        ["stop"] = MessageKinds.Stop,
        ["continue"] = MessageKinds.Continue,
        ["song position"] = MessageKinds.SongPosition,
        ["active sensing"] = MessageKinds.ActiveSensing,
        ["transport"] = MessageKinds.Transport,
        ["any"] = MessageKinds.All,
    };

    private static readonly MessageKinds[] Singles = [.. Table.Values.Where(k => k is not (MessageKinds.Transport or MessageKinds.All)).Order()];

    /// <summary>Each kind of a set by itself, in the order of their bits.</summary>
    public static IEnumerable<MessageKinds> Each(MessageKinds kinds) => Singles.Where(kind => (kinds & kind) != 0);

    /// <summary>The names of a set's kinds, in the order of their bits.</summary>
    public static IEnumerable<string> NamesOf(MessageKinds kinds) => Table
        .Where(entry => entry.Value is not (MessageKinds.Transport or MessageKinds.All) && (kinds & entry.Value) == entry.Value)
        .OrderBy(entry => entry.Value)
        .Select(entry => entry.Key);

    public static string Describe(MessageKinds kinds) => string.Join(", ", NamesOf(kinds));
}
