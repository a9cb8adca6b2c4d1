using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class UnknownWordCheck : FaultCheck<UnknownWord>
{
    public override string Name => "unknown-word";
    public override Severity Severity => Severity.Error;
    public override string Title => "A word that means nothing where it stands";
    public override string Why => "What it should say about the gear is not known, so nothing that depends on it is checked.";
    public override string Advice => "Use one of the words of the language for this place.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line : audio mono loud on ts 6.35 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
        }
        """;

    /// <summary>What players call a thing for which the language has another word; common practice.</summary>
    private static readonly Dictionary<string, string> OtherWords = new(StringComparer.Ordinal)
    {
        ["all"] = "any",
        ["everything"] = "any",
        ["cc"] = "controllers",
        ["ccs"] = "controllers",
        ["pc"] = "program change",
        ["programs"] = "program change",
        ["patches"] = "program change",
        ["sysex"] = "system exclusive",
        ["spp"] = "song position",
        ["bend"] = "pitch bend",
        ["pitchbend"] = "pitch bend",
        ["pressure"] = "aftertouch",
        ["sync"] = "clock",
        ["play"] = "start",
        ["sensing"] = "active sensing",
        ["phones"] = "headphone",
        ["microphone"] = "mic",
        ["loudspeaker"] = "speaker",
        ["center-positive"] = "centre-positive",
        ["center-negative"] = "centre-negative",
        ["grounded"] = "earthed",
    };

    protected override void Tell(UnknownWord fault, Rig rig, Report report)
    {
        var near = OtherWords.TryGetValue(fault.Word.ToLowerInvariant(), out var word) && fault.Known.Contains(word) ? word : Wording.Nearest(fault.Word, fault.Known);
        report.Add(this, fault.At, $"`{fault.Word}` means nothing for {fault.Where}.",
            advice: near is not null ? $"Did you mean `{near}`?"
                : fault.Known.Count == 0 ? "Take the word away."
                : $"Use one of {Wording.Or(fault.Known, 30)}.",
            fixes: near is null ? null : [Wording.Replace($"Change to {near}", fault.At, near)]);
    }
}
