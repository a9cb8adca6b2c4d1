using System.Globalization;
using CsCheck;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>
/// After any edits the server tells what a new one tells of the final text. RIG_EDITS sets how many edits a run makes; the normal
/// run makes a thousand, a long one ten thousand.
/// </summary>
public class Equivalence
{
    private static readonly string Duo = File.ReadAllText(Path.Combine(Repository.Root, "examples", "tallow-loft.rig"));

    private static int Edits => int.TryParse(Environment.GetEnvironmentVariable("RIG_EDITS"), CultureInfo.InvariantCulture, out var edits) ? edits : 1000;

    private static readonly string[] Pieces =
        ["", " ", "\n", "\r\n", "{", "}", "\"", ".", ",", "x", "connect ", "device a : MonoSynth\n", "  in2 drops clock\n", "import \"shared/gear.rig\"\n", "// \U0001D160 é\n", "on channel 3", "9 V", "\t", "to desk.line1"];

    /// <summary>Somewhere, so much taken out, a piece put in.</summary>
    private static readonly Gen<(double At, int Out, string In)[]> SomeEdits =
        Gen.Select(Gen.Double[0, 1], Gen.OneOf(Gen.Const(0), Gen.Int[0, 3], Gen.Int[0, 200]), Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i])).Array[Edits];

    [Fact]
    public async Task Diagnostics_after_edits_are_those_of_a_new_server()
    {
        await SomeEdits.SampleAsync(
            async edits =>
            {
                var path = "/rigs/duo.rig";
                await using var client = await Client.StartAsync();
                var text = Duo;
                client.Open(path, text);
                var version = 1;
                foreach (var (at, count, piece) in edits)
                {
                    var source = new SourceText(path, text);
                    // A place in the middle of a line end or of a character that takes two units is no place to edit.
                    var start = Settled(text, (int)(at * text.Length));
                    var end = Settled(text, Math.Min(text.Length, start + count));
                    var (from, to) = (source.PositionOf(start), source.PositionOf(end));
                    text = text[..start] + piece + text[end..];
                    client.Change(path, ++version, Client.Replace((from.Line, from.Column), (to.Line, to.Column), piece));
                }
                var told = await client.DiagnosticsAsync(path, version);
                await using var fresh = await Client.StartAsync();
                fresh.Open(path, text, version);
                var expected = await fresh.DiagnosticsAsync(path, version);
                Assert.Equal(expected.ToJsonString(), told.ToJsonString());
            },
            iter: 2, threads: 1);
    }

    private static int Settled(string text, int offset)
    {
        while (offset > 0 && offset < text.Length && (char.IsLowSurrogate(text[offset]) || (text[offset] == '\n' && text[offset - 1] == '\r')))
        {
            offset--;
        }
        return offset;
    }
}
