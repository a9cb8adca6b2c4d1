using System.Text.RegularExpressions;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Architecture;

/// <summary>Data moves one way: a folder of the compiler uses only folders that stand before it here.</summary>
public partial class FolderOrder
{
    private static readonly string[] Order =
        ["Text", "Trade", "Connectors", "Syntax", "Parsing", "Symbols", "Wiring", "Flow", "Findings", "Checks", "Formatting"];

    private static readonly string Source = Path.Combine(Repository.Root, "src", "RigLang");

    public static TheoryData<string> Folders => [.. Order];

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_uses_no_folder_behind_it(string folder)
    {
        var later = Order[(Array.IndexOf(Order, folder) + 1)..];
        foreach (var file in Directory.EnumerateFiles(Path.Combine(Source, folder), "*.cs", SearchOption.AllDirectories))
        {
            var text = File.ReadAllText(file);
            var used = later.Where(name => Regex.IsMatch(text, $@"\bRigLang\.{name}\b")).ToList();
            Assert.True(used.Count == 0, $"{Path.GetRelativePath(Source, file)} uses {string.Join(", ", used)}");
        }
    }

    [Fact]
    public void Every_folder_has_its_place_in_the_order() =>
        Assert.Equal(Order.Order(), Directory.GetDirectories(Source).Select(d => Path.GetFileName(d)!).Where(d => d is not ("bin" or "obj")).Order());

    [Theory]
    [InlineData("RigLang")]
    [InlineData("RigLang.Editing")]
    [InlineData("RigLang.LanguageServer")]
    public void Only_the_command_touches_disk_and_console(string project)
    {
        foreach (var file in FilesOf(project))
        {
            Assert.False(DiskOrConsole().IsMatch(File.ReadAllText(file)), file);
        }
    }

    [Theory]
    [InlineData("RigLang")]
    [InlineData("RigLang.Editing")]
    public void Only_the_language_server_knows_the_protocol_and_JSON(string project)
    {
        foreach (var file in FilesOf(project))
        {
            Assert.False(ProtocolOrJson().IsMatch(File.ReadAllText(file)), file);
        }
    }

    private static IEnumerable<string> FilesOf(string project) =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", project), "*.cs", SearchOption.AllDirectories).Where(f => !f.Contains("/obj/", StringComparison.Ordinal));

    [GeneratedRegex(@"\b(Console\.|File\.(Read|Write|Open|Exists)|Directory\.)")]
    private static partial Regex DiskOrConsole();

    [GeneratedRegex(@"\b(System\.Text\.Json|StreamJsonRpc|RigLang\.LanguageServer)\b")]
    private static partial Regex ProtocolOrJson();
}
