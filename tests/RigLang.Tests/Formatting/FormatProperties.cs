using CsCheck;
using RigLang.Parsing;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Formatting;

/// <summary>What holds for the layout of any text at all.</summary>
public class FormatProperties
{
    private static readonly Gen<string> AnyKindOfText =
        Gen.Frequency((2, RigTextGen.Valid), (5, RigTextGen.Mutated), (2, RigTextGen.AnyText));

    [Fact]
    public void Formatting_twice_equals_formatting_once() => AnyKindOfText.Sample(
        text =>
        {
            var once = Layout.Of(text);
            Assert.Equal(once, Layout.Of(once));
        },
        iter: 2500);

    [Fact]
    public void Formatting_never_changes_tokens_comments_statements_or_faults() => AnyKindOfText.Sample(
        text => Assert.Equal(Meaning.Of(text), Meaning.Of(Layout.Of(text))),
        iter: 2500);

    [Fact]
    public void Formatting_keeps_every_comment_in_order() => AnyKindOfText.Sample(
        text => Assert.Equal(CommentsOf(text), CommentsOf(Layout.Of(text))),
        iter: 2000);

    [Fact]
    public void A_line_with_a_fault_is_kept_to_the_byte() => RigTextGen.Mutated.Sample(
        text =>
        {
            var tree = RigParser.Parse(new SourceText("kept.rig", text));
            var formatted = LinesOf(Layout.Of(text)).ToHashSet();
            foreach (var fault in tree.Faults)
            {
                var line = tree.Source.PositionOf(fault.Span.Start).Line;
                Assert.Contains(tree.Source.Slice(tree.Source.LineSpan(line)).TrimStart('\uFEFF'), formatted);
            }
        },
        iter: 2000);

    [Fact]
    public void A_text_without_faults_gets_no_space_at_a_line_s_end_and_one_line_end_at_its_own() => RigTextGen.Valid.Sample(
        text =>
        {
            var formatted = Layout.Of(text);
            Assert.DoesNotContain(LinesOf(formatted), line => line.EndsWith(' ') || line.EndsWith('\t'));
            Assert.True(formatted.TrimStart('\uFEFF').Length == 0 || formatted.EndsWith('\n'));
            Assert.DoesNotContain("\n\n\n", formatted.Replace("\r", "", StringComparison.Ordinal), StringComparison.Ordinal);
            Assert.Equal(text.StartsWith('\uFEFF'), formatted.StartsWith('\uFEFF'));
        },
        iter: 2000);

    private static List<string> CommentsOf(string text) =>
        Meaning.CommentsOf(RigParser.Parse(new SourceText("comments.rig", text))).ConvertAll(comment => comment.TrimEnd(' ', '\t'));

    private static IEnumerable<string> LinesOf(string text)
    {
        var source = new SourceText("lines.rig", text);
        return Enumerable.Range(0, source.LineCount).Select(line => source.Slice(source.LineSpan(line)).TrimStart('\uFEFF'));
    }
}
