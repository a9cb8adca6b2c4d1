using System.Text.Json.Serialization;
using System.Text.Json;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Cli.Output;

// The shape of `rig trace --format json`, described in grammar/trace-output.schema.json: change both or neither.
// Trees are flat lists with the place of the parent, so that a long chain nests no deeper than a short one.

internal sealed record TraceDocument(
    int Version,
    string Query,
    string Question,
    List<TraceWayEntry> Ways,
    List<TracePortEntry> Ports,
    TraceVerdictEntry? Verdict,
    List<TraceHearerEntry> Heard,
    string Summary)
{
    public const int CurrentVersion = 1;

    public static TraceDocument Of(Trace trace) => new(
        CurrentVersion,
        trace.Query,
        trace.Question switch
        {
            TraceQuestion.From => "from",
            TraceQuestion.WhatReaches => "what-reaches",
            TraceQuestion.To => "to",
            TraceQuestion.WhatFeeds => "what-feeds",
            _ => "why-not",
        },
        [.. trace.Ways.Select(w => new TraceWayEntry(w.Source, w.Kinds == MessageKinds.None ? [w.What] : Kinds(w.Kinds), Channel(w.Channel), [.. w.Steps.Select(Step)]))],
        [.. trace.Ports.Select(p => new TracePortEntry(
            p.Port.ToString(), [.. p.Arrivals.Select(a => new TraceArrivalEntry(a.Source, Kinds(a.Kinds), Channel(a.Channel), Hearers(a.Heard)))]))],
        trace.Verdict is { } v
            ? new(v.What, v.Arrives, v.IsSure, [.. v.Steps.Select(Step)], v.Reason, v.Mend, Filter(v.StoppedBy))
            : null,
        Hearers(trace.Heard),
        trace.Summary);

    private static TraceStepEntry Step(TraceStep step) => new(
        step.Port.ToString(),
        step.IsIn ? "in" : "out",
        step.Parent < 0 ? null : step.Parent,
        step.Depth,
        Channel(step.Channel),
        step.Cable is { } cable ? Line(cable) : null,
        step.Move is { } move ? new(move.From, move.To, Line(move.At)) : null,
        Filter(step.StoppedBy),
        Math.Round(step.Wait.Value * 1000, 3),
        Hearers(step.Heard),
        step.Note);

    private static TraceFilterEntry? Filter(TraceFilter? filter) =>
        filter is null ? null : new(filter.Port.ToString(), Kinds(filter.Drops), Line(filter.At));

    private static List<TraceHearerEntry> Hearers(IReadOnlyList<TraceHearer> heard) => [.. heard.Select(h => new TraceHearerEntry(
        h.Who,
        h.How switch
        {
            HearingWay.Plays => "plays",
            HearingWay.Hears => "hears",
            HearingWay.FollowsClock => "follows-clock",
            HearingWay.StartsAndStops => "starts-and-stops",
            _ => "gets",
        },
        Channel(h.Channel),
        h.IsSure))];

    private static List<string> Kinds(MessageKinds kinds) => [.. MessageKindNames.NamesOf(kinds)];

    private static int? Channel(int channel) => channel > 0 ? channel : null;

    private static TraceLineEntry Line(Location at) => new(at.Source.Path, at.Source.PositionOf(at.Span.Start).Line + 1);
}

internal sealed record TraceWayEntry(string Source, List<string> Kinds, int? Channel, List<TraceStepEntry> Steps);

internal sealed record TraceStepEntry(
    string Port,
    string Direction,
    int? Parent,
    int Depth,
    int? Channel,
    TraceLineEntry? Cable,
    TraceMoveEntry? Move,
    TraceFilterEntry? StoppedBy,
    double WaitMs,
    List<TraceHearerEntry> Heard,
    string Note);

internal sealed record TraceLineEntry(string Path, int Line);

internal sealed record TraceMoveEntry(int From, int To, TraceLineEntry At);

internal sealed record TraceFilterEntry(string Port, List<string> Drops, TraceLineEntry At);

internal sealed record TraceHearerEntry(string Who, string How, int? Channel, bool Sure);

internal sealed record TracePortEntry(string Port, List<TraceArrivalEntry> Arrivals);

internal sealed record TraceArrivalEntry(string Source, List<string> Kinds, int? Channel, List<TraceHearerEntry> Heard);

internal sealed record TraceVerdictEntry(string Kind, bool Arrives, bool Sure, List<TraceStepEntry> Steps, string Reason, string Mend, TraceFilterEntry? StoppedBy);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(TraceDocument))]
[JsonSerializable(typeof(ChannelsDocument))]
[JsonSerializable(typeof(PowerDocument))]
[JsonSerializable(typeof(GroundDocument))]
[JsonSerializable(typeof(HumDocument))]
[JsonSerializable(typeof(AudioDocument))]
internal sealed partial class FlowDocumentContext : JsonSerializerContext;
