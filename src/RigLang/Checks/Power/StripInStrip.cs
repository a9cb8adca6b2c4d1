using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Power;

public sealed class StripInStrip : Check
{
    public override string Name => "strip-in-strip";
    public override Severity Severity => Severity.Warning;
    public override Harm Harm => Harm.People;
    public override string Title => "A socket strip plugged into another";
    public override string Why => "All that both feed runs through the plug and the cable of the first, which heat up; and one loose plug takes everything down.";
    public override string Advice => "Give each strip a wall socket of its own, or take one strip with more outlets. The strip's own label says what is allowed.";
    public override string Source => "common practice; the instructions of most strips forbid it";
    public override string BadExample => """
        gear Wall {
          out socket1, socket2 : mains 230 V earthed on mains
        }
        gear Strip {
          in  plug             : mains earthed on captive mains
          out outlet1..outlet4 : mains earthed on mains
          join plug to outlet1..outlet4
        }
        gear Lamp {
          in plug : mains 230 V earthed, 10 W on captive mains
        }
        device wall : Wall
        device near : Strip
        device far  : Strip
        device lamp : Lamp
        connect wall.socket1 to near.plug
        connect near.outlet1 to far.plug
        connect far.outlet1  to lamp.plug
        """;
    public override string GoodExample => BadExample.Replace("connect near.outlet1 to far.plug", "connect wall.socket2 to far.plug", StringComparison.Ordinal)
        .Replace("connect far.outlet1  to lamp.plug", """
            connect far.outlet1  to lamp.plug
            device light : Lamp
            connect near.outlet1 to light.plug
            """, StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (IsStrip(node) && IsStrip(node.Parent) && node.Hookup is { } hookup)
            {
                report.Add(this, hookup.Connection.At, $"{node.Device.Name} is plugged into {node.Parent!.Device.Name}, which is a strip itself.");
            }
        }
    }

    /// <summary>With one outlet it is an extension cord, or an adapter plug.</summary>
    private static bool IsStrip(PowerNode? node) =>
        node is { IsPassive: true, IsMains: true, In: { } plug } && node.Device.Gear!.Joins.From(plug).Count > 1;
}
