using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>
/// A line that a gear has: its own, or one of the gear that it is like. The latter is read in its own file, and what is wrong with it is told
/// there and not again.
/// </summary>
/// <param name="Replaced">Names that the line declares and the gear declares anew, as "port out1"; null when there are none.</param>
internal readonly record struct GearLine(Statement Statement, Reading Reading, HashSet<string>? Replaced)
{
    /// <summary>The names that a line declares, those left out that the gear declares anew.</summary>
    public Name[] Names(IReadOnlyList<NameRange> names, string kind) => Replaced is { } replaced
        ? Array.FindAll(Reading.Expand(names), name => !replaced.Contains($"{kind} {name.Text}"))
        : Reading.Expand(names);

    public static IReadOnlyList<GearLine> Of(GearStatement statement, GearSymbol? like, Reading reading)
    {
        var own = new List<GearLine>(statement.Body.Count + (like?.Lines.Count ?? 0));
        if (like is not null)
        {
            AddInherited(own, statement, like, reading);
        }
        foreach (var line in statement.Body)
        {
            own.Add(new GearLine(line, reading, null));
        }
        return own;
    }

    private static void AddInherited(List<GearLine> lines, GearStatement statement, GearSymbol like, Reading reading)
    {
        var said = Declared(statement, reading.Silent);
        foreach (var line in like.Lines)
        {
            if (line.Statement is not BrokenLine && !statement.Body.Any(own => TakesThePlaceOf(own, line.Statement)))
            {
                lines.Add(new GearLine(line.Statement, line.Reading.Silent, line.Replaced is { } replaced ? [.. said, .. replaced] : said));
            }
        }
    }

    private static HashSet<string> Declared(GearStatement statement, Reading reading)
    {
        var declared = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in statement.Body)
        {
            var (names, kind) = line switch
            {
                PortLine port => (port.Names, "port"),
                PartLine part => (part.Names, "part"),
                TrackLine track => (track.Names, "track"),
                BusLine bus => (bus.Names, "port"),
                SoundLine sound => (sound.Names, "sound"),
                _ => ([], ""),
            };
            foreach (var name in reading.Expand(names))
            {
                declared.Add($"{kind} {name.Text}");
            }
        }
        return declared;
    }

    /// <summary>Lines of which the last word counts: said again, they replace; all others add.</summary>
    private static bool TakesThePlaceOf(Statement own, Statement inherited) => (own, inherited) switch
    {
        (ClockLine one, ClockLine other) => one.IsTransport == other.IsTransport && one.Sends == other.Sends,
        (FiltersLine, FiltersLine) => true,
        (BatteryLine, BatteryLine) => true,
        (RecordsLine, RecordsLine) => true,
        _ => false,
    };
}
