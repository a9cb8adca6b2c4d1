using RigLang.Checks;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Turns what a cable does into something the rig is tested for: `must audio from bass reach desk`, where it holds.</summary>
internal static class RouteExpectations
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span)
    {
        if (Rewriting.HookupAt(view, span) is not { IsSound: true, Connection: var connection })
        {
            return [];
        }
        var lines = Candidates(view, connection).Where(line => !IsWritten(view, line)).Distinct().ToList();
        if (lines.Count == 0)
        {
            return [];
        }
        // All at once: a rig with three lines more is compiled as fast as one with one.
        var trial = Rewriting.Trial(view, [Rewriting.AtEnd(view, string.Join('\n', lines.Select(l => l.Text)))]);
        var added = trial.Rig.Outcomes.Where(o => o.Expectation.At is var at && at.Source.Path == view.Source.Path && at.Span.Start >= view.Source.Length).ToList();
        return lines.Where(Holds).Select(line => EditAction.Changing($"Rely on it: {line.Text}", EditAction.Refactor, Appended(view, line.Text)));

        bool Holds(Line line) => added.Exists(o =>
            o.Holds && o.Expectation.What == line.What && o.Expectation.From.Device.Name == line.From.Name && o.Target.Device.Name == line.To.Name);
    }

    private sealed record Line(string What, DeviceSymbol From, DeviceSymbol To)
    {
        public string Text => $"must {What} from {Wording.Written(From.Name)} reach {Wording.Written(To.Name)}";
    }

    private static IEnumerable<Line> Candidates(RigView view, ConnectionSymbol connection)
    {
        foreach (var link in view.Rig.Links.Links.Where(l => l.Hookup.Connection == connection && l.From.Device != l.To.Device))
        {
            IEnumerable<string> kinds = link.Kind switch
            {
                SignalKind.Audio => ["audio"],
                SignalKind.Midi => Messages(link.From.Device.Gear!),
                SignalKind.Dc or SignalKind.Ac or SignalKind.Mains => ["power"],
                _ => [],
            };
            foreach (var kind in kinds)
            {
                yield return new Line(kind, link.From.Device, link.To.Device);
            }
        }
    }

    private static IEnumerable<string> Messages(GearSymbol sender) =>
        [.. sender.Tracks.Count > 0 ? ["notes"] : Array.Empty<string>(), .. sender.ClockSends.Count > 0 ? ["clock"] : Array.Empty<string>()];

    private static bool IsWritten(RigView view, Line line) => view.Rig.Names.Expectations.Exists(e =>
        e.Must && e.What == line.What && e.From.Device == line.From && e.From is { Port: null, Part: null, Track: null } && e.To.Any(t => t.Device == line.To));

    /// <summary>Below the last `must` of the file, and with none at its end.</summary>
    private static Findings.TextEdit Appended(RigView view, string text) =>
        view.Tree.Statements.OfType<ExpectStatement>().LastOrDefault(e => e.Must) is { } last
            ? Rewriting.LineAfter(view, last.Span.End, text)
            : Rewriting.AtEnd(view, text);
}
