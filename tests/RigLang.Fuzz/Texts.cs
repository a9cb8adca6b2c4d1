using CsCheck;
using RigLang.Checks;
using RigLang.Parsing;
using RigLang.Text;

namespace RigLang.Fuzz;

/// <summary>Rigs to begin with, and what tired hands and broken disks make of them.</summary>
internal static class Texts
{
    /// <summary>The examples and their twins with mistakes, and the library.</summary>
    public static IReadOnlyList<string> Shipped { get; } =
        [.. new[] { "examples", "examples/mistakes", "shared" }
            .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.rig")).Order(StringComparer.Ordinal).Select(File.ReadAllText)];

    /// <summary>Of each check the rig that it finds fault with, and the one put right.</summary>
    public static IReadOnlyList<string> OfChecks { get; } = [.. CheckList.All.SelectMany(check => new[] { check.BadExample, check.GoodExample })];

    private static readonly string[] OddLines =
    [
        "", "}", "{", "// \u202E", "/// ![](x) <script>", "rig \"=1+1\"", "import \"case.rig\"", "import \"../case.rig\"", "import \"shared/gear.rig\"", "connect", "device a : ",
        "gear Tern like Tern {\n}", "stock {\n  99999999999 Patch 1 m\n}", "device d1..d40 : Tern", "gear Wide {\n  in a1..a99 : midi on din-5\n  out b1..b99 : midi on din-5\n  route a1..a99 to b1..b99 in pairs\n}",
        "accept polarity-reversed on d0 because \"x\"", "must any from d0..d9 reach d0..d9", "never audio from d0.line.left reach d1", "tempo 1e99 bpm",
    ];

    private static readonly Gen<(int Kind, int At, int Other, int Length, string Line)> LineMutation = Gen.Select(
        Gen.Int[0, 5], Gen.Int[0, 100_000], Gen.Int[0, 100_000], Gen.Int[1, 5], Gen.OneOf<string>(OddLines), (kind, at, other, length, line) => (kind, at, other, length, line));

    private static readonly Gen<string> Sound = Gen.Frequency(
        (4, Gen.OneOf<string>([.. Shipped])),
        (3, Gen.OneOf<string>([.. OfChecks])),
        (4, RigGen.Statements.Select(RigGen.Text)),
        (2, RigTextGen.Valid),
        (1, Gen.OneOf<string>([.. OfChecks]).Array[2, 6].Select(texts => string.Join('\n', texts))));

    /// <summary>Whole rigs, rigs with lines and tokens lost, doubled, swapped and put in, and hardly rigs at all.</summary>
    public static Gen<string> Any { get; } = Gen.Frequency(
        (1, Sound),
        (3, WithLines(Sound)),
        (3, RigTextGen.Mutating(Sound, 1, 6)),
        (2, RigTextGen.Mutating(WithLines(Sound), 1, 6)),
        (1, WithLists(Sound)),
        (1, RigTextGen.AnyText));

    private static Gen<string> WithLines(Gen<string> texts) => Gen.Select(texts, LineMutation.Array[1, 4], (text, mutations) =>
        string.Join('\n', mutations.Aggregate(text.Split('\n').ToList(), Mutated)));

    private static List<string> Mutated(List<string> lines, (int Kind, int At, int Other, int Length, string Line) mutation)
    {
        var (kind, at, other, length, line) = mutation;
        (at, other) = (at % lines.Count, other % lines.Count);
        length = Math.Min(length, lines.Count - at);
        switch (kind)
        {
            case 0 when length < lines.Count:
                lines.RemoveRange(at, length);
                break;
            case 1:
                lines.InsertRange(other, lines.GetRange(at, length));
                break;
            case 2:
                (lines[at], lines[other]) = (lines[other], lines[at]);
                break;
            case 3:
                lines[at] += lines[other];
                break;
            default:
                lines.Insert(at, line);
                break;
        }
        return lines;
    }

    /// <summary>A line said again with one of its items made a long list or a wide range.</summary>
    private static Gen<string> WithLists(Gen<string> texts) => Gen.Select(texts, Gen.Int[0, 100_000], Gen.Int[2, 60], Gen.Bool, (text, at, count, isRange) =>
    {
        var tokens = Syntax.Lexer.Lex(new SourceText("lists.rig", text));
        var names = tokens.Where(t => t.IsName).ToList();
        if (names.Count == 0)
        {
            return text;
        }
        var name = names[at % names.Count];
        var word = text[name.Start..name.End];
        var list = isRange ? $"{word.Trim('"')}1..{word.Trim('"')}{count}" : string.Join(", ", Enumerable.Repeat(word, count));
        return text[..name.Start] + list + text[name.End..];
    });
}
