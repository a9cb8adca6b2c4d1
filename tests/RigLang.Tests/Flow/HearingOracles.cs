using CsCheck;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Tests.Flow.Channels;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>
/// Who hears whom in random small rigs, on channels that are set, open or chosen, over cables and inside a box: what traces, the channel
/// chart and `auto` make of it, compared with notes that are pushed hop by hop.
/// </summary>
public class HearingOracles
{
    private const int Iterations = 120;

    [Fact]
    public void A_trace_of_notes_names_the_parts_that_notes_come_to_and_those_played_inside()
    {
        var (inside, byCable) = (0, 0);
        RandomMidiRig.Bands.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var notes = new HopByHop(rig).NotesAtParts().ToLookup(n => n.Track);
                foreach (var (device, track) in TracksOf(rig))
                {
                    var cable = notes[track]
                        .Select(n => (n, Sounds: HopByHop.Sounds(rig, n.To, n.Part, n.Channel)))
                        .Where(h => h.Sounds != false)
                        .Select(h => $"{h.n.To.Name}.{h.n.Part.Name} on {h.n.Channel}{(h.Sounds == true ? "" : " perhaps")}").ToHashSet();
                    var local = HopByHop.PlayedInside(device, track).Select(part => $"{part} on 0").ToHashSet();
                    var trace = Tracer.Answer(rig, $"notes from {device.Name}.{track.Name}").Trace!;
                    var told = trace.Heard.Where(h => h.Who.Contains('.', StringComparison.Ordinal)).Select(h => $"{h.Who} on {h.Channel}{(h.IsSure ? "" : " perhaps")}");
                    MidiFlowOracles.AssertSame(cable.Union(local), told, text);
                    Interlocked.Add(ref inside, local.Count);
                    Interlocked.Add(ref byCable, cable.Count);
                }
            },
            iter: Iterations);
        Assert.True(inside > Iterations / 4, $"only {inside} parts were played inside: the rigs show nothing");
        Assert.True(byCable > Iterations / 4, $"only {byCable} parts were played over cables: the rigs show nothing");
    }

    [Fact]
    public void The_chart_pairs_the_tracks_and_parts_that_hear_each_other_over_cables_or_inside()
    {
        var (pairs, conflicts) = (0, 0);
        RandomMidiRig.Bands.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var chart = ChannelChart.Of(rig);
                var heard = new HopByHop(rig).NotesAtParts().Where(n => HopByHop.Sounds(rig, n.To, n.Part, n.Channel) == true).ToList();
                var expected = heard.Select(n => $"{n.From.Name}.{n.Track.Name} {n.To.Name}.{n.Part.Name}")
                    .Concat(TracksOf(rig).SelectMany(t => HopByHop.PlayedInside(t.Device, t.Track), (t, part) => $"{t.Device.Name}.{t.Track.Name} {part}")).ToHashSet();
                MidiFlowOracles.AssertSame(expected, chart.Uses.Where(u => u.Sends).SelectMany(u => u.Partners, (use, part) => $"{use.Text} {part}"), text);
                MidiFlowOracles.AssertSame(expected, chart.Uses.Where(u => !u.Sends).SelectMany(u => u.Partners, (use, track) => $"{track} {use.Text}"), text);

                var clashes = heard
                    .Where(n => !IsLayered(n.From, n.Track.Name) && !IsLayered(n.To, n.Part.Name) && (!n.To.Channels.TryGetValue(n.Part.Name, out var set) || set.Word != "any"))
                    .GroupBy(n => $"{n.From.Name}.{n.Track.Name} on {n.Channel}:", n => $"{n.To.Name}.{n.Part.Name}")
                    .Where(group => group.Distinct().Count() > 1)
                    .Select(group => $"{group.Key} {Joined(group)}").ToList();
                MidiFlowOracles.AssertSame(clashes, chart.Conflicts.Select(c => $"{c.Track} on {c.Channel}: {Joined(c.Parts)}"), text);
                Interlocked.Add(ref pairs, expected.Count);
                Interlocked.Add(ref conflicts, clashes.Count);
            },
            iter: Iterations);
        Assert.True(pairs > Iterations / 4, $"only {pairs} pairs: the rigs show nothing");
        Assert.True(conflicts > Iterations / 50, $"only {conflicts} conflicts: the rigs show nothing");

        static string Joined(IEnumerable<string> names) => string.Join(", ", names.Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Automatic_channels_are_the_lowest_that_plain_trial_finds_for_notes_pushed_hop_by_hop()
    {
        var (chosen, exhausted) = (0, 0);
        RandomMidiRig.Bands.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                foreach (var (names, puzzle) in PuzzlesOf(rig))
                {
                    var trial = puzzle.ByTrial();
                    var found = names.Select(voice => rig.Midi.Channels.Chosen.GetValueOrDefault(voice)).ToList();
                    var told = $"{puzzle}\nin the rig\n{text}";
                    if (trial is null)
                    {
                        Assert.True(rig.Midi.AutoConflicts.Any(c => c.Members.All(m => names.Contains((m.Device, m.Name)))), $"no conflict is told of {told}");
                        Interlocked.Increment(ref exhausted);
                        continue;
                    }
                    Assert.DoesNotContain(rig.Midi.AutoConflicts, c => c.Members.Any(m => names.Contains((m.Device, m.Name))));
                    for (var i = 0; i < names.Count; i++)
                    {
                        var isAuto = IsAuto(names[i].Device, names[i].Name);
                        Assert.True(found[i] == (isAuto ? trial[i] : 0), $"{puzzle.Voices[i].Name} is on channel {found[i]}, not {trial[i]}: {told}");
                        Interlocked.Add(ref chosen, isAuto ? 1 : 0);
                    }
                }
            },
            iter: Iterations);
        Assert.True(chosen > Iterations / 2, $"only {chosen} channels were chosen: the rigs show nothing");
        Assert.True(exhausted > Iterations / 50, $"channels were exhausted only {exhausted} times: the rigs show nothing");
    }

    /// <summary>
    /// The tracks and parts of a rig as puzzles, one for each group that has to do with one another. A track and the part it is promised
    /// to share; a part stands apart from tracks that come to it without a promise, and from parts that hear a same track.
    /// </summary>
    private static IEnumerable<(List<(DeviceSymbol Device, string Name)> Names, Puzzle Puzzle)> PuzzlesOf(Rig rig)
    {
        var voices = new SortedDictionary<string, (DeviceSymbol Device, string Name, ChannelVoice Voice)>(StringComparer.Ordinal);
        foreach (var device in rig.Names.Devices)
        {
            foreach (var (name, range) in device.Gear!.Tracks.Values.Select(t => (t.Name, t.Channels)).Concat(device.Gear.Parts.Values.Select(p => (p.Name, p.Channels))))
            {
                var isSet = device.Channels.TryGetValue(name, out var set);
                var text = $"{device.Name}.{name}";
                if (isSet && set.Word == "auto")
                {
                    voices.Add(text, (device, name, Puzzle.Auto(text, range.First, range.Last)));
                }
                else if ((isSet ? set.Channel : range.IsFixed ? range.First : null) is { } channel)
                {
                    voices.Add(text, (device, name, Puzzle.Fixed(text, channel)));
                }
            }
        }
        string[] names = [.. voices.Keys];
        var comings = new HopByHop(rig).NotesAtParts().Select(n => (Track: $"{n.From.Name}.{n.Track.Name}", Part: $"{n.To.Name}.{n.Part.Name}")).Distinct().ToList();
        var promised = rig.Names.Expectations
            .SelectMany(e => e.To, (e, to) => (Track: $"{e.From.Device.Name}.{e.From.Track!.Name}", Part: $"{to.Device.Name}.{to.Part!.Name}"))
            // What is promised of a track whose channel nobody said binds nobody.
            .Where(p => comings.Contains(p) && voices.ContainsKey(p.Track) && voices.ContainsKey(p.Part)).ToHashSet();
        var together = promised.GroupBy(p => p.Track).SelectMany(g => g.SelectMany(_ => g, (a, b) => (a.Part, b.Part))).ToHashSet();
        var apart = comings.Where(c => !promised.Contains(c)).Concat(
            from byTrack in comings.GroupBy(c => c.Track, c => c.Part)
            from a in byTrack
            from b in byTrack
            where string.CompareOrdinal(a, b) < 0 && !together.Contains((a, b)) && !(IsLayeredVoice(a) && IsLayeredVoice(b))
            select (a, b));
        var all = new Puzzle { Voices = [.. voices.Values.Select(v => v.Voice)], Same = Numbered(promised), Apart = Numbered(apart) };
        var groups = Enumerable.Range(0, names.Length).ToArray();
        foreach (var (a, b) in all.Same.Concat(all.Apart))
        {
            var (from, to) = (groups[a], groups[b]);
            groups = [.. groups.Select(group => group == from ? to : group)];
        }
        foreach (var group in Enumerable.Range(0, names.Length).GroupBy(voice => groups[voice]))
        {
            yield return ([.. group.Select(voice => (voices[names[voice]].Device, voices[names[voice]].Name))], all.Only(group));
        }

        bool IsLayeredVoice(string name) => voices.TryGetValue(name, out var voice) && IsLayered(voice.Device, voice.Name);

        // What is set by hand on both sides is not the choice of anybody.
        List<(int, int)> Numbered(IEnumerable<(string, string)> pairs) =>
        [
            .. pairs.Where(pair => voices.ContainsKey(pair.Item1) && voices.ContainsKey(pair.Item2) && (IsAutoVoice(pair.Item1) || IsAutoVoice(pair.Item2)))
                .Select(pair => (Array.IndexOf(names, pair.Item1), Array.IndexOf(names, pair.Item2))).Distinct(),
        ];

        bool IsAutoVoice(string name) => IsAuto(voices[name].Device, voices[name].Name);
    }

    private static IEnumerable<(DeviceSymbol Device, TrackSymbol Track)> TracksOf(Rig rig) =>
        rig.Names.Devices.SelectMany(device => device.Gear!.Tracks.Values, (device, track) => (device, track));

    private static bool IsAuto(DeviceSymbol device, string name) => device.Channels.TryGetValue(name, out var set) && set.Word == "auto";

    private static bool IsLayered(DeviceSymbol device, string name) => device.Channels.TryGetValue(name, out var set) && set.Layered;
}
