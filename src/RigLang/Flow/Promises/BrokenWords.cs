using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>What is broken, and what would mend it: the one place where a <see cref="Broken"/> becomes text.</summary>
public static class BrokenWords
{
    /// <summary>Half a sentence: <c>no cable is in bass.midi</c>.</summary>
    /// <param name="readIn">The file that the reader is in: lines of others are named with theirs.</param>
    public static string Reason(Broken broken, SourceText readIn) => broken switch
    {
        Broken.NothingSends { IsOff: true } off => $"{off.From.Text} is off",
        Broken.NothingSends { What: "audio" } silent => $"{silent.From.Text} has no audio output",
        Broken.NothingSends { What: "power" } dead => $"{dead.From.Text} gives no power",
        Broken.NothingSends silent => $"nothing in {silent.From.Text} sends {silent.What}",
        Broken.NoCable { InTo: null } open => $"no cable is in {open.To}",
        Broken.NoCable { InFrom: null } open => $"no cable is in {open.From}, and the one in {open.To} comes from elsewhere",
        Broken.NoCable apart => $"no cable leads from {apart.From} to {apart.To}; both have another in them",
        Broken.UnsoundCable unsound => $"the connection between {unsound.From} and {unsound.To} ({LineOf(unsound.Hookup, readIn)}) joins nothing",
        Broken.SilentCable silent => $"the cable from {silent.From} to {silent.To} is plugged in and carries nothing",
        Broken.NotCarried other => $"the cable from {other.From} to {other.To} carries {other.To.Port.Signal!.Describe()}, and no {MessageKindNames.Describe(other.Kind)}",
        Broken.NoRoute apart => $"what comes in at {apart.In} has no route to {apart.Out}",
        Broken.ThruOff off => $"{off.Out} passes nothing on from {off.In}: its thru is off",
        Broken.Closed closed => $"what comes in at {closed.In} does not go on to {closed.Out}: {Said(closed.By, closed.In.Device, readIn)}",
        Broken.InsertOpen open => $"the plug in {open.Insert} ({LineOf(open.Hookup, readIn)}) breaks the way of {open.In}, and nothing comes back on it",
        Broken.LocalOff off => $"{off.Device.Name}.{off.Track.Name} no longer plays its own device: local is off",
        Broken.Filtered filtered => WayWords.Of(new WayStep.Stopped(filtered.Port, filtered.Kind, filtered.Filter)),
        Broken.Mapped mapped => $"{mapped.Port} moves channel {mapped.Map.From} to {Prose.And([.. mapped.Map.To.Select(c => $"{c}")])}",
        Broken.OtherChannel { Listens.IsOff: true } off => $"{PartOf(off)} is off",
        Broken.OtherChannel other => $"{PartOf(other)} listens to {other.Listens}, and {MessageKindNames.Describe(other.Kind)} {Come(other.Kind)} on channel {other.ComesOn}",
        Broken.AskedChannel other => $"it comes to {other.Port} on channel {other.ComesOn}, not {other.Asked}",
        Broken.OtherSetting { Setting.Port: null } other => $"{other.Port.Device.Name} keeps its own {Section(other.Kind)} and takes none at {other.Port}",
        Broken.OtherSetting other => $"{other.Port.Device.Name} takes its {Section(other.Kind)} at {other.Setting.Name}, not at {other.Port.Port.Name}",
        Broken.NotHeard deaf => $"{deaf.Target} does not listen to {MessageKindNames.Describe(deaf.Kind)} at {deaf.Port}",
        Broken.Unsaid unsaid => $"nobody says what {unsaid.What} {unsaid.Port.Device.Name} listens to",
        Broken.TooLate late => $"it can take {late.Delay}",
        Broken.OtherWidth { WantsStereo: true } narrow => $"it arrives at {narrow.Port}, but not left on the left and right on the right",
        Broken.OtherWidth wide => $"it arrives at {wide.Port} in stereo",
        Broken.OtherSide { Port.Port.Signal.IsStereo: true } other => $"{other.Port} gets it on the {(other.Wanted == Side.Left ? "right" : "left")} only",
        Broken.OtherSide other => $"{other.Port} gets the {(other.Wanted == Side.Left ? "right" : "left")} only",
        Broken.OtherTrack other => $"it is on track {Prose.And([.. other.On.Select(t => $"{t}")])} of {other.Port.Device.Name}, not on {other.Asked}",
        Broken.NoInput closed => $"{closed.To.Text} has nowhere for {closed.What} to come in",
        _ => "",
    };

    /// <summary>The edit that would mend it, as a sentence; null where nothing in particular can be advised.</summary>
    /// <param name="readIn">The file that the reader is in: lines of others are named with theirs.</param>
    public static string? Mend(Broken broken, SourceText readIn) => broken switch
    {
        Broken.NothingSends { IsOff: true } off => $"Set {off.From.Text} to a channel.",
        Broken.NoCable { IsHarmless: false } other when other.To.Port.Signal is { IsPower: true } wanted =>
            $"Feed {other.To} with {Supply(wanted)}: {other.From} gives {Supply(other.From.Port.Signal!)}.",
        Broken.NoCable { IsHarmless: false } around => $"Take an input of {around.To.Device.Name} that is routed to where it should go, or another of its outputs.",
        Broken.NoCable { InFrom: null, InTo: null } open => $"Connect {open.From} to {open.To}.",
        Broken.NoCable { InTo: null } taken =>
            $"{taken.From} is taken ({LineOf(taken.InFrom!, readIn)}): {Splitter(taken.From)} gives it a second way out, to {taken.To}.",
        Broken.NoCable taken => $"{taken.To} is taken ({LineOf(taken.InTo!, readIn)}): connect {taken.From} there instead, or bring the two together in {Merger(taken.To)}.",
        Broken.UnsoundCable unsound => $"Mend {LineOf(unsound.Hookup, readIn)}, where the two are connected.",
        Broken.SilentCable silent => $"Take another lead in {LineOf(silent.Hookup, readIn)}.",
        Broken.NotCarried other => $"Take another output of {other.From.Device.Name}, one that carries {MessageKindNames.Describe(other.Kind)}.",
        Broken.NoRoute apart => RouteOf(apart),
        Broken.ThruOff off => $"Take `{off.Out.Port.Name} thru off` out of {off.Out.Device.Name}.",
        Broken.Closed { By: MixSetting.Assign assign } closed => $"Add {closed.Out.Port.Name} to {LineOf(assign.At, readIn)}.",
        Broken.Closed closed => $"Change {LineOf(closed.By.At, readIn)}.",
        Broken.InsertOpen open => $"Bring what should come back to the ring of {open.Insert}, or take the plug out.",
        Broken.LocalOff off => $"Take `{off.Track.Name} local off` out of {off.Device.Name}.",
        Broken.Filtered filtered => FilterMend(filtered, readIn),
        Broken.Mapped mapped => $"Take the map out of {LineOf(mapped.Map.At, readIn)}, or let the target listen to channel {mapped.Map.To[0]}.",
        Broken.OtherChannel other => ChannelMend(other),
        Broken.AskedChannel other => $"Ask for channel {other.ComesOn}, or send it on channel {other.Asked}.",
        Broken.OtherSetting other => $"Set `{Section(other.Kind)} {other.Port.Port.Name}` at {other.Port.Device.Name}.",
        Broken.Unsaid unsaid => $"Say it at {unsaid.Port.Device.Name}.",
        Broken.TooLate { Delay.Waits: [.., var wait] } => $"Give it a cable of its own past {wait.At}.",
        Broken.OtherWidth { WantsStereo: true } narrow =>
            $"Bring left and right to two jacks or a stereo input of {narrow.Port.Device.Name}, and keep them apart all the way.",
        Broken.OtherTrack other => $"Ask for track {other.On[0]}, or plug it into the input that is recorded on {other.Asked}.",
        Broken.OtherSide => "Swap left and right on the way, or ask for the other side.",
        _ => null,
    };

    private static string Said(MixSetting setting, DeviceSymbol device, SourceText readIn) => $"{setting switch
    {
        MixSetting.Muted muted => $"{device.Name}.{muted.Port.Name} is muted",
        MixSetting.Send send => $"the send of {device.Name}.{send.Port.Name} to {send.To.Name} is off",
        MixSetting.Assign assign => $"{device.Name}.{assign.Port.Name} goes to {Prose.And([.. assign.To.Select(to => to.Name)])} only",
        _ => "a setting keeps it",
    }} ({LineOf(setting.At, readIn)})";

    /// <summary>A supply with all that must fit: the polarity too.</summary>
    private static string Supply(Signal signal) => signal.Describe() + signal.Polarity switch
    {
        Polarity.CentrePositive => " centre-positive",
        Polarity.CentreNegative => " centre-negative",
        _ => "",
    };

    /// <summary>Whether one edit mends both.</summary>
    internal static bool IsSame(Broken a, Broken b) => (a, b) switch
    {
        (Broken.Filtered x, Broken.Filtered y) => x.Port == y.Port && x.Filter.At == y.Filter.At,
        (Broken.OtherChannel x, Broken.OtherChannel y) => ReferenceEquals(x.Part, y.Part) && x.Port.Device == y.Port.Device && x.ComesOn == y.ComesOn,
        (Broken.OtherSetting x, Broken.OtherSetting y) => x.Port == y.Port && Section(x.Kind) == Section(y.Kind),
        (Broken.NotCarried, Broken.NotCarried) => false,
        _ => a == b,
    };

    /// <summary>The line of a device that made a filter; null when it cannot be found.</summary>
    public static FilterSetting? SettingOf(PortRef port, PortFilter filter) =>
        port.Device.Statement.Body.OfType<FilterSetting>().FirstOrDefault(s => s.Span == filter.At.Span);

    private static string FilterMend(Broken.Filtered filtered, SourceText readIn)
    {
        var kind = MessageKindNames.Describe(filtered.Kind);
        return SettingOf(filtered.Port, filtered.Filter) is { PassesOnly: true }
            ? $"Add `{kind}` to {LineOf(filtered.Filter.At, readIn)}."
            : $"Take `{kind}` out of what {filtered.Port} drops ({LineOf(filtered.Filter.At, readIn)}).";
    }

    private static string ChannelMend(Broken.OtherChannel other)
    {
        var part = other.Part.Channels.Allows(other.ComesOn) ? $"{PartOf(other)} to channel {other.ComesOn}" : null;
        var track = other is { Source: { Track: { } sends } source, Listens.Number: { } wanted } && sends.Channels.Allows(wanted)
            ? $"{source.Text} to channel {wanted}" : null;
        return (part, track) switch
        {
            (null, null) => $"{PartOf(other)} is fixed on {other.Part.Channels}: let something move the channel on the way.",
            (null, _) => $"Set {track}.",
            (_, null) => $"Set {part}.",
            _ => $"Set {part}, or {track}.",
        };
    }

    private const int MostJacks = 6;

    private static string RouteOf(Broken.NoRoute apart)
    {
        var ways = apart.In.Device.Gear!.Routes.From(apart.In.Port).Select(to => to.Name).Distinct().ToList();
        var others = apart.In.Device.Gear.Routes.To(apart.Out.Port).Select(from => from.Name).Distinct().ToList();
        return ways.Count > 0 ? $"{apart.In} goes on to {Prose.InOrder(ways, " or ", MostJacks)}: plug in there."
            : others.Count > 0 ? $"{apart.Out} takes from {Prose.InOrder(others, " or ", MostJacks)}: plug in there."
            : $"Go round {apart.In.Device.Name}; or, if the box passes it on, add `route {apart.In.Port.Name} to {apart.Out.Port.Name}` to gear {apart.In.Device.Gear.Name}.";
    }

    private static string PartOf(Broken.OtherChannel other) => $"{other.Port.Device.Name}.{other.Part.Name}";

    private static string Section(MessageKinds kind) => (kind & MessageKinds.Clock) != 0 ? "clock" : "transport";

    private static string Come(MessageKinds kind) => Hearing.IsMany(MessageKindNames.Describe(kind)) ? "come" : "comes";

    private static string Splitter(PortRef output) => output.Port.Signal switch
    {
        { IsPower: true } => "another outlet, or a splitter,",
        { Kind: SignalKind.Midi } => "a thru box",
        _ => "a splitter",
    };

    private static string Merger(PortRef input) => input.Port.Signal switch
    {
        { IsPower: true } => "a supply that is enough for both",
        { Kind: SignalKind.Midi } => "a merge box",
        { Kind: SignalKind.Usb } => "a hub",
        _ => "a mixer",
    };

    private static string LineOf(Hookup hookup, SourceText readIn) => LineOf(hookup.Connection.At, readIn);

    private static string LineOf(Location at, SourceText readIn) => LineWords.Of(at, readIn);
}
