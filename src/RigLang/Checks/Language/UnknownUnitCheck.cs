using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Checks.Language;

public sealed class UnknownUnitCheck : FaultCheck<UnknownUnit>
{
    public override string Name => "unknown-unit";
    public override Severity Severity => Severity.Error;
    public override string Title => "A unit that is not known";
    public override string Why => "A figure without a known unit cannot be compared with anything.";
    public override string Advice => "Write the unit as it is printed on the gear: V, mA, m, ms, Hz, bpm, ppqn.";
    public override string Source => "SI Brochure (BIPM) for the symbols; capitals matter: mA is milliampere";
    public override string BadExample => """
        gear Tern {
          in power : dc 9 volts centre-negative, 250 mA on barrel 5.5x2.1 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          in power : dc 9 V centre-negative, 250 mA on barrel 5.5x2.1 mm
        }
        """;

    protected override void Tell(UnknownUnit fault, Rig rig, Report report)
    {
        var figure = fault.Figure.Source.Slice(fault.Figure.Span);
        var own = fault.Wanted.Count > 0 ? Units.Of(fault.Wanted[0]).First() : null;
        if (Words.Contains(fault.Unit) && own is not null)
        {
            report.Add(this, fault.At, $"The unit is missing behind {figure}.", advice: $"Write it behind the figure: {figure} {own}.",
                fixes: [Wording.Replace($"Write {figure} {own}", fault.Figure, $"{figure} {own}")]);
            return;
        }
        var near = Spelled(fault.Unit) ?? Wording.Nearest(fault.Unit, Units.Table.Keys);
        report.Add(this, fault.At, $"`{fault.Unit}` is not a unit of the language.",
            advice: near is null ? $"Units here are {Wording.Or(fault.Wanted.Count is > 0 and < 4 ? fault.Wanted.SelectMany(Units.Of).Distinct() : Units.Table.Keys.Order(StringComparer.OrdinalIgnoreCase), 60)}."
                : $"Did you mean `{near}`?",
            fixes: near is null ? null : [Wording.Replace($"Change to {near}", fault.At, near)]);
    }

    /// <summary>Words that mean something else: behind a figure, they stand where its unit was left out.</summary>
    private static readonly HashSet<string> Words = [.. Vocabulary.Colours, .. Vocabulary.SignalWords, .. Vocabulary.Keywords];

    /// <summary>Units that players write out.</summary>
    private static string? Spelled(string unit) => unit.ToLowerInvariant() switch
    {
        "volt" or "volts" => "V",
        "amp" or "amps" or "ampere" or "amperes" => "A",
        "milliamp" or "milliamps" => "mA",
        "watt" or "watts" => "W",
        "meter" or "meters" or "metre" or "metres" => "m",
        "foot" or "feet" => "ft",
        "in" or "inches" => "inch",
        "hour" or "hours" or "hr" => "h",
        "minute" or "minutes" or "mins" => "min",
        "sec" or "secs" or "second" or "seconds" => "s",
        "ppq" or "ppqm" => "ppqn",
        "bits" => "bit",
        "hertz" => "Hz",
        "ohms" or "ω" => "ohm",
        _ => null,
    };
}
