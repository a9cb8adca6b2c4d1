using CsCheck;
using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow.Audio;

/// <summary>
/// The flow of audio against a simulation in numbers: every source channel has a sample of its own, contacts are voltages, an input takes hot less cold, and a device
/// mixes by the plain words of its gear and settings. The simulation shares no code with the flow; of the compiler it takes what is electrically one.
/// </summary>
public class NumericOracle
{
    private const double Tolerance = 1e-5;

    private const string Gear = """
        lead Ts    : ts 6.35 mm to ts 6.35 mm
        lead Trs   : trs 6.35 mm to trs 6.35 mm
        lead Turn  : trs 6.35 mm to trs 6.35 mm {
          tip to ring
          ring to tip
          sleeve to sleeve
        }
        lead Both  : ts 6.35 mm to trs 6.35 mm {
          tip to tip, ring
          sleeve to sleeve
        }
        gear Plain {
          out o : audio mono line on ts 6.35 mm
        }
        gear Balanced {
          out o : audio mono line balanced on trs 6.35 mm
        }
        gear Wide {
          out o : audio stereo line on trs 6.35 mm
        }
        gear Pair {
          out o : audio stereo line normalled on 2 ts 6.35 mm
        }
        gear Spread {
          in  i : audio mono line on ts 6.35 mm
          out o : audio stereo line normalled on 2 ts 6.35 mm
          route i to o gain -2 dB
        }
        gear Fold {
          in  i : audio stereo line normalled on 2 ts 6.35 mm
          out o : audio mono line impedance-balanced on trs 6.35 mm
          route i to o
        }
        gear Desk {
          in  a1, a2, a3, a4 : audio mono line balanced        on trs 6.35 mm
          in  s1, s2         : audio stereo line normalled     on 2 ts 6.35 mm
          out main           : audio stereo line balanced      on 2 trs 6.35 mm
          out record         : audio stereo line               on trs 6.35 mm
          out send           : audio mono line                 on ts 6.35 mm
          out direct         : audio mono line                 on ts 6.35 mm
          bus group          : audio stereo
          bus sum            : audio mono
          assign a1..a4, s1, s2 to group, main
          route  group          to main gain -3 dB
          route  a1..a4, s1, s2 to send, record, sum
          route  sum            to direct
        }
        gear Tape {
          in line : audio stereo line on trs 6.35 mm
          in mono : audio mono line balanced on trs 6.35 mm
        }

        """;

    private sealed class Draws(int[] numbers)
    {
        private int _next;

        public int Below(int limit) => numbers[_next++ % numbers.Length] % limit;

        public bool Chance(int percent) => Below(100) < percent;

        public T Of<T>(IReadOnlyList<T> all) => all[Below(all.Count)];
    }

    private static readonly Gen<string> Texts = Gen.Int[0, 9_999].Array[300].Select(numbers => Write(new Draws(numbers)));

    /// <summary>Layer after layer, so that nothing comes back: sources, effects, a desk, effects, a desk, recorders.</summary>
    private static string Write(Draws draw)
    {
        var lines = new List<string>();
        var settings = new Dictionary<string, List<string>>();
        string[][] layers = [["Plain", "Balanced", "Wide", "Pair"], ["Spread", "Fold"], ["Desk"], ["Spread", "Fold"], ["Desk"], ["Tape"]];
        var free = new List<string>();
        var serial = 0;
        foreach (var layer in layers)
        {
            var added = new List<string>();
            for (var n = layer.Length == 4 ? 5 : layer[0] == "Tape" ? 2 : 1 + draw.Below(2); n > 0; n--)
            {
                var (gear, name) = (draw.Of(layer), $"d{++serial}");
                settings[$"device {name} : {gear}"] = gear == "Desk" ? Settings(draw) : [];
                foreach (var input in Inputs(gear).Where(_ => free.Count > 0 && draw.Chance(75)))
                {
                    var from = draw.Of(free);
                    free.Remove(from);
                    lines.Add($"connect {from} to {name}.{input} with {draw.Of(["Ts", "Trs", "Turn", "Both"])} 1 m");
                }
                added.AddRange(Outputs(gear).Select(output => $"{name}.{output}"));
            }
            free.AddRange(added);
        }
        return Gear + string.Join("\n", settings.Select(s => s.Value.Count == 0 ? s.Key : $"{s.Key} {{\n  {string.Join("\n  ", s.Value)}\n}}").Concat(lines)) + "\n";
    }

    private static string[] Inputs(string gear) => gear switch
    {
        "Spread" => ["i"],
        "Fold" => ["i.left", "i.right"],
        "Desk" => ["a1", "a2", "a3", "a4", "s1.left", "s1.right", "s2.left", "s2.right"],
        "Tape" => ["line", "mono"],
        _ => [],
    };

    private static string[] Outputs(string gear) => gear switch
    {
        "Pair" or "Spread" => ["o.left", "o.right"],
        "Desk" => ["main.left", "main.right", "record", "send", "direct"],
        "Tape" => [],
        _ => ["o"],
    };

    private static List<string> Settings(Draws draw)
    {
        var set = new List<string>();
        foreach (var input in (string[])["a1", "a2", "a3", "a4", "s1", "s2"])
        {
            Maybe(25, $"{input} gain {draw.Below(20) - 10} dB");
            Maybe(10, $"{input} muted");
            Maybe(25, $"{input} send {(draw.Chance(30) ? "off" : $"-{draw.Below(12)} dB")}");
            Maybe(30, $"{input} to {draw.Of(["group", "main", "group, main"])}");
            Maybe(input[0] == 'a' ? 35 : 0, $"{input} pan {draw.Of(["left", "right", "centre"])}");
            Maybe(input[0] == 's' ? 15 : 0, $"{input} mono");
        }
        Maybe(15, "main mono");
        Maybe(15, "group mono");
        Maybe(15, "group gain -4 dB");
        Maybe(15, "sum pan left".Replace("pan left", "gain 2 dB", StringComparison.Ordinal));
        return set;

        void Maybe(int percent, string line)
        {
            if (draw.Chance(percent))
            {
                set.Add(line);
            }
        }
    }

    [Fact]
    public void What_comes_to_every_input_is_what_the_numbers_say() => Texts.Sample(text =>
    {
        var compilation = Rigs.Compile(text);
        Assert.Empty(compilation.Names().Intersect(["syntax-error", "unknown-name", "missing-ability", "plug-does-not-fit", "jack-in-use", "duplicate-name", "incomplete-declaration"]));
        var rig = compilation.Rig;
        var simulation = new Simulation(rig, new Random(text.Length));
        var heard = new Dictionary<(DeviceSymbol, PortSymbol, int), double>();
        foreach (var source in rig.Audio.Flow.Sources)
        {
            rig.Audio.Follow(source.Target, reach =>
            {
                foreach (var device in rig.Names.Devices)
                {
                    foreach (var port in device.Gear!.Ports.Where(p => !p.IsOutput))
                    {
                        foreach (var lane in reach.ImageIn(new PortRef(device, port)).Lanes)
                        {
                            var key = (device, port, lane.Channel);
                            heard[key] = heard.GetValueOrDefault(key) + Enumerable.Range(0, 3).Sum(of => lane.Of(of) * simulation.SampleOf(source, of));
                        }
                    }
                }
                return 0;
            });
        }
        foreach (var device in rig.Names.Devices)
        {
            foreach (var port in device.Gear!.Ports.Where(p => !p.IsOutput))
            {
                var expected = simulation.Input(device, port);
                for (var channel = 0; channel < expected.Length; channel++)
                {
                    var got = heard.GetValueOrDefault((device, port, channel));
                    Assert.True(Math.Abs(expected[channel] - got) < Tolerance, $"{device.Name}.{port.Name} {channel}: {expected[channel]} by the numbers, {got} by the flow\n{text}");
                }
            }
        }
    }, iter: 300);

    /// <summary>
    /// Thinking a cable away is as good as a rig without its line. Not at a pair of which the left jack alone carries both, nor at an insert: there a plug that is gone changes
    /// what the box does, and the rig is compiled again.
    /// </summary>
    [Fact]
    public void A_rig_without_a_cable_is_the_map_without_it() => Texts.Sample(text =>
    {
        var rig = Rigs.Compile(text).Rig;
        foreach (var hookup in rig.Wiring.Hookups.Where(h => !h.Jacks.Any(j => j.Jack.Port.Signal is { Normalled: true })))
        {
            var at = hookup.Connection.At;
            var without = Rigs.Compile(text.Remove(at.Span.Start, at.Span.Length)).Rig.Audio.Flow;
            var ends = without.Destinations.Select(d => d.Text).Intersect(rig.Audio.Flow.Destinations.Select(d => d.Text)).ToHashSet();
            Assert.Equal(Told(without), Told(AudioFlow.Of(rig.Audio, new AudioWithout(hookup))));

            IEnumerable<string> Told(AudioFlow flow) => flow.Shares.Where(share => ends.Contains(share.To.Text))
                .Select(share => $"{share.Source.Text} {share.To.Text} {share.Shape} {string.Join(' ', share.Lanes.Select(l => $"{l.Channel}:{l.LeftShare:0.####},{l.RightShare:0.####},{l.MonoShare:0.####}"))}");
        }
    }, iter: 30);

    /// <summary>One sample of everything.</summary>
    private sealed class Simulation(Rig rig, Random random)
    {
        private readonly Dictionary<(DeviceSymbol, PortSymbol), double[]> _inputs = [];
        private readonly Dictionary<(DeviceSymbol, PortSymbol), double[]> _outputs = [];
        private readonly Dictionary<(DeviceSymbol, PortSymbol), double[]> _samples = [];

        /// <summary>Left, right, or the only channel of a source.</summary>
        public double SampleOf(AudioSource source, int of) => Sample(source.Device, source.Port!) is var sample && sample.Length == 2 ? of < 2 ? sample[of] : 0 : of == 2 ? sample[0] : 0;

        private double[] Sample(DeviceSymbol device, PortSymbol port)
        {
            if (!_samples.TryGetValue((device, port), out var sample))
            {
                _samples[(device, port)] = sample = [.. Enumerable.Range(0, Width(port)).Select(_ => (2 * random.NextDouble()) - 1)];
            }
            return sample;
        }

        private static int Width(PortSymbol port) => port.Signal!.IsStereo ? 2 : 1;

        /// <summary>What each channel of an input takes: hot less cold; the left of a normalled pair, alone, feeds both.</summary>
        public double[] Input(DeviceSymbol device, PortSymbol port)
        {
            if (_inputs.TryGetValue((device, port), out var known))
            {
                return known;
            }
            var values = new double[Width(port)];
            foreach (var jack in port.Jacks)
            {
                for (var contact = 0; contact < jack.Roles.Count; contact++)
                {
                    if (jack.Roles[contact] is { Drive: Drive.In, Role: Role.Hot or Role.Cold } role)
                    {
                        values[role.Channel == AudioChannel.Right ? 1 : 0] += (role.Role == Role.Hot ? 1 : -1) * Voltage(device.FirstJack + jack.Index, contact);
                    }
                }
            }
            if (port is { Signal.Normalled: true, Jacks.Count: 2 } && rig.Wiring.Plugged[device.FirstJack + port.Jacks[1].Index] is null)
            {
                values[1] = values[0];
            }
            return _inputs[(device, port)] = values;
        }

        private double Voltage(int seat, int contact)
        {
            var at = rig.Nets.Contact(seat, contact);
            if (rig.Nets.IsGrounded(at))
            {
                return 0;
            }
            var sum = 0.0;
            foreach (var member in rig.Nets.Members(at))
            {
                var role = rig.Nets.RoleOf(member);
                if (role.Drive != Drive.Out)
                {
                    continue;
                }
                var jack = rig.Nets.Jack(rig.Nets.SeatOf(member));
                var (port, device) = (jack.Jack.Port, jack.Device);
                var values = Output(device, port);
                var value = role.Channel == AudioChannel.Right ? values[1]
                    : port is { Signal.Normalled: true, Jacks.Count: 2 } && rig.Wiring.Plugged[device.FirstJack + port.Jacks[1].Index] is null ? (values[0] + values[1]) / 2
                    : values[0];
                sum += (port.Signal!.Balance, role.Role) switch
                {
                    (Balance.Balanced, Role.Hot) => value / 2,
                    (Balance.Balanced, Role.Cold) => -value / 2,
                    (_, Role.Hot) => value,
                    _ => 0,
                };
            }
            return sum;
        }

        private double[] Output(DeviceSymbol device, PortSymbol port)
        {
            if (_outputs.TryGetValue((device, port), out var known))
            {
                return known;
            }
            var gear = device.Gear!;
            if (!gear.Routes.Any(route => ReferenceEquals(route.To, port)))
            {
                return _outputs[(device, port)] = Sample(device, port);
            }
            var values = new double[Width(port)];
            foreach (var (from, _) in gear.Routes.Where(route => ReferenceEquals(route.To, port)))
            {
                var come = from.IsBus ? Output(device, from) : Input(device, from);
                var gain = Decibels(gear.Gains.Of(from, port)) * Decibels(Set<MixSetting.Gain>(device, from).Sum(g => g.Decibels)) * (from.IsBus ? 1 / Decibels(Set<MixSetting.Gain>(device, from).Sum(g => g.Decibels)) : 1);
                foreach (var send in Set<MixSetting.Send>(device, from).Where(s => ReferenceEquals(s.To, port)))
                {
                    gain *= send.Decibels is { } decibels ? Decibels(decibels) : 0;
                }
                var assigned = Set<MixSetting.Assign>(device, from).ToList();
                var isOpen = !Set<MixSetting.Muted>(device, from).Any()
                    && (assigned.Count == 0 || !gear.Assigns.Contains(from, port) || assigned.Any(a => a.To.Contains(port)));
                if (isOpen)
                {
                    Mix(come, values, gain, Set<MixSetting.Pan>(device, from).FirstOrDefault()?.To ?? Side.Only, Set<MixSetting.Mono>(device, from).Any());
                }
            }
            if (Set<MixSetting.Mono>(device, port).Any())
            {
                values[0] = values[1] = (values[0] + values[1]) / 2;
            }
            var own = Decibels(Set<MixSetting.Gain>(device, port).Sum(g => g.Decibels));
            return _outputs[(device, port)] = [.. values.Select(v => v * own)];
        }

        private static void Mix(double[] come, double[] into, double gain, Side pan, bool isMono)
        {
            if (come.Length == 2 && isMono)
            {
                come = [(come[0] + come[1]) / 2, (come[0] + come[1]) / 2];
            }
            if (into.Length == 1)
            {
                into[0] += gain * come.Average();
                return;
            }
            into[0] += pan == Side.Right ? 0 : gain * come[0];
            into[1] += pan == Side.Left ? 0 : gain * come[^1];
        }

        private static IEnumerable<TSetting> Set<TSetting>(DeviceSymbol device, PortSymbol port)
            where TSetting : MixSetting => device.Mix.OfType<TSetting>().Where(setting => ReferenceEquals(setting.Port, port));

        private static double Decibels(double decibels) => Math.Pow(10, decibels / 20);
    }
}
