using System.Globalization;
using RigLang.Text;

namespace RigLang.Findings;

/// <summary>What a check found in one file beyond what is told one by one: how often, from where on, and the worst of it.</summary>
public sealed record Surplus(Check Check, Location At, int Count, Severity Severity, Harm Harm)
{
    /// <summary>One more.</summary>
    internal static Surplus Of(Surplus? before, Check check, Location at, Severity severity, Harm harm) => before is null
        ? new Surplus(check, at, 1, severity, harm)
        : before with
        {
            Count = before.Count + 1,
            Severity = severity > before.Severity ? severity : before.Severity,
            // Harm to people comes first in order.
            Harm = harm < before.Harm ? harm : before.Harm,
        };

    /// <summary>The one finding that stands for them all.</summary>
    internal Finding Told() => new(Check, Severity, At,
        $"{Count.ToString("N0", CultureInfo.InvariantCulture)} more of these {(Count == 1 ? "is" : "are")} in this file; only the first {Report.MostOfAFile.ToString("N0", CultureInfo.InvariantCulture)} are listed.",
        Check.Why, "Mend some of those that are listed, and check again.", [], [])
    {
        Count = Count,
        Harm = Harm,
    };
}
