using RigLang.Text;

namespace RigLang.Flow.Ground;

/// <summary>A ground loop: its links in the order that one walks them.</summary>
/// <param name="Reasons">Why it is heard, or why it is not.</param>
public sealed record GroundLoop(IReadOnlyList<GroundLink> Links, bool IsHeard, IReadOnlyList<string> Reasons)
{
    public bool HasEarth => Links.Any(l => l.IsEarth);
    public bool HasUsb => Links.Any(l => l.Kind == GroundLinkKind.Usb);
    public bool HasSupply => Links.Any(l => l.Kind == GroundLinkKind.Supply);
}

/// <summary>What it means to isolate a link.</summary>
public enum Isolation
{
    /// <summary>It breaks a loop, and is not needed for the cure.</summary>
    Possible,
    /// <summary>The cure asks for it.</summary>
    Cure,
    /// <summary>It is in no loop.</summary>
    Useless,
    /// <summary>A protective earth, which stays.</summary>
    Unsafe,
}

/// <summary>One entry of the cure: links to isolate together, and the loop that they would close if left alone of all.</summary>
public sealed class GroundCut(GroundBundle bundle, Func<GroundLoop> loop)
{
    public GroundBundle Bundle { get; } = bundle;

    /// <summary>Looked for when it is asked for: a large rig has thousands.</summary>
    public GroundLoop Loop => field ??= loop();
}

/// <summary>
/// The ground loops of a rig and the cheapest cure. A loop is heard when a link of it is heard (see <see cref="GroundLink.IsHeard"/>),
/// unless it lies wholly between cables side by side. The cure leaves no such loop, at the least cost there is; see <see cref="LoopCure"/>.
/// </summary>
public sealed class GroundLoops
{
    private readonly Lazy<(IReadOnlyList<GroundLoop> Loops, bool AreShortest)> _loops;
    private readonly Lazy<(IReadOnlyList<GroundCut> Cuts, bool IsProven)> _cure;

    public GroundLoops(GroundGraph ground)
    {
        Ground = ground;
        _loops = new(() => LoopsIn(ground.Graph, ground.Links));
        _cure = new(FindCure);
    }

    public GroundGraph Ground { get; }

    /// <summary>Number of independent loops.</summary>
    public int Count => Ground.Graph.CircuitRank;

    /// <summary>Independent loops, as short as can be.</summary>
    public IReadOnlyList<GroundLoop> Loops => _loops.Value.Loops;

    /// <summary>False in a rig so tangled that shorter loops may exist.</summary>
    public bool AreShortest => _loops.Value.AreShortest;

    public IReadOnlyList<GroundCut> Cure => _cure.Value.Cuts;

    /// <summary>False in a rig so tangled that a cheaper cure may exist.</summary>
    public bool IsProven => _cure.Value.IsProven;

    /// <summary>What it would mean to isolate this link.</summary>
    public Isolation IsolationOf(GroundLink link) =>
        link.Cost is null ? Isolation.Unsafe
        : CutBundles.Contains(Ground.BundleOf[link.Index]) ? Isolation.Cure
        : !IsInLoop(link) ? Isolation.Useless
        : Isolation.Possible;

    /// <summary>False for a bridge.</summary>
    public bool IsInLoop(GroundLink link) => !Bridges[link.Index];

    private HashSet<int> CutBundles => field ??= [.. Cure.Select(c => c.Bundle.Index)];

    private IReadOnlyList<bool> Bridges => field ??= Ground.Graph.Bridges();

    /// <summary>The loops that are there when the cure is carried out.</summary>
    public IReadOnlyList<GroundLoop> LeftByCure()
    {
        var left = Ground.Links.Where(l => !CutBundles.Contains(Ground.BundleOf[l.Index])).ToList();
        return LoopsIn(new Multigraph(Ground.Domains.Count, left.ConvertAll(l => (l.A, l.B))), left).Loops;
    }

    private (IReadOnlyList<GroundLoop> Loops, bool AreShortest) LoopsIn(Multigraph graph, IReadOnlyList<GroundLink> links)
    {
        var (circles, areShortest) = CycleBasis.Of(graph);
        return ([.. circles.Select(circle => Judged([.. circle.Select(i => links[i])]))], areShortest);
    }

    /// <summary>Cables that are named where several make a loop heard for the same reason.</summary>
    private const int MostCables = 4;

    private GroundLoop Judged(IReadOnlyList<GroundLink> links)
    {
        var bundles = links.Select(l => Ground.BundleOf[l.Index]).Distinct().ToList();
        if (bundles.Count == 1)
        {
            return new GroundLoop(links, false, ["the cables lie side by side, so the loop is too small to be heard"]);
        }
        // Of cables side by side the loop names one; what is heard may be another.
        var heard = bundles.Where(b => Ground.Bundles[b].IsHeard)
            .Select(b => Ground.Bundles[b].Links.First(l => l.IsHeard))
            .GroupBy(l => l.HeardBecause!)
            .Select(alike => $"{Prose.Few(alike.Select(l => l.Text), MostCables)}: {alike.Key}")
            .ToList();
        return heard.Count > 0 ? new GroundLoop(links, true, heard)
            : new GroundLoop(links, false, ["no unbalanced audio cable, no USB cable and no long run is in it"]);
    }

    private (IReadOnlyList<GroundCut>, bool) FindCure()
    {
        // Of several cures at the same cost one is given: by names, so that it is the same wherever the lines stand.
        var bundles = Ground.Bundles;
        int[] byName = [.. Enumerable.Range(0, bundles.Count).OrderBy(b => bundles[b].Links[0].Text, StringComparer.Ordinal)];
        var (named, isProven) = LoopCure.Of(
            Ground.Domains.Count, [.. byName.Select(b => bundles[b]).Select(b => new CureEdge(b.A, b.B, b.Cost, b.IsHeard))]);
        var cut = named.Select(index => byName[index]).Order().ToList();
        var isCut = new bool[bundles.Count];
        foreach (var index in cut)
        {
            isCut[index] = true;
        }
        return ([.. cut.Select(index => new GroundCut(bundles[index], () => LoopOf(bundles[index])))], isProven);

        // Of a cheapest cure nothing can be left out: with all else isolated, each link that it isolates would still close a loop that is heard.
        GroundLoop LoopOf(GroundBundle bundle)
        {
            var link = bundle.Links.FirstOrDefault(l => l.IsHeard) ?? bundle.Links[0];
            var back = Ground.Graph.ShortestWay(link.B, link.A, edge => !isCut[Ground.BundleOf[edge]])!;
            return Judged([link, .. back.Select(edge => Ground.Links[edge])]);
        }
    }
}
