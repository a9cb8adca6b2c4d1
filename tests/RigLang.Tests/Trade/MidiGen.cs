using CsCheck;
using RigLang.Trade;

namespace RigLang.Tests.Trade;

/// <summary>Random MIDI messages.</summary>
internal static class MidiGen
{
    public static readonly Gen<int> Channel = Gen.Int[1, 16];

    public static readonly Gen<int> Data = Gen.Int[0, 127];

    /// <summary>Few channels and kinds follow one another, so that running status has something to leave out.</summary>
    public static readonly Gen<MidiMessage> ChannelMessage = Gen.Frequency(
        (4, Gen.Select(Gen.Int[1, 2], Data, Gen.OneOf(Gen.Const(0), Data), MidiMessage.NoteOn)),
        (1, Gen.Select(Channel, Data, Data, MidiMessage.NoteOff)),
        (1, Gen.Select(Channel, Data, Data, MidiMessage.KeyPressure)),
        (2, Gen.Select(Gen.Int[1, 2], Data, Data, MidiMessage.ControlChange)),
        (2, Gen.Select(Gen.Int[1, 2], Data, MidiMessage.ProgramChange)),
        (1, Gen.Select(Channel, Data, MidiMessage.ChannelPressure)),
        (1, Gen.Select(Channel, Gen.Int[0, 16_383], MidiMessage.PitchBend)));

    public static readonly Gen<MidiMessage> SystemMessage = Gen.OneOf(
        Gen.Byte[0, 127].Array[0, 8].Select(content => MidiMessage.SystemExclusive(content)),
        Gen.Select(Gen.OneOf(MidiStatus.TimeCodeQuarterFrame, MidiStatus.SongSelect), Data, (status, data) => MidiMessage.Of(status, data)),
        Gen.Int[0, MidiSongPosition.Last].Select(sixteenths => new MidiSongPosition(sixteenths).ToMessage()),
        Gen.Const(MidiMessage.Of(MidiStatus.TuneRequest)));

    public static readonly Gen<MidiMessage> RealTime = Gen
        .OneOf(MidiStatus.Clock, MidiStatus.Start, MidiStatus.Continue, MidiStatus.Stop, MidiStatus.ActiveSensing, MidiStatus.SystemReset)
        .Select(status => MidiMessage.Of(status));

    public static readonly Gen<MidiMessage> AnyMessage = Gen.Frequency((6, ChannelMessage), (1, SystemMessage), (1, RealTime));
}
