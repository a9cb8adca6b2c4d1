using RigLang.Editing;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>How a line goes on while it is typed, and which place of it the caret is in.</summary>
public class Signatures
{
    [Theory]
    [InlineData("connect $0", "FROM")]
    [InlineData("connect seq.midi $0", "FROM")]
    [InlineData("connect seq.midi to$0", "FROM")]
    [InlineData("connect seq.midi to $0", "TO")]
    [InlineData("connect seq.midi to bass.midi with $0", "LEAD")]
    [InlineData("connect seq.midi to bass.midi with MidiDin $0", "LENGTH")]
    [InlineData("connect seq.midi to bass.midi with MidiDin 1.5 m + $0", "LEAD")]
    [InlineData("connect seq.midi to bass.midi with MidiDin 1.5 m \"B1\"$0", "label")]
    [InlineData("connect seq.midi to bass.midi \"B1\"$0", "label")]
    [InlineData("connect poly.\"LINE OUT\" $0", "FROM")]
    [InlineData("connect seq.midi $0to bass.midi with MidiDin", "FROM")]
    [InlineData("connect seq.midi to bass.midi,\n  $0", "TO")]
    [InlineData("device $0", "NAME")]
    [InlineData("device bass :$0", "GEAR")]
    [InlineData("device bass : Tern at ($0", "X")]
    [InlineData("device bass : Tern at (1 m,$0", "Y")]
    [InlineData("lead X : trs 3.5 mm to $0", "PLUG")]
    [InlineData("must $0", "WHAT")]
    [InlineData("must clock from $0", "FROM")]
    [InlineData("never clock from a reach $0", "TO")]
    [InlineData("must audio from a reach b in $0", "how")]
    [InlineData("gear X {\n  in a : $0\n}", "SIGNAL")]
    [InlineData("gear X {\n  in a : audio mono line on $0", "CONNECTOR")]
    [InlineData("gear X {\n  part voice receives $0\n}", "PORTS")]
    [InlineData("gear X {\n  part voice receives midi on $0\n}", "CHANNEL")]
    [InlineData("gear X {\n  clock sends $0\n}", "PORTS")]
    [InlineData("gear X {\n  clock follows $0\n}", "SOURCES")]
    [InlineData("device x : X {\n  voice on channel $0\n}", "CHANNEL")]
    [InlineData("device x : X {\n  thru drops $0\n}", "KINDS")]
    [InlineData("device x : X {\n  in maps channel 1 to $0\n}", "TO")]
    [InlineData("device x : X {\n  a up to $0\n}", "COUNT")]
    [InlineData("device x : X {\n  mic1 phantom $0\n}", "STATE")]
    [InlineData("device x : X {\n  clock $0\n}", "SOURCE")]
    [InlineData("rig {\n  tempo $0\n}", "TEMPO")]
    [InlineData("stock {\n  6 $0\n}", "LEAD")]
    [InlineData("stock {\n  6 MidiDin $0\n}", "LENGTH")]
    [InlineData("lead X : trs 3.5 mm to trs 3.5 mm {\n  tip to $0\n}", "CONTACTS")]
    public void The_place_of_the_caret_is_active(string text, string expected)
    {
        var caret = Caret.In(text);
        var signature = SignatureFinder.At(caret.View, caret.Offset)!;
        var active = signature.Parameters[signature.Active];
        Assert.Equal(expected, signature.Label[active.Start..active.End]);
        Assert.NotEmpty(active.Documentation);
    }

    [Fact]
    public void A_connection_goes_from_to_with_lead_length_and_label() =>
        Assert.Equal("connect FROM to TO with LEAD LENGTH [label]", SignatureFinder.At(Caret.ViewOf("connect "), 8)!.Label);

    [Theory]
    [InlineData("conn$0")]
    [InlineData("connect a to b  // and $0")]
    [InlineData("connect a to b\n$0")]
    [InlineData("$0 connect a to b")]
    [InlineData("gear X {\n  in a : midi on din-5\n$0\n}")]
    [InlineData("nonsense here $0")]
    public void Elsewhere_there_is_none(string text)
    {
        var caret = Caret.In(text);
        Assert.Null(SignatureFinder.At(caret.View, caret.Offset));
    }
}
