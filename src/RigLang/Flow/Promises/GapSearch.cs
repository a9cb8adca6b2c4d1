using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>The way with the smallest gaps from a source to a target.</summary>
/// <param name="Gaps">From the source to the target; at least one.</param>
/// <param name="Last">Node and channel of the last place that is reached now; null when nothing is sent.</param>
/// <param name="Steps">The way as far as it is gone now; a filter that ends it is its last step.</param>
internal sealed record GapWay(IReadOnlyList<Broken> Gaps, (int Node, int Channel)? Last, IReadOnlyList<WayStep> Steps);

/// <summary>
/// Looks for the way on which the least is missing: the shortest path over what is there and what could be. What stops something on
/// another branch is on no such way, so it is never blamed. What has been looked at for one target is not looked at again for the next.
/// </summary>
/// <param name="kind">One kind; all for audio and power, which no filter stops.</param>
internal sealed class GapSearch(GapMap map, MidiGraph? graph, MessageKinds kind)
{
    // Within a place: it has come there; it has passed the filter; it has passed the channel map.
    private const int Come = 0;
    private const int Passed = 1;
    private const int Moved = 2;

    private readonly Dictionary<Spot, (int Cost, Spot From, Func<Broken>? Gap, Hookup? Cable)> _best = [];
    private readonly PriorityQueue<Spot, (int Cost, int Order)> _open = new();
    private readonly List<Gap> _next = [];
    private int _order;

    /// <summary>Places where it could be heard, in the order of what is missing before them.</summary>
    private readonly List<(Spot Spot, int Cost)> _settled = [];

    private readonly record struct Spot(int Node, int Channel, int Stage, bool IsStart, Hookup? Unread);

    private static readonly Spot Nowhere = new(-1, 0, 0, false, null);

    private static readonly Spot Target = new(-2, 0, 0, false, null);

    /// <summary>A place to start, with what is missing there; null where it does start there.</summary>
    public void Start(int node, int channel, int cost = 0, Func<Broken>? gap = null)
    {
        if (node >= 0)
        {
            Reach(new Spot(node, channel, Come, true, null), Nowhere, cost, gap);
        }
    }

    /// <summary>The best way to a target; null when there is none at all.</summary>
    /// <param name="arrival">What is missing for it to be heard at a node on a channel; a negative cost where it can never be.</param>
    /// <param name="without">A change by which it would be there without any way; null for none.</param>
    public GapWay? Run(Func<int, int, (int Cost, Func<Broken>? Gap)> arrival, (int Cost, Func<Broken> Gap)? without = null)
    {
        _best.Remove(Target);
        if (without is var (cost, gap))
        {
            _best[Target] = (cost, Nowhere, gap, null);
        }
        for (var at = 0; !IsFoundBefore(at < _settled.Count ? _settled[at].Cost : null);)
        {
            if (at == _settled.Count)
            {
                if (!Settle())
                {
                    break;
                }
                continue;
            }
            var (spot, before) = _settled[at++];
            if (arrival(spot.Node, spot.Channel) is { Cost: >= 0 } heard && (!_best.TryGetValue(Target, out var known) || before + heard.Cost < known.Cost))
            {
                _best[Target] = (before + heard.Cost, spot, heard.Gap, null);
            }
        }
        return _best.ContainsKey(Target) ? WayTo(Target) : null;
    }

    /// <summary>True when a way is known and nothing that is still to be looked at can be better.</summary>
    /// <param name="next">What is missing before the next place; null when it is still to be found.</param>
    private bool IsFoundBefore(int? next) => _best.TryGetValue(Target, out var found)
        && found.Cost <= (next ?? (_open.TryPeek(out _, out var at) ? at.Cost : int.MaxValue));

    /// <summary>Goes on from the nearest place that was not gone on from; false when there is none.</summary>
    private bool Settle()
    {
        while (_open.TryDequeue(out var spot, out var at))
        {
            if (_best[spot].Cost == at.Cost)
            {
                Follow(spot, at.Cost);
                return true;
            }
        }
        return false;
    }

    private void Follow(Spot spot, int cost)
    {
        var (node, channel, stage, isStart, _) = spot;
        if (map.IsHub(node))
        {
            Expand(spot, cost);
        }
        else if (stage == Come)
        {
            if (graph is not null && (graph.DropsAt(node) & kind) != 0)
            {
                Reach(spot with { Stage = Passed }, spot, cost + GapMap.OfSetting, () => new Broken.Filtered(map.PortOf(node), FilterAt(node), kind));
            }
            else
            {
                Reach(spot with { Stage = Passed }, spot, cost, null);
            }
        }
        else if (stage == Passed)
        {
            Move(spot, cost, isStart);
        }
        else
        {
            _settled.Add((spot, cost));
            Expand(spot, cost);
        }
    }

    private void Move(Spot spot, int cost, bool isStart)
    {
        var (node, channel, _, _, _) = spot;
        var moved = spot with { Stage = Moved, IsStart = false };
        if (isStart || graph is null || (kind & MessageKinds.Channel) == 0 || !graph.IsMapped(node))
        {
            Reach(moved, spot, cost, null);
            return;
        }
        var to = graph.Mapped(node, channel);
        foreach (var other in to)
        {
            Reach(moved with { Channel = other }, spot, cost, null);
        }
        if (!to.Contains(channel))
        {
            Reach(moved, spot, cost + GapMap.OfMap, () => new Broken.Mapped(map.PortOf(node), graph.MapsAt(node).First(m => m.From == channel)));
        }
    }

    private void Expand(Spot spot, int cost)
    {
        _next.Clear();
        map.From(spot.Node, kind, _next);
        foreach (var gap in _next)
        {
            // A hub remembers whether the way into it was a line that could not be read.
            var unread = gap.Kind == GapKind.ToHub ? gap.Hookup : null;
            Reach(new Spot(gap.To, spot.Channel, Come, false, unread), spot, cost + gap.Cost, gap.Kind is GapKind.None or GapKind.ToHub ? null : GapOf(spot, gap), gap.Hookup);
        }
    }

    private Func<Broken> GapOf(Spot spot, Gap gap)
    {
        if (gap.Kind == GapKind.FromHub)
        {
            return () =>
            {
                var (from, to) = (map.PortOf(_best[spot].From.Node), map.PortOf(gap.To));
                return (gap.Hookup ?? spot.Unread) is { } unread ? new Broken.UnsoundCable(from, to, unread)
                    : new Broken.NoCable(from, to, map.PluggedAt(from), map.PluggedAt(to));
            };
        }
        var (here, next) = (map.PortOf(spot.Node), map.PortOf(gap.To));
        return gap.Kind switch
        {
            GapKind.Unsound => () => new Broken.UnsoundCable(here, next, gap.Hookup!),
            GapKind.Silent => () => new Broken.SilentCable(here, next, gap.Hookup!),
            GapKind.NotCarried => () => new Broken.NotCarried(here, next, gap.Hookup!, kind),
            GapKind.ThruOff => () => new Broken.ThruOff(here, next),
            GapKind.Closed => () => map.ClosedBetween(here, next),
            _ => () => new Broken.NoRoute(here, next),
        };
    }

    private void Reach(Spot spot, Spot from, int cost, Func<Broken>? gap, Hookup? cable = null)
    {
        if (!_best.TryGetValue(spot, out var known) || cost < known.Cost)
        {
            _best[spot] = (cost, from, gap, cable);
            // Of two ways of the same cost the first found stays, so that the answer does not waver.
            _open.Enqueue(spot, (cost, _order++));
        }
    }

    private GapWay WayTo(Spot target)
    {
        // Backwards; where something is missing before it, a spot is looked at and not kept.
        var (gaps, gone, first, dead) = (new List<Broken>(), new List<Spot>(), target, Nowhere);
        for (var at = target; at != Nowhere; at = _best[at].From)
        {
            var (cost, _, gap, cable) = _best[at];
            if (gap is not null)
            {
                gaps.Add(gap());
            }
            if (cost == 0 && at != Target)
            {
                gone.Add(at);
            }
            dead = dead == Nowhere && cable is not null ? at : dead;
            first = at;
        }
        if (gaps.Count == 0)
        {
            // Every cable of the way is there, and yet it does not get over: the last of them is where to look.
            gaps.Add(_best.TryGetValue(dead, out var last) && last.Cable is { } hookup
                ? new Broken.SilentCable(map.PortOf(last.From.Node), map.PortOf(dead.Node), hookup)
                : new Broken.NotHeard(map.PortOf(first.Node), kind, "the target"));
            return new GapWay(gaps, null, []);
        }
        gaps.Reverse();
        gone.Reverse();
        var steps = new List<WayStep>();
        foreach (var spot in gone)
        {
            AddStep(spot, steps);
        }
        if (gone.Count > 0 && gaps[0] is Broken.Filtered filtered)
        {
            steps.Add(new WayStep.Stopped(filtered.Port, kind, filtered.Filter));
        }
        return new GapWay(gaps, gone.Count > 0 ? (gone[^1].Node, gone[^1].Channel) : null, steps);
    }

    private void AddStep(Spot spot, List<WayStep> steps)
    {
        var (_, from, _, cable) = _best[spot];
        var port = map.PortOf(spot.Node);
        if (spot.Stage == Come)
        {
            steps.Add(from == Nowhere ? new WayStep.Start(port)
                : cable is not null ? new WayStep.Cable(map.PortOf(from.Node), port, cable)
                : new WayStep.Through(map.PortOf(from.Node), port));
        }
        else if (spot.Channel != from.Channel)
        {
            steps.Add(new WayStep.Moved(port, from.Channel, spot.Channel, graph!.MapsAt(spot.Node).First(m => m.From == from.Channel && m.To.Contains(spot.Channel)).At));
        }
    }

    private PortFilter FilterAt(int node)
    {
        var port = map.PortOf(node);
        return port.Device.Filters.First(f => ReferenceEquals(f.Port, port.Port) && (f.Drops & kind) != MessageKinds.None);
    }
}
