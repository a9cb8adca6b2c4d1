using CsCheck;

namespace RigLang.Fuzz.Generators;

/// <summary>
/// Rigs that mean something: gear, devices, cables and expectations that refer to one another, most of them rightly. A rig is
/// a list of its top-level statements, so that they can be put in another order.
/// </summary>
public static class RigGen
{
    /// <summary>Gear that goes together; each with some ports to plug and a mistake to make.</summary>
    private static readonly string[] SoundGear =
    [
        """
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          in  midi  : midi on din-5
          out thru  : midi on din-5
          in  sync  : pulse 2 ppqn 5 V on ts 3.5 mm
          out line  : audio mono line on ts 6.35 mm
          route midi to thru
          part voice receives midi on channel any, sounds at line
          clock follows internal, midi, sync
        }
        """,
        """
        gear Rook {
          out midi : midi on trs 3.5 mm type-b
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
          track a, b sends midi
          clock follows internal
          clock sends midi, sync
        }
        """,
        """
        gear Weir {
          in  in         : midi on din-5
          out out1..out3 : midi on din-5
          route in to out1..out3
          filters any
        }
        """,
        """
        gear Pad {
          in  power  : dc 9 V centre-negative, 100 mA on barrel 5.5x2.1 mm
          in  midi   : midi on trs 3.5 mm type-a
          out phones : audio stereo headphone on trs 3.5 mm
          part pad receives midi on channel any, sounds at phones
          clock follows internal, midi
        }
        """,
        """
        gear Desk {
          in  ch1..ch2 : audio mono line on ts 6.35 mm
          in  ch34     : audio stereo line normalled on 2 ts 6.35 mm
          in  mic      : audio mono mic balanced phantom on xlr-3
          out main     : audio stereo line on 2 trs 6.35 mm
          route ch1..ch2, ch34, mic to main
        }
        """,
        """
        gear Brick {
          out dc1..dc3 : dc 9 V centre-positive, 500 mA on barrel 5.5x2.1 mm
          out dc4      : dc 12 V centre-positive, 500 mA on barrel 5.5x2.1 mm
        }
        """,
        """
        gear Laptop {
          out usb : usb host 5 V 500 mA on usb-a
          battery 5 h
        }
        """,
    ];

    /// <summary>Gear with one mistake each, which must not make the rest of a rig a mistake.</summary>
    private static readonly string[] FaultyGear =
    [
        """
        gear Slip {
          in  power : dc 9 mA on barrel 5.5x2.1 mm
          out line  : audio mono lines on ts 6.35 mm
        }
        """,
        """
        gear Blot {
          in midi : midi on rca
          in aux  audio mono line on ts 6.35 mm
          out line : audio mono line on ts 6.35 mm
        }
        """,
        """
        gear Twice {
          out line : audio mono line on ts 6.35 mm
          out line : audio mono line on ts 3.5 mm
        }
        """,
    ];

    private static readonly (string Gear, string[] Ports)[] Ports =
    [
        ("Tern", ["power", "midi", "thru", "sync", "line"]),
        ("Rook", ["midi", "sync"]),
        ("Weir", ["in", "out1", "out2", "out3"]),
        ("Pad", ["power", "midi", "phones"]),
        ("Desk", ["ch1", "ch2", "ch34", "ch34.left", "ch34.right", "mic", "main", "main.left"]),
        ("Brick", ["dc1", "dc2", "dc3", "dc4"]),
        ("Laptop", ["usb"]),
        ("Slip", ["power", "line"]),
        ("Blot", ["midi", "aux", "line"]),
        ("Twice", ["line"]),
    ];

    private const string Range = "d0.out1..out3";
    private static readonly string[] RangeWritten = ["d0.out1", "d0.out2", "d0.out3"];

    private static readonly string[] OtherStatements =
    [
        "import \"missing.rig\"",
        "import \"../up/and/away.rig\"",
        "import \"/at/the/root.rig\"",
        "rig \"Lantern Barge\" {\n  tempo 112 bpm\n  mains 230 V 50 Hz\n}",
        "rig {\n  tempo 112 V\n}",
        "lead Odd : ts 2.5 mm to xlr-3 {\n  tip to 2\n  sleeve to 1, 3\n}",
        "lead Bent : trs 3.5 mm to din-5 {\n  tip to 7\n}",
        "lead Half : ts 6.35 mm to trs 3.5 mm, rca",
        "stock {\n  6 MidiDin 1.5 m\n  2 Nothing 1 m\n  1 Patch 3 V\n}",
        "}",
        "device",
        "connect to with",
        "what is this",
        "device lost : Tern {",
        "{\n  a b c\n}",
    ];

    private static readonly Gen<string> Lead = Gen.Frequency(
        (4, Gen.Const("")),
        (5, Gen.OneOf(" with Patch 1.5 m", " with MidiDin 1.5 m", " with MidiTrsB 1.5 m", " with DcLead 1.5 m", " with MiniMono 0.6 m", " with Breakout 1.5 m")),
        (2, Gen.OneOf(" with 1.5 m", " with Patch 9 m", " with MidiDin 20 m", " with DcReversing 1 m", " with MidiTrs 1 m + MidiAdapterA", " with Patch 0.1 m")),
        (1, Gen.OneOf(" with Patsh 1.5 m", " with Patch 1.5 V", " with Patch 1.5 m mauve", " with Bent 1 m", " with Odd 1 m")));

    private static readonly Gen<string> DeviceBody = Gen.OneOf(
        "", "", "", " at (0.2 m, 0.4 m)", " at (3 m, 0.4 m)", " {\n  clock midi\n}", " {\n  clock internal\n}", " {\n  voice on channel 2\n}",
        " {\n  voice on channel 99\n}", " {\n  out1 drops start, stop\n}", " {\n  mic phantom on\n}", " {\n  runs on battery\n}", " {\n  a on channel 2\n  oops\n}");

    /// <summary>The names of a rig's devices, and the gear of each; a device is of faulty gear now and then.</summary>
    private static readonly Gen<(string Name, string Gear)[]> Devices =
        Gen.Frequency((9, Gen.Int[0, 6]), (1, Gen.Int[7, 9])).Array[2, 9].Select(kinds =>
            kinds.Select((kind, i) => ($"d{i}", Ports[kind].Gear)).ToArray());

    /// <summary>A rig with mistakes of every kind, one top-level statement an item.</summary>
    public static readonly Gen<string[]> Statements =
        from devices in Devices
        from bodies in DeviceBody.Array[devices.Length]
        from cables in Cable(devices).Array[0, 10]
        from expectations in Expectation(devices).Array[0, 4]
        from others in Gen.OneOf(OtherStatements).Array[0, 3]
        from leads in Gen.Frequency((6, true), (1, false))
        from doubled in Gen.Frequency((6, false), (1, true))
        select (string[])
        [
            .. leads ? ["import \"shared/leads.rig\""] : Array.Empty<string>(),
            .. SoundGear,
            .. FaultyGear,
            .. devices.Select((device, i) => $"device {device.Name} : {device.Gear}{bodies[i]}"),
            .. doubled ? [$"device {devices[0].Name} : {devices[0].Gear}{bodies[0]}"] : Array.Empty<string>(),
            .. EachJackAtMostTwice(cables),
            .. expectations.Distinct(),
            .. others.Distinct(),
        ];

    private static Gen<string> Cable((string Name, string Gear)[] devices) =>
        from froms in End(devices).Array[1, 1]
        from tos in Gen.Frequency((5, End(devices).Array[1, 1]), (1, End(devices).Array[2, 2]))
        from lead in Lead
        select $"connect {string.Join(", ", froms)} to {string.Join(", ", tos)}{lead}";

    private static Gen<string> Expectation((string Name, string Gear)[] devices) =>
        from verb in Gen.OneOf("must ", "never ")
        from what in Gen.OneOf("notes", "clock", "start, stop", "audio", "power", "noise", "any")
        from source in Place(devices)
        from target in Place(devices)
        from tail in Gen.OneOf("", "", "", " in stereo", " on channel 2", " on channel 40", " within 5 ms")
        select $"{verb} {what} from {source} reach {target}{tail}";

    private static Gen<string> Place((string Name, string Gear)[] devices) =>
        Gen.Frequency((5, Gen.Int[0, devices.Length - 1].Select(i => devices[i].Name)), (1, End(devices)), (1, Gen.Const("nobody")));

    private static Gen<string> End((string Name, string Gear)[] devices) => Gen.Frequency(
        (12,
            from device in Gen.Int[0, devices.Length - 1]
            from port in Gen.OneOf(Ports.First(p => p.Gear == devices[device].Gear).Ports)
            select $"{devices[device].Name}.{port}"),
        (1, Gen.OneOf("nobody.line", "d0", "d0.nothing", "d1.ch34.middle", Range)));

    /// <summary>
    /// Of three plugs for one jack the first by place has it: that is the one thing in which order is meant to count, so no
    /// device's port is named by more than two cables.
    /// </summary>
    private static IEnumerable<string> EachJackAtMostTwice(string[] cables)
    {
        var uses = new Dictionary<string, int>();
        foreach (var cable in cables.Distinct())
        {
            var ports = cable.Split(' ', ',').Where(word => word.Contains('.') && char.IsLetter(word[0]))
                .SelectMany(word => word == Range ? RangeWritten : [string.Join('.', word.Split('.').Take(2))]).Distinct().ToList();
            if (ports.TrueForAll(port => uses.GetValueOrDefault(port) < 2))
            {
                ports.ForEach(port => uses[port] = uses.GetValueOrDefault(port) + 1);
                yield return cable;
            }
        }
    }

    /// <summary>The statements as a file.</summary>
    public static string Text(IEnumerable<string> statements) => string.Join('\n', statements.Select(s => s.ReplaceLineEndings("\n"))) + "\n";
}
