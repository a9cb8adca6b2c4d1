using System.Globalization;
using System.Text;
using RigLang.Checks;
using RigLang.Findings;

namespace RigLang.Fuzz.Growth;

/// <summary>Every statement many times, long and wide; every check's mistake many times; and boxes joined in chains, stars, rings and meshes.</summary>
internal static class GrowthKinds
{
    public static IReadOnlyList<GrowthKind> All { get; } = [.. Lines(), .. Lists(), .. Shapes(), .. CheckList.All.Select(OfCheck)];

    /// <summary>A rig with something of everything, to warm up with.</summary>
    public static string Everything => string.Join('\n', Texts.Shipped);

    private const string Boxes = """
        import "shared/leads.rig"
        gear Seq {
          out midi : midi on din-5
          track a sends midi
          clock follows internal
          clock sends midi
        }
        gear Box {
          in  in   : midi on din-5
          in  in2  : midi on din-5
          out out  : midi on din-5
          out out2 : midi on din-5
          route in to out, out2
          route in2 to out, out2
          filters any
          part voice receives in on channel any
          clock follows internal, in
        }
        device seq : Seq {
          a on channel 2
          clock internal
        }

        """;

    private const string Desks = """
        import "shared/leads.rig"
        gear Voice {
          in  inlet : mains 230 V earthed on iec-c14
          out line  : audio mono line on ts 6.35 mm
        }
        gear Sill {
          in  inlet : mains 230 V earthed on iec-c14
          in  a, b  : audio mono line on ts 6.35 mm
          out main, sub : audio mono line on ts 6.35 mm
          route a to main, sub
          route b to main, sub
        }
        gear Wall {
          out o1, o2, o3 : mains 230 V earthed on mains
        }

        """;

    private const string Supplies = """
        import "shared/leads.rig"
        gear Wall {
          out o1, o2 : mains 230 V earthed on mains
        }
        gear Strip {
          in  plug   : mains 230 V earthed on mains
          out o1, o2 : mains 230 V earthed on mains
          join plug to o1, o2
        }
        gear Pedal {
          in  power : dc 9 V centre-negative, 30 mA on barrel 5.5x2.1 mm
          out thru  : dc 9 V centre-negative on barrel 5.5x2.1 mm
          join power to thru
        }
        gear Brick {
          out dc : dc 9 V centre-negative, 500 mA on barrel 5.5x2.1 mm
        }

        """;

    private static IEnumerable<GrowthKind> Lines()
    {
        yield return new("line, empty", n => Each(n, _ => ""));
        yield return new("line, comment", n => Each(n, i => $"// comment {i}"));
        yield return new("line, documentation", n => Each(n, i => $"/// Box {i}") + "gear A {\n}\n");
        yield return new("line, rig figure", n => $"rig \"x\" {{\n{Each(n, i => $"  tempo {i + 1} bpm")}}}\n");
        yield return new("line, rig block", n => Each(n, i => $"rig \"x\" {{\n  tempo {i + 1} bpm\n}}"));
        yield return new("line, import of nothing", n => Each(n, i => $"import \"none{i}.rig\""));
        yield return new("line, gear", n => Each(n, i => $"gear G{i} {{\n  in a : midi on din-5\n}}"));
        yield return new("line, gear like the one before", n => "gear G0 {\n  in a : midi on din-5\n}\n" + Each(n, i => $"gear G{i + 1} like G{i} {{\n  in a : midi on din-5\n}}"));
        yield return new("line, gear like one", n => "gear G {\n  in a : midi on din-5\n}\n" + Each(n, i => $"gear G{i} like G {{\n  in b : midi on din-5\n}}"));
        yield return new("line, port", n => $"gear G {{\n{Each(n, i => $"  in p{i} : midi on din-5")}}}\n");
        foreach (var verb in new[] { "route", "switch", "join" })
        {
            yield return new($"line, {verb}", n => $"gear G {{\n{Each(n, i => $"  in a{i} : midi on din-5\n  out b{i} : midi on din-5\n  {verb} a{i} to b{i}")}}}\ndevice g : G\n");
        }
        yield return new("line, part", n => $"gear G {{\n  in a : midi on din-5\n{Each(n, i => $"  part p{i} receives a on channel any")}}}\ndevice g : G\n");
        yield return new("line, track", n => $"gear G {{\n  out a : midi on din-5\n{Each(n, i => $"  track t{i} sends a on channel 2")}}}\ndevice g : G\n");
        yield return new("line, filters", n => $"gear G {{\n  in a : midi on din-5\n{Each(n, _ => "  filters clock, notes")}}}\ndevice g : G\n");
        yield return new("line, clock follows", n => $"gear G {{\n{Each(n, i => $"  in p{i} : midi on din-5\n  clock follows p{i}")}}}\ndevice g : G\n");
        yield return new("line, lead", n => Each(n, i => $"lead L{i} : trs 3.5 mm to trs 3.5 mm"));
        yield return new("line, lead with wires", n => Each(n, i => $"lead L{i} : trs 3.5 mm to trs 3.5 mm {{\n  tip to ring\n  ring to tip\n  sleeve to sleeve\n}}"));
        yield return new("line, wire of one lead", n => $"lead L : trs 3.5 mm to trs 3.5 mm {{\n{Each(n, _ => "  tip to ring")}}}\n");
        yield return new("line, device", n => Boxes + Each(n, i => $"device b{i} : Box"));
        yield return new("line, setting of a part", n => Boxes + $"device b : Box {{\n{Each(n, i => $"  voice on channel {i % 16 + 1}")}}}\n");
        yield return new("line, setting of a filter", n => Boxes + $"device b : Box {{\n{Each(n, _ => "  out drops clock")}}}\n");
        yield return new("line, map of a channel", n => Boxes + $"device b : Box {{\n{Each(n, i => $"  out maps channel {i % 16 + 1} to {(i + 1) % 16 + 1}")}}}\n");
        yield return new("line, connect to nothing", n => Each(n, i => $"connect a{i}.x to b{i}.y"));
        yield return new("line, connect to one jack", n => Boxes + "device b : Box\n" + Each(n, _ => "connect seq.midi to b.in"));
        yield return new("line, stock", n => "import \"shared/leads.rig\"\nstock {\n" + Each(n, i => $"  {i + 1} MidiDin 1.5 m") + "}\n");
        yield return new("line, must", n => Boxes + "device b : Box\nconnect seq.midi to b.in\n" + Each(n, _ => "must notes from seq.a reach b"));
        yield return new("line, never", n => Boxes + "device b : Box\nconnect seq.midi to b.in\n" + Each(n, _ => "never notes from seq.a reach b"));
        yield return new("line, accept", n => Boxes + Each(n, i => $"device b{i} : Box\naccept unwired-device on b{i} because \"tonight\""));
        yield return new("line, broken", n => Each(n, _ => "device device device"));
        yield return new("line, open brace", n => Each(n, i => $"gear G{i} {{"));
        yield return new("line, closing brace", n => Each(n, _ => "}"));
        yield return new("line, unknown word", n => Each(n, i => $"gear G{i} {{\n  in a : miidi on din-5\n}}"));
    }

    private static IEnumerable<GrowthKind> Lists()
    {
        yield return new("list, name", n => $"device {new string('x', 40 * n)} : Nothing\n");
        yield return new("list, quoted name", n => $"device \"{new string('x', 40 * n)}\" : Nothing\n");
        yield return new("list, words of a signal", n => $"gear G {{\n  in a : {string.Join(' ', Enumerable.Repeat("midi", n))} on din-5\n}}\n");
        yield return new("list, ports", n => $"gear G {{\n  in {Names(n, "p")} : midi on din-5\n}}\ndevice g : G\n");
        yield return new("list, devices", n => Boxes + $"device {Names(n, "b")} : Box\n");
        yield return new("list, plugs", n => $"connect {Names(n, "a.p")} to {Names(n, "b.p")}\n");
        yield return new("list, leads in series", n => Boxes + $"device b : Box\nconnect seq.midi to b.in with {string.Join(" + ", Enumerable.Repeat("MidiDin 1 m", n))}\n");
        yield return new("list, accepted places", n => Boxes + $"device {Names(n, "b")} : Box\naccept unwired-device on {Names(n, "b")} because \"tonight\"\n");
        yield return new("list, part receives", n => $"gear G {{\n  in {Names(n, "a")} : midi on din-5\n  part p receives {Names(n, "a")} on channel any\n}}\ndevice g : G\n");
        yield return new("list, parts", n => $"gear G {{\n  in a : midi on din-5\n  part {Names(n, "p")} receives a on channel any\n}}\ndevice g : G\n");
        yield return new("list, tracks", n => $"gear G {{\n  out a : midi on din-5\n  track {Names(n, "t")} sends a on channel 2\n}}\ndevice g : G\n");
        yield return new("list, clock sources", n => $"gear G {{\n  in {Names(n, "a")} : midi on din-5\n  clock follows {Names(n, "a")}\n}}\ndevice g : G\n");
        yield return new("list, route to one", n => $"gear G {{\n  in {Names(n, "a")} : midi on din-5\n  out b : midi on din-5\n  route {Names(n, "a")} to b\n}}\ndevice g : G\n");
        yield return new("list, route from one", n => $"gear G {{\n  in a : midi on din-5\n  out {Names(n, "b")} : midi on din-5\n  route a to {Names(n, "b")}\n}}\ndevice g : G\n");
        yield return new("list, joined in pairs", n => $"gear G {{\n  in {Names(n, "a")} : midi on din-5\n  out {Names(n, "b")} : midi on din-5\n  join {Names(n, "a")} to {Names(n, "b")} in pairs\n}}\ndevice g : G\n");
        foreach (var verb in new[] { "route", "switch", "join" })
        {
            yield return new($"product, {verb} of MIDI", n => Product(verb, "midi on din-5", n), Least: 25);
            yield return new($"product, {verb} of audio", n => Product(verb, "audio mono line on ts 6.35 mm", n), Least: 25);
        }
        yield return new("product, parts receive ports", n => $"gear G {{\n  in {Names(n, "a")} : midi on din-5\n  part {Names(n, "p")} receives {Names(n, "a")} on channel any\n}}\ndevice g : G\n", Least: 25);
        yield return new("product, tracks send to ports", n => $"gear G {{\n  out {Names(n, "a")} : midi on din-5\n  track {Names(n, "t")} sends {Names(n, "a")} on channel 2\n}}\ndevice g : G\n", Least: 25);
        yield return new("product, parts sound at ports", n => $"gear G {{\n  in a : midi on din-5\n  out {Names(n, "l")} : audio mono line on ts 6.35 mm\n  part {Names(n, "p")} receives a on channel any, sounds at {Names(n, "l")}\n}}\ndevice g : G\n", Least: 25);
        yield return new("product, must from many to many", n => Boxes + $"device s1..s{n} : Seq\ndevice b1..b{n} : Box\nmust notes from {Names(n, "s")} reach {Names(n, "b")}\n", Least: 25);
        yield return new("product, never from many to many", n => Boxes + $"device s1..s{n} : Seq\ndevice b1..b{n} : Box\nnever notes from {Names(n, "s")} reach {Names(n, "b")}\n", Least: 25);
        yield return new("product, devices and their settings", n => Boxes + $"device {Names(n, "b")} : Box {{\n{Each(n, i => $"  voice on channel {i % 16 + 1}")}}}\n", Least: 25);
    }

    private static IEnumerable<GrowthKind> Shapes()
    {
        yield return new("MIDI, chain", n => Boxes + Chain(n));
        yield return new("MIDI, chain and a must for each box", n => Boxes + Chain(n) + Each(n, i => $"must notes from seq.a reach b{i}"));
        yield return new("MIDI, broken chain and a must for each box", n => Boxes + Chain(n).Replace("connect seq.midi to b0.in\n", "", StringComparison.Ordinal) + Each(n, i => $"must notes from seq.a reach b{i}"), Most: GrowthKind.Product);
        yield return new("MIDI, chain and a never for each box", n => Boxes + Chain(n) + Each(n, i => $"never notes from seq.a reach b{i}"), Most: GrowthKind.Product);
        yield return new("MIDI, star", n => Boxes + $"gear Hub {{\n  in in : midi on din-5\n  out o0..o{n} : midi on din-5\n  route in to o0..o{n}\n}}\ndevice hub : Hub\nconnect seq.midi to hub.in\n"
            + Each(n, i => $"device b{i} : Box {{\n  voice on channel 2 layered\n}}\nconnect hub.o{i} to b{i}.in"));
        yield return new("MIDI, ring", n => Boxes + Chain(n) + $"connect b{n - 1}.out to b0.in2\n");
        yield return new("MIDI, ladder of two ways", n => Boxes + Chain(n) + Each(n - 1, i => $"connect b{i}.out2 to b{i + 1}.in2"), Least: 25);
        yield return new("MIDI, mesh", n => Boxes + Chain(n) + Each(n, i => $"connect b{i}.out2 to b{(i * 7 + 3) % n}.in2"));
        yield return new("MIDI, mesh with channel maps", n => Boxes + Chain(n, "\n  out maps channel 2 to 3") + Each(n, i => $"connect b{i}.out2 to b{(i * 7 + 3) % n}.in2"), Least: 25);
        yield return new("MIDI, many sources into a chain", n => Boxes + Chain(n) + Each(n, i => $"device s{i} : Seq {{\n  a on channel {i % 16 + 1}\n}}\nconnect s{i}.midi to b{i}.in2"), Most: GrowthKind.Product);
        yield return new("clock, two leaders down a chain", n => Boxes + "device second : Seq {\n  a on channel 3\n  clock internal\n}\nconnect second.midi to b0.in2\n" + Chain(n, "\n  clock in"));
        yield return new("clock, a leader at each box of a chain", n => Boxes + Chain(n, "\n  clock in") + Each(n, i => $"device s{i} : Seq {{\n  clock internal\n}}\nconnect s{i}.midi to b{i}.in2"), Least: 25);
        yield return new("clock, followers in a ring", n => Boxes + Each(n, i => $"device r{i} : Relay {{\n  clock in\n}}\nconnect r{i}.out to r{(i + 1) % n}.in")
            + "gear Relay {\n  in in : midi on din-5\n  out out : midi on din-5\n  clock follows internal, in\n  clock sends out\n}\n");
        yield return new("channels, automatic for as many parts", n => Boxes + "gear Many {\n  out midi : midi on din-5\n" + Each(n, i => $"  track t{i} sends midi") + "}\ndevice many : Many {\n"
            + Each(n, i => $"  t{i} on channel auto") + "}\nconnect many.midi to b0.in2\n" + Chain(n, settings: "  voice on channel auto") + Each(n, i => $"must notes from many.t{i} reach b{i}"), Least: 25, Most: GrowthKind.Product);
        yield return new("channels, all on one", n => Boxes + Chain(n, settings: "  voice on channel 2") + Each(n, i => $"device s{i} : Seq {{\n  a on channel 2\n}}"));
        yield return new("audio, chain", n => Desks + Each(n, i => $"device d{i} : Sill") + Each(n - 1, i => $"connect d{i}.main to d{i + 1}.a"));
        yield return new("audio, ladder of two ways", n => Desks + Each(n, i => $"device d{i} : Sill") + Each(n - 1, i => $"connect d{i}.main to d{i + 1}.a\nconnect d{i}.sub to d{i + 1}.b"), Least: 25);
        yield return new("audio, star", n => Desks + $"gear Wide {{\n  in i0..i{n} : audio mono line on ts 6.35 mm\n  out main : audio mono line on ts 6.35 mm\n  route i0..i{n} to main\n}}\ndevice wide : Wide\n"
            + Each(n, i => $"device v{i} : Voice\nconnect v{i}.line to wide.i{i}"));
        yield return new("audio, chain and a must for each", n => Desks + "device v : Voice\nconnect v.line to d0.a\n" + Each(n, i => $"device d{i} : Sill\nmust audio from v reach d{i}") + Each(n - 1, i => $"connect d{i}.main to d{i + 1}.a"));
        yield return new("audio, outputs into one input", n => Desks + "device d : Sill\n" + Each(n, i => $"device v{i} : Voice\nconnect v{i}.line to d.a"));
        yield return new("ground, a loop for each box", n => Desks + $"gear Wide {{\n  in inlet : mains 230 V earthed on iec-c14\n  in i0..i{n} : audio mono line on ts 6.35 mm\n}}\ndevice wide : Wide\ndevice wall : Wall\nconnect wall.o1 to wide.inlet\n"
            + Each(n, i => $"device w{i} : Wall\ndevice v{i} : Voice\nconnect w{i}.o1 to v{i}.inlet\nconnect v{i}.line to wide.i{i}"));
        yield return new("ground, chain of loops", n => Desks + Each(n, i => $"device w{i} : Wall\ndevice d{i} : Sill\nconnect w{i}.o1 to d{i}.inlet") + Each(n - 1, i => $"connect d{i}.main to d{i + 1}.a"));
        yield return new("power, strip in strip", n => Supplies + "device wall : Wall\nconnect wall.o1 to s0.plug\n" + Each(n, i => $"device s{i} : Strip") + Each(n - 1, i => $"connect s{i}.o1 to s{i + 1}.plug"));
        yield return new("power, daisy chain", n => Supplies + "device brick : Brick\nconnect brick.dc to p0.power\n" + Each(n, i => $"device p{i} : Pedal") + Each(n - 1, i => $"connect p{i}.thru to p{i + 1}.power"));
        yield return new("power, a brick for each", n => Supplies + Each(n, i => $"device k{i} : Brick\ndevice p{i} : Pedal\nconnect k{i}.dc to p{i}.power with DcLead 1 m"));
        yield return new("USB, hub behind hub", n => "gear Host {\n  out usb : usb host 5 V 500 mA on usb-a\n}\ngear Hub {\n  in up : usb device on usb-b\n  out d1, d2 : usb host 5 V 100 mA on usb-a\n  route up to d1, d2\n}\ndevice host : Host\n"
            + "connect host.usb to h0.up\n" + Each(n, i => $"device h{i} : Hub") + Each(n - 1, i => $"connect h{i}.d1 to h{i + 1}.up"));
    }

    private static string Chain(int n, string setting = "", string settings = "") =>
        "connect seq.midi to b0.in\n" + Each(n, i => $"device b{i} : Box {{\n{(settings.Length > 0 ? settings : "  voice on channel 2 layered")}{setting}\n}}") + Each(n - 1, i => $"connect b{i}.out to b{i + 1}.in");

    private static string Product(string verb, string signal, int n) =>
        $"gear G {{\n  in {Names(n, "a")} : {signal}\n  out {Names(n, "b")} : {signal}\n  {verb} {Names(n, "a")} to {Names(n, "b")}\n}}\ndevice g : G\n";

    /// <summary>A check's own mistake, made many times by different boxes.</summary>
    private static GrowthKind OfCheck(Check check) => new("check, " + check.Name, n => Copies.Of(check.BadExample, n));

    private static string Names(int n, string stem) => string.Join(", ", Enumerable.Range(1, n).Select(i => string.Create(CultureInfo.InvariantCulture, $"{stem}{i}")));

    private static string Each(int n, Func<int, string> lines)
    {
        var text = new StringBuilder();
        for (var i = 0; i < n; i++)
        {
            text.Append(lines(i)).Append('\n');
        }
        return text.ToString();
    }
}
