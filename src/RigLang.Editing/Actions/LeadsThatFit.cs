using RigLang.Checks;
using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>The lead of a connection: one that fits in place of one that does not, or the one that was chosen written out.</summary>
internal static class LeadsThatFit
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span, IReadOnlyList<Finding> findings)
    {
        if (Rewriting.HookupAt(view, span) is not { } hookup || hookup.Connection.IsIncomplete)
        {
            return [];
        }
        return hookup.IsLeadChosen && hookup.IsSound ? [WriteOut(view, hookup)] : Replacements(view, hookup, findings);
    }

    private static EditAction WriteOut(RigView view, Hookup hookup)
    {
        var lead = hookup.Leads[0].Name;
        return EditAction.Changing($"Name the lead: {lead}", EditAction.Rewrite, Naming(view, hookup, [lead]));
    }

    /// <summary>
    /// For a finding about this cable: the simplest lead for its jacks, or a lead and an adapter where no single one fits. Offered
    /// only when the finding is gone with it and no other comes.
    /// </summary>
    private static IEnumerable<EditAction> Replacements(RigView view, Hookup hookup, IReadOnlyList<Finding> findings)
    {
        var about = findings.Where(f => f.Location.Span.Start >= hookup.Connection.At.Span.Start && f.Location.Span.End <= hookup.Connection.At.Span.End
            // A check that knows a lead has said so.
            && f.Fixes.IsEmpty).ToList();
        if (about.Count == 0 || hookup.IsMismatched || Chain(view, hookup) is not { } chain || chain.SequenceEqual(hookup.Leads))
        {
            yield break;
        }
        var names = chain.Select(l => l.Name).ToList();
        var edits = Naming(view, hookup, names);
        var after = Rewriting.Trial(view, edits);
        if (!Rewriting.AddsNoFinding(view.Compilation, after))
        {
            yield break;
        }
        foreach (var finding in about)
        {
            if (after.Findings.Count(f => f.Check == finding.Check) < view.Compilation.Findings.Count(f => f.Check == finding.Check))
            {
                yield return EditAction.Mending($"Use {string.Join(" and ", names)}", finding, edits);
            }
        }
    }

    private static IReadOnlyList<LeadSymbol>? Chain(RigView view, Hookup hookup)
    {
        var from = hookup.Connection.FromJacks.Select(j => j.Jack).ToArray();
        var to = hookup.Connection.ToJacks.Select(j => j.Jack).ToArray();
        var choice = view.Rig.Wiring.Choice;
        if (from.Length == 0 || to.Length == 0)
        {
            return null;
        }
        if (choice.Simplest(from, to) is { } simplest)
        {
            return [simplest];
        }
        IEnumerable<LeadSymbol> own = view.Rig.Names.Leads.Values;
        foreach (var lead in own.Concat(SharedLibrary.Leads).Where(l => !l.IsIncomplete))
        {
            if (choice.AdapterFor(from, to, [lead]) is { } adapter)
            {
                return [lead, adapter];
            }
        }
        return null;
    }

    /// <summary>Puts names of leads where the line has them, and imports the library when it has one of them. Lengths stay.</summary>
    private static List<TextEdit> Naming(RigView view, Hookup hookup, IReadOnlyList<string> leads)
    {
        var edits = new List<TextEdit>();
        if (leads.Any(l => view.LeadCalled(l) is null) && Rewriting.Import(view, "shared/leads.rig") is { } import)
        {
            edits.Add(import);
        }
        var text = string.Join(" + ", leads.Select(Wording.Written));
        var statement = hookup.Connection.Statement;
        switch (statement.Leads)
        {
            case []:
                edits.Add(Rewriting.Insert(view, statement.To[^1].Span.End, $" with {text}"));
                break;
            case [{ Lead: null, Length: { } length }, ..]:
                edits.Add(Rewriting.Insert(view, length.Span.Start, $"{text} "));
                break;
            case [{ Lead: { } only }]:
                edits.Add(new TextEdit(view.Source, only.Span, text));
                break;
            case [{ Lead: { } first }, .., var last]:
                // What stood behind a `+` goes with its length: the new lead is as long as the first.
                edits.Add(new TextEdit(view.Source, first.Span, text));
                edits.Add(new TextEdit(view.Source, TextSpan.Between(statement.Leads[0].Span.End, last.Span.End), ""));
                break;
        }
        return edits;
    }
}
