namespace RigLang.Flow;

/// <summary>Puts what a node goes on to behind what is there already.</summary>
internal delegate void NextNodes<T>(T node, List<T> into);

/// <summary>The one search for what can be come to: over ports, lanes or devices, forwards or backwards, as whoever asks says what a node goes on to.</summary>
internal static class Spreading
{
    /// <summary>Each node once, the nearest first, the starts before all (breadth first). It goes no further than it is asked for.</summary>
    public static IEnumerable<T> From<T>(IEnumerable<T> starts, NextNodes<T> next)
        where T : notnull
    {
        var seen = new HashSet<T>();
        var open = new Queue<T>();
        var fresh = new List<T>(starts);
        while (true)
        {
            foreach (var node in fresh)
            {
                if (seen.Add(node))
                {
                    open.Enqueue(node);
                }
            }
            if (!open.TryDequeue(out var here))
            {
                yield break;
            }
            yield return here;
            fresh.Clear();
            next(here, fresh);
        }
    }
}
