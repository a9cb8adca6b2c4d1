using CsCheck;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Trade;

/// <summary>MIDI over USB: packets of four bytes on numbered cables.</summary>
public class MidiUsbTests
{
    [Fact]
    public void A_note_on_cable_1() => Assert.Equal([0x19, 0x90, 0x3C, 0x40], Only(1, MidiMessage.NoteOn(1, 0x3C, 0x40)));

    [Fact]
    public void A_clock_on_cable_3() => Assert.Equal([0x3F, 0xF8, 0x00, 0x00], Only(3, MidiMessage.Of(MidiStatus.Clock)));

    [Fact]
    public void A_program_change_on_cable_0() => Assert.Equal([0x0C, 0xC2, 0x05, 0x00], Only(0, MidiMessage.ProgramChange(3, 5)));

    [Theory]
    [InlineData(MidiStatus.TimeCodeQuarterFrame, 0x2)]
    [InlineData(MidiStatus.SongPosition, 0x3)]
    [InlineData(MidiStatus.SongSelect, 0x2)]
    [InlineData(MidiStatus.TuneRequest, 0x5)]
    [InlineData(MidiStatus.Start, 0xF)]
    public void System_messages_have_code_index_numbers_of_their_own(byte status, byte codeIndex) =>
        Assert.Equal(codeIndex, Assert.Single(MidiUsbPacket.Of(0, MidiMessage.Of(status))).CodeIndex);

    [Theory]
    [InlineData(0, new byte[] { 0x6 })]
    [InlineData(1, new byte[] { 0x7 })]
    [InlineData(2, new byte[] { 0x4, 0x5 })]
    [InlineData(3, new byte[] { 0x4, 0x6 })]
    [InlineData(4, new byte[] { 0x4, 0x7 })]
    [InlineData(5, new byte[] { 0x4, 0x4, 0x5 })]
    public void The_last_packet_of_a_system_exclusive_message_tells_how_many_bytes_it_has(int content, byte[] codeIndexes) =>
        Assert.Equal(codeIndexes, MidiUsbPacket.Of(0, MidiMessage.SystemExclusive(new byte[content])).Select(p => p.CodeIndex));

    [Fact]
    public void A_code_index_number_tells_how_many_bytes_are_in_the_packet() => Assert.Equal(
        [0, 0, 2, 3, 3, 1, 2, 3, 3, 3, 3, 3, 2, 2, 3, 1],
        Enumerable.Range(0, 16).Select(codeIndex => MidiUsbPacket.ByteCountOf((byte)codeIndex)));

    [Fact]
    public void Messages_come_back_from_the_packets_of_their_cable() => Gen
        .Select(Gen.Int[0, 15], MidiGen.AnyMessage).Array[0, 40]
        .Sample(
            sent =>
            {
                var bus = sent.SelectMany(s => MidiUsbPacket.Of(s.Item1, s.Item2)).SelectMany(packet => packet.ToBytes());
                var packets = bus.Chunk(MidiUsbPacket.Length).Select(bytes => MidiUsbPacket.FromBytes(bytes)).ToList();
                for (var cable = 0; cable < MidiUsbPacket.Cables; cable++)
                {
                    Assert.Equal(
                        sent.Where(s => s.Item1 == cable).Select(s => s.Item2),
                        MidiWire.Read(packets.Where(p => p.Cable == cable).SelectMany(p => p.MidiBytes)));
                }
            },
            iter: 500);

    [Theory]
    [InlineData(-1)]
    [InlineData(16)]
    public void There_is_no_cable_outside_0_to_15(int cable) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiUsbPacket.Of(cable, MidiMessage.Of(MidiStatus.Clock)));

    private static byte[] Only(int cable, MidiMessage message) => Assert.Single(MidiUsbPacket.Of(cable, message)).ToBytes();
}
