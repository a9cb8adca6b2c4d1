using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Gives a device, gear, lead, port, part, track or import another name everywhere it stands.</summary>
public static class Renaming
{
    /// <summary>The name at an offset, or why it cannot be changed; neither where no name is.</summary>
    public static (Occurrence? Name, string? Refusal) Prepare(RigView view, int offset)
    {
        if (view.NameAt(offset) is not { } at)
        {
            return (null, null);
        }
        var named = at.Of;
        return named.Kind == NameKind.File ? (null, "An import is renamed by renaming its file.")
            : named.IsShared ? (null, $"{named.Name} comes with the tool and keeps its name. Copy it into your own file under a name of yours.")
            : at.IsInRange ? (null, $"{view.Source.Slice(at.Span)} is a range of names. Write the names out one by one first.")
            : (at, null);
    }

    /// <summary>All edits, or why the new name will not do. <paramref name="views"/> are all files that may use the name.</summary>
    public static (IReadOnlyList<TextEdit> Edits, string? Refusal) Rename(RigView view, int offset, string newName, IReadOnlyList<RigView> views)
    {
        var (at, refusal) = Prepare(view, offset);
        if (at is null)
        {
            return ([], refusal ?? "There is no name here that could be changed.");
        }
        var name = newName.Trim().Trim('"');
        if (Written(name) is not { } written)
        {
            return ([], $"\"{newName}\" cannot be a name: a name is on one line and has no quotes in it.");
        }
        if (name == at.Of.Name)
        {
            return ([], null);
        }
        if (views.SelectMany(v => v.Occurrences).Any(o => o.IsInRange && o.Of.IsSameAs(at.Of)))
        {
            return ([], $"{at.Of.Name} is one of a range of names somewhere. Write the range out one by one first.");
        }
        if (Taken(at.Of, name, views) is { } taken)
        {
            return ([], taken);
        }
        var edits = new List<TextEdit>();
        var seen = new HashSet<(string, TextSpan)>();
        foreach (var other in views)
        {
            foreach (var place in other.Occurrences)
            {
                if (place.Of.IsSameAs(at.Of) && seen.Add((other.Source.Path, place.Span)))
                {
                    edits.Add(new TextEdit(other.Source, place.Span, place.IsInQuotes ? name : written));
                }
            }
        }
        return (edits, null);
    }

    /// <summary>A name as it stands in a file: in quotes where it would not be one word; null when it can be no name.</summary>
    public static string? Written(string name)
    {
        if (name.Length == 0 || name.AsSpan().ContainsAny("\"\r\n"))
        {
            return null;
        }
        return Lexer.Lex(new SourceText("", name)) is [{ Kind: TokenKind.Word } only, ..] && only.Length == name.Length ? name : $"\"{name}\"";
    }

    private static string? Taken(Named named, string name, IReadOnlyList<RigView> views)
    {
        foreach (var view in views)
        {
            // What the name would mean where it stands now: behind the name of an import only what that brings counts.
            var asked = new HashSet<string>(StringComparer.Ordinal);
            foreach (var occurrence in view.Occurrences)
            {
                if (occurrence.Of.IsSameAs(named) && asked.Add(occurrence.Prefix) && TakenAt(view, occurrence, name) is var (word, place))
                {
                    var line = place.Source.PositionOf(place.Span.Start).Line + 1;
                    return $"There is {word} called {name} already, at {place.Source.Path.Split('/')[^1]} line {line}. Choose another name.";
                }
            }
        }
        return null;
    }

    private static (string Word, Location Place)? TakenAt(RigView view, Occurrence occurrence, string name)
    {
        var written = occurrence.Prefix + name;
        var (word, other) = occurrence.Of.Symbol switch
        {
            // The first name of a path is the import's, never the device's.
            DeviceSymbol when occurrence.Prefix.Length == 0 && ImportAt(view, name) is { } import => ("an import", import),
            DeviceSymbol => ("a device", view.DeviceCalled(written)?.At),
            GearSymbol => ("a gear", view.GearCalled(written)?.At),
            LeadSymbol => ("a lead", view.LeadCalled(written)?.At),
            ImportStatement when ImportAt(view, name) is { } import => ("an import", import),
            ImportStatement => ("a device", view.DeviceCalled(name)?.At),
            PortSymbol port => (PartOfGear, InsideOf(port.Gear, name)),
            PartSymbol or TrackSymbol or SoundSymbol => (PartOfGear, GearOf(occurrence.Of, view.Rig.Names) is { } gear ? InsideOf(gear, name) : null),
            _ => ("", (Location?)null),
        };
        return other is { } place ? (word, place) : null;
    }

    private const string PartOfGear = "a port, part or track";

    private static Location? ImportAt(RigView view, string name)
    {
        foreach (var prefix in NamesOfFile.PrefixesOf(view.File))
        {
            if (prefix.Text == name)
            {
                return new Location(view.Source, prefix.Span);
            }
        }
        return null;
    }

    private static GearSymbol? GearOf(Named named, RigNames names) =>
        names.AllGear.FirstOrDefault(g => named.Symbol switch
    {
        PartSymbol part => g.Parts.ContainsValue(part),
        TrackSymbol track => g.Tracks.ContainsValue(track),
        SoundSymbol sound => g.Sounds.ContainsValue(sound),
        _ => false,
    });

    /// <summary>Ports, parts and tracks of one gear share their names: `device.name` must mean one of them.</summary>
    private static Location? InsideOf(GearSymbol gear, string name) =>
        gear.PortsByName.TryGetValue(name, out var port) ? port.At
            : gear.Parts.TryGetValue(name, out var part) ? part.At
            : gear.Tracks.TryGetValue(name, out var track) ? track.At
            : gear.Sounds.TryGetValue(name, out var sound) ? sound.At
            : null;
}
