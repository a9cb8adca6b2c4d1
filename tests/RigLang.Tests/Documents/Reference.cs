using System.Text.RegularExpressions;
using System.Text;
using RigLang.Checks;
using RigLang.Connectors;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Documents;

/// <summary>
/// The language reference says what is true: its examples compile, its list of checks is the compiler's. To write the list
/// anew after adding a check, run the tests once with <c>RIG_UPDATE=1</c>.
/// </summary>
public partial class Reference
{
    private const string ListStart = "<!-- checks: generated from the check list; the test suite holds it current -->\n";
    private const string ListEnd = "<!-- end of checks -->";

    private static readonly string File = Path.Combine(Repository.Root, "grammar", "README.md");

    public static TheoryData<int> ExampleNumbers => [.. Enumerable.Range(0, Examples().Count)];

    [Theory]
    [MemberData(nameof(ExampleNumbers))]
    public void Each_example_gives_no_finding(int number)
    {
        var compilation = Rigs.Compile(Examples()[number]);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
    }

    [Fact]
    public void Every_statement_has_an_example()
    {
        var all = string.Concat(Examples());
        foreach (var word in (string[])["rig", "import", "gear", "lead", "device", "connect", "stock", "must", "never", "accept"])
        {
            Assert.Matches($@"(?m)^{word}\b", all);
        }
    }

    [Fact]
    public void The_list_of_checks_is_current()
    {
        var text = System.IO.File.ReadAllText(File);
        var start = text.IndexOf(ListStart, StringComparison.Ordinal) + ListStart.Length;
        var end = text.IndexOf(ListEnd, StringComparison.Ordinal);
        var wanted = ListOfChecks();
        if (Environment.GetEnvironmentVariable("RIG_UPDATE") == "1")
        {
            System.IO.File.WriteAllText(File, text[..start] + wanted + text[end..]);
            return;
        }
        Assert.Equal(wanted, text[start..end]);
    }

    [Fact]
    public void Every_connector_is_in_the_table()
    {
        var text = System.IO.File.ReadAllText(File);
        Assert.All(Forms.All, form => Assert.Contains($"`{form.Name}`", text, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_unit_is_in_the_table()
    {
        var text = System.IO.File.ReadAllText(File);
        Assert.All(RigLang.Trade.Units.Table.Keys, unit => Assert.Contains($"`{unit}`", text, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_keyword_is_in_the_grammar()
    {
        var text = System.IO.File.ReadAllText(File);
        var grammar = text[text.IndexOf("```ebnf", StringComparison.Ordinal)..];
        Assert.All(RigLang.Syntax.Keywords.Table.Keys, word => Assert.Contains($"\"{word}\"", grammar, StringComparison.Ordinal));
    }

    private static string ListOfChecks()
    {
        var list = new StringBuilder("| Check | Severity | Pattern |\n| --- | --- | --- |\n");
        foreach (var check in CheckList.All)
        {
            list.Append($"| `{check.Name}` | {check.Severity.ToString().ToLowerInvariant()} | {check.Title} |\n");
        }
        return list.ToString();
    }

    private static List<string> Examples() =>
        [.. RigBlock().Matches(System.IO.File.ReadAllText(File)).Select(m => m.Groups[1].Value)];

    [GeneratedRegex(@"```rig\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex RigBlock();
}
