using CsCheck;
using RigLang.Editing;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>Whatever stands in a file and wherever the caret is, asking is safe.</summary>
public class AnyPlace
{
    private static readonly string Example = File.ReadAllText(Path.Combine(Repository.Root, "examples", "pantile-yard.rig"));
    private static readonly string Gear = File.ReadAllText(Path.Combine(Repository.Root, "examples", "pantile-yard-gear.rig"));
    private static readonly EditorStyle Plain = new(Markdown: false, InFeet: false);
    private static readonly EditorStyle InFeet = new(Markdown: true, InFeet: true);

    [Fact]
    public void Every_offset_of_the_example_can_be_asked_for()
    {
        foreach (var view in RigView.AllOf(Compile(Example)))
        {
            // The library's files are long; a place in every few words will do.
            for (var offset = 0; offset <= view.Source.Length; offset += view.Source.Path.StartsWith("shared/", StringComparison.Ordinal) ? 17 : 1)
            {
                AskAt(view, offset);
            }
        }
    }

    [Fact]
    public void Every_connection_and_device_of_the_example_has_something_to_tell()
    {
        var view = RigView.Of(Compile(Example), "example.rig")!;
        foreach (var line in Example.Split('\n').Where(l => l.StartsWith("connect ", StringComparison.Ordinal) || l.StartsWith("device ", StringComparison.Ordinal)))
        {
            var hover = HoverFinder.At(view, Example.IndexOf(line, StringComparison.Ordinal) + (line[0] == 'c' ? 1 : 7), Plain);
            Assert.True(hover?.Text.Split('\n').Length > 3, line);
        }
    }

    [Fact]
    public void A_file_that_ends_anywhere_can_be_asked_for() =>
        Gen.Int[0, Example.Length].Sample(end => AskAround(Example[..end], end), iter: 30, threads: 1);

    [Fact]
    public void A_file_with_pieces_missing_doubled_and_swapped_can_be_asked_for() =>
        Gen.Select(Gen.Int[0, Example.Length], Gen.Int[0, 40], Gen.Int[0, Example.Length], Gen.Int[0, 40], Gen.OneOf("", "{", "}", "\"", "//", ",", ".", "..", "+ ", "\n"))
            .Sample((at, cut, from, length, put) =>
            {
                var piece = Example.Substring(Math.Min(from, Example.Length), Math.Min(length, Example.Length - from));
                var text = Example.Remove(at, Math.Min(cut, Example.Length - at)).Insert(at, put + piece);
                AskAround(text, at);
            }, iter: 30, threads: 1);

    [Fact]
    public void Any_text_can_be_asked_for() => Gen.OneOf(RigTextGen.Mutated, RigTextGen.AnyText).Sample(text =>
    {
        var view = RigView.Of(Rigs.Compile(text), "example.rig")!;
        AskForAll(view);
        for (var offset = 0; offset <= text.Length; offset++)
        {
            AskAt(view, offset);
        }
    }, iter: 60, threads: 1);

    private static void AskAround(string text, int at)
    {
        var view = RigView.Of(Compile(text), "example.rig")!;
        AskForAll(view);
        for (var offset = Math.Max(0, at - 60); offset <= Math.Min(text.Length, at + 60); offset++)
        {
            AskAt(view, offset);
        }
        for (var offset = 0; offset <= text.Length; offset += 97)
        {
            AskAt(view, offset);
        }
    }

    private static void AskForAll(RigView view)
    {
        LensFinder.In(view);
        foreach (var hint in HintFinder.In(view, new TextSpan(0, view.Source.Length), Plain))
        {
            Assert.InRange(hint.Offset, 0, view.Source.Length);
        }
    }

    private static void AskAt(RigView view, int offset)
    {
        if (HoverFinder.At(view, offset, Plain) is { } hover)
        {
            Assert.NotEmpty(hover.Text);
            Assert.InRange(hover.Span.End, hover.Span.Start, view.Source.Length);
            Assert.NotNull(HoverFinder.At(view, offset, InFeet));
        }
        if (SignatureFinder.At(view, offset) is { } signature)
        {
            Assert.InRange(signature.Active, 0, signature.Parameters.Count - 1);
        }
        foreach (var node in SignalHierarchy.Prepare(view, offset))
        {
            SignalHierarchy.Incoming(view, node.Key);
            SignalHierarchy.Outgoing(view, node.Key);
        }
    }

    private static Compilation Compile(string text) => Rigs.Compile(text, ("pantile-yard-gear.rig", Gear));
}
