using RigLang.Trade;

namespace RigLang.Connectors;

/// <summary>
/// Which control signals can meet. Pitch, gate and trigger are voltages that one box gives and another reads; an expression pedal and a foot switch give
/// nothing, and change what the other box sends them. What is not said meets everything. Source: common practice.
/// </summary>
public static class ControlMeeting
{
    /// <summary>The part of the voltage of an input that a high level has to reach: TTL, 2.0 of 5 V. Source: JEDEC JESD8, from memory.</summary>
    public const double LowestHigh = 2.0 / 5.0;

    /// <summary>True when something comes of joining this output to this input: clock pulses count as triggers.</summary>
    public static bool CanMeet(Signal from, Signal to) => (KindOf(from), KindOf(to)) switch
    {
        (ControlKind.Any, _) or (_, ControlKind.Any) => true,
        (ControlKind.Gate or ControlKind.Trigger, ControlKind.Gate or ControlKind.Trigger) => true,
        // An inverted trigger is one that a contact to ground sets off.
        (ControlKind.Switch, ControlKind.Gate or ControlKind.Trigger) => to.Inverted,
        (ControlKind.Pitch, ControlKind.Pitch) => from.PitchScale == PitchScale.Unknown || to.PitchScale == PitchScale.Unknown || from.PitchScale == to.PitchScale,
        (ControlKind.Expression, ControlKind.Expression) => from.Wiper == Wiper.Unknown || to.Wiper == Wiper.Unknown || from.Wiper == to.Wiper,
        var (one, other) => one == other,
    };

    /// <summary>Why they cannot meet, as it shows on stage.</summary>
    public static string WhyNot(Signal from, Signal to) => (KindOf(from), KindOf(to)) switch
    {
        (ControlKind.Pitch, ControlKind.Pitch) => "One doubles its voltage where the other adds a volt: only one octave is in tune, if any.",
        (ControlKind.Expression, ControlKind.Expression) =>
            "With tip and ring swapped the pedal jumps between two values, or works in a fraction of its way.",
        (ControlKind.Expression or ControlKind.Switch, ControlKind.Expression or ControlKind.Switch) =>
            "A pedal gives a value between, a switch only two: it jumps, or does nothing.",
        (ControlKind.Expression or ControlKind.Switch, _) => "A pedal or switch gives no voltage of its own: nothing arrives.",
        (_, ControlKind.Expression or ControlKind.Switch) =>
            "The jack sends a voltage out to a pedal or switch; a second voltage works against it, and may do harm.",
        (ControlKind.Pitch, _) => "The pitch of a note is no beginning of one: it starts at random, or never.",
        _ => "A gate has two levels only: the pitch jumps between two notes.",
    };

    /// <summary>What still keeps two kinds that can meet from working as they are meant; null when nothing does.</summary>
    public static string? Reservation(Signal from, Signal to)
    {
        var (one, other) = (KindOf(from), KindOf(to));
        if (one == ControlKind.Switch && other == ControlKind.Switch && from.NormallyOpen is { } open && to.NormallyOpen is { } wanted && open != wanted)
        {
            return $"the switch is normally {Word(open)}, and the jack is for one that is normally {Word(wanted)}";
        }
        if (!IsTwoLevels(one) || !IsTwoLevels(other))
        {
            return null;
        }
        if (from.Inverted != to.Inverted)
        {
            return from.Inverted ? "the output is on at ground, and the input wants a voltage" : "the output gives a voltage, and the input is on at ground";
        }
        return from.Volts is { } given && to.Volts is { } read && !from.Inverted && given.High.Value < LowestHigh * read.High.Value
            ? string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"the output goes up to {given.High}, and an input for {read.High} takes nothing below {LowestHigh * read.High.Value:0.##} V for high")
            : null;

        static string Word(bool open) => open ? "open" : "closed";
    }

    private static bool IsTwoLevels(ControlKind kind) => kind is ControlKind.Gate or ControlKind.Trigger;

    private static ControlKind KindOf(Signal signal) => signal.Kind == SignalKind.Pulse ? ControlKind.Trigger : signal.Control;
}
