using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>A flow that the tool does not have, added as DEVELOPERS.md tells: what moves when a pedal is moved, through boxes that pass its voltage on.</summary>
public class AddingAFlow
{
    private static IEnumerable<PortRef> MovedBy(Rig rig, PortRef pedal) => Spreading.From<PortRef>([pedal], (port, into) =>
    {
        // Along the cables that carry it …
        foreach (var link in rig.Links.From[LinkTable.NumberOf(port.Device, port.Port)])
        {
            if (link.Kind == SignalKind.Control)
            {
                into.Add(link.To);
            }
        }
        // … and through the boxes that route it.
        foreach (var output in port.Device.Gear!.Routes.From(port.Port))
        {
            into.Add(new PortRef(port.Device, output));
        }
    });

    [Fact]
    public void A_pedal_moves_what_is_behind_the_boxes_that_pass_it_on()
    {
        var rig = Rigs.Compile("""
            gear Pedal {
              out cv : control on ts 3.5 mm
            }
            gear Buffer {
              in  in         : control on ts 3.5 mm
              out out1, out2 : control on ts 3.5 mm
              route in to out1
            }
            gear Filter {
              in cutoff : control on ts 3.5 mm
            }
            lead Mini : ts 3.5 mm to ts 3.5 mm
            device pedal : Pedal
            device split : Buffer
            device one, two : Filter
            connect pedal.cv   to split.in   with Mini 1 m
            connect split.out1 to one.cutoff with Mini 1 m
            connect split.out2 to two.cutoff with Mini 1 m
            """).Rig;
        var pedal = rig.Names.DevicesByName["pedal"];
        Assert.Equal(["pedal.cv", "split.in", "split.out1", "one.cutoff"], MovedBy(rig, new PortRef(pedal, pedal.Gear!.Ports[0])).Select(port => port.ToString()));
    }
}
