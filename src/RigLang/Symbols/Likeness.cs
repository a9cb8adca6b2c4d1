using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>
/// Reads the gear that is like other gear, once all of it is declared. The other may stand below it, in an import or in the library, and be like a third.
/// </summary>
internal static class Likeness
{
    /// <summary>Each step copies the lines of all before it; nobody follows more than a few.</summary>
    private const int MostSteps = 64;

    /// <param name="find">The gear of that name as the file sees it; null, and noted, when there is none.</param>
    public static void Resolve(RigNames names, Func<FileSymbols, Name, GearSymbol?> find)
    {
        var open = new Dictionary<GearSymbol, FileSymbols>(ReferenceEqualityComparer.Instance);
        foreach (var file in names.Files)
        {
            if (file.Library is null)
            {
                foreach (var gear in file.Gear)
                {
                    if (gear.Statement.Like is not null)
                    {
                        open.Add(gear, file);
                    }
                }
            }
        }
        if (open.Count == 0)
        {
            return;
        }
        var read = new Dictionary<GearSymbol, GearSymbol>(ReferenceEqualityComparer.Instance);
        foreach (var gear in open.Keys)
        {
            Follow(gear);
        }
        foreach (var (shell, gear) in read)
        {
            names.ReadInFull[shell] = gear;
            if (names.Gear.TryGetValue(gear.Name, out var known) && ReferenceEquals(known, shell))
            {
                names.Gear[gear.Name] = gear;
            }
            if (names.AllGear.IndexOf(shell) is >= 0 and var index)
            {
                names.AllGear[index] = gear;
            }
        }

        // A chain may be as long as a file: followed to its end, and read back from there.
        void Follow(GearSymbol first)
        {
            var chain = new List<GearSymbol>();
            var gear = first;
            GearSymbol? last = null;
            while (!read.ContainsKey(gear))
            {
                chain.Add(gear);
                var next = find(open[gear], gear.Statement.Like!.Value);
                if (next is null || !open.ContainsKey(next) || chain.Contains(next))
                {
                    last = next is not null && chain.Contains(next) ? Circle(chain, next) : next;
                    Read(gear, last);
                    chain.RemoveAt(chain.Count - 1);
                    break;
                }
                gear = next;
            }
            last = read[gear];
            for (var i = chain.Count - 1; i >= 0; i--)
            {
                if (!read.ContainsKey(chain[i]))
                {
                    Read(chain[i], last);
                }
                last = read[chain[i]];
            }
        }

        // Of a circle nobody is read in full, and one of them is told.
        GearSymbol? Circle(List<GearSymbol> chain, GearSymbol start)
        {
            var circle = chain.GetRange(chain.IndexOf(start), chain.Count - chain.IndexOf(start));
            var told = circle.OrderBy(g => g.At.Source.Path, StringComparer.Ordinal).ThenBy(g => g.At.Span.Start).First();
            var from = circle.IndexOf(told);
            names.Faults.Add(new LikeItself(new Text.Location(told.At.Source, told.Statement.Like!.Value.Span),
                [.. circle[from..].Concat(circle[..from]).Select(g => g.Name)]));
            return null;
        }

        void Read(GearSymbol gear, GearSymbol? like)
        {
            if (like?.Depth >= MostSteps)
            {
                var at = new Text.Location(gear.At.Source, gear.Statement.Like!.Value.Span);
                names.Faults.Add(new OutOfRange(at, "the row of gear that is like other gear", $"{like.Depth + 1}", $"up to {MostSteps}"));
                like = null;
            }
            var symbol = GearReader.Read(gear.Statement, like, new Reading(open[gear].Source, names.Faults));
            // What the other would have brought is not missed a second time.
            symbol.IsIncomplete |= like is null;
            read.Add(gear, symbol);
        }
    }
}
