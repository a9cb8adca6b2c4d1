using System.Text.Json.Serialization;
using System.Text.Json;

namespace RigLang.Cli.Output;

// The shape of `rig check --format json`, described in grammar/check-output.schema.json: change both or neither.

/// <param name="Version">The version of this shape; grows when a reader would have to change.</param>
internal sealed record CheckDocument(
    int Version, List<FileEntry> Files, SummaryEntry Summary, List<ProblemEntry> Problems)
{
    public const int CurrentVersion = 1;
}

internal sealed record FileEntry(
    string Path, List<FindingEntry> Findings, List<FactEntry> Facts, List<NotCheckedEntry> NotChecked, List<ChosenLeadEntry> ChosenLeads,
    List<AcceptedEntry> Accepted);

/// <summary>What was found and the player accepts.</summary>
internal sealed record AcceptedEntry(string Check, PlaceEntry Start, PlaceEntry End, string What, string Because);

internal sealed record FindingEntry(
    string Check,
    string Severity,
    PlaceEntry Start,
    PlaceEntry End,
    string What,
    string Why,
    string Advice,
    string Harm,
    string? Caution,
    List<BrokenPromiseEntry> Breaks,
    List<RelatedEntry> Related,
    List<FixEntry> Fixes);

/// <summary>A `must` or `never` that fails because of the finding.</summary>
internal sealed record BrokenPromiseEntry(string Path, PlaceEntry Start, PlaceEntry End, string Text, bool Must);

/// <summary>Line and column from 1, the column in UTF-16 units; the offset from 0, in UTF-16 units, without a byte order mark.</summary>
internal readonly record struct PlaceEntry(int Line, int Column, int Offset);

internal sealed record RelatedEntry(string Path, PlaceEntry Start, PlaceEntry End, string Message);

internal sealed record FixEntry(string Title, bool Safe, List<EditEntry> Edits);

internal sealed record EditEntry(string Path, PlaceEntry Start, PlaceEntry End, string NewText);

internal sealed record FactEntry(int Count, string Text);

/// <summary>Figures that were read and are not checked, and where the first of them stands.</summary>
internal sealed record NotCheckedEntry(int Count, string Text, string Path, PlaceEntry Start);

/// <summary>A lead taken for a connection that names none.</summary>
internal sealed record ChosenLeadEntry(PlaceEntry Start, PlaceEntry End, string Connection, string Lead, int Count);

internal sealed record SummaryEntry(int Errors, int Warnings, int Hints);

internal sealed record ProblemEntry(string Path, string Message);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(CheckDocument))]
[JsonSerializable(typeof(FindingEntry))]
[JsonSerializable(typeof(SummaryEntry))]
[JsonSerializable(typeof(ExplainDocument))]
internal sealed partial class DocumentContext : JsonSerializerContext;
