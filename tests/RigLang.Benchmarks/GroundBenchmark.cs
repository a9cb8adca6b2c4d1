using System.Globalization;
using System.Text;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Text;

namespace RigLang.Benchmarks;

/// <summary>
/// Ground loops of a rig far above any stage: hundreds of tables, each with an earthed desk and computer, and boxes that share one supply
/// and play into the desk, some of them on USB. Measured is all from the compiled rig to the cure: the graph, the count, what to isolate.
/// </summary>
public static class GroundBenchmark
{
    private const int Tables = 490;
    private const int Boxes = 18;
    private const int OnUsb = 6;
    private const double MostMilliseconds = 100;

    /// <summary>False when the aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick)
    {
        var pace = isQuick ? 0.25 : 1;
        var text = Rig();
        var rig = Compilation.Create(new SourceText("ground.rig", text), _ => new OpenedFile(null, "the benchmark opens no file")).Rig;
        var loops = Cured(rig);
        var heardLeft = loops.LeftByCure().Count(l => l.IsHeard);
        if (rig.Names.Devices.Count < 10_000 || loops.Ground.Links.Count < 30_000 || heardLeft > 0 || !loops.IsProven)
        {
            throw new InvalidOperationException(Line(
                $"{rig.Names.Devices.Count} devices, {loops.Ground.Links.Count} links, {heardLeft} heard loops left, proven: {loops.IsProven}."));
        }
        var time = Measure.Of(() => Cured(rig), TimeSpan.FromSeconds(1.5 * pace), TimeSpan.FromSeconds(3 * pace), leastSamples: 3);
        var met = time.Median <= MostMilliseconds;
        output.WriteLine(Line($"  {rig.Names.Devices.Count} devices, {loops.Ground.Links.Count} links, {loops.Count} loops, {loops.Cure.Count} cuts: {time.Median:0.0} ms   ±{time.Spread * 50:0.0} %"));
        output.WriteLine(Line($"{(met ? "met    " : "NOT MET")}  ground loops counted and cured under {MostMilliseconds:0} ms"));
        return met;
    }

    private static GroundLoops Cured(Rig rig)
    {
        var loops = new GroundLoops(GroundGraph.Of(rig));
        return loops.Count > 0 && loops.Cure.Count > 0 ? loops : throw new InvalidOperationException("The rig has no loop to cure.");
    }

    private static string Rig()
    {
        var text = new StringBuilder(Line($$"""
            gear Wall {
              out s1..s{{2 * Tables}} : mains 230 V earthed on mains
            }
            gear Desk {
              in  power       : mains 230 V earthed, 40 W on iec-c14
              in  ch1..ch{{Boxes}} : audio stereo line         on 2 ts 6.35 mm
              in  tape        : audio mono line           on xlr-3
              out main        : audio mono line           on xlr-3
              in  usb         : usb device                on usb-b
            }
            gear Computer {
              in  power      : mains 230 V earthed, 60 W on iec-c14
              out usb1..usb{{OnUsb + 1}} : usb host 5 V 900 mA     on usb-a
            }
            gear Supply {
              out out1..out{{Boxes}} : dc 9 V centre-positive, 300 mA on barrel 5.5x2.1 mm
            }
            gear Box {
              in  power : dc 9 V centre-positive, 300 mA on barrel 5.5x2.1 mm
              in  usb   : usb device                     on usb-b
              out line  : audio stereo line              on 2 ts 6.35 mm
            }
            lead Mains : mains to iec-c13
            lead Dc : barrel 5.5x2.1 mm to barrel 5.5x2.1 mm
            lead Usb : usb-a to usb-b
            lead Patch : ts 6.35 mm to ts 6.35 mm
            lead Xlr : xlr-3 to xlr-3
            device wall : Wall

            """));
        for (var t = 1; t <= Tables; t++)
        {
            text.Append(Line($"""
                device desk{t} : Desk
                device computer{t} : Computer
                device supply{t} : Supply
                connect wall.s{2 * t} to desk{t}.power with Mains
                connect wall.s{(2 * t) - 1} to computer{t}.power with Mains
                connect computer{t}.usb{OnUsb + 1} to desk{t}.usb with Usb

                """));
            if (t > 1)
            {
                text.Append(Line($"connect desk{t - 1}.main to desk{t}.tape with Xlr 5 m\n"));
            }
            for (var b = 1; b <= Boxes; b++)
            {
                text.Append(Line($"device box{t}-{b} : Box\nconnect supply{t}.out{b} to box{t}-{b}.power with Dc\nconnect box{t}-{b}.line to desk{t}.ch{b} with Patch\n"));
                if (b <= OnUsb)
                {
                    text.Append(Line($"connect computer{t}.usb{b} to box{t}-{b}.usb with Usb\n"));
                }
            }
        }
        return text.ToString();
    }

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
