using RigLang.Connectors;

namespace RigLang.Tests.Size;

/// <summary>Rigs that no stage holds, each with one kind of list made long: what is told of them has bounds all the same.</summary>
internal static class BigRigs
{
    private const string Box = """
        gear Box {
          in midi : midi on din-5
          out out : midi on din-5
          route midi to out
          track a sends out
          part voice receives midi on channel any
          clock sends out
          clock follows internal, midi
          filters any
        }

        """;

    /// <summary>By name, so that a failing test says which; of <paramref name="n"/> boxes, jacks or lines.</summary>
    public static IReadOnlyDictionary<string, Func<int, string>> All { get; } = new Dictionary<string, Func<int, string>>(StringComparer.Ordinal)
    {
        ["a chain of clocks"] = n => Box + Devices(n, "Box", "clock midi") + Lines(n - 1, i => $"connect box{i}.out to box{i + 1}.midi"),
        ["a ring of clocks"] = n => Box + Devices(n, "Box", "clock midi", "midi drops notes") + Lines(n, i => $"connect box{i}.out to box{(i + 1) % n}.midi"),
        ["a merger of clocks"] = n => Box + $"gear Join {{\n  in in0..in{n - 1} : midi on din-5\n  out out : midi on din-5\n  route in0..in{n - 1} to out\n}}\ndevice join : Join\n"
            + Devices(n, "Box", "a on channel 1") + "device last : Box {\n  clock midi\n  voice on channel 1\n}\nconnect join.out to last.midi\n" + Lines(n, i => $"connect box{i}.out to join.in{i}"),
        ["a splitter to one channel"] = n => Box + $"gear Split {{\n  in in : midi on din-5\n  out out0..out{n - 1} : midi on din-5\n  route in to out0..out{n - 1}\n}}\ndevice split : Split\n"
            + Devices(n, "Box", "voice on channel 1", "clock midi") + "device first : Box {\n  a on channel 1\n}\nconnect first.out to split.in\n" + Lines(n, i => $"connect split.out{i} to box{i}.midi"),
        ["a note that comes by many ways"] = n => Box + $$"""
            gear Split {
              in in : midi on din-5
              out out0..out{{n - 1}} : midi on din-5
              route in to out0..out{{n - 1}}
            }
            gear Join {
              in in0..in{{n - 1}} : midi on din-5
              out out : midi on din-5
              route in0..in{{n - 1}} to out
            }
            device first, last : Box
            device split : Split
            device join : Join
            connect first.out to split.in
            connect join.out to last.midi

            """ + Lines(n, i => $"connect split.out{i} to join.in{i}"),
        ["filters at the end of a chain"] = n => Box + Devices(n, "Box", "a on channel 1") + $"device last : Box {{\n  midi drops notes, clock\n  clock midi\n  voice on channel 1\n}}\n"
            + Lines(n - 1, i => $"connect box{i}.out to box{i + 1}.midi") + $"connect box{n - 1}.out to last.midi\n" + Lines(n, i => $"must notes, clock from box{i} reach last"),
        ["a supply with many loads"] = n => $$"""
            gear Brick {
              out out0..out{{n - 1}} : dc 9 V centre-negative, 500 mA on barrel 5.5x2.1 mm
              in mains : mains 100 VA on iec-c14
            }
            gear Pedal {
              in power : dc 9 V centre-positive, 700 mA on barrel 5.5x2.1 mm
            }
            device brick : Brick
            """ + "\n" + Lines(n, i => $"device pedal{i} : Pedal\nconnect brick.out{i} to pedal{i}.power"),
        ["a daisy chain of many loads"] = n => $$"""
            gear Brick {
              out out : dc 9 V centre-negative, 500 mA on barrel 5.5x2.1 mm
            }
            gear Daisy {
              in in : dc 9 V on barrel 5.5x2.1 mm
              out out0..out{{n - 1}} : dc 9 V on barrel 5.5x2.1 mm
              joins in to out0..out{{n - 1}}
            }
            gear Pedal {
              in power : dc 12 V centre-positive, 700 mA on barrel 5.5x2.1 mm
            }
            gear Other {
              in power : dc 9 V centre-negative, 700 mA on barrel 5.5x2.1 mm
            }
            device brick : Brick
            device daisy : Daisy
            connect brick.out to daisy.in
            """ + "\n" + Lines(n, i => $"device pedal{i} : {(i % 2 == 0 ? "Pedal" : "Other")}\nconnect daisy.out{i} to pedal{i}.power"),
        ["a ring of grounds"] = n => """
            gear Amp {
              in mains : mains 20 VA on iec-c14
              in in : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
              route in to out
            }

            """ + Lines(n, i => $"device amp{i} : Amp") + Lines(n - 1, i => $"connect amp{i}.out to amp{i + 1}.in with 1 m")
            + $"gear Strip {{\n  in plug : mains on schuko\n  out out0..out{n - 1} : mains on iec-c13\n  joins plug to out0..out{n - 1}\n}}\ndevice strip : Strip\n" + Lines(n, i => $"connect strip.out{i} to amp{i}.mains"),
        ["a connection of many plugs"] = n => $"gear Left {{\n  out o0..o{n - 1} : audio mono line on xlr-3\n}}\ngear Right {{\n  in i0..i{n - 1} : midi on din-5\n}}\ndevice l : Left\ndevice r : Right\n"
            + $"connect l.o0..o{n - 1} to r.i0..i{n - 1}\nconnect r.i0..i{n - 1} to r.i0..i{n - 1}\nconnect l.o0..o{n - 1} to l.o0..o{n - 1}\n",
        ["promises of many to many"] = n => Box + Devices(n, "Box") + $"must notes from {List(n / 2, i => $"box{i}")} reach {List(n / 2, i => $"box{i}")}\nnever clock from {List(n / 2, i => $"box{i}")} reach {List(n / 2, i => $"box{i}")}\n"
            + Lines(n - 1, i => $"connect box{i}.out to box{i + 1}.midi"),
        ["gear like gear in a circle"] = n => Lines(n, i => $"gear G{i} like G{(i + 1) % n} {{\n}}\ndevice g{i} : G{i}"),
        ["words that nobody knows"] = n => Lines(n, i => $"device x{i} : Nothing{i}\nconnect x{i}.nowhere{i} to y{i}.elsewhere{i}") + $"gear Odd {{\n  in in : {List(n, i => $"word{i}")} on din-5\n}}\n",
        ["one name that nothing has"] = n => Lines(n, i => $"connect nobody.out{i} to nobody.in{i}"),
        ["a hundred of one name"] = n => Box + Lines(n, _ => "device same : Box"),
        ["devices without a cable"] = n => Box + Devices(n, "Box", "clock midi", "voice on channel 1"),
        ["crowded tracks"] = n => "gear Many {\n  out out : midi on din-5\n" + $"  track t0..t{n - 1} sends out\n}}\n" + Box + $"device many : Many {{\n" + Lines(n, i => $"  t{i} on channel 1") + "}\n"
            + "device last : Box {\n  voice on channel 2\n}\nconnect many.out to last.midi\n",
        ["names as long as a page"] = n => $"gear {new string('G', 40 * n)} {{\n  out {new string('o', 40 * n)} : audio mono line on xlr-3\n}}\ndevice {new string('d', 40 * n)} : {new string('G', 40 * n)}\n"
            + $"connect {new string('d', 40 * n)}.{new string('o', 40 * n)} to {new string('e', 40 * n)}.{new string('i', 40 * n)}\nmust audio from {new string('d', 40 * n)} reach {new string('d', 40 * n)}\n",
    };

    private static string Devices(int count, string gear, params string[] settings) => Lines(count, i =>
        settings.Length == 0 ? $"device box{i} : {gear}" : $"device box{i} : {gear} {{\n  {string.Join("\n  ", settings)}\n}}");

    private static string Lines(int count, Func<int, string> line) => string.Concat(Enumerable.Range(0, count).Select(i => line(i) + "\n"));

    private static string List(int count, Func<int, string> name) => string.Join(", ", Enumerable.Range(0, count).Select(name));
}
