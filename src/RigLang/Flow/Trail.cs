using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// What has been found at each port, as a set of bits that only grows, and the first way that led there. Ports go by their
/// numbers, see <see cref="LinkTable.NumberOf"/>.
/// </summary>
internal sealed class Trail(LinkTable links)
{
    /// <summary>In the order in which the ports were first reached.</summary>
    private readonly List<Step> _steps = [];

    /// <summary>For each port of the rig, which step reached it, counted from 1.</summary>
    private readonly int[] _stepAt = new int[links.PortCount];
    private readonly Queue<int> _open = new();

    /// <summary>Forgets everything, to be used again; costs only as much as was found.</summary>
    public void Clear()
    {
        foreach (var step in _steps)
        {
            _stepAt[step.Port] = 0;
        }
        _steps.Clear();
    }

    public int BitsAt(int port) => port >= 0 && _stepAt[port] is > 0 and var step ? _steps[step - 1].Bits : 0;

    /// <summary>A port that has grown since it was last handed out.</summary>
    public bool TryNext(out int port) => _open.TryDequeue(out port);

    /// <summary>Adds bits to a port that is reached from another (-1: the start), along a cable or inside the device; true when some are new.</summary>
    public bool Grow(int port, int bits, int from, Hookup? cable)
    {
        ref var at = ref _stepAt[port];
        if (at == 0 && bits != 0)
        {
            _steps.Add(new Step(port, bits, from, cable));
            at = _steps.Count;
        }
        else if (at != 0 && _steps[at - 1] is var known && (known.Bits | bits) != known.Bits)
        {
            _steps[at - 1] = known with { Bits = known.Bits | bits };
        }
        else
        {
            return false;
        }
        _open.Enqueue(port);
        return true;
    }

    /// <summary>Those ports of a device that were reached, the first reached first.</summary>
    public List<int> ReachedOf(DeviceSymbol device)
    {
        var reached = new List<int>();
        foreach (var port in device.Gear?.Ports ?? [])
        {
            if (LinkTable.NumberOf(device, port) is >= 0 and var number && _stepAt[number] > 0)
            {
                reached.Add(number);
            }
        }
        if (reached.Count > 1)
        {
            reached.Sort((a, b) => _stepAt[a].CompareTo(_stepAt[b]));
        }
        return reached;
    }

    /// <summary>The way to a port that was reached, its start first.</summary>
    public List<WayStep> WayTo(int port)
    {
        var way = new List<WayStep>();
        while (port >= 0 && _stepAt[port] is > 0 and var step)
        {
            var (_, _, from, cable) = _steps[step - 1];
            var here = links.PortAt(port);
            way.Add(from < 0 ? new WayStep.Start(here)
                : cable is not null ? new WayStep.Cable(links.PortAt(from), here, cable)
                : new WayStep.Through(links.PortAt(from), here));
            port = from;
        }
        way.Reverse();
        return way;
    }

    private readonly record struct Step(int Port, int Bits, int From, Hookup? Cable);
}
