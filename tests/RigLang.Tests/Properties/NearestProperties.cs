using CsCheck;
using RigLang.Checks;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>"Did you mean ...": the guess is one of the known names, and a near one.</summary>
public class NearestProperties
{
    private static readonly Gen<string> Name = Gen.Char["abcdeABC12-"].Array[1, 10].Select(letters => new string(letters));

    [Fact]
    public void The_guess_is_one_of_the_known_names() => Gen.Select(Name, Name.Array[0, 20]).Sample(
        (name, known) => Assert.True(Wording.Nearest(name, known) is not { } near || known.Contains(near)));

    [Fact]
    public void A_known_name_in_other_letter_case_is_always_found() => Gen.Select(Name, Name.Array[0, 20]).Sample(
        (name, known) => Assert.Equal(name, Wording.Nearest(name.ToUpperInvariant(), [name, .. known.Where(k => !k.Equals(name, StringComparison.OrdinalIgnoreCase))])));

    [Fact]
    public void One_slip_of_the_keys_in_a_word_of_three_letters_or_more_is_found() =>
        Gen.Select(Name.Where(n => n.Length >= 4), Gen.Int[0, 100], Gen.Int[0, 3]).Sample((name, place, kind) =>
        {
            var at = place % (name.Length - 1);
            var slipped = kind switch
            {
                0 => name.Remove(at, 1),
                1 => name.Insert(at, "q"),
                2 => name[..at] + "q" + name[(at + 1)..],
                _ => name[..at] + name[at + 1] + name[at] + name[(at + 2)..],
            };
            Assert.Equal(name, Wording.Nearest(slipped, [name]));
        });

    [Fact]
    public void No_other_known_name_is_fewer_slips_away() => Gen.Select(Name, Name.Array[1, 12]).Sample((name, known) =>
    {
        if (Wording.Nearest(name, known) is { } near && !known.Any(k => k.Equals(name, StringComparison.OrdinalIgnoreCase)))
        {
            Assert.Equal(known.Min(k => Slips(name, k)), Slips(name, near));
        }
    }, iter: 2000);

    /// <summary>Deletions, insertions, replacements and swaps of neighbours, case aside, by the definition: slow, but plain.</summary>
    private static int Slips(string a, string b)
    {
        var slips = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            for (var j = 0; j <= b.Length; j++)
            {
                slips[i, j] = i == 0 || j == 0 ? i + j : Math.Min(
                    Math.Min(slips[i - 1, j] + 1, slips[i, j - 1] + 1),
                    slips[i - 1, j - 1] + (Same(a[i - 1], b[j - 1]) ? 0 : 1));
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]))
                {
                    slips[i, j] = Math.Min(slips[i, j], slips[i - 2, j - 2] + 1);
                }
            }
        }
        return slips[a.Length, b.Length];
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}
