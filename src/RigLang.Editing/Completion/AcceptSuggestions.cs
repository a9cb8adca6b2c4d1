using RigLang.Checks;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>An `accept` line: a check, where, and why. Checks that speak now come first, and then the places that they speak of.</summary>
internal static class AcceptSuggestions
{
    public static void Add(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        if (tokens.Count == 1)
        {
            AddChecks(line, list);
            return;
        }
        if (tokens.Count == 2)
        {
            list.Keyword(0, "on");
            return;
        }
        if (tokens[2].Keyword != Keyword.On)
        {
            return;
        }
        var places = new PathsTyped(line.View);
        var i = 3;
        while (i < tokens.Count && places.Take(tokens[i]))
        {
            i++;
        }
        if (i < tokens.Count)
        {
            if (i == tokens.Count - 1 && tokens[i].Keyword == Keyword.Because)
            {
                list.Snippet(0, "\"…\"", "\"${1:why}\"", "the reason, in quotes");
            }
            return;
        }
        AddPlace(line, places, list);
    }

    private static void AddChecks(CaretLine line, SuggestionList list)
    {
        // The line that is being typed is wrong as long as it is not finished.
        var start = line.Before[0].Start;
        var told = line.View.Compilation.Findings
            .Where(f => !ReferenceEquals(f.Location.Source, line.View.Source) || f.Location.Span.Start < start || f.Location.Span.Start > line.Offset)
            .Select(f => f.Check.Name).ToHashSet(StringComparer.Ordinal);
        foreach (var check in CheckList.All)
        {
            list.Word(told.Contains(check.Name) ? 0 : 10, check.Name, SuggestionKind.Word, check.Title, SuggestionKey.Of("check", check.Name));
        }
    }

    private static void AddPlace(CaretLine line, PathsTyped places, SuggestionList list)
    {
        switch (places.Slot)
        {
            case PathSlot.Device or PathSlot.InImport:
                foreach (var (name, device) in line.View.NamedDevices)
                {
                    list.Device(0, name, places, device.Statement.Gear.Text, device);
                }
                list.Prefixes(places);
                break;
            case PathSlot.Inside when places.Device is { Gear: { } gear } device:
                foreach (var port in gear.Ports)
                {
                    list.Name(0, port.Name, SuggestionKind.Port, PortText.Of(port), SuggestionKey.Of("port", device.Name, port.Name));
                }
                foreach (var part in gear.Parts.Keys)
                {
                    list.Name(1, part, SuggestionKind.Part, "part");
                }
                foreach (var track in gear.Tracks.Keys)
                {
                    list.Name(1, track, SuggestionKind.Track, "track");
                }
                break;
            case PathSlot.After:
                list.Snippet(0, "because", "because \"${1:why}\"", "the reason, in quotes");
                list.Keyword(1, "because");
                break;
        }
    }
}
