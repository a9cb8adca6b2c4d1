using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>An imported file: where it is and what it brings.</summary>
internal static class FileHover
{
    public static string Of(FileSymbols file, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title(page.Name(file.Source.Path));
        var gear = file.Library?.GearNames.Count ?? file.Gear.Count;
        var leads = file.Library?.LeadNames.Count ?? file.Leads.Count;
        page.Fact("Gear", Count(gear));
        page.Fact("Leads", Count(leads));
        page.Fact("Comes", SharedLibrary.IsShared(file.Source.Path) ? "with the tool" : null);
        return page.ToString();
    }

    /// <summary>The name that an import has in its file: which file that is, and how its names are written.</summary>
    public static string OfImport(RigView view, Named named, ImportStatement import, EditorStyle style)
    {
        var names = view.Rig.Names;
        var page = new HoverPage(style);
        page.Title($"{page.Name(named.Name)}: names of {page.Name(import.Path.Text)}");
        if (names.FileOf(names.FileAt(named.At), import) is not { } file)
        {
            return page.Line("Nothing is known of that file.").ToString();
        }
        var devices = names.Devices.FindAll(d => ReferenceEquals(d.At.Source, file.Source));
        page.Fact("Devices", Listed(devices.Select(names.OwnNameOf)));
        page.Fact("Gear", Listed(file.Gear.Select(g => g.Name)));
        page.Fact("Leads", Listed(file.Leads.Select(l => l.Name)));
        return page.ToString();

        string? Listed(IEnumerable<string> own) =>
            own.Select(name => $"{named.Name}.{name}").ToList() is { Count: > 0 } all ? page.Names(all, most: 12) : null;
    }

    private static string? Count(int count) => count == 0 ? null : Checks.Wording.Count(count, "kind");
}
