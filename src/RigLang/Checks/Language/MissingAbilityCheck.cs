using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class MissingAbilityCheck : FaultCheck<MissingAbility>
{
    public override string Name => "missing-ability";
    public override Severity Severity => Severity.Error;
    public override string Title => "A setting that this gear does not have";
    public override string Why => "On stage there will be no such switch or menu entry, and the rig will not do what the line says.";
    public override string Advice => "Choose something the gear can do, or add the ability to its declaration if the manual says so.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Wren {
          in midi : midi on din-5
          clock follows internal
        }
        gear Rook {
          out midi : midi on din-5
          clock sends midi
        }
        device lead : Wren {
          clock midi
        }
        device seq : Rook
        connect seq.midi to lead.midi
        """;
    public override string GoodExample => """
        gear Wren {
          in midi : midi on din-5
          clock follows internal, midi
        }
        gear Rook {
          out midi : midi on din-5
          clock sends midi
        }
        device lead : Wren {
          clock midi
        }
        device seq : Rook
        connect seq.midi to lead.midi
        """;

    protected override void Tell(MissingAbility fault, Rig rig, Report report) =>
        report.Add(this, fault.At, $"{fault.Gear} does not have {fault.Setting}: {fault.Can}.");
}
