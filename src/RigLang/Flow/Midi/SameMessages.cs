using System.Runtime.InteropServices;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// Groups of nodes at which the same messages are, whatever is sent: a cable's two ends, the outputs of a thru box, all of a mesh. What
/// is at a group is worked out and kept once, so that a large rig takes as much as it has groups and not as it has ports.
/// </summary>
internal sealed class SameMessages
{
    private readonly MidiGraph _graph;
    private readonly int[] _groupOf;
    private readonly bool[] _isReached;

    private SameMessages(MidiGraph graph, IReadOnlyList<int> reached)
    {
        _graph = graph;
        _isReached = new bool[graph.NodeCount];
        foreach (var node in reached)
        {
            _isReached[node] = true;
        }
        _groupOf = new int[graph.NodeCount];
        Array.Fill(_groupOf, -1);
    }

    public int Count { get; private set; }

    /// <summary>The group of a node; -1 for one that nothing leads to.</summary>
    public int Of(int node) => _groupOf[node];

    /// <param name="order">The nodes that anything comes to, most of them after those that lead to them.</param>
    /// <param name="sentAt">What is sent at a node, as a number that tells it from others; 0 for nothing.</param>
    public static SameMessages Among(MidiGraph graph, IReadOnlyList<int> order, Func<int, int> sentAt)
    {
        var same = new SameMessages(graph, order);
        // Around a knot everything runs unhindered, so all of it is everywhere in it.
        foreach (var knot in GraphKnots.Of(graph, edge => edge.Carries == MessageKinds.All && same.IsPlain(edge.To), same._isReached))
        {
            foreach (var node in knot)
            {
                same._groupOf[node] = same.Count;
            }
            same.Count++;
        }
        // Elsewhere nodes are the same to which the same comes from the same groups, as far as these are known.
        var known = new Dictionary<Before, int>();
        foreach (var node in order)
        {
            if (same._groupOf[node] < 0)
            {
                same._groupOf[node] = same.BeforeOf(node, sentAt(node)) is { } before ? same.GroupAt(node, before, known) : same.Count++;
            }
        }
        return same;
    }

    private bool IsPlain(int node) => _graph.DropsAt(node) == MessageKinds.None && !_graph.IsMapped(node);

    private int GroupAt(int node, Before before, Dictionary<Before, int> known)
    {
        // One unhindered way in, and nothing sent here: what is at its start is here.
        if (before is { Sent: 0, From: [(var only, MessageKinds.All)] } && IsPlain(node))
        {
            return only;
        }
        ref var group = ref CollectionsMarshal.GetValueRefOrAddDefault(known, before, out var isKnown);
        return isKnown ? group : group = Count++;
    }

    /// <summary>Null where it is not known yet what comes before, or where channels are moved.</summary>
    private Before? BeforeOf(int node, int sent)
    {
        if (_graph.IsMapped(node))
        {
            return null;
        }
        var passing = MessageKinds.All & ~_graph.DropsAt(node);
        var from = new List<(int Group, MessageKinds Passes)>();
        foreach (var edge in _graph.To(node))
        {
            if (!_isReached[edge.From])
            {
                continue;
            }
            if (_groupOf[edge.From] < 0)
            {
                return null;
            }
            if (!from.Contains((_groupOf[edge.From], edge.Carries & passing)))
            {
                from.Add((_groupOf[edge.From], edge.Carries & passing));
            }
        }
        from.Sort();
        return new Before(sent, passing, from);
    }

    /// <summary>What decides which messages are at a node.</summary>
    private sealed record Before(int Sent, MessageKinds Passing, List<(int Group, MessageKinds Passes)> From)
    {
        public bool Equals(Before? other) => other is not null && Sent == other.Sent && Passing == other.Passing && From.SequenceEqual(other.From);

        public override int GetHashCode()
        {
            var hash = new HashCode();
            hash.Add(Sent);
            hash.Add(Passing);
            foreach (var step in From)
            {
                hash.Add(step);
            }
            return hash.ToHashCode();
        }
    }
}
