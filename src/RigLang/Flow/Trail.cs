using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Flow;

/// <summary>How a port was reached from another, or that the way starts there.</summary>
internal enum StepKind
{
    /// <summary>Comes out of the port: a start, or what the device passes on.</summary>
    Out,
    /// <summary>Along a cable.</summary>
    Cable,
    /// <summary>Through the device that both ports belong to.</summary>
    Through,
}

/// <summary>
/// The first way found to each port that was reached. Most ways are never told, so the words of a hop are made only when
/// somebody asks.
/// </summary>
internal sealed class Trail
{
    private readonly Dictionary<PortRef, (PortRef? From, Location At, StepKind Kind)> _steps = [];

    /// <summary>The last port that was reached for the first time: the end of the way when nothing arrives.</summary>
    public PortRef? Farthest { get; private set; }

    public void Note(PortRef port, PortRef? from, Location at, StepKind kind)
    {
        if (_steps.TryAdd(port, (from, at, kind)))
        {
            Farthest = port;
        }
    }

    /// <summary>The way to a port that was reached, its start first.</summary>
    public List<Hop> WayTo(PortRef port)
    {
        var hops = new List<Hop>();
        for (PortRef? at = port; at is { } here && _steps.TryGetValue(here, out var step); at = step.From)
        {
            hops.Add(new Hop(step.At, step.Kind switch
            {
                StepKind.Cable => $"{step.From} to {here}",
                StepKind.Through => $"through {here.Device.Name} to {here}",
                _ => $"{here}",
            }));
        }
        hops.Reverse();
        return hops;
    }
}
