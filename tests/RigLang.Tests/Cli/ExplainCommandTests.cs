using System.Text.Json.Nodes;
using RigLang.Cli.Commands;
using RigLang.Findings;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class ExplainCommandTests : IDisposable
{
    private static readonly Check[] Two = [new MadeUpCheck(), new MadeUpCheck("lead-too-long", Severity.Warning)];

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private (int Code, string Out, string Error) Explain(PageFormat format, params string[] names)
        => _stage.With(host => ExplainCommand.Run(names, format, host, Two));

    [Fact]
    public void A_page_tells_what_why_what_to_do_the_source_and_two_examples()
        => Assert.Equal(
            """
            plug-upside-down  error
            A plug sits upside down

              Why     Nothing is heard.
              Do      Turn it round.
              Source  common practice

              A rig that gives it:

                plug { down }

              Put right:

                plug { up }

            """.ReplaceLineEndings("\n"),
            Explain(PageFormat.Text, "plug-upside-down").Out);

    [Fact]
    public void Without_a_name_all_checks_are_listed_aligned()
        => Assert.Equal(
            """
            plug-upside-down  error    A plug sits upside down
            lead-too-long     warning  A plug sits upside down

            2 checks. rig explain NAME shows one check's page.

            """.ReplaceLineEndings("\n"),
            Explain(PageFormat.Text).Out);

    [Fact]
    public void An_unknown_name_suggests_the_nearest()
        => Assert.Equal(
            (2, "", "rig: there is no check called \"lead-to-long\". Did you mean lead-too-long?\nrig explain lists them all.\n"),
            Explain(PageFormat.Text, "lead-to-long"));

    [Fact]
    public void The_list_in_Markdown_is_a_table()
        => Assert.Equal(
            """
            | Check | Severity | What it finds |
            |---|---|---|
            | `plug-upside-down` | error | A plug sits upside down |
            | `lead-too-long` | warning | A plug sits upside down |

            """.ReplaceLineEndings("\n"),
            Explain(PageFormat.Markdown).Out);

    [Fact]
    public void A_page_in_Markdown_fences_its_examples()
        => Assert.Contains("```rig\nplug { down }\n```\n", Explain(PageFormat.Markdown, "plug-upside-down").Out, StringComparison.Ordinal);

    [Fact]
    public void In_JSON_a_page_has_all_its_parts()
    {
        var json = JsonNode.Parse(Explain(PageFormat.Json, "lead-too-long").Out)!;
        Assert.Equal(
            """{"name":"lead-too-long","severity":"warning","title":"A plug sits upside down","why":"Nothing is heard.","advice":"Turn it round.","caution":null,"source":"common practice","badExample":"plug { down }\n","goodExample":"plug { up }\n"}""",
            json["checks"]![0]!.ToJsonString());
        Assert.Equal(2, JsonNode.Parse(Explain(PageFormat.Json).Out)!["checks"]!.AsArray().Count);
    }
}
