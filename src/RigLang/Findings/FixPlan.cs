using System.Collections.Immutable;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Findings;

/// <summary>
/// The fixes of all findings of one rig, made when the first is asked for. What one takes (a name, a jack, a line) the next does not, so
/// that every choice of them can be applied together; a fix that would stand in the way of an earlier one is not offered until that is applied.
/// </summary>
public sealed class FixPlan(Rig rig)
{
    private readonly HashSet<string> _names = new(rig.Names.DevicesByName.Keys, StringComparer.Ordinal);
    private readonly HashSet<int> _taken = [];
    private readonly HashSet<int> _mended = [];
    private readonly Dictionary<Finding, ImmutableArray<Fix>> _fixes = new(ReferenceEqualityComparer.Instance);
    private IReadOnlyList<Finding>? _open;
    private bool? _letsThrough;

    public Rig Rig { get; } = rig;

    /// <summary>A name that nothing has yet, nor any fix of this plan.</summary>
    public string FreeName(string name)
    {
        var free = FreeName(name, _names.Contains);
        _names.Add(free);
        return free;
    }

    /// <summary>A name that is not taken: <c>isolator</c>, <c>isolator2</c>.</summary>
    public static string FreeName(string name, Func<string, bool> isTaken)
    {
        var free = name;
        for (var i = 2; isTaken(free); i++)
        {
            free = $"{name}{i}";
        }
        return free;
    }

    /// <summary>True for a jack with no plug in it that no fix has taken.</summary>
    public bool IsFree(int seat) => Rig.Wiring.Plugged[seat] is null && !_taken.Contains(seat);

    public void Take(int seat) => _taken.Add(seat);

    /// <summary>False when another fix gives this jack what it needs already: both together would give it twice.</summary>
    public bool Mend(int seat) => _mended.Add(seat);

    /// <summary>
    /// True as long as all fixes let messages through, or all keep them back: one of each could undo the other. Whichever is not offered now is
    /// offered when the first is applied.
    /// </summary>
    public bool LetsMessages(bool through) => (_letsThrough ??= through) == through;

    /// <summary>The findings whose fixes go together, the first to be served first.</summary>
    internal void Serve(IReadOnlyList<Finding> findings) => _open = findings;

    internal ImmutableArray<Fix> FixesOf(Finding finding)
    {
        if (_open is { } findings)
        {
            _open = null;
            MakeAll(findings);
        }
        return _fixes.GetValueOrDefault(finding, []);
    }

    private void MakeAll(IReadOnlyList<Finding> findings)
    {
        var planned = new PlannedEdits();
        foreach (var finding in findings)
        {
            if (finding.MakeFixes is { } make)
            {
                var offered = Made(make).Where(planned.LeavesAlone).ToImmutableArray();
                foreach (var fix in offered)
                {
                    planned.Add(fix);
                }
                _fixes[finding] = offered;
            }
        }
    }

    /// <summary>A fix that cannot be made is not offered; the finding stands all the same.</summary>
    private ImmutableArray<Fix> Made(Func<FixPlan, IEnumerable<Fix>> make)
    {
        try
        {
            return [.. make(this).Select(fix => fix with { Title = Prose.Clipped(fix.Title) })];
        }
        catch (Exception e) when (Guard.Contains(e))
        {
            return [];
        }
    }

    /// <summary>The edits offered so far, by their places.</summary>
    private sealed class PlannedEdits
    {
        private readonly Dictionary<(SourceText Source, int Line), List<(TextEdit Edit, bool IsAlone)>> _byLine = [];

        public bool LeavesAlone(Fix fix) => fix.Edits.All(edit => LinesOf(edit).All(line =>
            !_byLine.TryGetValue(line, out var others) || others.TrueForAll(other => GoTogether(edit, fix.Edits.Length == 1, other.Edit, other.IsAlone))));

        public void Add(Fix fix)
        {
            foreach (var edit in fix.Edits)
            {
                foreach (var line in LinesOf(edit))
                {
                    if (!_byLine.TryGetValue(line, out var others))
                    {
                        _byLine[line] = others = [];
                    }
                    others.Add((edit, fix.Edits.Length == 1));
                }
            }
        }

        /// <summary>
        /// The same edit counts once, and new lines stand side by side. Two words of one line are changed together only where each is the
        /// whole fix: a fix of several edits relies on the rest of its lines.
        /// </summary>
        private static bool GoTogether(TextEdit a, bool isAlone, TextEdit b, bool isOtherAlone) =>
            a == b || AddsLines(a) || AddsLines(b)
            || (isAlone && isOtherAlone && (a.Span.End <= b.Span.Start || b.Span.End <= a.Span.Start) && a.Span.Start != b.Span.Start);

        private static bool AddsLines(TextEdit edit) =>
            edit.Span.Length == 0 && edit.NewText.AsSpan().ContainsAny('\n', '\r');

        private static IEnumerable<(SourceText, int)> LinesOf(TextEdit edit)
        {
            var last = edit.Source.PositionOf(edit.Span.End).Line;
            for (var line = edit.Source.PositionOf(edit.Span.Start).Line; line <= last; line++)
            {
                yield return (edit.Source, line);
            }
        }
    }
}
