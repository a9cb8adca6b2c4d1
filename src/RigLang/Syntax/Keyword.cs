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
    Accept,
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
    Switch,
    Maps,
    Plays,
    Up,
    Because,
    Like,
    Pairs,
    Coming,
    Going,
    Bus,
    Assign,
    Sound,
    Records,
}

/// <summary>The table of keywords, and which of them open a statement.</summary>
public static class Keywords
{
    /// <summary>Every keyword by its spelling; editors' grammars are tested against this table.</summary>
    public static IReadOnlyDictionary<string, Keyword> Table => BySpelling;

    // Written out: reading the names off the enumeration costs more than parsing a short rig.
    private static readonly string[] Spellings =
    [
        "", "rig", "import", "gear", "lead", "device", "connect", "stock", "must", "never", "accept", "in", "out", "on", "route", "join", "to",
        "part", "receives", "sounds", "at", "track", "sends", "follows", "clock", "transport", "filters", "battery", "drops", "passes",
        "only", "runs", "channel", "layered", "with", "from", "reach", "within", "switch", "maps", "plays", "up", "because", "like", "pairs", "coming", "going",
        "bus", "assign", "sound", "records",
    ];

    private static readonly Dictionary<string, Keyword> BySpelling = Index();

    private static readonly Dictionary<string, Keyword>.AlternateLookup<ReadOnlySpan<char>> Lookup =
        BySpelling.GetAlternateLookup<ReadOnlySpan<char>>();

    public static Keyword Find(ReadOnlySpan<char> word) => Lookup.TryGetValue(word, out var keyword) ? keyword : Keyword.None;

    public static bool OpensStatement(Keyword keyword) => keyword is >= Keyword.Rig and <= Keyword.Accept;

    public static string Spelling(Keyword keyword) => Spellings[(int)keyword];

    private static Dictionary<string, Keyword> Index()
    {
        var table = new Dictionary<string, Keyword>(Spellings.Length, StringComparer.Ordinal);
        for (var i = 1; i < Spellings.Length; i++)
        {
            table.Add(Spellings[i], (Keyword)i);
        }
        return table;
    }
}
