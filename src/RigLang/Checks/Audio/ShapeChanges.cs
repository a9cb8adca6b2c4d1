using RigLang.Flow;

namespace RigLang.Checks.Audio;

/// <summary>Where left and right became what they are at their ends, all that one step did together.</summary>
internal static class ShapeChanges
{
    /// <summary>One entry for each step that did it, by its words: the step, and what has that shape because of it.</summary>
    public static IEnumerable<(WayStep Step, IReadOnlyList<AudioShare> Shares)> Of(Rig rig, Func<AudioShare, bool> isWrong)
    {
        var flow = rig.Audio.Flow;
        return flow.Shares.Where(share => isWrong(share) && SoundEnds.IsForEars(rig, share.To))
            .Select(share => (Step: flow.ShapedAt(share), Share: share))
            .Where(found => found.Step is not null)
            .GroupBy(found => found.Step!.At)
            .Select(group => (Steps: group.OrderBy(found => WayWords.Of(found.Step!), StringComparer.Ordinal).First().Step!, (IReadOnlyList<AudioShare>)[.. group.Select(found => found.Share)]))
            .OrderBy(found => WayWords.Of(found.Item1), StringComparer.Ordinal);
    }

    /// <summary>"drums.main, poly.main and 2 more".</summary>
    public static string Sources(IEnumerable<AudioShare> shares) => Wording.And(shares.Select(share => share.Source.Text).Distinct());

    public static string Ends(IEnumerable<AudioShare> shares) => Wording.And(shares.Select(share => share.To.Text).Distinct());
}
