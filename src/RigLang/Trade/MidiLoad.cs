namespace RigLang.Trade;

/// <summary>
/// How full a serial MIDI link can get, and how late a clock can be.
/// <para>
/// The model: on every sixteenth note of the tempo, every track ends as many notes as it may sound at once and starts as many
/// again. That is the most that playing on sixteenths can ask for. Each note costs a note-on and a note-off of three bytes, no
/// running status, which no sender is obliged to use. Not counted, because no figure bounds them: notes closer than
/// sixteenths (rolls, arpeggios), controllers, pitch bend, pressure, system exclusive.
/// </para>
/// <para>Source: line rate and lengths after IEC 63035:2017 (MIDI 1.0); playing on sixteenths is common practice of step sequencers.</para>
/// </summary>
public static class MidiLoad
{
    /// <summary>
    /// Notes at once of a track that does not say: one line at a time, a bass, a lead, a drum. Source: common practice; chords are
    /// for the player to declare.
    /// </summary>
    public const int DefaultNotesAtOnce = 1;

    /// <summary>The length of a note message, and the longest that any message but system exclusive has.</summary>
    private const int LongestShortMessage = 3;

    private static readonly Ppqn Sixteenths = new(4);

    /// <summary>
    /// The share of 31,250 baud that the link can need, 1 for all of it; above 1 it cannot keep up. At a tempo of 0 or less
    /// nothing is sent, and the share is 0.
    /// </summary>
    /// <param name="clock">Whether MIDI clock passes on this link.</param>
    /// <param name="tempo">In quarter notes a minute.</param>
    /// <param name="notesAtOnce">For each track that sends over the link, how many notes it may sound at once; below 0 counts as 0.</param>
    /// <param name="runningStatus">Count as if every sender used running status, see <see cref="StepTime"/>: the lower figure.</param>
    public static double LinkLoad(bool clock, Bpm tempo, IEnumerable<int> notesAtOnce, bool runningStatus = false) =>
        (clock ? MidiClock.Load(tempo) : 0) + (StepTime(notesAtOnce, runningStatus).Value / MidiClock.PulseInterval(tempo, Sixteenths).Value);

    /// <summary>
    /// How long the link is busy with the notes of one sixteenth: so much later than the first may the last of them sound. Six
    /// bytes a note. With running status four bytes a note and one status byte a track, its notes ended by note-ons of
    /// velocity 0.
    /// </summary>
    public static Second StepTime(IEnumerable<int> notesAtOnce, bool runningStatus = false) => MidiWire.TimeOf(notesAtOnce
        .Where(notes => notes > 0)
        .Sum(notes => runningStatus ? 1 + (2L * notes * (LongestShortMessage - 1)) : 2L * notes * LongestShortMessage));

    /// <summary>
    /// The longest that a clock byte waits at a merge for what is being sent already. Where the merge interleaves, only for the byte
    /// under way: 320 us. Where it finishes the message first, for all of that: 960 us for three bytes, 320 us a byte for
    /// system exclusive. It holds for a merge that then sends the clock before anything else that waits. Source: IEC 63035:2017
    /// (MIDI 1.0) lets real time stand between the bytes of any message; the figures are arithmetic.
    /// </summary>
    /// <param name="interleaves">Whether real time goes between the bytes of a message under way.</param>
    /// <param name="longestMessage">Bytes in the longest message that the merge finishes first; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The longest message has no byte.</exception>
    public static Second ClockDelayAtMerge(bool interleaves, int longestMessage = LongestShortMessage)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(longestMessage, 1);
        return MidiWire.TimeOf(interleaves ? 1 : longestMessage);
    }
}
