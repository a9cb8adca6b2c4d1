using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>What is thought away when audio is followed: a cable, a device, or all that a port lets through.</summary>
/// <param name="Programs">What computers pass on from one jack to another.</param>
internal readonly record struct AudioWithout(Hookup? Cable = null, DeviceSymbol? Device = null, PortRef? Port = null, bool Programs = false)
{
    public bool IsNothing => Cable is null && Device is null && Port is null && !Programs;

    public bool Stops(AudioMap map, in AudioEdge edge) =>
        (Programs && edge.Open == AudioOpen.ByProgram)
        || (Cable is not null && ReferenceEquals(edge.Cable, Cable))
        || (map.PortOf(edge.To) is { } to && (ReferenceEquals(to.Device, Device) || to == Port));
}

/// <summary>
/// How much of each of a few channels is at every lane, as factors of amplitude: audio as it spreads from where it starts. What comes by several ways is added,
/// and what comes back inverted is taken off; where lanes lead to one another each round counts less, so that the straight way decides.
/// </summary>
internal sealed class AudioSpread
{
    /// <summary>What is left of this part and less where ways cancel is nothing: -120 dB, below what any converter resolves. Source: common practice.</summary>
    private const double Nothing = 1e-6;

    private readonly AudioMap _map;
    private readonly AudioOrder _order;
    private readonly int _channels;
    private readonly double[] _amounts;

    /// <summary>As the amounts, but nothing is ever taken off: what would be there if no way turned the polarity.</summary>
    private readonly double[] _weights;
    private readonly bool[] _isReached;
    private readonly List<int> _reached = [];

    /// <summary>Places that something has come to and that have not been gone on from.</summary>
    private readonly PriorityQueue<int, int> _open = new();

    public AudioSpread(AudioMap map, AudioOrder order, int channels)
    {
        _map = map;
        _order = order;
        _channels = channels;
        _amounts = new double[map.Count * channels];
        _weights = new double[map.Count * channels];
        _isReached = new bool[map.Count];
    }

    /// <summary>Forgets everything; costs only as much as was found.</summary>
    public void Clear()
    {
        foreach (var lane in _reached)
        {
            _isReached[lane] = false;
            _amounts.AsSpan(lane * _channels, _channels).Clear();
            _weights.AsSpan(lane * _channels, _channels).Clear();
        }
        _reached.Clear();
    }

    /// <summary>The lanes that something comes to, whether or not it cancels there.</summary>
    public IReadOnlyList<int> Reached => _reached;

    public bool IsReached(int lane) => _isReached[lane];

    /// <summary>How much of a channel is at a lane; 0 where nothing comes, or where all of it cancels.</summary>
    public double At(int lane, int channel)
    {
        var at = (lane * _channels) + channel;
        return Math.Abs(_amounts[at]) <= Nothing * _weights[at] ? 0 : _amounts[at];
    }

    /// <summary>True where a channel comes to a lane and cancels there.</summary>
    public bool IsCancelled(int lane, int channel) => _weights[(lane * _channels) + channel] > 0 && At(lane, channel) == 0;

    /// <summary>Puts a channel on a lane.</summary>
    public void Start(int lane, int channel)
    {
        Reach(lane);
        _amounts[(lane * _channels) + channel] = _weights[(lane * _channels) + channel] = 1;
    }

    public void Run(AudioWithout without = default)
    {
        // In the order in which nothing leads back: what is at a place is complete when its turn comes.
        var done = -1;
        while (_open.TryDequeue(out var place, out _))
        {
            if (place == done)
            {
                continue;
            }
            done = place;
            var lanes = _order.At(place);
            if (lanes.Length > 1)
            {
                Settle(lanes, place, without);
            }
            foreach (var lane in lanes)
            {
                if (_isReached[lane])
                {
                    PushOn(lane, place, lanes.Length > 1, without);
                }
            }
        }
    }

    private void PushOn(int lane, int place, bool isKnotted, in AudioWithout without)
    {
        foreach (ref readonly var edge in _map.From(lane))
        {
            if ((isKnotted && _order.PlaceOf(edge.To) == place) || (!without.IsNothing && without.Stops(_map, edge)))
            {
                continue;
            }
            Reach(edge.To);
            var (from, to) = (lane * _channels, edge.To * _channels);
            for (var channel = 0; channel < _channels; channel++)
            {
                _amounts[to + channel] += edge.Gain * _amounts[from + channel];
                _weights[to + channel] += Math.Abs(edge.Gain) * _weights[from + channel];
            }
        }
    }

    /// <summary>
    /// Round a knot, until hardly anything is added any more. The sum of an endless echo depends on gains that nobody has said; so that it has one, a step
    /// counts as a share of what a lane of the knot can get at most.
    /// </summary>
    private void Settle(ReadOnlySpan<int> knot, int place, in AudioWithout without)
    {
        var most = 1;
        var fresh = new Dictionary<int, (double Amount, double Weight)[]>();
        foreach (var lane in knot)
        {
            most = Math.Max(most, _map.To(lane).Length);
            if (_isReached[lane])
            {
                fresh[lane] = [.. Enumerable.Range(lane * _channels, _channels).Select(at => (_amounts[at], _weights[at]))];
            }
        }
        while (fresh.Count > 0)
        {
            var next = new Dictionary<int, (double Amount, double Weight)[]>();
            foreach (var (lane, come) in fresh)
            {
                foreach (ref readonly var edge in _map.From(lane))
                {
                    if (_order.PlaceOf(edge.To) != place || (!without.IsNothing && without.Stops(_map, edge)))
                    {
                        continue;
                    }
                    if (!next.TryGetValue(edge.To, out var sum))
                    {
                        next[edge.To] = sum = new (double, double)[_channels];
                    }
                    var share = Math.Clamp(edge.Gain, -1, 1) / (2 * most);
                    for (var channel = 0; channel < _channels; channel++)
                    {
                        sum[channel] = (sum[channel].Amount + (share * come[channel].Amount), sum[channel].Weight + (Math.Abs(share) * come[channel].Weight));
                    }
                }
            }
            fresh.Clear();
            foreach (var (lane, come) in next)
            {
                var isHeard = !_isReached[lane];
                Reach(lane);
                for (var channel = 0; channel < _channels; channel++)
                {
                    var at = (lane * _channels) + channel;
                    isHeard |= come[channel].Weight > Nothing * _weights[at];
                    _amounts[at] += come[channel].Amount;
                    _weights[at] += come[channel].Weight;
                }
                if (isHeard)
                {
                    fresh[lane] = come;
                }
            }
        }
    }

    private void Reach(int lane)
    {
        if (!_isReached[lane])
        {
            _isReached[lane] = true;
            _reached.Add(lane);
            var place = _order.PlaceOf(lane);
            _open.Enqueue(place, place);
        }
    }
}
