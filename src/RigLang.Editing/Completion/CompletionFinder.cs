using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>
/// What may be typed at a caret, best first. Works from the tokens of a line that is seldom finished, and from the rig as it was
/// compiled without that line.
/// </summary>
public static class CompletionFinder
{
    /// <param name="importablePaths">Files that an import of this file could name, as it would write them.</param>
    public static IReadOnlyList<Suggestion> At(RigView view, int offset, EditorStyle style, IReadOnlyList<string> importablePaths)
    {
        if (CaretLine.At(view, offset) is not { } line)
        {
            return [];
        }
        var list = new SuggestionList(line);
        if (line.Header.Count > 0)
        {
            AddInBlock(line, style, list);
        }
        else
        {
            AddStatement(line, style, importablePaths, list);
        }
        return list.Sorted;
    }

    /// <summary>What there is to read about a suggestion; null when nothing is, or the key is not one of its own.</summary>
    public static string? Documentation(RigView view, string key, EditorStyle style) => SuggestionPages.Of(view, key, style);

    private static void AddInBlock(CaretLine line, EditorStyle style, SuggestionList list)
    {
        switch (line.Header[0].Keyword)
        {
            case Keyword.Rig:
                OtherSuggestions.AddRigLine(line, list);
                break;
            case Keyword.Gear:
                GearSuggestions.Add(line, list);
                break;
            case Keyword.Lead:
                OtherSuggestions.AddLeadLine(line, list);
                break;
            case Keyword.Device:
                DeviceSuggestions.AddSetting(line, list);
                break;
            case Keyword.Stock:
                OtherSuggestions.AddStockLine(line, style, list);
                break;
        }
    }

    private static void AddStatement(CaretLine line, EditorStyle style, IReadOnlyList<string> importablePaths, SuggestionList list)
    {
        if (line.Before.Count == 0)
        {
            OtherSuggestions.AddStatements(style, list);
            return;
        }
        switch (line.Before[0].Keyword)
        {
            case Keyword.Gear:
                OtherSuggestions.AddGearHeader(line, list);
                break;
            case Keyword.Import:
                OtherSuggestions.AddImports(line, importablePaths, list);
                break;
            case Keyword.Lead:
                OtherSuggestions.AddLeadHeader(line, list);
                break;
            case Keyword.Device:
                DeviceSuggestions.AddHeader(line, style, list);
                break;
            case Keyword.Connect:
                ConnectSuggestions.Add(line, style, list);
                break;
            case Keyword.Must or Keyword.Never:
                ExpectSuggestions.Add(line, list);
                break;
            case Keyword.Accept:
                AcceptSuggestions.Add(line, list);
                break;
        }
    }
}
