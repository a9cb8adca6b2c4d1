using CsCheck;
using RigLang.Findings;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>What holds for the compiler as a whole, whatever it is given.</summary>
public class CompilationProperties
{
    private static readonly Gen<string> RigWithMistakes = RigGen.Statements.Select(RigGen.Text);

    private static readonly Gen<string> AnyFile = Gen.Frequency(
        (3, RigWithMistakes),
        (3, Gen.Select(RigWithMistakes, Gen.Int[0, 100_000].Array[1, 6], Gen.OneOf("\"", "}", "{", ",", "\n", "9", "..", "\0", "\uD800", " to "), Damage)),
        (1, RigTextGen.Valid),
        (1, RigTextGen.Mutated),
        (1, RigTextGen.AnyText));

    [Fact]
    public void Compiling_never_throws_and_each_place_it_names_lies_inside_its_file() => AnyFile.Sample(
        text =>
        {
            var compilation = Rigs.Compile(text, ("missing.rig", "import \"example.rig\"\ngear Late {\n}\n"));
            foreach (var finding in compilation.Findings)
            {
                AssertInside(finding.Location);
                Assert.All(finding.Related, related => AssertInside(related.Location));
                Assert.All(finding.Fixes, fix => Assert.All(fix.Edits, edit => AssertInside(new Location(edit.Source, edit.Span))));
                Assert.NotEmpty(finding.What);
                Assert.NotEmpty(finding.Advice);
            }
            Assert.All(compilation.Rig.Outcomes, outcome => Assert.All(outcome.Hops, hop => AssertInside(hop.At)));
        },
        iter: 1500);

    [Fact]
    public void The_same_text_gives_the_same_findings_in_the_same_order() => AnyFile.Sample(
        text => Assert.Equal(Rigs.Compile(text).Told(), Rigs.Compile(text).Told()), iter: 500);

    [Fact]
    public void Findings_stand_in_the_order_of_their_places() => RigWithMistakes.Sample(
        text => Assert.True(Rigs.Compile(text).Findings
            .Where(f => f.Location.Source.Path == "example.rig").Select(f => f.Location.Span.Start).ToList() is var starts
            && starts.SequenceEqual(starts.Order())),
        iter: 300);

    [Fact]
    public void No_two_edits_of_a_fix_overlap() => RigWithMistakes.Sample(
        text => Assert.All(Rigs.Compile(text).Findings.SelectMany(f => f.Fixes), fix =>
        {
            var edits = fix.Edits.OrderBy(e => e.Span.Start).ToList();
            Assert.All(edits.Zip(edits.Skip(1)), pair => Assert.True(pair.First.Span.End <= pair.Second.Span.Start));
        }),
        iter: 500);

    [Fact]
    public void A_safe_fix_takes_its_finding_away() => RigWithMistakes.Sample(
        text =>
        {
            foreach (var finding in Rigs.Compile(text).Findings)
            {
                foreach (var fix in finding.Fixes.Where(f => f.IsSafe))
                {
                    var after = Rigs.Compile(Applied(text, fix));
                    Assert.True(Count(after, finding) < Count(Rigs.Compile(text), finding), $"{fix.Title} leaves: {finding.What}\n{text}");
                }
            }
        },
        iter: 300);

    [Fact]
    public void A_safe_fix_in_a_rig_that_is_right_otherwise_leaves_nothing_to_tell() => CleanRigWithOneSlip.Sample(
        text =>
        {
            var before = Rigs.Compile(text);
            Assert.NotEmpty(before.Findings);
            foreach (var fix in before.Findings.SelectMany(f => f.Fixes.Where(x => x.IsSafe)))
            {
                var after = Rigs.Compile(Applied(text, fix));
                Assert.True(after.Findings.IsEmpty, $"after {fix.Title}: {after.Told()}");
            }
            Assert.Contains(before.Findings, f => f.Fixes.Any(x => x.IsSafe));
        },
        iter: 60);

    /// <summary>A rig with nothing wrong, but for an import that is left out or a cable that is written the wrong way round.</summary>
    private static readonly Gen<string> CleanRigWithOneSlip = Gen.Select(Gen.OneOf("", "\uFEFF"), Gen.OneOf("\n", "\r\n"), Gen.Int[0, 4], Gen.Bool, (mark, end, slip, isOneLine) =>
        mark + string.Join(end,
        [
            .. slip == 4 ? [] : (string[])["import \"shared/leads.rig\""],
            "gear Brick {", "  out dc1..dc2 : dc 9 V centre-positive isolated, 500 mA on barrel 5.5x2.1 mm", "}",
            "gear Tern {", "  in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm", "  in midi : midi on din-5",
            "  out thru : midi on din-5", "  out line : audio mono line on ts 6.35 mm", "}",
            "gear Desk {", "  in ch1, ch2 : audio mono line on ts 6.35 mm", "}",
            "device brick : Brick", "device bass : Tern", "device lead : Tern", "device desk : Desk",
            Cable("brick.dc1", "bass.power", "with DcLead 1.5 m", slip == 0),
            Cable("brick.dc2", "lead.power", "with DcLead 1.5 m", slip == 1),
            Cable("bass.thru", "lead.midi", isOneLine ? "with MidiDin 1.5 m" : "", slip == 2),
            Cable("bass.line", "desk.ch1", "with Patch 1.5 m yellow \"B1\"", slip == 3),
            "connect lead.line to desk.ch2",
            "",
        ]));

    private static string Cable(string from, string to, string tail, bool isTurned) =>
        isTurned ? $"connect {to} to {from} {tail}" : $"connect {from} to {to} {tail}";

    private static string Damage(string text, int[] places, string scrap) =>
        places.Aggregate(text, (current, place) => place % 3 == 0 && current.Length > 0
            ? current.Remove(place % current.Length, 1)
            : current.Insert(place % (current.Length + 1), scrap));

    private static string Applied(string text, Fix fix) => fix.Edits.OrderByDescending(e => e.Span.Start)
        .Aggregate(text, (current, edit) => current[..edit.Span.Start] + edit.NewText + current[edit.Span.End..]);

    private static int Count(Compilation compilation, Finding finding) =>
        compilation.Findings.Count(f => f.Check == finding.Check && f.What == finding.What);

    private static void AssertInside(Location at) =>
        Assert.True(at.Span is { Start: >= 0, Length: >= 0 } && at.Span.End <= at.Source.Length, $"{at.Span} is outside {at.Source.Path}");
}
