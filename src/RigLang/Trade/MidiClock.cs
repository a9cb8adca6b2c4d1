namespace RigLang.Trade;

/// <summary>
/// Tempo as devices hand it on: MIDI clock and analogue pulses. Nothing here throws on a tempo or a rate that a player may write: at
/// 0 or less no pulse ever comes, so intervals are infinite and loads 0. Source: IEC 63035:2017 (MIDI 1.0), system real time,
/// for the 24 clocks a quarter note; the rest is arithmetic.
/// </summary>
public static class MidiClock
{
    /// <summary>MIDI clocks a quarter note.</summary>
    public static readonly Ppqn Rate = new(24);

    /// <summary>From one MIDI clock to the next: 2.5 / tempo.</summary>
    public static Second Interval(Bpm tempo) => PulseInterval(tempo, Rate);

    /// <summary>From one pulse to the next: 60 / (tempo x rate).</summary>
    public static Second PulseInterval(Bpm tempo, Ppqn rate) =>
        new(tempo.Value > 0 && rate.Value > 0 ? 60 / (tempo.Value * rate.Value) : double.PositiveInfinity);

    /// <summary>The share of a MIDI line that its clock takes, 1 for all of it: one byte an interval, 0.0128 % a bpm.</summary>
    public static double Load(Bpm tempo) => MidiWire.ByteTime.Value / Interval(tempo).Value;

    /// <summary>MIDI clocks in the time of one pulse: 24 / rate. Below 1 for rates above 24, infinite for a rate of 0 or less.</summary>
    public static double ClocksPerPulse(Ppqn rate) => rate.Value > 0 ? Rate.Value / rate.Value : double.PositiveInfinity;

    /// <summary>
    /// The tempo at which a follower plays that expects another rate than it is sent: tempo x sent / expected. Infinite when it
    /// expects 0 or less.
    /// </summary>
    public static Bpm FollowerTempo(Bpm tempo, Ppqn sent, Ppqn expected) =>
        new(expected.Value > 0 ? tempo.Value * sent.Value / expected.Value : double.PositiveInfinity);

    /// <summary>How far a delay moves a clock, as a share of the interval at this tempo: 1 is a whole clock late.</summary>
    public static double ShareOfInterval(Second delay, Bpm tempo) => delay.Value / Interval(tempo).Value;

    /// <summary>
    /// Tempo as files hold it, in whole microseconds a quarter note: 60,000,000 / tempo, rounded. Null when it does not fit in
    /// the 24 bits of a tempo event: below about 3.58 bpm, or so fast that nothing is left. Source: Standard MIDI Files 1.0.
    /// </summary>
    public static int? MicrosecondsPerQuarter(Bpm tempo) =>
        Math.Round(MicrosecondsPerMinute / tempo.Value) is var figure and >= 1 and <= LongestQuarter ? (int)figure : null;

    /// <summary>The tempo of a figure in microseconds a quarter note.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The figure is not 1 to 16,777,215.</exception>
    public static Bpm TempoOf(int microsecondsPerQuarter) => microsecondsPerQuarter is >= 1 and <= LongestQuarter
        ? new(MicrosecondsPerMinute / microsecondsPerQuarter)
        : throw new ArgumentOutOfRangeException(
            nameof(microsecondsPerQuarter), microsecondsPerQuarter, "A tempo event holds 1 to 16,777,215 microseconds a quarter note.");

    /// <summary>The data of a tempo event, three bytes, the highest first; null as for <see cref="MicrosecondsPerQuarter"/>.</summary>
    public static byte[]? TempoEventData(Bpm tempo) =>
        MicrosecondsPerQuarter(tempo) is { } figure ? [(byte)(figure >> 16), (byte)(figure >> 8), (byte)figure] : null;

    private const double MicrosecondsPerMinute = 60e6;

    private const int LongestQuarter = 0xFF_FFFF;
}
