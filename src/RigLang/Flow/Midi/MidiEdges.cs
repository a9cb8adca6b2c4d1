using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// The steps at a node: those that are written out, and those of wide routes, which are made as they are looked at. A line that routes a hundred
/// inputs to a hundred outputs is two lists of nodes, and no ten thousand edges.
/// </summary>
public readonly ref struct MidiEdges
{
    private readonly ReadOnlySpan<MidiEdge> _written;
    private readonly WideRoute[] _wide;
    private readonly int _node;
    private readonly bool _isBack;

    internal MidiEdges(ReadOnlySpan<MidiEdge> written, WideRoute[]? wide, int node, bool isBack)
    {
        _written = written;
        (_wide, _node, _isBack) = (wide ?? [], node, isBack);
        Length = written.Length;
        foreach (var route in _wide)
        {
            Length += route.Far(isBack).Length;
        }
    }

    public int Length { get; }

    public MidiEdge this[int index] => index < _written.Length ? _written[index] : Wide(index - _written.Length);

    public MidiEdge[] ToArray()
    {
        var edges = new MidiEdge[Length];
        for (var i = 0; i < edges.Length; i++)
        {
            edges[i] = this[i];
        }
        return edges;
    }

    public Enumerator GetEnumerator() => new(this);

    private MidiEdge Wide(int index)
    {
        foreach (var route in _wide)
        {
            var far = route.Far(_isBack);
            if (index < far.Length)
            {
                return _isBack ? route.Edge(far[index], _node) : route.Edge(_node, far[index]);
            }
            index -= far.Length;
        }
        throw new ArgumentOutOfRangeException(nameof(index));
    }

    public ref struct Enumerator
    {
        private readonly MidiEdges _edges;
        private int _at = -1;

        internal Enumerator(MidiEdges edges) => _edges = edges;

        public readonly MidiEdge Current => _edges[_at];

        public bool MoveNext() => ++_at < _edges.Length;
    }
}

/// <summary>Inputs of one device, all of which go on to the same outputs.</summary>
internal sealed class WideRoute(DeviceSymbol device, LinkTable links, int[] inputs, int[] outputs)
{
    /// <summary>With fewer ports on one of the sides, written out it is no longer than a few times the other side.</summary>
    public const int Wide = 8;

    public ReadOnlySpan<int> Far(bool isBack) => isBack ? inputs : outputs;

    public MidiEdge Edge(int input, int output) => new(input, output, MessageKinds.All, null,
        device.Gear!.Switches is { Count: > 0 } switches && switches.Contains(links.PortAt(input / 2).Port, links.PortAt(output / 2).Port));
}
