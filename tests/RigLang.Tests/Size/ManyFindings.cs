using System.Text.Json;
using RigLang.Checks;
using RigLang.Flow;
using RigLang.Tests.Cli;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Size;

/// <summary>A file with more mistakes of one kind than anybody reads is told the first of them, and how many more there are.</summary>
public class ManyFindings
{
    private const int Most = 1000;
    private const string More = "2,000 more of these are in this file; only the first 1,000 are listed.";

    private static readonly string Broken = string.Concat(Enumerable.Repeat("device device device\n", 3000));

    [Fact]
    public void Of_three_thousand_broken_lines_a_thousand_are_told_and_two_thousand_counted()
    {
        var findings = Rigs.Compile(Broken).Findings;
        Assert.Equal(Most + 1, findings.Length);
        Assert.Equal(More, findings[^1].What);
        Assert.Equal(Most, findings[^1].Location.Source.PositionOf(findings[^1].Location.Span.Start).Line);
    }

    [Fact]
    public void The_same_is_said_whichever_check_speaks_first()
    {
        var rig = Rigs.Compile(Broken).Rig;
        Assert.Equal(
            Judgements.Of(rig).Findings.Select(f => $"{f.Location.Span} {f.What}"),
            Judgements.Of(rig, [.. CheckList.All.Reverse()]).Findings.Select(f => $"{f.Location.Span} {f.What}"));
    }

    [Fact]
    public void A_mistake_of_another_kind_is_told_beside_them() =>
        Assert.Contains("unknown-name", Rigs.Compile(Broken + "device bass : Nothing\n").Names());

    [Fact]
    public void Each_file_has_its_own_limit()
    {
        var findings = Rigs.Compile("import \"other.rig\"\n" + Broken, ("other.rig", Broken)).Findings;
        Assert.Equal(2, findings.Count(f => f.What == More));
    }

    [Fact]
    public void Any_check_has_the_limit()
    {
        var findings = Rigs.Compile(string.Concat(Enumerable.Range(0, 1500).Select(i => $"device d{i} : Nothing{i}\n"))).Findings;
        Assert.Equal(Most + 1, findings.Length);
        Assert.Equal(500, findings.Single(f => f.Count > 1).Count);
    }

    [Fact]
    public void The_command_counts_them_all()
    {
        using var stage = new Stage();
        var file = stage.Put("broken.rig", Broken);
        var (code, output, _) = stage.Rig("check", file);
        Assert.Equal(1, code);
        Assert.Contains("3000 errors in 1 file.", output, StringComparison.Ordinal);
        using var json = JsonDocument.Parse(stage.Rig("check", "--format", "json", file).Out);
        Assert.Equal(3000, json.RootElement.GetProperty("summary").GetProperty("errors").GetInt32());
    }

    [Theory]
    [InlineData("text")]
    [InlineData("json")]
    [InlineData("sarif")]
    public void What_is_found_is_written_before_the_last_file_is_read(string format)
    {
        using var stage = new Stage();
        var first = stage.Put("a.rig", Broken);
        var second = stage.Put("b.rig", "gear A {\n}\n");
        var written = new List<long>();
        var output = new MemoryStream();
        var host = stage.HostOn(output, new MemoryStream());
        var request = new RigLang.Cli.Commands.CheckRequest([first, second], format switch
        {
            "json" => RigLang.Cli.Commands.CheckFormat.Json,
            "sarif" => RigLang.Cli.Commands.CheckFormat.Sarif,
            _ => RigLang.Cli.Commands.CheckFormat.Text,
        });
        RigLang.Cli.Commands.CheckCommand.Run(request, host, (root, open) =>
        {
            written.Add(output.Length);
            return Compilation.Create(root, open);
        });
        Assert.True(written[1] > 100_000, $"{written[1]} bytes were written when the second file was read");
    }
}
