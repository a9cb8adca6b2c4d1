using RigLang.Symbols;

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

    private static string? Count(int count) => count == 0 ? null : Checks.Wording.Count(count, "kind");
}
