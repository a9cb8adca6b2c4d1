using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>A lead in a player's words.</summary>
internal static class LeadText
{
    /// <summary>"trs 3.5 mm to ts 6.35 mm left, ts 6.35 mm right".</summary>
    public static string Plugs(LeadSymbol lead) =>
        $"{string.Join(", ", lead.Ends.Take(lead.NearCount).Select(End))} to {string.Join(", ", lead.Ends.Skip(lead.NearCount).Select(End))}";

    private static string End(LeadEndSymbol end) => $"{(end.IsSocket ? "socket " : "")}{end.Form}{(end.Name.Length > 0 ? " " + end.Name : "")}";
}
