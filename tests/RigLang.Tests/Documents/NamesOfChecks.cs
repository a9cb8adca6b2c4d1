using System.Text.RegularExpressions;
using RigLang.Checks;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Documents;

/// <summary>A name in backticks that looks like that of a check is that of a check: on every check page, in the README and in the reference.</summary>
public partial class NamesOfChecks
{
    /// <summary>Words of the language, and of editors, that are written alike.</summary>
    private static readonly string[] Others =
    [
        "iec-c13", "iec-c14", "iec-c5", "iec-c6", "iec-c7", "iec-c8", "impedance-balanced", "transformer-balanced", "positive-ground", "centre-positive", "centre-negative",
        "mic-pre", "type-a", "type-b", "usb-a", "usb-b", "usb-c", "xlr-3", "din-5", "din-sync", "class-1", "class-2", "two-pole", "any-polarity", "double-insulated",
        "volt-per-octave", "hertz-per-volt",
    ];

    [GeneratedRegex("`([a-z]+(?:-[a-z0-9]+)+)`")]
    private static partial Regex Kebab { get; }

    [Fact]
    public void Every_one_exists()
    {
        var checks = CheckList.All.Select(c => c.Name).ToHashSet();
        var texts = CheckList.All.Select(c => (c.Name, Text: $"{c.Title}\n{c.Why}\n{c.Advice}\n{c.Source}"))
            .Concat(new[] { "README.md", "DEVELOPERS.md", "grammar/README.md" }.Select(f => (Name: f, Text: File.ReadAllText(Path.Combine(Repository.Root, f)))));
        var strangers = texts.SelectMany(t => Kebab.Matches(t.Text).Select(m => (t.Name, Word: m.Groups[1].Value)))
            .Where(w => !checks.Contains(w.Word) && !Others.Contains(w.Word)).Select(w => $"{w.Name}: {w.Word}");
        Assert.Empty(strangers);
    }

    [GeneratedRegex("rig explain ([a-z]+(?:-[a-z]+)+)")]
    private static partial Regex Explained { get; }

    [Fact]
    public void Every_page_that_the_help_shows_exists()
    {
        var checks = CheckList.All.Select(c => c.Name).ToHashSet();
        var shown = Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", "RigLang.Cli", "Commands"), "*.cs")
            .SelectMany(file => Explained.Matches(File.ReadAllText(file)).Select(m => m.Groups[1].Value)).Distinct().ToList();
        Assert.NotEmpty(shown);
        Assert.Empty(shown.Except(checks));
    }
}
