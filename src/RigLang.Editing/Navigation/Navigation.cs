using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>From a name to where it is declared and where else it stands.</summary>
public static class Navigation
{
    /// <summary>Where the thing at an offset is declared; an import leads to its file. Null where no name is.</summary>
    public static Location? DefinitionOf(RigView view, int offset) => view.NameAt(offset)?.Of.At;

    /// <summary>The gear of a device, or of a port, part or track; null for what has none.</summary>
    public static Location? TypeDefinitionOf(RigView view, int offset) => view.NameAt(offset)?.Of switch
    {
        { Symbol: DeviceSymbol { Gear: { } gear } } => gear.At,
        { Symbol: PortSymbol port } => port.Gear.At,
        { Device.Gear: { } gear } => gear.At,
        _ => null,
    };

    /// <summary>The devices of the rig that are of a gear, or that have the port, part or track.</summary>
    public static IReadOnlyList<Location> ImplementationsOf(RigView view, int offset)
    {
        if (view.NameAt(offset)?.Of is not { } named || named.Kind is NameKind.Lead or NameKind.File or NameKind.Import)
        {
            return [];
        }
        return
        [
            .. view.Rig.Names.Devices.Where(d => d.Gear is { } gear && named.Symbol switch
            {
                GearSymbol of => ReferenceEquals(gear, of),
                DeviceSymbol of => ReferenceEquals(d, of),
                PortSymbol of => ReferenceEquals(gear, of.Gear),
                PartSymbol of => gear.Parts.ContainsValue(of),
                TrackSymbol of => gear.Tracks.ContainsValue(of),
                SoundSymbol of => gear.Sounds.ContainsValue(of),
                _ => false,
            }).Select(d => d.At),
        ];
    }

    /// <summary>Every place in some files where the same thing is named; each place once, in the order of the files.</summary>
    public static IReadOnlyList<Location> ReferencesTo(Named named, IEnumerable<RigView> views, bool withDeclaration)
    {
        var found = new List<Location>();
        var seen = new HashSet<(string, TextSpan)>();
        foreach (var view in views)
        {
            foreach (var occurrence in view.Occurrences)
            {
                if (occurrence.Of.IsSameAs(named) && (withDeclaration || !occurrence.IsDeclaration) && seen.Add((view.Source.Path, occurrence.Span)))
                {
                    found.Add(new Location(view.Source, occurrence.Span));
                }
            }
        }
        return found;
    }

    /// <summary>The same name elsewhere in this file; a declaration counts as writing.</summary>
    public static IReadOnlyList<(TextSpan Span, bool IsDeclaration)> HighlightsAt(RigView view, int offset) =>
        view.NameAt(offset) is { } at ? [.. view.Occurrences.Where(o => o.Of.IsSameAs(at.Of)).Select(o => (o.Span, o.IsDeclaration)).Distinct()] : [];
}
