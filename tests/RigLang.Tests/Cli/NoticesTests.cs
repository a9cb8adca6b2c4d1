using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary>The notices name what is shipped: they are held against the lock files of what is built.</summary>
public sealed partial class NoticesTests : IDisposable
{
    // Tools of the build, of which nothing is in what it makes.
    private static readonly string[] BuildOnly = ["Microsoft.NET.ILLink.Tasks", "Microsoft.DotNet.ILCompiler"];

    private static readonly string Notices = Read("src/RigLang.Cli/NOTICES.txt");
    private static readonly string Beginning = Notices[..Notices.IndexOf("In the extension", StringComparison.Ordinal)];

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    [Fact]
    public void The_command_prints_them_as_they_are() => Assert.Equal((0, Notices, ""), _stage.Rig("--notices"));

    [Fact]
    public void They_name_each_package_of_the_native_program_in_its_version_and_no_other()
        => Assert.Equal(Locked("src/RigLang.Cli/packages.native.lock.json"), Headings(Beginning));

    [Fact]
    public void The_portable_tool_contains_nothing_that_they_do_not_name()
        => Assert.Empty(Locked("src/RigLang.Cli/packages.lock.json").Except(Headings(Beginning)));

    [Fact]
    public void They_name_packages_of_the_extension_in_their_versions()
    {
        var locked = JsonNode.Parse(Read("editors/vscode/package-lock.json"))!["packages"]!.AsObject()
            .Select(p => $"{p.Key.Split("node_modules/")[^1]} {p.Value!["version"]}")
            .ToHashSet();
        var named = Headings(Notices[Beginning.Length..]);
        Assert.Contains(named, n => n.StartsWith("vscode-languageclient ", StringComparison.Ordinal));
        Assert.Empty(named.Except(locked));
    }

    [Fact]
    public void Each_package_has_a_copyright_and_terms()
    {
        var texts = Regex.Split(Notices, @"(?m)^--- \S+ [0-9].*$")[1..];
        Assert.All(texts, text => Assert.Matches("(?is)(copyright|©).*(permission|permitted)", text));
    }

    private static List<string> Headings(string part)
        => [.. Heading().Matches(part).Select(m => m.Groups["package"].Value).Order(StringComparer.Ordinal)];

    private static List<string> Locked(string path)
        => [.. JsonNode.Parse(Read(path))!["dependencies"]!.AsObject()
            .SelectMany(framework => framework.Value!.AsObject())
            .Where(package => (string?)package.Value!["type"] != "Project" && !BuildOnly.Contains(package.Key))
            .Select(package => $"{package.Key} {package.Value!["resolved"]}")
            .Distinct()
            .Order(StringComparer.Ordinal)];

    private static string Read(string path) => File.ReadAllText(Path.Combine(Repository.Root, path));

    [GeneratedRegex(@"^--- (?<package>\S+ [0-9]\S*) \([\w.-]+\)$", RegexOptions.Multiline)]
    private static partial Regex Heading();
}
