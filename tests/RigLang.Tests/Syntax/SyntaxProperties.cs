using CsCheck;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Syntax;

/// <summary>What holds for the reading of any text at all.</summary>
public class SyntaxProperties
{
    private static readonly Gen<string> AnyKindOfText =
        Gen.Frequency((2, RigTextGen.Valid), (4, RigTextGen.Mutated), (4, RigTextGen.AnyText));

    [Fact]
    public void Any_text_can_be_read_and_printed_back_to_the_byte() =>
        AnyKindOfText.Sample(text => Assert.Equal(text, Read(text).Print()), iter: 4000);

    [Fact]
    public void Text_that_follows_the_grammar_has_no_fault() => RigTextGen.Valid.Sample(
        text =>
        {
            var tree = Read(text);
            Assert.Empty(tree.Faults);
            Assert.DoesNotContain(tree.Statements.Concat(tree.Statements.SelectMany(s => s.Body)), s => s is BrokenLine);
        },
        iter: 2000);

    [Fact]
    public void Between_two_tokens_there_are_only_spaces_and_one_comment_up_to_the_line_s_end() => AnyKindOfText.Sample(
        text =>
        {
            var end = 0;
            foreach (var token in Read(text).Tokens)
            {
                AssertGap(text[end..token.Start], token.Kind == TokenKind.NewLine);
                Assert.True(token.Length > 0);
                end = token.End;
            }
            AssertGap(text[end..], isBeforeLineEnd: true);
        },
        iter: 2000);

    [Fact]
    public void Every_token_is_in_one_line_or_one_brace_or_ends_a_line_or_lies_in_a_faulted_stretch() => AnyKindOfText.Sample(
        text =>
        {
            var tree = Read(text);
            var owners = new int[tree.Tokens.Length];
            foreach (var line in tree.Outline.Lines)
            {
                Own(owners, line.Tokens);
                if (line.Block is { } block)
                {
                    owners[block.Open]++;
                    foreach (var inner in block.Lines)
                    {
                        Assert.Null(inner.Block);
                        Own(owners, inner.Tokens);
                    }
                    if (block.Close >= 0)
                    {
                        owners[block.Close]++;
                    }
                }
            }
            Assert.All(owners, count => Assert.InRange(count, 0, 1));
            AssertStretchesWithoutOwnerHaveFaults(tree, owners);
        },
        iter: 2000);

    [Fact]
    public void A_statement_is_read_for_each_line_of_the_outline_and_a_fault_told_for_each_broken_line() => AnyKindOfText.Sample(
        text =>
        {
            var tree = Read(text);
            Assert.Equal(tree.Outline.Lines.Count, tree.Statements.Count);
            var broken = tree.Statements.Concat(tree.Statements.SelectMany(s => s.Body)).Count(s => s is BrokenLine);
            Assert.True(tree.Faults.Count >= broken);
            Assert.All(tree.Faults, fault => Assert.InRange(fault.Span.End, fault.Span.Start + 1, text.Length));
            Assert.Equal(tree.Faults.Select(f => f.Span.Start).Order(), tree.Faults.Select(f => f.Span.Start));
        },
        iter: 2000);

    private static SyntaxTree Read(string text) => RigParser.Parse(new SourceText("property.rig", text));

    private static void AssertGap(string gap, bool isBeforeLineEnd)
    {
        var rest = gap.TrimStart(' ', '\t', '\uFEFF', '\u00A0');
        if (isBeforeLineEnd && rest.Length > 0)
        {
            Assert.StartsWith("//", rest, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', rest);
            Assert.DoesNotContain('\r', rest);
        }
        else
        {
            Assert.Empty(rest);
        }
    }

    private static void Own(int[] owners, TokenRange range)
    {
        for (var i = range.First; i < range.End; i++)
        {
            owners[i]++;
        }
    }

    private static void AssertStretchesWithoutOwnerHaveFaults(SyntaxTree tree, int[] owners)
    {
        var faults = tree.Faults.Where(f => f.Outline is OutlineFault.NestedBlock or OutlineFault.StrayClose).Select(f => f.Span.Start).ToHashSet();
        var isInStretch = false;
        for (var i = 0; i < owners.Length; i++)
        {
            if (tree.Tokens[i].Kind == TokenKind.NewLine)
            {
                continue;
            }
            if (owners[i] == 0 && !isInStretch)
            {
                Assert.Contains(tree.Tokens[i].Start, faults);
            }
            isInStretch = owners[i] == 0;
        }
    }
}
