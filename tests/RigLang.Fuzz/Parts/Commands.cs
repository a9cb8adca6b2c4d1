using System.Globalization;
using System.Text;
using System.Text.Json;
using CsCheck;
using Json.Schema;
using RigLang.Checks;
using RigLang.Formatting;
using RigLang.Text;

namespace RigLang.Fuzz.Parts;

/// <summary>
/// Every command on mutated texts in every format. A case is the arguments as a JSON array on its first line, <c>FILE</c> and <c>-</c> standing
/// for the rig, then the rig.
/// </summary>
internal sealed class Commands : Part
{
    private const string FileArgument = "FILE";
    private const string RigName = "case.rig";

    /// <summary>What a command may allocate: so much in any case, and so much for each byte that it is given.</summary>
    private const long LeastBytes = 16L << 20;
    private const long MostBytesAByte = 2_000;

    private static readonly string[] Kinds = ["notes", "clock", "start, stop", "audio", "power", "any", "velocity", "program change", "noise", ""];
    private static readonly string[] Words = ["from", "to", "what", "reaches", "feeds", "why", "not", ",", "?", "\"", ".", "notes", "\u0301", "device", "..", "clock,", "  "];
    private static readonly string[] Places = ["seq", "d0", "d1.midi", "d2.line", "bass", "desk.main", "drums", "nobody", "seq.a", "\"a b\".c", ".", "a.b.c.d", "\"", "thru.out1.left"];
    private static readonly string[] Odd = ["", "-", "--", "0", "\u0000", "ab\u202Ecd", "💡", "@file", "*"];

    private static readonly Gen<string> Question = Gen.Frequency(
        (4, Gen.Select(Gen.OneOf<string>(Kinds), Gen.OneOf<string>(Places), (kind, at) => $"{kind} from {at}")),
        (2, Gen.Select(Gen.OneOf<string>(Kinds), Gen.OneOf<string>(Places), (kind, at) => $"{kind} to {at}")),
        (2, Gen.OneOf<string>(Places).Select(at => "what reaches " + at)),
        (2, Gen.OneOf<string>(Places).Select(at => "what feeds " + at)),
        (4, Gen.Select(Gen.OneOf<string>(Kinds), Gen.OneOf<string>(Places), Gen.OneOf<string>(Places), (kind, from, to) => $"why not {kind} from {from} to {to}")),
        (4, Gen.OneOf<string>([.. Words, .. Places]).Array[1, 8].Select(words => string.Join(' ', words))),
        (1, Gen.OneOf<string>(Odd)));

    /// <summary>Whole, broken, and broken off behind a word.</summary>
    private static readonly Gen<string> AskedFor = Gen.OneOf(Question, RigTextGen.Mutating(Question, 1, 3),
        Gen.Select(Question, Gen.Int[1, 6], (question, words) => string.Join(' ', question.Split(' ').Take(words))));

    private static readonly Gen<string> CheckName = Gen.OneOf(Gen.OneOf<string>([.. CheckList.All.Select(c => c.Name)]),
        RigTextGen.Mutating(Gen.OneOf<string>([.. CheckList.All.Select(c => c.Name)]), 1, 2));

    private static readonly Gen<string[]> Arguments = Gen.Frequency(
        (8, Gen.OneOf<string[]>(
            ["check", FileArgument], ["check", "-"], ["check", FileArgument, "--sort", "place"], ["check", FileArgument, "--color", "always"],
            ["check", FileArgument, "--format", "json"], ["check", FileArgument, "--format", "json", "--fail-on", "hint"], ["check", FileArgument, "--format", "sarif"])),
        (5, Gen.OneOf<string[]>(["format", FileArgument], ["format", "--check", FileArgument], ["format", "-"])),
        (5, AskedFor.Select(question => new[] { "trace", FileArgument, question })),
        (3, AskedFor.Select(question => new[] { "trace", FileArgument, question, "--format", "json" })),
        (3, Gen.OneOf<string>("text", "json", "csv", "markdown").Select(format => new[] { "channels", FileArgument, "--format", format })),
        (2, Gen.OneOf<string>("text", "json").Select(format => new[] { "audio", FileArgument, "--format", format })),
        (2, Gen.OneOf<string>("text", "json").Select(format => new[] { "power", FileArgument, "--format", format })),
        (2, Gen.OneOf<string>("text", "json").Select(format => new[] { "ground", FileArgument, "--format", format })),
        (2, Gen.Select(Gen.OneOf<string>("hum", "buzz", "whine"), Gen.OneOf<string>("text", "json"), (sound, format) => new[] { "hum", FileArgument, "--heard", sound, "--format", format })),
        (1, Gen.Select(CheckName, Gen.OneOf<string>("text", "markdown", "json"), (name, format) => new[] { "explain", name, "--format", format })),
        (1, Gen.OneOf<string>([.. Odd, "--help", "--format", "check", "hum"]).Array[0, 4]));

    public override string Name => "commands";

    public override string About => "every command on mutated rigs ends with 0, 1 or 2, whole output and bounded memory";

    public override Gen<string> Cases { get; } = Gen.Select(Arguments, Texts.Any, (arguments, text) => JsonSerializer.Serialize(arguments) + "\n" + text);

    private static readonly Dictionary<string, JsonSchema> Schemas = new[] { "check", "channels", "audio", "power", "ground", "hum", "trace" }
        .ToDictionary(verb => verb, SchemaOf);

    /// <summary>In a registry of its own: in one process with the tests the same schema is read more than once.</summary>
    private static JsonSchema SchemaOf(string verb) => JsonSchema.FromText(
        File.ReadAllText(Path.Combine(Repository.Root, "grammar", $"{verb}-output.schema.json")), new BuildOptions { SchemaRegistry = new SchemaRegistry() });

    public override Task<string?> JudgeAsync(string written) => Task.FromResult(Judge(written));

    private double _most;
    private string _mostArguments = "";

    public override IEnumerable<string> Summary =>
        [string.Create(CultureInfo.InvariantCulture, $"the most allocated: {_most:0.00} of what is allowed, by {_mostArguments}")];

    private string? Judge(string written)
    {
        var end = written.IndexOf('\n', StringComparison.Ordinal);
        if (end < 0 || ArgumentsIn(written[..end]) is not { } arguments)
        {
            return null;
        }
        var text = written[(end + 1)..];
        using var run = new RigRun { Input = Encoding.UTF8.GetBytes(text) };
        run.Put(RigName, text);
        var result = run.Rig([.. arguments.Select(a => a == FileArgument ? RigName : a)]);
        var length = new FileInfo(run.PathOf(RigName)).Length + arguments.Sum(a => a.Length);
        var share = result.Bytes / (double)(LeastBytes + (MostBytesAByte * length));
        if (share > _most)
        {
            (_most, _mostArguments) = (share, $"{string.Join(' ', arguments)} on {length} bytes: {result.Bytes >> 20} MB");
        }
        return Broken(arguments, result)
            ?? (share > 1 ? $"{arguments[0]} allocates too much: {result.Bytes >> 20} MB for {length} bytes" : null)
            ?? (arguments is ["format", ..] ? BrokenLayout(arguments, run, text, result) : null);
    }

    private static string[]? ArgumentsIn(string line)
    {
        try
        {
            // A server would wait for an editor, and no case reaches out of its folder.
            return JsonSerializer.Deserialize<string[]>(line) is { } all && !all.Contains(null) && !all.Contains("server") && !all.Contains("new")
                && (all is ["trace", FileArgument, ..] or ["explain", ..] || !all.Any(a => a.Contains('/') || a.Contains("..", StringComparison.Ordinal))) ? all : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>What holds of every command.</summary>
    private static string? Broken(string[] arguments, RigResult result)
    {
        var verb = arguments.Length == 0 ? "nothing" : arguments[0];
        if (result.Code is not (0 or 1 or 2))
        {
            return $"{verb} ends with a code of its own: {result.Code}";
        }
        if (result.Error.Contains("rig itself failed", StringComparison.Ordinal) || result.Out.Contains("rig itself failed", StringComparison.Ordinal))
        {
            return $"{verb} fails inside the tool: {result.Error}";
        }
        if (result.Out.Contains(CheckFailed.Page.Name, StringComparison.Ordinal) && !arguments.Contains(CheckFailed.Page.Name))
        {
            return $"{verb} tells of a check that broke off: {result.Out}";
        }
        if (result.Code == 2 && result.Error.Length == 0 && !IsMachineRead(arguments))
        {
            return $"{verb} could not, and does not say why: {result.Out}";
        }
        return BrokenShape(arguments, verb, result);
    }

    private static bool IsMachineRead(string[] arguments) => arguments.Contains("json") || arguments.Contains("sarif");

    private static string? BrokenShape(string[] arguments, string verb, RigResult result)
    {
        if (!IsMachineRead(arguments))
        {
            return result.Out.Length == 0 || result.Out.EndsWith('\n') || arguments is ["format", ..] ? null : $"{verb} ends in the middle of a line: {result.Out[^Math.Min(80, result.Out.Length)..]}";
        }
        if (result.Out.Length == 0)
        {
            return result.Code == 2 ? null : $"{verb} gives no document: code {result.Code}";
        }
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(result.Out);
        }
        catch (JsonException e)
        {
            return $"{verb} gives a document that is no JSON: {e.Message}";
        }
        using (document)
        {
            if (!arguments.Contains("json") || !Schemas.TryGetValue(verb, out var schema) || schema.Evaluate(document.RootElement).IsValid)
            {
                return null;
            }
            var details = (schema.Evaluate(document.RootElement, new() { OutputFormat = OutputFormat.List }).Details ?? [])
                .Where(d => d.Errors is { Count: > 0 }).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation} {e.Value}"));
            return $"{verb} gives a document that its schema refuses: {string.Join("; ", details)}";
        }
    }

    /// <summary>A laid out rig says the same, is laid out already, and stands alone in its folder.</summary>
    private static string? BrokenLayout(string[] arguments, RigRun run, string text, RigResult result)
    {
        var after = File.ReadAllText(run.PathOf(RigName));
        if (Directory.GetFileSystemEntries(run.Folder) is { Length: not 1 } entries)
        {
            return $"format leaves something beside the rig: {string.Join(", ", entries.Select(Path.GetFileName))}";
        }
        if (result.Code == 2 || arguments.Contains("--check") || arguments is not ["format", _])
        {
            return after == AsRead(text) ? null : "format changes a file that it must not change: " + string.Join(' ', arguments);
        }
        var laidOut = arguments.Contains("-") ? WithoutMark(result.Out) : after;
        var asRead = AsRead(text);
        return Meaning.Of(asRead) != Meaning.Of(laidOut) ? "format changes what a rig says: " + laidOut
            : Formatter.Format(new SourceText(RigName, laidOut)) != laidOut ? "format is not done after one time: " + laidOut
            : !arguments.Contains("-") && !run.Rig("format", "--check", RigName).Out.Contains("already in order", StringComparison.Ordinal) ? "format finds its own layout wanting: " + laidOut
            : null;
    }

    /// <summary>As the disk gives it back: without what no UTF-8 text can hold, and without its mark; a second mark is text.</summary>
    private static string AsRead(string text) => WithoutMark(Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)));

    private static string WithoutMark(string text) => text.StartsWith('\uFEFF') ? text[1..] : text;
}
