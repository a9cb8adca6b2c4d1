using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class OutOfRangeCheck : FaultCheck<OutOfRange>
{
    public override string Name => "out-of-range";
    public override Severity Severity => Severity.Error;
    public override string Title => "A number that cannot be";
    public override string Why => "No box has such a figure, so what depends on it is not checked.";
    public override string Advice => "Write a number within the bounds.";
    public override string Source => "the language; MIDI channels 1 to 16 after MIDI 1.0";
    public override string BadExample => """
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel 17
        }
        """;
    public override string GoodExample => """
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel 16
        }
        """;

    protected override void Tell(OutOfRange fault, Rig rig, Report report) =>
        report.Add(this, fault.At, $"`{Shortened(fault.Text)}` is out of bounds: {fault.What} is {fault.Allowed}.",
            advice: fault.Meant is { } meant ? $"Did you mean {meant}?" : null,
            fixes: fault.Meant is { } text ? [Wording.Replace($"Change to {text}", fault.At, text)] : null);

    private static string Shortened(string text) => text.Length <= 24 ? text : text[..24] + "…";
}
