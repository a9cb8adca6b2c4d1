using System.Diagnostics;
using System.Text;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>Files that no player means to write, and that turn up all the same.</summary>
public class OddInputs
{
    /// <summary>Far above what any of these takes on a busy machine: who waits longer waits for ever.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public static TheoryData<string, string> Texts => new()
    {
        { "empty", "" },
        { "only a byte order mark", "\uFEFF" },
        { "only line ends", "\r\n\n\r\n\r" },
        { "only a comment", "// nothing yet" },
        { "only spaces and tabs", " \t \u00A0 " },
        { "byte order marks in the middle", "\uFEFFgear A {\uFEFF\n}\n\uFEFFdevice a : A" },
        { "lone carriage returns", "gear A {\r  out x : midi on din-5\r}\rdevice a : A\r" },
        { "mixed line ends", "gear A {\r\n  out x : midi on din-5\r  in y : midi on din-5\n}\n\rdevice a : A" },
        { "tabs", "gear\tA\t{\n\tout\tx\t:\tmidi\ton\tdin-5\n}\ndevice\ta\t:\tA" },
        { "NUL characters", "gear A\0 {\0\n}\0\ndevice \0 : A" },
        { "lone surrogates", "gear \uD800 {\n}\ndevice \uDC00 : A\nconnect a\uD83D.x to b.\uDE00y" },
        { "every control character", string.Concat(Enumerable.Range(0, 32).Select(c => $"device a{(char)c} : A\n")) },
        { "a quote that is never closed", "rig \"Lantern\ngear A {" },
        { "nothing but closing braces", string.Concat(Enumerable.Repeat("}", 10_000)) },
        { "nothing but opening braces", string.Concat(Enumerable.Repeat("{", 10_000)) },
        { "opening braces on lines of their own", string.Concat(Enumerable.Repeat("{\n", 10_000)) },
        { "nested gear", string.Concat(Enumerable.Repeat("gear A {\n", 10_000)) },
        { "nested and closed", string.Concat(Enumerable.Repeat("gear A {\n", 10_000)) + string.Concat(Enumerable.Repeat("}\n", 10_000)) },
        { "ten thousand commas", "connect a.b to " + new string(',', 10_000) },
        { "ten thousand dots", "connect a" + new string('.', 10_000) + " to b" },
        { "a line that always goes on", string.Concat(Enumerable.Repeat("connect a.b,\n", 10_000)) },
        { "ten thousand unknown names", string.Concat(Enumerable.Range(0, 10_000).Select(i => $"connect a{i}.x to b{i}.y\n")) },
        { "ten thousand unknown names among five thousand known", Known(5_000) + string.Concat(Enumerable.Range(0, 10_000).Select(i => $"connect a{i}.x to b{i}.y\n")) },
        { "ten thousand of one name", string.Concat(Enumerable.Repeat("device a : A\n", 10_000)) },
        { "ten thousand broken lines", string.Concat(Enumerable.Repeat("device device device\n", 10_000)) },
        { "numbers beyond all range", Figures(new string('9', 400)) },
        { "numbers with 400 decimals", Figures("0." + new string('3', 400)) },
        { "huge negative numbers", Figures("-" + new string('9', 400)) },
        { "a channel of 400 digits", $"gear A {{\n  in x : midi on din-5\n  part p receives x on channel {new string('7', 400)}\n}}\ndevice a : A {{\n  p on channel {new string('8', 400)}\n}}" },
        { "a range of two thousand million", "gear A {\n  in x0..x2000000000 : midi on din-5\n}" },
        { "a range of 400 digits", $"gear A {{\n  in x1..x{new string('9', 400)} : midi on din-5\n}}" },
        { "names in many scripts", Scripts() },
    };

    [Theory]
    [MemberData(nameof(Texts))]
    public void An_odd_file_is_read_to_its_end_in_good_time(string what, string text)
    {
        var watch = Stopwatch.StartNew();
        var compilation = Rigs.Compile(text);
        Assert.NotNull(compilation.Rig);
        Assert.All(compilation.Findings.Take(100), f => Assert.True(f.Location.Span.End <= f.Location.Source.Length));
        Assert.True(watch.Elapsed < Patience, $"{what} took {watch.Elapsed.TotalSeconds:0.0} s");
    }

    [Theory]
    [InlineData("connect ", "a.b, ")]
    [InlineData("// ", "x")]
    [InlineData("rig \"", "x")]
    [InlineData("gear ", "x")]
    [InlineData("device a : ", "x ")]
    [InlineData("", "9")]
    [InlineData("", "“")]
    [InlineData("gear A {\n  in x : ", "midi ")]
    [InlineData("gear A {\n  in x : midi on ", "9 V ")]
    [InlineData("must ", "notes, ")]
    [InlineData("lead L : ", "ts 3.5 mm, ")]
    public void A_line_of_a_megabyte_is_one_line_like_any_other(string start, string piece)
    {
        var watch = Stopwatch.StartNew();
        var line = new StringBuilder(start).Insert(start.Length, piece, 1_000_000 / piece.Length).ToString();
        var compilation = Rigs.Compile(line + "\n}\ndevice sane : Nothing\n");
        Assert.Contains(compilation.Findings, f => f.Check.Name == "unknown-name" && f.What.Contains("`Nothing`", StringComparison.Ordinal));
        Assert.True(watch.Elapsed < Patience, $"took {watch.Elapsed.TotalSeconds:0.0} s");
    }

    [Fact]
    public void A_name_may_be_in_any_script()
    {
        var compilation = Rigs.Compile(Scripts());
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
    }

    [Fact]
    public void A_file_that_imports_itself_is_told_so_once() =>
        Assert.Equal(["circular-import@1"], Rigs.Compile("import \"example.rig\"\n").Found());

    [Fact]
    public void Fifty_files_in_a_circle_are_one_finding()
    {
        var compilation = Compile(path => $"import \"{(Number(path) + 1) % 50}.rig\"\ngear G{Number(path)} {{\n}}\n");
        Assert.Equal(["circular-import"], compilation.Names());
        Assert.Equal(50, compilation.Files.Length);
    }

    [Fact]
    public void A_chain_of_two_thousand_imports_is_followed_to_its_end()
    {
        var watch = Stopwatch.StartNew();
        var compilation = Compile(path => Number(path) < 2_000 ? $"import \"{Number(path) + 1}.rig\"\n" : "gear Last {\n}\n");
        Assert.Empty(compilation.Findings);
        Assert.Equal(2_001, compilation.Files.Length);
        Assert.True(compilation.Rig.Names.Gear.ContainsKey("Last"));
        Assert.True(watch.Elapsed < Patience, $"took {watch.Elapsed.TotalSeconds:0.0} s");
    }

    [Fact]
    public void A_file_that_two_others_import_is_read_once_and_is_no_mistake()
    {
        var compilation = Rigs.Compile("import \"a.rig\"\nimport \"b.rig\"\ndevice x : Shared\n",
            ("a.rig", "import \"c.rig\"\n"), ("b.rig", "import \"c.rig\"\n"), ("c.rig", "gear Shared {\n}\n"));
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        Assert.Equal(["example.rig", "a.rig", "c.rig", "b.rig"], compilation.Files.Select(f => f.Path));
    }

    [Fact]
    public void A_file_is_asked_for_once_however_many_import_it()
    {
        var asked = new List<string>();
        Compilation.Create(new SourceText("0.rig", "import \"a.rig\"\nimport \"b.rig\"\nimport \"./a.rig\"\nimport \"none.rig\"\n"), path =>
        {
            asked.Add(path);
            return path == "none.rig" ? new OpenedFile(null, "no") : new OpenedFile(new SourceText(path, "import \"none.rig\"\nimport \"b.rig\"\n"), null);
        });
        Assert.Equal(asked.Distinct(), asked);
    }

    private static Compilation Compile(Func<string, string> textOf) =>
        Compilation.Create(new SourceText("0.rig", textOf("0.rig")), path => new OpenedFile(new SourceText(path, textOf(path)), null));

    private static int Number(string path) => int.Parse(path.AsSpan(0, path.IndexOf('.', StringComparison.Ordinal)));

    private static string Known(int count) => "gear A {\n}\n" + string.Concat(Enumerable.Range(0, count).Select(i => $"device known{i} : A\n"));

    private static string Figures(string number) => $$"""
        rig {
          tempo {{number}} bpm
          mains {{number}} V {{number}} Hz
          set {{number}} min
        }
        gear A {
          in  power : dc {{number}} V centre-positive, {{number}} mA on barrel {{number}}x2.1 mm
          in  sync  : pulse {{number}} ppqn on ts {{number}} mm
          out line  : audio mono line {{number}} dBV on ts 6.35 mm
          in  two   : dc {{number}}..{{number}} V centre-positive on barrel 5.5x{{number}} mm
          battery {{number}} h
        }
        device a : A at ({{number}} m, {{number}} m)
        connect a.line to a.sync with Patch {{number}} m
        stock {
          {{number}} Patch {{number}} m
        }
        never audio from a reach a within {{number}} ms
        """;

    private static string Scripts() => """
        import "shared/leads.rig"
        gear ベース {
          out 出力 : audio mono line on ts 6.35 mm
        }
        gear Étude {
          in гитара, "вход 1", εἴσοδος : audio mono line on ts 6.35 mm
        }
        device 低音-2 : ベース
        device "a } b" : ベース
        device ดนตรี : ベース
        device कंसोल : Étude
        connect 低音-2.出力 to कंसोल.гитара
        connect "a } b".出力 to कंसोल."вход 1" with Patch 1.5 m
        connect ดนตรี.出力 to कंसोल.εἴσοδος
        """;
}
