using RigLang.Editing;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>Who feeds whom, one kind of signal at a time.</summary>
public class SignalFlow
{
    [Fact]
    public void A_device_under_the_caret_is_where_to_start()
    {
        var caret = SmallRig.On("device bass ");
        var node = Assert.Single(SignalHierarchy.Prepare(caret.View, caret.Offset));
        Assert.Equal(("device::bass", "bass", "Tern"), (node.Key, node.Title, node.Detail));
        Assert.StartsWith("device bass", node.Whole.Source.Slice(node.Whole.Span), StringComparison.Ordinal);
        Assert.EndsWith("}", node.Whole.Source.Slice(node.Whole.Span), StringComparison.Ordinal);
        Assert.Equal("bass", node.Name.Source.Slice(node.Name.Span));
    }

    [Fact]
    public void What_feeds_a_device_comes_by_signal() => Assert.Equal(
        ["brick power: connect brick.out1 to bass.power", "seq MIDI: connect seq.midi   to bass.midi with MidiDin 1.5 m yellow \"B1\""],
        Told(SignalHierarchy.Incoming(SmallRig.View, "device::bass")));

    [Fact]
    public void What_a_device_feeds_comes_by_signal() => Assert.Equal(
        ["bass MIDI: connect seq.midi   to bass.midi with MidiDin 1.5 m yellow \"B1\"", "desk audio: connect seq.main   to desk.ch23"],
        Told(SignalHierarchy.Outgoing(SmallRig.View, "device::seq")));

    [Fact]
    public void A_node_goes_on_by_the_signal_that_it_was_reached_by()
    {
        var desk = Assert.Single(SignalHierarchy.Outgoing(SmallRig.View, "device:audio:seq")).Other;
        Assert.Equal(["bass", "seq"], SignalHierarchy.Incoming(SmallRig.View, desk.Key).Select(c => c.Other.Title).Order(StringComparer.Ordinal));
        Assert.Empty(SignalHierarchy.Incoming(SmallRig.View, "device:audio:bass"));
    }

    [Fact]
    public void A_port_under_the_caret_has_its_own_cables_only()
    {
        var caret = SmallRig.With("to bass.midi", "to bass.mi$0di");
        var node = Assert.Single(SignalHierarchy.Prepare(caret.View, caret.Offset));
        Assert.Equal("bass.midi", node.Title);
        Assert.Equal("seq", Assert.Single(SignalHierarchy.Incoming(SmallRig.View, node.Key)).Other.Title);
        Assert.Empty(SignalHierarchy.Outgoing(SmallRig.View, node.Key));
    }

    [Fact]
    public void Several_cables_between_two_devices_are_one_call_with_all_its_lines()
    {
        var view = SmallRig.With("connect bass.line  to desk.ch1", "connect seq.main.left  to desk.ch45.left\nconnect seq.main.right to desk.ch45.right$0")
            .View;
        var rewired = Caret.ViewOf(view.Source.Content.Replace("connect seq.main   to desk.ch23", "", StringComparison.Ordinal));
        Assert.Equal(2, Assert.Single(SignalHierarchy.Outgoing(rewired, "device:audio:seq")).Connections.Count);
    }

    [Fact]
    public void A_cable_the_wrong_way_round_in_the_text_still_flows_from_output_to_input() => Assert.Equal(
        ["desk audio: connect desk.ch1 to bass.line"],
        Told(SignalHierarchy.Outgoing(SmallRig.With("connect bass.line  to desk.ch1", "connect desk.ch1 to bass.line$0").View, "device:audio:bass")));

    [Fact]
    public void An_insert_feeds_the_effect_and_is_fed_by_it()
    {
        var view = Caret.ViewOf("""
            import "shared/leads.rig"
            gear Desk {
              out insert : insert on trs 6.35 mm
            }
            gear Comp {
              in  in  : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
            }
            device desk : Desk
            device comp : Comp
            connect desk.insert to comp.in, comp.out with InsertY 1 m
            """);
        Assert.Equal("comp", Assert.Single(SignalHierarchy.Outgoing(view, "device::desk")).Other.Title);
        Assert.Equal("comp", Assert.Single(SignalHierarchy.Incoming(view, "device::desk")).Other.Title);
    }

    [Theory]
    [InlineData("")]
    [InlineData("device")]
    [InlineData("device::nobody")]
    [InlineData("port::bass\nnothing")]
    [InlineData("port::bass")]
    public void A_key_that_finds_nothing_any_more_has_no_calls(string key)
    {
        Assert.Empty(SignalHierarchy.Incoming(SmallRig.View, key));
        Assert.Empty(SignalHierarchy.Outgoing(SmallRig.View, key));
    }

    [Fact]
    public void Names_with_colons_and_dots_find_their_way_back()
    {
        var caret = Caret.In("""
            import "shared/leads.rig"
            gear X {
              out "a:b.c" : audio mono line on ts 6.35 mm
              in  in      : audio mono line on ts 6.35 mm
            }
            device "1:2.3" : X
            device other   : X
            connect "1:2.3"."a:b$0.c" to other.in
            """);
        var node = Assert.Single(SignalHierarchy.Prepare(caret.View, caret.Offset));
        Assert.Equal("other", Assert.Single(SignalHierarchy.Outgoing(caret.View, node.Key)).Other.Title);
    }

    private static string[] Told(IReadOnlyList<SignalCall> calls) =>
        [.. calls.Select(c => $"{c.Other.Title} {c.Other.Detail}: {string.Join(" + ", c.Connections.Select(at => at.Source.Slice(at.Span)))}")];
}
