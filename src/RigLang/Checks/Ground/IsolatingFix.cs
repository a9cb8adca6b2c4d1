using RigLang.Findings;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Ground;

/// <summary>
/// Edits that break a link: a box of the library with isolated ports put into the cable, another supply for what is fed, or the battery that is
/// in it. All of a rig can be applied together (see <see cref="SupplyFix"/>); each brings the import that it needs, which then counts once.
/// Nothing is offered where nothing fits.
/// </summary>
internal sealed class IsolatingFix(FixPlan plan)
{
    private readonly SupplyFix _supplies = new(plan);

    /// <summary>Null where one of its cables cannot be isolated so.</summary>
    public Fix? For(GroundBundle bundle)
    {
        var edits = new List<TextEdit>();
        var titles = new List<string>();
        foreach (var hookup in bundle.Links.Select(l => l.Hookup).Distinct())
        {
            var link = bundle.Links.First(l => l.Hookup == hookup);
            var title = link.Kind switch
            {
                _ when link.GoesByBattery => Battery(link, edits),
                GroundLinkKind.Audio or GroundLinkKind.Usb => Box(hookup, edits),
                GroundLinkKind.Supply when LoadsOf(hookup).All(plan.Mend) => _supplies.Own(hookup, edits),
                _ => null,
            };
            if (title is null)
            {
                return null;
            }
            titles.Add(title);
        }
        return new Fix(string.Join("; ", titles), false, [.. edits]);
    }

    private static IEnumerable<int> LoadsOf(Hookup hookup) => hookup.Jacks.Where(j => !j.Jack.Port.IsOutput).Select(j => j.Id);

    private string? Box(Hookup hookup, List<TextEdit> edits)
    {
        if (IsolatingBox.For(plan.Rig, hookup).FirstOrDefault() is not { } box)
        {
            return null;
        }
        edits.AddRange(box.Edits(plan.Rig, plan.FreeName("isolator")));
        _supplies.Import(hookup.Connection, edits);
        return $"Put a {box.Gear} into {Wording.Ends(hookup.Connection)}";
    }

    /// <summary>The device says that it runs on its battery, and its cable becomes a comment: it is plugged in again to charge.</summary>
    private static string? Battery(GroundLink link, List<TextEdit> edits)
    {
        var (device, connection) = (link.Battery!.Device, link.Hookup.Connection);
        var source = connection.At.Source;
        var span = connection.Statement.Span;
        if (source.PositionOf(span.Start).Line != source.PositionOf(span.End).Line)
        {
            return null;
        }
        edits.Add(new TextEdit(source, new TextSpan(span.Start, 0), "// "));
        if (!device.OnBattery)
        {
            edits.Add(RunsOnBattery(device));
        }
        return $"Run {device.Name} on its battery and unplug {Wording.Ends(connection)}";
    }

    private static TextEdit RunsOnBattery(DeviceSymbol device)
    {
        const string line = "  runs on battery";
        var source = device.At.Source;
        var lineEnd = source.LineEnd;
        var header = device.Statement.Span.End;
        var rest = source.Content[header..source.LineSpan(source.PositionOf(header).Line).End];
        var brace = rest.AsSpan().TrimStart() is ['{', ..] ? rest.IndexOf('{', StringComparison.Ordinal) + 1 : 0;
        if (brace == 0)
        {
            // Written anew, not added to: another fix may put its device just behind this one, at the same place.
            return new TextEdit(source, device.Statement.Span, $"{source.Slice(device.Statement.Span)} {{{lineEnd}{line}{lineEnd}}}");
        }
        var (at, text) = rest.AsSpan(brace).TrimStart() is [] or ['/', '/', ..] ? (header + rest.Length, lineEnd + line)
            : (header + brace, $"{lineEnd}{line}{lineEnd}");
        return new TextEdit(source, new TextSpan(at, 0), text);
    }
}
