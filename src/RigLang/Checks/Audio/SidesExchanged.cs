using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class SidesExchanged : Check
{
    public override string Name => "sides-exchanged";
    public override Severity Severity => Severity.Warning;
    public override string Title => "Left and right exchanged";
    public override string Why => "The drums turn round, what moves on stage moves the other way in the recording, and two recordings of one evening do not match.";
    public override string Advice => "Exchange the two plugs.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Recorder {
          in line : audio stereo line on 2 ts 6.35 mm
        }
        device drums : Drums
        device tape  : Recorder
        connect drums.main.left  to tape.line.right with 2 m
        connect drums.main.right to tape.line.left  with 2 m
        """;
    public override string GoodExample => BadExample.Replace("main.left ", "main.x ", StringComparison.Ordinal).Replace("main.right", "main.left", StringComparison.Ordinal)
        .Replace("main.x ", "main.right ", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (step, shares) in ShapeChanges.Of(rig, share => share.Shape == AudioShape.Swapped))
        {
            report.Add(this, step.At, $"Left and right of {ShapeChanges.Sources(shares)} are exchanged from {step.Port} on: left is on the right at {ShapeChanges.Ends(shares)}.",
                fixes: _ => step is WayStep.Cable cable ? Exchange(rig, cable) : [],
                missing: new ShapeChanged(step),
                about: [new Subject(step.Port.Device, step.Port.Port)]);
        }
    }

    /// <summary>Two leads to the two jacks of one port: the sides that their lines name are exchanged.</summary>
    private static IEnumerable<Fix> Exchange(Rig rig, WayStep.Cable cable)
    {
        var (device, port) = (cable.Port.Device, cable.Port.Port);
        var sides = port.Jacks.Select(jack => rig.Wiring.Plugged[device.FirstJack + jack.Index]).OfType<Hookup>().Distinct()
            .Select(hookup => (Source: hookup.Connection.At.Source, Side: SideIn(hookup.Connection, device, port))).ToList();
        if (sides is not [{ Side: { } one } first, { Side: { } other } second] || first.Source != second.Source || one.Text == other.Text)
        {
            return [];
        }
        return [new Fix("Exchange the two plugs", true, [new TextEdit(first.Source, one.Span, other.Text), new TextEdit(first.Source, other.Span, one.Text)])];
    }

    /// <summary>The word `left` or `right` by which a line names its jack of the port; null where it names it otherwise.</summary>
    private static Name? SideIn(ConnectionSymbol connection, DeviceSymbol device, PortSymbol port)
    {
        foreach (var (ends, paths) in new[] { (connection.From, connection.Statement.From), (connection.To, connection.Statement.To) })
        {
            for (var i = 0; i < ends.Count && ends.Count == paths.Count; i++)
            {
                if (ReferenceEquals(ends[i].Device, device) && ReferenceEquals(ends[i].Port, port) && paths[i] is { Last: null, Parts: [.., var side] } && side.Text is "left" or "right")
                {
                    return side;
                }
            }
        }
        return null;
    }
}
