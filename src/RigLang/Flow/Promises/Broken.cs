using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// One thing that keeps something from arriving. Of several on the way of the fewest, a player is told the one nearest to the target;
/// <see cref="BrokenWords"/> puts it into words.
/// </summary>
public abstract record Broken
{
    /// <summary>
    /// Of all that is missing on a way what a player is told: the last, nearest to the target; what is not said only where nothing else is.
    /// </summary>
    public static Broken? Told(IReadOnlyList<Broken> gaps) => gaps.LastOrDefault(gap => gap is not Unsaid) ?? (gaps.Count > 0 ? gaps[^1] : null);

    /// <summary>The devices that it concerns, the one nearer to the source first.</summary>
    public abstract IReadOnlyList<DeviceSymbol> Devices { get; }

    /// <summary>The connection that it lies at, where there is one.</summary>
    public virtual Hookup? At => null;

    /// <summary>Nothing that is meant sends such messages; audio and power where the device gives none.</summary>
    /// <param name="What"><c>clock</c>, <c>audio</c>, <c>power</c>.</param>
    /// <param name="IsOff">True for a track that is set to <c>off</c>.</param>
    public sealed record NothingSends(Target From, string What, bool IsOff) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [From.Device];
    }

    /// <summary>No cable between two jacks, of which one or both may hold another.</summary>
    public sealed record NoCable(PortRef From, PortRef To, Hookup? InFrom, Hookup? InTo) : Broken
    {
        /// <summary>False where a cable between the two would starve or hurt the gear, or feed a box into itself: none is advised then.</summary>
        public bool IsHarmless => From.Port.Signal is { } given && To.Port.Signal is { } wanted
            && (given.IsPower || wanted.IsPower ? Feeds(given, wanted) : From.Device != To.Device);

        private static bool Feeds(Signal given, Signal wanted) => given.Kind == wanted.Kind
            && (given.Kind == SignalKind.Usb || (wanted.Volts is { } volts && given.Volts is { } offered && volts.Accepts(offered.Low) && volts.Accepts(offered.High)))
            && (wanted.Polarity is Polarity.Either or Polarity.Unknown || wanted.Polarity == given.Polarity);

        public override IReadOnlyList<DeviceSymbol> Devices => [From.Device, To.Device];
    }

    /// <summary>A connection that joins nothing: it does not fit, is contested, or could not be read.</summary>
    public sealed record UnsoundCable(PortRef From, PortRef To, Hookup Hookup) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [From.Device, To.Device];
        public override Hookup? At => Hookup;
    }

    /// <summary>A cable that is plugged in at both ends and carries nothing: a current loop that does not close, swapped poles, a grounded wire.</summary>
    public sealed record SilentCable(PortRef From, PortRef To, Hookup Hookup) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [From.Device, To.Device];
        public override Hookup? At => Hookup;
    }

    /// <summary>A cable of a kind that does not carry this: notes over a pulse cable.</summary>
    public sealed record NotCarried(PortRef From, PortRef To, Hookup Hookup, MessageKinds Kind) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [From.Device, To.Device];
        public override Hookup? At => Hookup;
    }

    /// <summary>An input of a device that has no route to the output from which it would go on.</summary>
    public sealed record NoRoute(PortRef In, PortRef Out) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [In.Device];
    }

    /// <summary>An output that has been set not to pass on what comes in.</summary>
    public sealed record ThruOff(PortRef In, PortRef Out) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [In.Device];
    }

    /// <summary>A route that something dialled in keeps closed: a mute, a send that is off, a channel that is assigned elsewhere.</summary>
    public sealed record Closed(PortRef In, PortRef Out, MixSetting By) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [In.Device];
    }

    /// <summary>A channel whose way a plug in its insert breaks.</summary>
    public sealed record InsertOpen(PortRef In, PortRef Insert, Hookup Hookup) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [In.Device];
        public override Hookup? At => Hookup;
    }

    /// <summary>A track that no longer plays the parts of its own device.</summary>
    public sealed record LocalOff(DeviceSymbol Device, TrackSymbol Track) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Device];
    }

    public sealed record Filtered(PortRef Port, PortFilter Filter, MessageKinds Kind) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>A channel map on the way, without which it would be heard.</summary>
    public sealed record Mapped(PortRef Port, ChannelMap Map) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>The part that is meant listens to another channel than the one on which it comes.</summary>
    /// <param name="Part">Of several parts of a device the first that could listen; its channel is <paramref name="Listens"/>.</param>
    /// <param name="ComesOn">1 to 16.</param>
    /// <param name="Source">The track whose channel it is; null where a map or an unknown sender is between.</param>
    public sealed record OtherChannel(PortRef Port, PartSymbol Part, KnownChannel Listens, int ComesOn, MidiSource? Source, MessageKinds Kind) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>The promise asks for a channel, and it comes on another.</summary>
    public sealed record AskedChannel(PortRef Port, int Asked, int ComesOn) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>The device takes its clock or transport from elsewhere, and could take it here.</summary>
    /// <param name="Setting">What it is set to: the word of the port, or <c>internal</c>.</param>
    public sealed record OtherSetting(PortRef Port, MessageKinds Kind, ClockSource Setting) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It comes to a port where the device, or the part that is meant, does not listen to such messages.</summary>
    public sealed record NotHeard(PortRef Port, MessageKinds Kind, string Target) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It comes by, and whether it is heard cannot be told: something is not set.</summary>
    public sealed record Unsaid(PortRef Port, string What) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It comes later than the promise allows.</summary>
    public sealed record TooLate(PortRef Port, MidiDelay Delay) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It comes in stereo where mono was asked for, or the other way round.</summary>
    public sealed record OtherWidth(PortRef Port, bool WantsStereo) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It comes from, or to, the other side than the one that was asked for.</summary>
    public sealed record OtherSide(PortRef Port, Connectors.Side Wanted) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>It is recorded on other tracks than the one that was asked for.</summary>
    public sealed record OtherTrack(PortRef Port, int Asked, IReadOnlyList<int> On) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [Port.Device];
    }

    /// <summary>The device has no jack where this could come in.</summary>
    public sealed record NoInput(Target To, string What) : Broken
    {
        public override IReadOnlyList<DeviceSymbol> Devices => [To.Device];
    }
}
