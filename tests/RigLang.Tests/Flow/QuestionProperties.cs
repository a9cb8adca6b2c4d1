using CsCheck;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>What holds for the reading of any question at all, as it does for any text of a rig.</summary>
public class QuestionProperties
{
    private static readonly Rig Rig = Rigs.Compile(
        """
        import "tide.rig" as tide
        gear Box {
          in midi, "in 2" : midi on din-5
          out out : midi on din-5
          in line : audio mono line on ts 6.35 mm
          in power : dc 9 V centre-negative, 100 mA on barrel 5.5x2.1 mm
          route midi to out
          track a sends out
          part voice receives midi on channel any
          clock sends out
          clock follows internal, midi
        }
        device drums, bass, "big box" : Box
        connect drums.out to bass.midi
        """, ("tide.rig", "gear Empty {\n}\ndevice pad : Empty\n")).Rig;

    private static readonly string[] Known =
    [
        "what", "why", "not", "reaches", "feeds", "from", "to", "audio", "power", "notes", "clock", "start", "stop", "start,", ",", "?", "", "\"", "\"\"", ".", "..",
        "drums", "bass", "drums.out", "bass.midi", "bass.voice", "drums.a", "\"big box\"", "\"big box\".\"in 2\"", "tide", "tide.", "tide.pad", "tide.pad.x", ".bass", "bass.",
        "bass.midi.left", "nobody", "Why", "NOT", "\u0000", "\uD800", "…",
    ];

    private static readonly string[] Real =
    [
        "notes from drums", "start, stop from drums.a", "clock to bass", "what reaches bass.midi", "what feeds \"big box\"", "why not clock from drums to bass",
        "why not notes from drums.a to bass.voice", "audio from drums", "power to bass", "notes from \"big box\".out", "notes from tide.pad",
    ];

    private static readonly Gen<string> Words = OneOf(Known).Array[0, 8].Select(words => string.Join(' ', words));

    private static readonly Gen<string> Mutated =
        from real in OneOf(Real)
        from at in Gen.Int[0, real.Length]
        from length in Gen.Int[0, real.Length - at]
        from word in OneOf(Known)
        select real[..at] + word + real[(at + length)..];

    private static readonly Gen<string> Any = Gen.Frequency((4, Words), (4, Mutated), (1, RigTextGen.AnyText), (1, Gen.String));

    private static Gen<string> OneOf(string[] words) => Gen.Int[0, words.Length - 1].Select(i => words[i]);

    [Fact]
    public void Any_text_is_answered_or_told_what_is_wrong_with_it() => Any.Sample(
        text =>
        {
            var (trace, mistake) = Tracer.Answer(Rig, text);
            Assert.True(trace is null != mistake is null, "one of the two");
            Assert.True(trace is null || trace.Summary.Length > 0);
            Assert.True(mistake is null || mistake.What.Length > 0);
        },
        iter: 20_000);

    [Fact]
    public void A_mistake_names_a_place_inside_the_question() => Any.Sample(
        text =>
        {
            if (Tracer.Answer(Rig, text).Mistake is { } mistake)
            {
                Assert.InRange(mistake.At.Start, 0, text.Length);
                Assert.InRange(mistake.At.End, mistake.At.Start, text.Length);
                Assert.True(mistake.At.Length > 0 || mistake.At.Start == text.TrimEnd().TrimEnd('?').Length || text.Trim().Trim('?').Length == 0, "a stretch of it, or its end");
            }
        },
        iter: 20_000);

    [Fact]
    public void A_question_as_it_was_understood_is_understood_the_same() => Any.Sample(
        text =>
        {
            if (Tracer.Answer(Rig, text).Trace is { } trace)
            {
                var again = Tracer.Answer(Rig, trace.Query);
                Assert.True(again.Trace is not null, $"{trace.Query}: {again.Mistake}");
                Assert.Equal((trace.Query, trace.Question, trace.Summary), (again.Trace.Query, again.Trace.Question, again.Trace.Summary));
            }
        },
        iter: 20_000);

    [Theory]
    [MemberData(nameof(RealOnes))]
    public void A_question_that_can_be_asked_is_answered(string question) => Assert.NotNull(Tracer.Answer(Rig, question).Trace);

    public static TheoryData<string> RealOnes => [.. Real.SkipLast(1)];

    [Theory]
    [InlineData("notes from nobody", "nobody")]
    [InlineData("why not clock from drums to nobody.midi", "nobody.midi")]
    [InlineData("tunes from drums", "tunes")]
    [InlineData("start, tunes from drums", "tunes")]
    [InlineData("notes from drums bass", "bass")]
    [InlineData("what reaches bass.nothing", "bass.nothing")]
    [InlineData("why not", "")]
    [InlineData("notes from", "")]
    public void A_mistake_is_at_the_word_that_is_wrong(string question, string word)
    {
        var mistake = Tracer.Answer(Rig, question).Mistake!;
        Assert.Equal(word, question[mistake.At.Start..mistake.At.End]);
    }
}
