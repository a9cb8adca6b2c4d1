using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Checks.Language;

public sealed class SyntaxError : FaultCheck<BadSyntax>
{
    public override string Name => "syntax-error";
    public override Severity Severity => Severity.Error;
    public override string Title => "A line that cannot be read";
    public override string Why => "The line takes no part in the rig until it can be read. Every other line still counts.";
    public override string Advice => "Compare the line with the reference, or with a line like it that works.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line audio mono line on ts 6.35 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
        }
        """;

    /// <summary>A file with more broken lines than this is no rig with slips in it, and nobody would read the rest.</summary>
    private const int MostRepairs = 20;

    public override void Run(Rig rig, Report report)
    {
        var told = 0;
        foreach (var fault in rig.Names.Faults.OfType<BadSyntax>())
        {
            if (fault.Fault.Outline is not null)
            {
                continue;
            }
            if (report.HasEnough(this, fault.At))
            {
                continue;
            }
            if (++told <= MostRepairs && LineRepair.Of(fault, rig.Names.FileOf(fault.At), name => IsName(name, rig.Names)) is { } repair)
            {
                report.Add(this, fault.At, repair.What, advice: repair.Advice, fixes: [Wording.Replace(repair.Title, repair.At, repair.Text)]);
                continue;
            }
            Tell(fault, rig, report);
        }
    }

    private static bool IsName(string name, RigNames names) =>
        names.DevicesByName.ContainsKey(name) || names.FindGear(name) is not null
        || names.AllGear.Any(gear => gear.PortsByName.ContainsKey(name) || gear.Parts.ContainsKey(name) || gear.Tracks.ContainsKey(name));

    protected override void Tell(BadSyntax fault, Rig rig, Report report)
    {
        var wanted = fault.Fault.Expected.Count == 0 ? "something else" : Wording.Or(fault.Fault.Expected);
        switch (fault.Fault.Found)
        {
            case null when fault.Fault.Expected.Contains("`because`"):
                report.Add(this, fault.At, "The line does not say why: next should come `because`.", advice: "Say why, in quotes: because \"short, and quiet in rehearsal\".");
                break;
            case null:
                report.Add(this, fault.At, $"The line ends too early: next should come {wanted}.", advice: $"Go on with {wanted}.");
                break;
            case { Kind: TokenKind.OpenString }:
                report.Add(this, fault.At, "This quote is not closed on its line.", advice: "Put a straight double quote (\") at the end of the name or text.");
                break;
            case { Kind: TokenKind.Bad } bad when fault.At.Source.Content.AsSpan(bad.Start, bad.Length).IndexOfAny('“', '”', '„') >= 0:
                report.Add(this, fault.At, "These are typographic quotes.", advice: "Use straight double quotes (\"), as a keyboard types them.");
                break;
            case { Kind: TokenKind.Bad } bad when Inches.At(fault.At.Source, bad.Start) is { } inches:
                report.Add(this, fault.At, $"A fraction of an inch is written in millimetres: {inches.Written} is {inches.Size} mm.",
                    advice: inches.Texts.Count == 1
                        ? $"Write `{inches.Texts[0]}`."
                        : $"Write {Wording.Or(inches.Texts.Select(t => $"`{t}`"))}: ts has two contacts (mono, unbalanced), trs three (stereo, balanced).",
                    fixes: inches.Texts.Select(text => Wording.Replace($"Write {text}", inches.Place, text, isSafe: inches.Texts.Count == 1)));
                break;
            case { Kind: TokenKind.Bad } bad when fault.At.Source.Content[bad.Start] is '[':
                report.Add(this, fault.At, "A range is not written with brackets.", advice: "Write the first and the last name: out1..out5.");
                break;
            case { Kind: TokenKind.Bad } bad:
                report.Add(this, fault.At, $"`{Visible(fault.At.Source.Content.AsSpan(bad.Start, bad.Length))}` means nothing here: wanted was {wanted}.",
                    advice: "A name with other characters than letters, digits, _ and - goes in double quotes: \"CH 3/4\".");
                break;
            case { Kind: TokenKind.Word, Text: { } word } when Wording.Nearest(word, KeywordsIn(fault.Fault.Expected)) is { } near:
                report.Add(this, fault.At, $"`{word}` does not fit here: wanted was {wanted}.", advice: $"Did you mean `{near}`?",
                    fixes: [Wording.Replace($"Change to {near}", fault.At, near)]);
                break;
            case { } found:
                report.Add(this, fault.At, $"`{Visible(fault.At.Source.Content.AsSpan(found.Start, found.Length))}` does not fit here: wanted was {wanted}.",
                    advice: LineSamples.For(rig, fault.At) is { } sample ? $"Such a line is written `{sample}`." : null);
                break;
        }
    }

    /// <summary>The words of the language among what was expected: those in backquotes that are all letters.</summary>
    private static IEnumerable<string> KeywordsIn(IEnumerable<string> expected) =>
        expected.SelectMany(label => label.Split('`')).Where(word => word.Length > 1 && word.All(char.IsAsciiLetterLower));

    private static string Visible(ReadOnlySpan<char> text) => text.Length > 40 ? string.Concat(text[..40], "…") : text.ToString();
}
