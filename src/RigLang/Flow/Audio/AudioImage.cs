using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>What of a source's left and right is in a port: read off how much of each is on which of its lanes.</summary>
/// <param name="Lanes">The lanes that anything comes to, by their place in the port: how much of left, right and mono is there.</param>
internal readonly record struct AudioImage(IReadOnlyList<LaneShare> Lanes)
{
    /// <summary>The channels of a spread that tells left, right and mono apart.</summary>
    public const int Left = 0;
    public const int Right = 1;
    public const int Mono = 2;
    public const int Channels = 3;

    public static readonly AudioImage None = new([]);

    public bool IsNone => Lanes.Count == 0;

    /// <summary>True when left is on the left and right on the right, whatever mono comes in beside them; of a stream of many channels, when two hold them apart.</summary>
    public bool IsStereo => HasLeftAndRight(swapped: false);

    /// <summary>True when left is on the right and right on the left.</summary>
    public bool IsSwapped => HasLeftAndRight(swapped: true);

    /// <summary>True when something of the source is on the side.</summary>
    public bool IsOn(Side side) => side == Side.Only ? !IsNone : Lanes.Any(lane => lane.Channel == (side == Side.Right ? 1 : 0));

    /// <summary>True where all that is there is the source's left, or all its right.</summary>
    public bool IsOnly(int channel) => Lanes.Count > 0 && Lanes.All(lane => lane.Of(channel) != 0 && lane.Of(1 - channel) == 0);

    private bool HasLeftAndRight(bool swapped)
    {
        int left = -1, right = -1;
        foreach (var lane in Lanes)
        {
            var (l, r) = (Math.Abs(lane.LeftShare), Math.Abs(lane.RightShare));
            left = l > r && left < 0 ? lane.Channel : left;
            right = r > l && right < 0 ? lane.Channel : right;
        }
        return left >= 0 && right >= 0 && (swapped ? left > right : left < right);
    }

    /// <summary>What is on some lanes of a port.</summary>
    public static AudioImage At(AudioSpread spread, Lanes lanes)
    {
        var shares = new List<LaneShare>();
        for (var channel = 0; channel < lanes.Count; channel++)
        {
            var lane = lanes[channel];
            if (!spread.IsReached(lane))
            {
                continue;
            }
            var share = new LaneShare(channel, spread.At(lane, Left), spread.At(lane, Right), spread.At(lane, Mono));
            if (!share.IsNone)
            {
                shares.Add(share);
            }
        }
        return shares.Count == 0 ? None : new AudioImage(shares);
    }
}

/// <summary>How much of a source's left, right and mono is on one lane, as factors of amplitude.</summary>
/// <param name="Channel">The lane's place in its port: 0 is the left, or the only one.</param>
internal readonly record struct LaneShare(int Channel, double LeftShare, double RightShare, double MonoShare)
{
    public bool IsNone => LeftShare == 0 && RightShare == 0 && MonoShare == 0;

    public double Of(int channel) => channel switch { AudioImage.Left => LeftShare, AudioImage.Right => RightShare, _ => MonoShare };
}
