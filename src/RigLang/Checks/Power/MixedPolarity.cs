using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class MixedPolarity : Check
{
    public override string Name => "mixed-polarity";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "A supply shorted through the grounds of what it feeds";
    public override string Why =>
        "One device has its ground on the plus of the supply and another on its minus, and a screen joins the two: the full current of the supply flows through the cable. "
        + "Everything on that supply goes dark, and cable or device may burn.";
    public override string Advice => "Give the device whose polarity is different an isolated output or an adapter of its own, with its own polarity.";
    public override string Source => "common practice: all devices on one daisy chain have the same polarity and the same side as ground; IEC 60417-5926 for the symbol";
    public override string BadExample => """
        gear Brick {
          out out : dc 9 V centre-negative, 1 A          on captive barrel 5.5x2.1 mm
          out own : dc 9 V centre-negative isolated, 1 A on captive barrel 5.5x2.1 mm
        }
        gear Chain {
          in  in         : dc on barrel 5.5x2.1 mm
          out out1, out2 : dc on captive barrel 5.5x2.1 mm
          join in to out1, out2
        }
        gear Tern {
          in  power : dc 9 V centre-negative, 50 mA on barrel 5.5x2.1 mm
          out line  : audio mono line               on ts 6.35 mm
        }
        gear Fuzz {
          in power : dc 9 V centre-negative positive-ground, 10 mA on barrel 5.5x2.1 mm
          in in    : audio mono line                               on ts 6.35 mm
        }
        device brick : Brick
        device chain : Chain
        device bass  : Tern
        device fuzz  : Fuzz
        connect brick.out  to chain.in
        connect chain.out1 to bass.power
        connect chain.out2 to fuzz.power
        connect bass.line  to fuzz.in
        """;
    public override string GoodExample => BadExample.Replace("connect chain.out2 to fuzz.power", "connect brick.own  to fuzz.power", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (load, _, hookup) in PowerWalk.Loads(rig, Role.Plus))
        {
            if (ShortOf(rig, load) is var (source, way, end))
            {
                var cable = way.FirstOrDefault(l => l.Kind != GroundLinkKind.Supply, way[0]);
                report.Add(this, hookup.Connection.At,
                    $"{load.Device.Name} has its ground on the plus of {source}{PolarityReversed.Words(source, load)}; {cable.Text} joins it to {end}, whose ground is on the minus: {source} is shorted.",
                    related: way.Select(link => Wording.Also(link.Hookup.Connection.At, $"{link.Text} is in the way of the current")),
                    fixes: plan => PowerWalk.RightSupply(plan, [load], source, hookup));
            }
        }
    }

    /// <summary>
    /// The supply whose plus is the ground of this load, when cables join that ground to its minus: with the way between them, and the
    /// device at its end. Null when there is no such way.
    /// </summary>
    internal static (JackRef Source, IReadOnlyList<GroundLink> Way, string End)? ShortOf(Rig rig, JackRef load)
    {
        if (load.Jack.Port.Signal is not { Kind: SignalKind.Dc, Polarity: not Polarity.Either } signal
            || PowerWalk.Sibling(rig, load, GroundGraph.GroundOf(signal)) is not (>= 0 and var ground)
            || rig.Nets.Find(ground, Role.Plus, Drive.Out) is not (>= 0 and var plus))
        {
            return null;
        }
        var source = rig.Nets.Jack(rig.Nets.SeatOf(plus));
        var graph = rig.Ground.Ground;
        var start = graph.DomainOf(load);
        if (start < 0)
        {
            return null;
        }
        foreach (var (end, name) in OnMinus(rig, source))
        {
            if (graph.DomainOf(end) is >= 0 and var goal && goal != start && graph.Graph.ShortestWay(start, goal, _ => true) is { } way)
            {
                return (source, way.ConvertAll(edge => graph.Links[edge]), name);
            }
        }
        return null;
    }

    /// <summary>What has its ground on the minus of this supply: what it feeds the right way round, then itself.</summary>
    private static IEnumerable<(JackRef Jack, string Name)> OnMinus(Rig rig, JackRef source)
    {
        foreach (var member in rig.Nets.Members(PowerWalk.Sibling(rig, source, Role.Minus)))
        {
            var jack = rig.Nets.Jack(rig.Nets.SeatOf(member));
            if (rig.Nets.RoleOf(member).Drive == Drive.In && jack.Jack.Port.Signal is { } signal && rig.Nets.RoleOf(member).Role == GroundGraph.GroundOf(signal))
            {
                yield return (jack, jack.Device.Name);
            }
        }
        if (source.Jack.Port.Signal is { PositiveGround: false })
        {
            yield return (source, source.Device.Name);
        }
    }
}
