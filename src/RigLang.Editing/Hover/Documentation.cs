using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What the <c>///</c> lines above a declaration say.</summary>
internal static class Documentation
{
    public static string Of(Flow.Rig rig, DeviceSymbol device) => Of(rig, device.At);

    public static string Of(Flow.Rig rig, GearSymbol gear) => Of(rig, gear.At);

    public static string Of(Flow.Rig rig, LeadSymbol lead) => Of(rig, lead.At);

    public static void Add(HoverPage page, string documentation)
    {
        if (documentation.Length > 0)
        {
            page.Said(documentation);
        }
    }

    /// <summary>Found by the place of the name: a library symbol is read without the file around it.</summary>
    private static string Of(Flow.Rig rig, Location name)
    {
        if (TreeOf(rig, name.Source) is not { } tree)
        {
            return "";
        }
        var statements = tree.Statements;
        var (low, high) = (0, statements.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = statements[middle].Span.End <= name.Span.Start ? (middle + 1, high) : (low, middle);
        }
        return low < statements.Count && statements[low].Span.Start <= name.Span.Start ? tree.DocumentationOf(statements[low]) : "";
    }

    private static SyntaxTree? TreeOf(Flow.Rig rig, SourceText source) =>
        rig.Names.Files.FirstOrDefault(f => ReferenceEquals(f.Source, source))?.Tree ?? SharedLibrary.Open(source.Path)?.Tree;
}
