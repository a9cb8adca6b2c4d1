using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Checks;

/// <summary>
/// A check that threw: a fault of the tool, told as a finding so that nobody takes its silence for a good sign. It stands in no list of
/// checks, since no rig should bring it about.
/// </summary>
public sealed class CheckFailed : Check
{
    public static CheckFailed Page { get; } = new();

    public override string Name => "check-failed";
    public override Severity Severity => Severity.Error;
    public override string Title => "A check that broke off inside the tool";
    public override string Why => "What it looks for was not looked for in this rig; all other checks were made.";
    public override string Advice => "Look at that part of the rig yourself, and report the file to the makers of the tool: the fault is theirs.";
    public override string Source => "the language";
    public override string BadExample => "";
    public override string GoodExample => "";
    public override string NeverAcceptedBecause => "nobody knows what the check would have found";

    public override void Run(Rig rig, Report report)
    {
    }

    /// <summary>One claim for all checks that broke off the same way: one fault of the tool can stop many.</summary>
    internal static IEnumerable<Claim> Claims(Rig rig, IEnumerable<(Check Check, Exception Why)> failures)
    {
        var start = new Location(rig.Names.Files[0].Source, new TextSpan(0, 0));
        return failures.GroupBy(f => (f.Why.GetType().Name, f.Why.Message)).Select(same =>
        {
            var names = same.Select(f => $"`{f.Check.Name}`").Order(StringComparer.Ordinal).ToList();
            return new Claim(Page, Page.Severity, start, $"The {(names.Count == 1 ? "check" : "checks")} {Wording.And(names)} broke off ({same.Key.Name}).", Page.Why, Page.Advice, []);
        });
    }
}
