using System.Collections;
using System.Runtime.InteropServices;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// What has been found at each port, as a set of bits that only grows, and the first way that led there. Ports go by their
/// numbers, see <see cref="LinkTable.NumberOf"/>.
/// </summary>
internal sealed class Trail(LinkTable links)
{
    private const int LongestToWipe = 500;

    private readonly Dictionary<int, Step> _steps = [];
    private readonly Queue<int> _open = new();
    private int _last = -1;

    /// <summary>The last port that was reached for the first time: the end of the way when nothing arrives.</summary>
    public PortRef? Farthest => _last < 0 ? null : links.PortAt(_last);

    /// <summary>Forgets everything, to be used again; false for a trail so long that a new one is cheaper than wiping it.</summary>
    public bool TryClear()
    {
        if (_steps.Count > LongestToWipe)
        {
            return false;
        }
        _steps.Clear();
        _last = -1;
        return true;
    }

    public int BitsAt(int port) => _steps.TryGetValue(port, out var step) ? step.Bits : 0;

    /// <summary>A port that has grown since it was last handed out.</summary>
    public bool TryNext(out int port) => _open.TryDequeue(out port);

    /// <summary>Adds bits to a port that is reached from another (-1: the start), along a cable or inside the device; true when some are new.</summary>
    public bool Grow(int port, int bits, int from, Hookup? cable)
    {
        if (bits == 0)
        {
            return false;
        }
        ref var step = ref CollectionsMarshal.GetValueRefOrAddDefault(_steps, port, out var isKnown);
        if ((step.Bits | bits) == step.Bits)
        {
            return false;
        }
        if (!isKnown)
        {
            step = new Step(0, _steps.Count, from, cable);
            _last = port;
        }
        step = step with { Bits = step.Bits | bits };
        _open.Enqueue(port);
        return true;
    }

    /// <summary>Those ports of a device that were reached, the first reached first.</summary>
    public List<int> ReachedOf(DeviceSymbol device)
    {
        var reached = new List<int>();
        foreach (var port in device.Gear?.Ports ?? [])
        {
            if (LinkTable.NumberOf(device, port) is >= 0 and var number && _steps.ContainsKey(number))
            {
                reached.Add(number);
            }
        }
        reached.Sort((a, b) => _steps[a].Rank.CompareTo(_steps[b].Rank));
        return reached;
    }

    /// <summary>The way to a port that was reached, its start first.</summary>
    /// <param name="namesDevice">Whether the step from one port of a device to another says that it goes through it.</param>
    public List<Hop> WayTo(int port, bool namesDevice)
    {
        var hops = new List<Hop>();
        while (port >= 0 && _steps.TryGetValue(port, out var step))
        {
            var here = links.PortAt(port);
            hops.Add(step.Cable is { } cable ? new Hop(cable.Connection.At, $"{links.PortAt(step.From)} to {here}")
                : step.From >= 0 && namesDevice ? new Hop(here.Device.At, $"through {here.Device.Name} to {here}")
                : new Hop(here.Device.At, $"{here}"));
            port = step.From;
        }
        hops.Reverse();
        return hops;
    }

    private readonly record struct Step(int Bits, int Rank, int From, Hookup? Cable);
}

/// <summary>A way that is found again when somebody asks for it: of thousands that hold, a player looks at one.</summary>
internal sealed class HopsOnDemand(Func<IReadOnlyList<Hop>> find) : IReadOnlyList<Hop>
{
    private IReadOnlyList<Hop> Found => field ??= find();

    public int Count => Found.Count;

    public Hop this[int index] => Found[index];

    public IEnumerator<Hop> GetEnumerator() => Found.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
