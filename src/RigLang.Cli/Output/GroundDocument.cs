using System.Text.Json;
using RigLang.Flow.Ground;

namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig ground --format json</c>, described in grammar/ground-output.schema.json: change both or neither.</summary>
internal sealed record GroundDocument(
    int Version, List<string> Domains, List<GroundLinkEntry> Links, int LoopCount, bool Shortest, List<GroundLoopEntry> Loops, GroundCureEntry Cure, string Safety)
{
    public const int CurrentVersion = 1;

    public static GroundDocument Of(GroundLoops loops)
    {
        var left = loops.LeftByCure();
        return new GroundDocument(
            CurrentVersion,
            [.. loops.Ground.Domains.Select(d => d.Name)],
            [.. loops.Ground.Links.Select(l => new GroundLinkEntry(
                l.A, l.B, GroundPage.Word(l.Kind), l.Text, l.Length?.Value, loops.IsInLoop(l), l.HeardBecause, Round(l.Noise?.Level), l.Cost, JsonNamingPolicy.CamelCase.ConvertName($"{loops.IsolationOf(l)}"), LineOf(l)))],
            loops.Count,
            loops.AreShortest,
            [.. loops.Loops.Select(Entry)],
            new GroundCureEntry(
                loops.IsProven,
                loops.Cure.Sum(c => c.Bundle.Cost!.Value),
                [.. loops.Cure.Select(c => new GroundCutEntry([.. c.Bundle.Links.Select(l => l.Index)], GroundAdvice.For(c.Bundle), Entry(c.Loop)))],
                left.Count,
                left.Count(l => l.IsHeard)),
            GroundAdvice.Safety);
    }

    internal static GroundLoopEntry Entry(GroundLoop loop) => new(loop.IsHeard, [.. loop.Links.Select(l => l.Index)], [.. loop.Reasons]);

    private static double? Round(double? level) => level is { } decibels ? Math.Round(decibels, 1) : null;

    private static TraceLineEntry LineOf(GroundLink link)
    {
        var at = link.Hookup.Connection.At;
        return new TraceLineEntry(at.Source.Path, at.Source.PositionOf(at.Span.Start).Line + 1);
    }
}

/// <param name="A">Number of a domain, from 0.</param>
/// <param name="LevelDb">Of what 300 µA in its screen add, beside the signal; null where the screen is no part of the sound.</param>
/// <param name="Cost">What it takes to break it, beside the others; null for a protective earth, which stays.</param>
/// <param name="Isolation">cure, possible, useless (in no loop) or unsafe (a protective earth).</param>
internal sealed record GroundLinkEntry(
    int A, int B, string Kind, string Text, double? LengthM, bool InLoop, string? HeardBecause, double? LevelDb, int? Cost, string Isolation, TraceLineEntry At);

/// <param name="Links">Numbers of links, from 0, in the order one walks them.</param>
internal sealed record GroundLoopEntry(bool Heard, List<int> Links, List<string> Reasons);

internal sealed record GroundCureEntry(bool Proven, int Cost, List<GroundCutEntry> Cuts, int LeavesLoops, int LeavesHeard);

internal sealed record GroundCutEntry(List<int> Links, string Advice, GroundLoopEntry Loop);

/// <summary>The shape of <c>rig hum --format json</c>, described in grammar/hum-output.schema.json: change both or neither.</summary>
internal sealed record HumDocument(int Version, string Heard, List<HumSuspectEntry> Suspects, string Safety)
{
    public const int CurrentVersion = 1;

    public static HumDocument Of(HumSound sound, IReadOnlyList<HumSuspect> suspects) => new(
        CurrentVersion,
        GroundPage.Word(sound),
        [.. suspects.Select(s => new HumSuspectEntry(s.Score, [.. s.Loop.Links.Select(l => l.Text)], [.. s.Reasons]))],
        GroundAdvice.Safety);
}

internal sealed record HumSuspectEntry(int Score, List<string> Loop, List<string> Reasons);
