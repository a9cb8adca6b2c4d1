using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>What a client shows beside a suggestion when it asks for more: the same page that a hover shows.</summary>
internal static class SuggestionPages
{
    public static string? Of(RigView view, string key, EditorStyle style)
    {
        var names = view.Rig.Names;
        return SuggestionKey.Parts(key) switch
        {
            ["gear", var name] when view.GearCalled(name) is { } gear => GearHover.Of(view, gear, style),
            ["lead", var name] when view.LeadCalled(name) is { } lead => LeadHover.Of(view, lead, style),
            ["device", var name] when names.DevicesByName.TryGetValue(name, out var device) => DeviceHover.Of(view, device, style),
            ["port", var name, var port] when names.DevicesByName.GetValueOrDefault(name) is { Gear: { } gear } device && gear.PortsByName.TryGetValue(port, out var symbol) =>
                PortHover.Of(view, symbol, device, style),
            ["word", var word] when HasPage(word) => KeywordText.Of(Keywords.Find(word), style),
            ["kind", var word] => WordText.Of(WordText.MessageKinds, word, style),
            ["check", var name] when Checks.CheckList.Find(name) is { } check => CheckText.Of(check, style),
            ["signal", var word] => WordText.Of(WordText.Signals, word, style),
            _ => null,
        };
    }

    public static bool HasPage(string word) => KeywordText.Table.ContainsKey(Keywords.Find(word));
}
