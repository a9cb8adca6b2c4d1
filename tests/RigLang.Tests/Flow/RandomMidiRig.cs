using CsCheck;
using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>
/// Small rigs in any topology: each device of gear of its own, with inputs, outputs, a USB jack or two, DIN sync and pulse jacks,
/// routes from any to any (a thru, a splitter, a merger, a computer that routes or does not), a switch, tracks, parts that some of
/// them play inside, a clock section, filters, maps, channels set, left open or `auto`, and cables anyhow.
/// </summary>
internal static class RandomMidiRig
{
    public static readonly Gen<string> Texts = Gen.Int[0, 9_999].Array[600].Select(numbers => Write(new Draws(numbers), players: 50, filters: 25, channels: 4));

    /// <summary>Rigs of the same kind in which more is played and less is filtered.</summary>
    public static readonly Gen<string> Bands = Gen.Int[0, 9_999].Array[600].Select(numbers => Write(new Draws(numbers), players: 85, filters: 3, channels: 2));

    /// <summary>Mistakes that would leave out a part of what was generated; a rig of this kind makes none.</summary>
    private static readonly string[] Unread =
    [
        "syntax-error", "unbalanced-block", "unknown-name", "duplicate-name", "unknown-word", "out-of-range", "incomplete-declaration", "impossible-connector",
        "missing-ability", "jack-in-use", "plug-does-not-fit", "wrong-number-of-ends", "no-lead-fits", "signal-mismatch", "midi-loop-open", "ends-swapped",
        "sync-on-midi-lead",
    ];

    /// <summary>The rig, after a look that the compiler understood all of it and every cable carries what it is for.</summary>
    public static Rig Compile(string text)
    {
        var compilation = Rigs.Compile(text);
        Assert.True(!compilation.Names().Intersect(Unread).Any(), compilation.Told() + "\n" + text);
        Assert.Equal(text.Split('\n').Count(line => line.StartsWith("connect ", StringComparison.Ordinal)),
            compilation.Rig.Links.Links.Count(l => l.Kind is SignalKind.Midi or SignalKind.Usb or SignalKind.Pulse or SignalKind.DinSync));
        return compilation.Rig;
    }

    private sealed class Draws(int[] numbers)
    {
        private int _next;

        public int Below(int limit) => numbers[_next++ % numbers.Length] % limit;

        public int Between(int least, int most) => least + Below(most - least + 1);

        public bool Chance(int percent) => Below(100) < percent;

        public List<T> Some<T>(IEnumerable<T> all, int percent) => [.. all.Where(_ => Chance(percent))];

        public List<T> Shuffled<T>(IEnumerable<T> all) => [.. all.Select(item => (item, order: Below(10_000))).OrderBy(i => i.order).Select(i => i.item)];
    }

    /// <param name="players">Of a hundred devices, how many have tracks, and how many of those that can have parts have some.</param>
    /// <param name="filters">Of a hundred ports, how many have a filter.</param>
    /// <param name="channels">As many are set by hand, or fixed.</param>
    private static string Write(Draws draw, int players, int filters, int channels)
    {
        var lines = new List<string>();
        List<string> outs = [], ins = [], hosts = [], usbs = [], pulses = [], syncs = [], dinOuts = [], dinIns = [], allTracks = [], allParts = [];
        // Where a message comes to a switch once more on another channel, no one way of standing lets it on: a rig has switches or maps.
        var switchesLeft = draw.Chance(30) ? 2 : 0;
        var hasMaps = switchesLeft == 0;
        for (var i = draw.Between(2, 6); i > 0; i--)
        {
            WriteDevice($"d{i}", $"G{i}");
        }
        Connect(outs, ins, 90);
        Connect(hosts, usbs, 90);
        Connect(pulses, syncs, 70);
        Connect(dinOuts, dinIns, 90);
        if (allParts.Count > 0)
        {
            lines.AddRange(draw.Some(allTracks, 25).Select(track => $"must notes from {track} reach {string.Join(", ", draw.Shuffled(allParts).Take(draw.Between(1, 2)))}"));
        }
        return string.Join('\n', lines) + "\n";

        void WriteDevice(string device, string gear)
        {
            var myIns = Numbered("in", draw.Between(0, 3));
            var myOuts = Numbered("out", draw.Between(1, 3));
            var myHosts = draw.Chance(20) ? Numbered("host", 2) : [];
            var myUsb = draw.Chance(30) ? new[] { "usb" } : [];
            var (mySync, myPulse) = (draw.Chance(20) ? new[] { "sync" } : [], draw.Chance(20) ? new[] { "pulse" } : []);
            var (myDinIn, myDinOut) = (draw.Chance(30) ? new[] { "follow" } : [], draw.Chance(30) ? new[] { "lead" } : []);
            string[] froms = [.. myIns, .. myUsb, .. myHosts, .. mySync, .. myDinIn], tos = [.. myOuts, .. myUsb, .. myHosts, .. myPulse, .. myDinOut];
            string[] withoutNotes = [.. mySync, .. myPulse, .. myDinIn, .. myDinOut];
            outs.AddRange(myOuts.Select(p => $"{device}.{p}"));
            ins.AddRange(myIns.Select(p => $"{device}.{p}"));
            hosts.AddRange(myHosts.Select(p => $"{device}.{p}"));
            usbs.AddRange(myUsb.Select(p => $"{device}.{p}"));
            pulses.AddRange(myPulse.Select(p => $"{device}.{p}"));
            syncs.AddRange(mySync.Select(p => $"{device}.{p}"));
            dinOuts.AddRange(myDinOut.Select(p => $"{device}.{p}"));
            dinIns.AddRange(myDinIn.Select(p => $"{device}.{p}"));

            lines.Add($"gear {gear} {{");
            lines.AddRange(myIns.Select(p => $"  in {p} : midi on din-5"));
            lines.AddRange(myOuts.Select(p => $"  out {p} : midi on din-5"));
            lines.AddRange(myHosts.Select(p => $"  out {p} : usb host 5 V 900 mA on usb-a"));
            lines.AddRange(myUsb.Select(p => $"  in {p} : usb device on usb-b"));
            lines.AddRange(mySync.Select(p => $"  in {p} : pulse 2 ppqn 5 V on ts 3.5 mm"));
            lines.AddRange(myPulse.Select(p => $"  out {p} : pulse 2 ppqn 5 V on ts 3.5 mm"));
            lines.AddRange(myDinIn.Select(p => $"  in {p} : din-sync 24 ppqn on din-5"));
            lines.AddRange(myDinOut.Select(p => $"  out {p} : din-sync 24 ppqn on din-5"));
            var switched = froms.Length > 1 && switchesLeft > 0 && draw.Chance(60) ? myOuts[draw.Below(myOuts.Length)] : null;
            if (switched is not null)
            {
                switchesLeft--;
                lines.Add($"  switch {string.Join(", ", draw.Shuffled(froms).Take(draw.Between(2, 3)))} to {switched}");
            }
            var routed = draw.Chance(80) ? 65 : 0;
            var fed = new HashSet<string>();
            foreach (var from in froms)
            {
                var routes = draw.Some(tos.Where(to => to != from && to != switched), routed);
                fed.UnionWith(routes);
                AddList($"  route {from} to ", routes);
            }
            var last = new Dictionary<string, int>();
            var parts = froms.Except(withoutNotes).Any() && draw.Chance(players) ? Numbered("p", draw.Between(1, 2)) : [];
            var setParts = draw.Some(parts, 90);
            foreach (var part in parts)
            {
                var receives = draw.Some(froms.Except(withoutNotes), 70);
                var channel = setParts.Contains(part) ? Range(part) : $"channel {draw.Between(1, channels)}";
                lines.Add($"  part {part} receives {(receives.Count > 0 ? string.Join(", ", receives) : froms.Except(withoutNotes).First())} on {channel}");
            }
            var tracks = draw.Chance(players) ? Numbered("t", draw.Between(1, 2)) : [];
            var setByPlayer = draw.Some(tracks, 80);
            var withLocal = new List<string>();
            foreach (var track in tracks)
            {
                var sends = draw.Some(tos.Except(withoutNotes), 60);
                var channel = setByPlayer.Contains(track) ? (draw.Chance(20) ? $" on {Range(track)}" : "") : $" on channel {draw.Between(1, channels)}";
                var plays = draw.Some(parts, 40);
                withLocal.AddRange(plays.Count > 0 ? [track] : []);
                lines.Add($"  track {track} sends {(sends.Count > 0 ? string.Join(", ", sends) : myOuts[0])}{channel}{(plays.Count > 0 ? $", plays {string.Join(", ", plays)}" : "")}");
            }
            allTracks.AddRange(tracks.Select(t => $"{device}.{t}"));
            allParts.AddRange(parts.Select(p => $"{device}.{p}"));
            if (draw.Chance(40))
            {
                AddList("  clock sends ", draw.Some(tos, 60));
            }
            if (draw.Chance(30))
            {
                AddList("  transport sends ", draw.Some(tos.Except(myPulse), 60));
            }
            lines.Add($"  clock follows {string.Join(", ", ["internal", .. froms])}");
            lines.Add("  filters any");
            lines.Add("  maps channels");
            lines.Add("}");

            lines.Add($"device {device} : {gear} {{");
            if (froms.Length > 0 && draw.Chance(70))
            {
                lines.Add($"  clock {froms[draw.Below(froms.Length)]}");
            }
            // One that is left out here has a channel that nobody knows.
            lines.AddRange(draw.Some(setByPlayer, 85).Select(track => $"  {track} on channel {(draw.Chance(10) ? "off" : Channel(track))}"));
            lines.AddRange(draw.Some(setParts, 85).Select(part => $"  {part} on channel {(draw.Chance(20) ? (draw.Chance(50) ? "off" : "any") : Channel(part) + (draw.Chance(30) ? " layered" : ""))}"));
            lines.AddRange(draw.Some(withLocal, 30).Select(track => $"  {track} local off"));
            foreach (var port in draw.Some(froms.Concat(tos).Distinct(), filters))
            {
                var kinds = draw.Some(MessageKindNames.Table.Keys.Where(k => k != "any"), 30);
                AddList($"  {port} {(draw.Chance(70) ? "drops" : "passes only")} ", kinds);
            }
            // Tracks and maps are kept apart: what a map at an output does to the device's own tracks is not settled here.
            foreach (var port in draw.Some(hasMaps && tracks.Length == 0 ? froms.Concat(tos).Except(withoutNotes).Distinct() : [], 35))
            {
                lines.Add($"  {port} maps channel {draw.Between(1, 4)} to {string.Join(", ", Enumerable.Range(0, draw.Between(1, 2)).Select(_ => draw.Between(1, 5)).Distinct())}");
            }
            lines.AddRange(draw.Some(myOuts.Where(fed.Contains), 8).Select(port => $"  {port} thru off"));
            lines.Add("}");

            string Channel(string name) => draw.Chance(35) ? "auto" : $"{draw.Between(1, Math.Min(channels, last.GetValueOrDefault(name, 16)))}";

            string Range(string name) => draw.Chance(50) ? "channel any" : $"channel 1..{last[name] = draw.Between(2, 5)}";
        }

        void AddList(string start, List<string> items)
        {
            if (items.Count > 0)
            {
                lines.Add(start + string.Join(", ", items));
            }
        }

        void Connect(List<string> from, List<string> to, int percent) =>
            lines.AddRange(draw.Some(draw.Shuffled(from).Zip(draw.Shuffled(to)), percent).Select(c => $"connect {c.First} to {c.Second}"));
    }

    private static string[] Numbered(string name, int count) => [.. Enumerable.Range(1, count).Select(i => $"{name}{i}")];
}
