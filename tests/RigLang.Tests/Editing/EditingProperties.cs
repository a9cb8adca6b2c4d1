using CsCheck;
using RigLang.Editing;
using RigLang.Findings;
using RigLang.Tests.Examples;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>What holds for completion and actions, whatever the file and wherever the caret.</summary>
public class EditingProperties
{
    private static readonly string Example = Shipped.Read("examples/pantile-yard.rig").Content;

    /// <summary>The example cut off somewhere, or with pieces of it gone or replaced.</summary>
    private static readonly Gen<string> Broken = Gen.OneOf(
        Gen.Int[0, Example.Length].Select(length => Example[..length]),
        Gen.Select(Gen.Int[0, Example.Length - 1], Gen.Int[0, 60], Gen.OneOf("", "\"", "}", "{", ",", "\n", "9", "..", ".", " to ", "with "), Damaged)
            .SelectMany(once => Gen.Select(Gen.Int[0, once.Length], Gen.Int[0, 9], Gen.OneOf("", "\"", "}", "{", "\r"), (at, length, text) => Damaged(once, at, length, text))),
        RigTextGen.Mutated,
        RigTextGen.AnyText);

    [Fact]
    public void Any_caret_in_the_example_has_suggestions_whose_place_is_around_it()
    {
        var view = ViewOf(Example);
        for (var offset = 0; offset <= Example.Length; offset++)
        {
            AssertSuggestions(view, offset);
        }
    }

    [Fact]
    public void Any_caret_in_a_broken_file_has_suggestions_whose_place_is_around_it() => Gen.Select(Broken, Gen.Int[0, 100_000].Array[1, 8]).Sample(
        (text, carets) =>
        {
            var view = ViewOf(text);
            foreach (var caret in carets)
            {
                AssertSuggestions(view, caret % (text.Length + 1));
            }
        },
        iter: 400);

    [Fact]
    public void Any_caret_in_the_example_has_actions_whose_edits_lie_inside_it_and_apart()
    {
        var view = ViewOf(Example);
        for (var offset = 0; offset <= Example.Length; offset += 11)
        {
            AssertActions(view, offset);
        }
    }

    [Fact]
    public void Any_caret_in_a_broken_file_has_actions_whose_edits_lie_inside_it_and_apart() => Gen.Select(Broken, Gen.Int[0, 100_000].Array[1, 4]).Sample(
        (text, carets) =>
        {
            var view = ViewOf(text);
            foreach (var caret in carets)
            {
                AssertActions(view, caret % (text.Length + 1));
            }
            AssertApart(view, ActionFinder.FixAll(view));
        },
        iter: 200);

    private static void AssertSuggestions(RigView view, int offset)
    {
        foreach (var suggestion in CompletionFinder.At(view, offset, Completed.Metres, ["other.rig"]))
        {
            Assert.InRange(offset, suggestion.Replace.Start, suggestion.Replace.End);
            Assert.InRange(suggestion.Replace.End, 0, view.Source.Length);
            Assert.NotEmpty(suggestion.Label);
        }
    }

    private static void AssertActions(RigView view, int offset)
    {
        foreach (var action in ActionFinder.In(view, new TextSpan(offset, 0)))
        {
            Assert.NotEmpty(action.Edits);
            AssertApart(view, action.Edits);
        }
    }

    private static void AssertApart(RigView view, IReadOnlyList<TextEdit> edits)
    {
        var inOrder = edits.Where(e => e.Source == view.Source).OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End).ToList();
        Assert.All(inOrder, edit => Assert.InRange(edit.Span.End, edit.Span.Start, view.Source.Length));
        Assert.All(inOrder.Zip(inOrder.Skip(1)), pair => Assert.True(pair.First.Span.End <= pair.Second.Span.Start));
    }

    private static RigView ViewOf(string text)
    {
        var source = new SourceText("examples/pantile-yard.rig", text);
        return RigView.Of(Compilation.Create(source, path => path == "examples/pantile-yard-gear.rig"
            ? new OpenedFile(Shipped.Read(path), null)
            : new OpenedFile(null, "there is no such file")), source.Path)!;
    }

    private static string Damaged(int at, int length, string text) => Damaged(Example, at, length, text);

    private static string Damaged(string whole, int at, int length, string text) =>
        string.Concat(whole.AsSpan(0, at), text, whole.AsSpan(Math.Min(whole.Length, at + length)));
}
