using RigLang.Findings;

namespace RigLang.Cli.Output;

/// <summary>In which order findings are printed for reading; programs get them by place.</summary>
internal enum FindingSort
{
    Harm,
    Place,
}

/// <summary>
/// Findings by place: the rig's own file first, then its imports as first met, then files it does not list; inside a
/// file from top to bottom. Findings that an earlier rig gave already (two rigs import the same gear) are left out.
/// </summary>
internal sealed class FindingOrder
{
    private readonly HashSet<(string Path, int Start, int Length, string Check, string What)> _given = [];

    public List<Finding> NewIn(Compilation rig)
    {
        var findings = new List<Finding>(rig.Findings.Length);
        foreach (var finding in rig.Findings)
        {
            var (source, span) = finding.Location;
            if (_given.Add((source.Path, span.Start, span.Length, finding.Check.Name, finding.What)))
            {
                findings.Add(finding);
            }
        }
        if (findings.Count > 1)
        {
            var ranks = RanksOf(rig);
            findings.Sort((a, b) => Compare(a, b, ranks));
        }
        return findings;
    }

    /// <summary>What can hurt people first, then what destroys gear, then what is silent on stage, then the rest; of equal harm by place.</summary>
    public static IReadOnlyList<Finding> ByHarm(IEnumerable<Finding> findings) =>
        [.. findings.OrderBy(f => f.Harm).ThenByDescending(f => f.Severity).ThenByDescending(f => f.Breaks.Length)];

    private static Dictionary<string, int> RanksOf(Compilation rig)
    {
        var ranks = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var file in rig.Files)
        {
            ranks.TryAdd(file.Path, ranks.Count);
        }
        return ranks;
    }

    private static int Compare(Finding a, Finding b, Dictionary<string, int> ranks)
    {
        var (x, y) = (a.Location, b.Location);
        var order = ranks.GetValueOrDefault(x.Source.Path, int.MaxValue).CompareTo(ranks.GetValueOrDefault(y.Source.Path, int.MaxValue));
        order = order != 0 ? order : string.CompareOrdinal(x.Source.Path, y.Source.Path);
        order = order != 0 ? order : x.Span.Start.CompareTo(y.Span.Start);
        order = order != 0 ? order : x.Span.Length.CompareTo(y.Span.Length);
        order = order != 0 ? order : string.CompareOrdinal(a.Check.Name, b.Check.Name);
        return order != 0 ? order : string.CompareOrdinal(a.What, b.What);
    }
}
