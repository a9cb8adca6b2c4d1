using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>A kind of cable: its plugs and wires, how many are in the box and how many this rig uses.</summary>
internal static class LeadHover
{
    public static string Of(RigView view, LeadSymbol lead, EditorStyle style)
    {
        var page = new HoverPage(style);
        var rig = view.Rig;
        page.Title($"{page.Name(lead.Name)}, a lead");
        Documentation.Add(page, Documentation.Of(rig, lead));
        page.Fact("Plugs", lead.Ends.Count == 0 ? null : $"{Ends(page, lead.Ends.Take(lead.NearCount))} to {Ends(page, lead.Ends.Skip(lead.NearCount))}");
        page.Fact("Longest", lead.Longest is { } longest ? page.Length(longest) : null);
        page.Fact("In the box", StockOf(page, rig, lead));
        page.Fact("In use", UsesOf(rig, lead) is > 0 and var uses ? $"{uses} in this rig" : "none in this rig");
        if (lead.Ends.Count > 0)
        {
            page.Table([.. lead.Ends.Take(1).Select(e => Side(lead, e)), .. lead.Ends.Skip(lead.NearCount).Take(1).Select(e => Side(lead, e))], RowsOf(lead));
        }
        return page.ToString();
    }

    private static string Ends(HoverPage page, IEnumerable<LeadEndSymbol> ends) => string.Join(", ", ends.Select(e =>
        $"{(e.IsSocket ? "socket " : "")}{e.Form}{(e.Name.Length > 0 ? $" {page.Name(e.Name)}" : "")}"));

    private static string? StockOf(HoverPage page, Flow.Rig rig, LeadSymbol lead)
    {
        var stock = rig.Names.Stock.FindAll(s => ReferenceEquals(s.Lead, lead));
        return stock.Count == 0 ? null : Checks.Wording.And(stock.Select(s => s.Length is { } length ? $"{s.Count} of {page.Length(length)}" : $"{s.Count}"));
    }

    private static int UsesOf(Flow.Rig rig, LeadSymbol lead)
    {
        var uses = 0;
        foreach (var hookup in rig.Wiring.Hookups)
        {
            for (var i = 0; i < hookup.Leads.Count; i++)
            {
                uses += !ReferenceEquals(hookup.Leads[i], lead) ? 0 : hookup.Harness is { } harness && i < harness.Copies.Count ? harness.Copies[i] : 1;
            }
        }
        return uses;
    }

    private static string Side(LeadSymbol lead, LeadEndSymbol end) => lead.Ends.IndexOf(end) < lead.NearCount
        ? string.Join(", ", lead.Ends.Take(lead.NearCount).Select(e => e.Form.Name).Distinct())
        : string.Join(", ", lead.Ends.Skip(lead.NearCount).Select(e => e.Form.Name).Distinct());

    private static List<IReadOnlyList<string>> RowsOf(LeadSymbol lead) =>
    [
        .. lead.Wires.GroupBy(w => (w.FromEnd, w.FromContact)).Select(wire => (IReadOnlyList<string>)
        [
            Contact(lead, wire.Key.FromEnd, wire.Key.FromContact),
            string.Join(" + ", wire.Select(w => Contact(lead, w.ToEnd, w.ToContact))),
        ]),
    ];

    private static string Contact(LeadSymbol lead, int end, int contact)
    {
        var at = lead.Ends[end];
        return (at.Name.Length > 0 ? at.Name + " " : "") + at.Form.Contacts[contact];
    }
}
