using System.Text;
using RigLang.Tests.Cli;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Size;

/// <summary>
/// What a rig costs follows the length of its text. Bytes are counted and not time: they are the same on every machine, and who does more than
/// the text asks for nearly always allocates for it.
/// </summary>
public class Growth
{
    /// <summary>Of one doubling: two, and what caches, tables that double and logarithms add.</summary>
    private const double MostPerDoubling = 2.6;

    /// <summary>Where a box can pass on a thousand ways, a byte of text that says so costs at most as much as one that declares jacks.</summary>
    private const double MostPerLetter = 40_000;

    public static TheoryData<string> Lists => new()
    {
        "route {a} to {b}",
        "switch {a} to {b}",
        "joins {a} to {b}",
        "route {a} to {b} latency 2 ms",
        "track t sends {b}",
        "part p receives {a}",
    };

    [Theory]
    [MemberData(nameof(Lists))]
    public void A_line_with_lists_on_both_sides_costs_as_much_as_its_lists_are_long(string line) => AssertLinear(n => Matrix(n, line), [1, 2, 4]);

    [Fact]
    public void Every_output_of_a_matrix_is_reached_from_every_input()
    {
        var text = Matrix(2, "route {a} to {b}") + """
            gear Keys {
              out midi : midi on din-5
              track a sends midi
            }
            gear Bass {
              in midi : midi on din-5
              part voice receives midi on channel any
            }
            device keys : Keys {
              a on channel 1
            }
            device bass : Bass {
              voice on channel 1
            }
            connect keys.midi to box.a17
            connect box.d90 to bass.midi
            never clock from keys reach bass
            must notes from keys reach bass
            """;
        Assert.Empty(Rigs.Compile(text).Found());
    }

    [Fact]
    public void Twelve_hundred_letters_of_routes_take_a_few_megabytes()
    {
        var text = Matrix(4, "route {a} to {b}");
        Assert.InRange(text.Length, 0, 1200);
        Assert.True(Allocated(text) < text.Length * MostPerLetter, $"{Allocated(text) / 1e6:0.0} MB");
    }

    [Fact]
    public void A_cable_with_many_plugs_costs_as_much_as_it_has_plugs() => AssertLinear(
        n => $"gear Left {{\n  out o1..o{25 * n} : midi on din-5\n}}\ngear Right {{\n  in i1..i{25 * n} : midi on din-5\n}}\ndevice l : Left\ndevice r : Right\nconnect l.o1..o{25 * n} to r.i1..i{25 * n}\n",
        [1, 2, 4]);

    [Fact]
    public void A_line_with_many_tracks_and_many_jacks_is_read_once() => AssertLinear(
        n => $"gear Left {{\n  out o1..o{25 * n} : midi on din-5\n  in i1..i{25 * n} : midi on din-5\n  part p1..p{25 * n} receives i1..i{25 * n}\n}}\n", [1, 2, 4]);

    [Fact]
    public void A_promise_of_too_many_to_too_many_is_told_its_limit()
    {
        var names = string.Join(", ", Enumerable.Range(0, 65).Select(i => $"d{i}"));
        var finding = Assert.Single(Rigs.Compile($"gear G {{\n}}\ndevice {names} : G\nmust notes from {names} reach {names}\n").Findings);
        Assert.Equal("`65 x 65` is out of bounds: what one line may speak of is 4,096 pairs of a source and a place at most: write several lines.", finding.What);
    }

    [Fact]
    public void A_rig_with_more_jacks_than_any_tour_is_told_its_limit()
    {
        var letters = Enumerable.Range('a', 20).Select(c => (char)c).ToList();
        var text = $"gear G {{\n  in {string.Join(", ", letters.Select(c => $"{c}1..{c}128"))} : midi on din-5\n}}\ndevice {string.Join(", ", letters.Select(c => $"{c}1..{c}128"))} : G\n";
        Assert.Contains(Rigs.Compile(text).Findings, f => f.What.Contains("the number of jacks in a rig is 250,000 at most", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("power")]
    [InlineData("ground")]
    [InlineData("hum --heard hum")]
    public void An_answer_about_power_or_ground_does_not_follow_messages(string question)
    {
        using var stage = new Stage();
        stage.Put("mesh.rig", Mesh(24));
        Run("channels");
        var (channels, answer) = (Run("channels"), Run(question));
        Assert.True(answer < channels / 4, $"{answer / 1e6:0.0} MB, and {channels / 1e6:0.0} MB for the channels");

        long Run(string words)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var verb = words.Split(' ');
            Assert.Equal(0, stage.Rig([verb[0], stage.PathOf("mesh.rig"), .. verb[1..]]).Code);
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }
    }

    /// <summary>Each box has a MIDI cable to each other, and passes on what it hears.</summary>
    private static string Mesh(int n)
    {
        var text = new StringBuilder($$"""
            gear Box {
              in  i0..i{{n - 1}} : midi on din-5
              out o0..o{{n - 1}} : midi on din-5
              route i0..i{{n - 1}} to o0..o{{n - 1}}
              track a sends o0..o{{n - 1}}
              part voice receives i0..i{{n - 1}} on channel any
            }

            """);
        for (var i = 0; i < n; i++)
        {
            text.AppendLine($"device box{i} : Box {{\n  a on channel {1 + (i % 16)}\n  voice on channel {1 + (i % 16)}\n}}");
        }
        for (var i = 0; i < n * n; i++)
        {
            if (i / n != i % n)
            {
                text.AppendLine($"connect box{i / n}.o{i % n} to box{i % n}.i{i / n}");
            }
        }
        return text.ToString();
    }

    /// <summary>One gear with <paramref name="n"/> ranges of a hundred inputs and as many of outputs.</summary>
    private static string Matrix(int n, string line)
    {
        var inputs = string.Join(", ", Enumerable.Range(0, n).Select(i => $"{(char)('a' + (2 * i))}1..{(char)('a' + (2 * i))}100"));
        var outputs = string.Join(", ", Enumerable.Range(0, n).Select(i => $"{(char)('b' + (2 * i))}1..{(char)('b' + (2 * i))}100"));
        var text = new StringBuilder();
        text.AppendLine("gear Box {").AppendLine($"  in  {inputs} : midi on din-5").AppendLine($"  out {outputs} : midi on din-5");
        text.AppendLine("  " + line.Replace("{a}", inputs, StringComparison.Ordinal).Replace("{b}", outputs, StringComparison.Ordinal));
        return text.AppendLine("}").AppendLine("device box : Box").ToString();
    }

    private static void AssertLinear(Func<int, string> text, int[] sizes)
    {
        Allocated(text(sizes[0]));
        var bytes = sizes.Select(n => Allocated(text(n))).ToList();
        for (var i = 1; i < bytes.Count; i++)
        {
            Assert.True(bytes[i] <= MostPerDoubling * bytes[i - 1], $"for {string.Join(", ", sizes)}: {string.Join(", ", bytes.Select(b => $"{b / 1e6:0.0} MB"))}");
        }
    }

    private static long Allocated(string text)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        var compilation = Rigs.Compile(text);
        foreach (var finding in compilation.Findings)
        {
            _ = finding.Fixes;
        }
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
