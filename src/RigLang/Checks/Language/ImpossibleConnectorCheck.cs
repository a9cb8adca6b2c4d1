using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class ImpossibleConnectorCheck : FaultCheck<ImpossibleConnector>
{
    public override string Name => "impossible-connector";
    public override Severity Severity => Severity.Error;
    public override string Title => "A signal on a connector that cannot carry it";
    public override string Why => "The connector has too few contacts, or none of the right kind, so the description cannot match the panel.";
    public override string Advice => "Look at the panel again: count the rings of the plug, and the jacks of a pair.";
    public override string Source => "the connector table of the language; each row names its standard";
    public override string BadExample => """
        gear Tern {
          out line : audio stereo line on ts 6.35 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio stereo line on 2 ts 6.35 mm
        }
        """;

    protected override void Tell(ImpossibleConnector fault, Rig rig, Report report) =>
        report.Add(this, fault.At, $"{fault.Connector} cannot carry {fault.Signal}.", advice: $"It can be on {fault.Possible}.");
}
