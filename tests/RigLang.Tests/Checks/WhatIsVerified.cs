using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>The facts under a rig count what holds, and leave out what a finding speaks of.</summary>
public class WhatIsVerified
{
    private const string Gear = """
        gear Echo {
          in  in  : midi on din-5
          out out : midi on din-5
          route in to out
        }
        gear Clocked {
          out midi : midi on din-5
          clock follows internal
          clock sends midi
        }
        device a : Echo
        device b : Echo
        device source : Clocked
        device target : Echo
        connect source.midi to target.in

        """;

    [Theory]
    [InlineData("connect a.out to b.in", "connect a.in to b.out")]
    [InlineData("connect a.in to b.out", "connect a.out to b.in")]
    public void No_cable_of_a_loop_counts_as_one_that_holds_whichever_is_written_last(string first, string last) =>
        Assert.Equal("1 MIDI link whose current loop closes", MidiLinks($"{Gear}{first}\n{last}\n"));

    [Fact]
    public void The_cables_of_a_promise_that_fails_are_counted() =>
        Assert.Equal("2 MIDI links whose current loops close", MidiLinks(Gear + "connect a.out to b.in\nnever clock from source reach target\n"));

    private static string MidiLinks(string text) =>
        Assert.Single(Rigs.Compile(text).Facts.Select(f => $"{f.Count} {f.Text}"), f => f.Contains("MIDI link", StringComparison.Ordinal));
}
