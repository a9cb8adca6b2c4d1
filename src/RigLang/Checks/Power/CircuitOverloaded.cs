using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class CircuitOverloaded : Check
{
    public override string Name => "circuit-overloaded";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.People;
    public override string Title => "A wall circuit with more on it than its breaker carries";
    public override string Why => "The breaker trips in the middle of the set, and everything on the circuit goes dark.";
    public override string Advice => "Move some of it to another circuit, and ask the house what else is on this one.";
    public override string Source => "voltage x breaker; 80 % for loads of three hours or more where the NEC is in force (210.19(A)(1), 210.20(A)), elsewhere prudence (common practice)";
    public override string BadExample => """
        rig "Four hours at the yard" {
          mains 120 V 60 Hz 15 A
          set 4 h
        }
        gear Wall {
          out socket : mains earthed on mains
        }
        gear Amplifier {
          in power : mains 120 V earthed, 1500 VA on iec-c14
        }
        lead MainsLead : mains to iec-c13
        device wall : Wall
        device amp  : Amplifier
        connect wall.socket to amp.power with MainsLead 2 m
        """;
    public override string GoodExample => BadExample.Replace("1500 VA", "1200 VA", StringComparison.Ordinal);

    /// <summary>The sockets of one wall device are taken for one circuit: nothing says that they are more.</summary>
    public override void Run(Rig rig, Report report)
    {
        foreach (var (root, circuit) in rig.Circuits())
        {
            var load = circuit.Judge(root.Takes.Value, rig.Names.SetLength);
            if (load == CircuitLoad.Fits)
            {
                continue;
            }
            var most = load == CircuitLoad.OverBreaker ? circuit.Most : circuit.Prudent;
            report.Add(this, root.Device.At,
                $"About {PowerWords.Least(root.Takes)}{Units.Figure(Math.Round(root.Takes.Value))} VA hang on {root.Device.Name}; its {circuit.Breaker} circuit at {circuit.Volts} "
                + load switch
                {
                    CircuitLoad.OverBreaker => $"carries {Units.Figure(most)} VA.",
                    CircuitLoad.OverContinuous => $"carries {Units.Figure(circuit.Most)} VA, of which a load of three hours or more may be 80 %: {Units.Figure(most)} VA.",
                    _ => $"carries {Units.Figure(circuit.Most)} VA, of which it is prudent to use no more than 80 %: {Units.Figure(most)} VA.",
                },
                harm: load == CircuitLoad.OverPrudent ? Harm.Rest : null,
                why: load == CircuitLoad.OverPrudent ? "The breaker may trip when much is switched on at once, or when somebody plugs in a heater." : null,
                related: root.Children.SelectMany(c => c.Loads).OrderByDescending(l => l.Takes.Value).ThenBy(l => l.Device.Name, StringComparer.Ordinal).Take(4)
                    .Select(l => Wording.Also(l.In!.At, $"{l.Device.Name} takes {PowerWords.Least(l.Takes)}{l.Amount(l.Takes.Value)}"
                        + (l.In.Signal is { Watts: not null, IsApparent: false } ? $", counted at a power factor of {Units.Figure(PowerFigures.PowerFactor)}" : ""))),
                severity: load == CircuitLoad.OverPrudent ? Severity.Warning : Severity.Error);
        }
    }
}
