using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using RigLang.Text;

namespace RigLang.Fuzz.Parts;

/// <summary>
/// A server that follows edits says in the end what a new one says of the whole text. A case is the encoding of positions on its first line,
/// the text, a line <c>=== edits</c>, and on each line after it one edit: where, how much is taken out, what is put in.
/// </summary>
internal sealed class Edits : Part
{
    private const int EditsACase = 25;
    private const string Divider = "\n=== edits\n";
    private const string Rig = "case.rig";

    private static readonly Gen<string> Piece = Gen.Frequency(
        (6, Gen.OneOf("", " ", "\n", "\r\n", "\r", "{", "}", "\"", ".", ",", "x", "connect ", "device a : MonoSynth\n", "  in2 drops clock\n", "import \"shared/gear.rig\"\n",
            "// \U0001D160 é\n", "on channel 3", "9 V", "\t", "to desk.line1", "\u2028", "\uFEFF", "ベース")),
        (1, Gen.OneOf<string>([.. Texts.Shipped]).Select(text => text[..Math.Min(text.Length, 2_000)])));

    private static readonly Gen<string> Edit = Gen.Select(
        Gen.Int[0, 1_000_000], Gen.Frequency((5, Gen.Const(0)), (4, Gen.Int[0, 3]), (2, Gen.Int[0, 200]), (1, Gen.Int[0, 100_000])), Piece,
        (at, count, piece) => JsonSerializer.Serialize(new object[] { at, count, piece }));

    public override string Name => "edits";

    public override string About => "after any edits a server tells of findings, words and completions what a new one tells of the whole text";

    public override int CasesIn(int runs) => Math.Max(1, runs / EditsACase);

    public override Gen<string> Cases { get; } = Gen.Select(
        Gen.Frequency((4, Gen.Const("utf-16")), (1, Gen.OneOf("utf-8", "utf-32"))), Gen.Frequency((2, Texts.Any), (1, Gen.OneOf<string>([.. Texts.Shipped]))), Edit.Array[EditsACase],
        (encoding, text, edits) => encoding + "\n" + text + Divider + string.Join('\n', edits));

    public override async Task<string?> JudgeAsync(string written)
    {
        var head = written.IndexOf('\n', StringComparison.Ordinal);
        var divider = written.IndexOf(Divider, StringComparison.Ordinal);
        if (head < 0 || divider < head || written[..head] is not ("utf-8" or "utf-16" or "utf-32") || EditsIn(written[(divider + Divider.Length)..]) is not { } edits)
        {
            return null;
        }
        // No text that comes over a wire holds half a character.
        var text = Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(written[(head + 1)..divider]));
        var encoding = written[..head];
        var version = 1;
        await using var edited = new Wire();
        await edited.InitializeAsync(encoding);
        await edited.OpenAsync(edited.UriOf(Rig), text, version);
        foreach (var (at, count, piece) in edits)
        {
            var start = Settled(text, at % (text.Length + 1));
            var end = Settled(text, Math.Min(text.Length, start + count));
            await edited.NotifyAsync("textDocument/didChange", new JsonObject
            {
                ["textDocument"] = new JsonObject { ["uri"] = edited.UriOf(Rig), ["version"] = ++version },
                ["contentChanges"] = new JsonArray(new JsonObject
                {
                    ["range"] = new JsonObject { ["start"] = Position(text, start, encoding), ["end"] = Position(text, end, encoding) },
                    ["text"] = piece,
                }),
            });
            text = text[..start] + piece + text[end..];
            // Now and then the server is asked in between, so that it has states to fall back on wrongly.
            if (at % 5 == 0 && await edited.AskAsync("textDocument/hover", PlaceIn(edited, text, at, encoding)) is null)
            {
                return "the server does not answer after an edit: version " + version;
            }
        }
        await using var fresh = new Wire();
        await fresh.InitializeAsync(encoding);
        await fresh.OpenAsync(fresh.UriOf(Rig), text, version);
        return await ComparedAsync("findings", wire => wire.DiagnosticsAsync(wire.UriOf(Rig), version))
            ?? await ComparedAsync("hover", wire => ToldAsync(wire, "textDocument/hover", PlaceIn(wire, text, edits.Sum(e => (long)e.At), encoding)))
            ?? await ComparedAsync("completion", wire => ToldAsync(wire, "textDocument/completion", PlaceIn(wire, text, edits.Sum(e => e.At * 7L), encoding)))
            ?? await ComparedAsync("outline", wire => ToldAsync(wire, "textDocument/documentSymbol", new JsonObject { ["textDocument"] = new JsonObject { ["uri"] = wire.UriOf(Rig) } }));

        async Task<string?> ComparedAsync(string what, Func<Wire, Task<string?>> told)
        {
            var (after, expected) = (await told(edited), await told(fresh));
            return after is null || expected is null ? $"{what} never come: {(after is null ? "after edits" : "of a new server")}"
                : expected.Contains("failed inside the server", StringComparison.Ordinal) ? $"{what} fail inside the server: {expected}"
                : after == expected ? null : $"{what} differ after edits: {after}\ninstead of {expected}";
        }
    }

    private static async Task<string?> ToldAsync(Wire wire, string method, JsonObject parameters)
    {
        var answer = await wire.AskAsync(method, parameters);
        answer?.Remove("id");
        return answer?.ToJsonString().Replace(wire.Folder, "", StringComparison.Ordinal);
    }

    private static JsonObject PlaceIn(Wire wire, string text, long at, string encoding)
    {
        var place = Position(text, Settled(text, (int)(at % (text.Length + 1))), encoding);
        return Wire.Place(wire.UriOf(Rig), place["line"]!.GetValue<int>(), place["character"]!.GetValue<int>());
    }

    private static JsonObject Position(string text, int offset, string encoding)
    {
        var (line, column) = new SourceText(Rig, text).PositionOf(offset);
        var before = text.AsSpan(offset - column, column);
        return new JsonObject
        {
            ["line"] = line,
            ["character"] = encoding switch
            {
                "utf-8" => Encoding.UTF8.GetByteCount(before),
                "utf-32" => Encoding.UTF32.GetByteCount(before) / 4,
                _ => column,
            },
        };
    }

    private static List<(int At, int Out, string In)>? EditsIn(string lines)
    {
        try
        {
            return [.. lines.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonNode.Parse(line)!.AsArray())
                .Select(edit => (Math.Abs(edit[0]!.GetValue<int>()), Math.Abs(edit[1]!.GetValue<int>()), edit[2]!.GetValue<string>()))];
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException or ArgumentOutOfRangeException or OverflowException or NullReferenceException)
        {
            return null;
        }
    }

    /// <summary>The middle of a line end, or of a character that takes two units, is no place to edit.</summary>
    private static int Settled(string text, int offset)
    {
        while (offset > 0 && offset < text.Length && (char.IsLowSurrogate(text[offset]) || (text[offset] == '\n' && text[offset - 1] == '\r')))
        {
            offset--;
        }
        return offset;
    }
}
