using System.Collections.Frozen;

namespace RigLang.Syntax;

/// <summary>
/// The words that shape a statement. They are contextual: each may also be the name of a device, gear, port or lead.
/// </summary>
public enum Keyword : byte
{
    None,
    Rig,
    Import,
    Gear,
    Lead,
    Device,
    Connect,
    Stock,
    Must,
    Never,
    In,
    Out,
    On,
    Route,
    Join,
    To,
    Part,
    Receives,
    Sounds,
    At,
    Track,
    Sends,
    Follows,
    Clock,
    Transport,
    Filters,
    Battery,
    Drops,
    Passes,
    Only,
    Runs,
    Channel,
    Layered,
    With,
    From,
    Reach,
    Within,
}

/// <summary>The table of keywords, and which of them open a statement.</summary>
public static class Keywords
{
    /// <summary>Every keyword by its spelling; editors' grammars are tested against this table.</summary>
    public static FrozenDictionary<string, Keyword> Table { get; } = Enum.GetValues<Keyword>()
        .Where(k => k != Keyword.None)
        .ToFrozenDictionary(Spelling, StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, Keyword>.AlternateLookup<ReadOnlySpan<char>> Lookup =
        Table.GetAlternateLookup<ReadOnlySpan<char>>();

    public static Keyword Find(ReadOnlySpan<char> word) => Lookup.TryGetValue(word, out var keyword) ? keyword : Keyword.None;

    public static bool OpensStatement(Keyword keyword) => keyword is >= Keyword.Rig and <= Keyword.Never;

    public static string Spelling(Keyword keyword) => keyword.ToString().ToLowerInvariant();
}
