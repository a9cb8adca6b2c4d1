using RigLang.Flow;
using Xunit;

namespace RigLang.Tests.Flow.Channels;

/// <summary>Who gets which channel, and who stands in whose way.</summary>
public class ChoosingChannels
{
    [Fact]
    public void No_voices_need_no_channels() => Assert.True(new Puzzle().Solve().IsSolved);

    [Fact]
    public void A_voice_alone_gets_the_lowest_channel_of_its_range() =>
        Assert.Equal("bass 1, pad 5", Puzzle.Of(Puzzle.Auto("bass"), Puzzle.Auto("pad", 5, 8)).Assignment());

    [Fact]
    public void Voices_that_hear_one_stream_get_the_lowest_free_channels_in_the_order_of_names() =>
        Assert.Equal("pad 3, bass 1, keys 2", Puzzle.OfAuto(["pad", "bass", "keys"]).AllApart().Assignment());

    [Fact]
    public void Names_are_in_the_order_in_which_players_count() =>
        Assert.Equal("track10 3, track9 2, track02 1", Puzzle.OfAuto(["track10", "track9", "track02"]).AllApart().Assignment());

    [Fact]
    public void Voices_on_streams_of_their_own_share_a_channel_freely() =>
        Assert.Equal("bass 1, pad 1", Puzzle.OfAuto(["bass", "pad"]).Assignment());

    [Fact]
    public void A_drum_box_keeps_its_ten_channels_and_the_others_go_above()
    {
        var puzzle = Puzzle.Of([
            .. Enumerable.Range(1, 10).Select(n => Puzzle.Fixed($"drums.part{n}", n)), Puzzle.Auto("bass.voice"), Puzzle.Auto("pad.voice")]);

        Assert.EndsWith("drums.part10 10, bass.voice 11, pad.voice 12", puzzle.AllApart().Assignment(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_free_voice_makes_way_for_a_fixed_one_that_comes_later_by_name() =>
        Assert.Equal("bass 2, pad 1", Puzzle.Of(Puzzle.Auto("bass"), Puzzle.Fixed("pad", 1)).AllApart().Assignment());

    [Fact]
    public void A_wide_voice_makes_way_for_narrow_ones_that_would_have_no_other() =>
        Assert.Equal(
            "bass 3, keys 1, pad 2",
            Puzzle.Of(Puzzle.Auto("bass"), Puzzle.Auto("keys", 1, 2), Puzzle.Auto("pad", 1, 2)).AllApart().Assignment());

    [Fact]
    public void A_track_and_the_part_it_plays_share_a_channel() =>
        Assert.Equal(
            "bass.voice 3, seq.a 3",
            Puzzle.Of(Puzzle.Auto("bass.voice", 3, 6), Puzzle.Auto("seq.a")).Layered("seq.a", "bass.voice").Assignment());

    [Fact]
    public void Layered_parts_share_a_channel_that_nobody_else_has() =>
        Assert.Equal(
            "bass 1, pad 2, strings 2",
            Puzzle.OfAuto(["bass", "pad", "strings"]).Layered("pad", "strings").Separate("bass", "strings").Assignment());

    [Fact]
    public void Sixteen_voices_fill_a_port() =>
        Assert.Equal(Enumerable.Range(1, 16), Puzzle.OfAuto(Enumerable.Range(1, 16).Select(n => $"v{n}")).AllApart().Solve().Channels);

    [Fact]
    public void Seventeen_voices_on_one_port_are_a_conflict_of_all_seventeen()
    {
        var conflict = Puzzle.OfAuto(Enumerable.Range(1, 17).Select(n => $"v{n}")).AllApart().Solve().Conflict!;

        Assert.Equal(Enumerable.Range(0, 17), conflict.Voices);
        Assert.Equal(ConflictProof.Smallest, conflict.Proof);
    }

    [Fact]
    public void A_range_that_is_too_small_names_only_those_who_crowd_it()
    {
        var puzzle = Puzzle.Of(
            Puzzle.Auto("bass"), Puzzle.Auto("horn", 3, 4), Puzzle.Auto("keys"), Puzzle.Auto("lead", 3, 4), Puzzle.Auto("pad", 3, 4)).AllApart();

        Assert.Equal(["horn", "lead", "pad"], puzzle.Conflict());
        Assert.Equal("bass 1, horn 0, keys 2, lead 0, pad 0", puzzle.Assignment());
    }

    [Fact]
    public void Two_fixed_voices_on_one_channel_conflict_however_crowded_the_rest_is()
    {
        var puzzle = Puzzle.Of([
            .. Enumerable.Range(1, 17).Select(n => Puzzle.Auto($"auto{n}")), Puzzle.Fixed("x", 4), Puzzle.Fixed("y", 4)]).AllApart();

        Assert.Equal(["x", "y"], puzzle.Conflict());
    }

    [Fact]
    public void A_fixed_drum_box_counts_where_it_fills_the_range_of_others() =>
        Assert.Equal(
            ["bass", "drum9", "drum10", "keys", "pad"],
            Puzzle.Of([
                .. Enumerable.Range(1, 10).Select(n => Puzzle.Fixed($"drum{n}", n)),
                Puzzle.Auto("bass", 9, 12), Puzzle.Auto("keys", 9, 12), Puzzle.Auto("pad", 9, 12)]).AllApart().Conflict());

    [Fact]
    public void Of_two_conflicts_that_hang_together_the_smaller_is_told_wherever_its_names_stand()
    {
        // With two channels a ring of five cannot be, nor can three that are all apart.
        string[] ring = ["a", "b", "c", "d", "e"];
        var puzzle = Puzzle.Of([.. ring.Concat(["x", "y", "z"]).Select(name => Puzzle.Auto(name, 1, 2))]).AllApart("x", "y", "z").Separate("e", "x");
        for (var i = 0; i < ring.Length; i++)
        {
            puzzle.Separate(ring[i], ring[(i + 1) % ring.Length]);
        }
        var solution = puzzle.Solve();

        Assert.Equal(["x", "y", "z"], puzzle.NamesOf(solution.Conflict!.Voices));
        Assert.Equal([["a", "b", "c", "d", "e"], ["x", "y", "z"]], solution.Conflicts.Select(conflict => puzzle.NamesOf(conflict.Voices)));
        Assert.All(solution.Conflicts, conflict => Assert.Equal(ConflictProof.Smallest, conflict.Proof));
    }

    [Fact]
    public void A_conflict_by_way_of_layers_takes_the_shortest_way() =>
        Assert.Equal(
            ["a", "x", "z"],
            Puzzle.Of(Puzzle.Fixed("a", 1), Puzzle.Auto("b"), Puzzle.Auto("c"), Puzzle.Auto("x"), Puzzle.Fixed("z", 2))
                .Layered("a", "b").Layered("b", "c").Layered("c", "z").Layered("a", "x").Layered("x", "z").Conflict());

    [Fact]
    public void Voices_that_are_to_share_and_to_stand_apart_conflict() =>
        Assert.Equal(["a", "b"], Puzzle.OfAuto(["a", "b", "c"]).Layered("a", "b").Separate("a", "b").Separate("b", "c").Conflict());

    [Fact]
    public void Sharing_by_way_of_a_third_names_the_third() =>
        Assert.Equal(["a", "b", "c"], Puzzle.OfAuto(["a", "b", "c", "d"]).Layered("a", "b").Layered("b", "c").Layered("c", "d").Separate("a", "c").Conflict());

    [Fact]
    public void Layered_voices_without_a_common_channel_conflict() =>
        Assert.Equal(["a", "b"], Puzzle.Of(Puzzle.Auto("a", 1, 4), Puzzle.Fixed("b", 5)).Layered("a", "b").Conflict());

    [Fact]
    public void A_voice_without_a_channel_is_a_conflict_by_itself()
    {
        Assert.Equal(["a"], Puzzle.Of(new ChannelVoice("a", 0), Puzzle.Auto("b")).AllApart().Conflict());
        Assert.Equal(["a"], Puzzle.OfAuto(["a", "b"]).Separate("a", "a").AllApart().Conflict());
    }

    [Fact]
    public void Conflicts_of_different_ports_are_told_each()
    {
        var puzzle = Puzzle.Of(Puzzle.Fixed("a", 1), Puzzle.Fixed("b", 1), Puzzle.Fixed("c", 2), Puzzle.Fixed("d", 2), Puzzle.Auto("e"))
            .AllApart("a", "b").AllApart("c", "d", "e");

        Assert.Equal([["a", "b"], ["c", "d"]], puzzle.Solve().Conflicts.Select(conflict => puzzle.NamesOf(conflict.Voices)));
        Assert.Equal("a 0, b 0, c 0, d 0, e 1", puzzle.Assignment());
    }

    [Fact]
    public void A_conflict_names_who_can_move_and_where_it_troubles_nobody()
    {
        var puzzle = Puzzle.Of(Puzzle.Fixed("bass", 2, gear: ChannelVoice.Any), Puzzle.Fixed("drums", 2), Puzzle.Fixed("keys", 1)).AllApart();

        Assert.Equal([new ChannelMove(0, 3)], puzzle.Solve().Conflict!.Moves);
    }

    [Fact]
    public void A_move_says_the_channel_that_a_layered_partner_has() =>
        Assert.Equal(
            [new ChannelMove(0, 7)],
            Puzzle.Of(Puzzle.Fixed("bass", 2, gear: ChannelVoice.Range(1, 8)), Puzzle.Fixed("seq.a", 7)).Layered("bass", "seq.a").Solve().Conflict!.Moves);

    [Fact]
    public void Nobody_moves_where_no_gear_has_another_channel() =>
        Assert.Empty(Puzzle.Of(Puzzle.Fixed("a", 2), Puzzle.Fixed("b", 2)).AllApart().Solve().Conflict!.Moves);

    [Fact]
    public void Where_a_third_clashes_too_a_move_still_keeps_off_the_others() =>
        Assert.Equal(
            [new ChannelMove(0, 3)],
            Puzzle.Of(Puzzle.Fixed("a", 2, gear: ChannelVoice.Range(1, 4)), Puzzle.Fixed("b", 2), Puzzle.Fixed("c", 2), Puzzle.Fixed("d", 1))
                .AllApart().Solve().Conflict!.Moves);

    [Fact]
    public void Pairs_of_voices_that_do_not_exist_are_passed_over() =>
        Assert.Equal([1, 2], ChannelPuzzle.Solve([Puzzle.Auto("a"), Puzzle.Auto("b")], [(0, 7), (-1, 1)], [(0, 1), (2, 0), (9, 9)]).Channels);

    [Fact]
    public void Channels_outside_one_to_sixteen_are_no_channels()
    {
        Assert.Equal(0, ChannelVoice.Only(0));
        Assert.Equal(0, ChannelVoice.Only(17));
        Assert.Equal(ChannelVoice.Any, ChannelVoice.Range(int.MinValue, int.MaxValue));
    }
}
