using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>Units of what a number measures where it stands.</summary>
internal static class UnitSuggestions
{
    public static void Add(SuggestionList list, params ReadOnlySpan<Dimension> dimensions)
    {
        foreach (var dimension in dimensions)
        {
            Add(list, [.. Units.Of(dimension)]);
        }
    }

    public static void Add(SuggestionList list, params ReadOnlySpan<string> units)
    {
        foreach (var unit in units)
        {
            list.Word(0, unit, SuggestionKind.Unit, Units.Describe(Units.Table[unit].Dimension));
        }
    }
}
