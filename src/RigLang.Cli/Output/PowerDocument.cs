using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig power --format json</c>, described in grammar/power-output.schema.json: change both or neither.</summary>
internal sealed record PowerDocument(
    int Version,
    double? MainsVolts,
    double? MainsHertz,
    double? BreakerAmperes,
    double? SetMinutes,
    List<PowerNodeEntry> Nodes,
    List<BatteryEntry> Batteries,
    List<string> LastOn,
    bool InSteps,
    List<PowerCautionEntry> Cautions,
    string Safety)
{
    public const int CurrentVersion = 1;

    public static PowerDocument Of(Rig rig, IEnumerable<Finding> findings)
    {
        var numbers = rig.Power.Nodes.Select((node, number) => (node, number)).ToDictionary(n => n.node, n => n.number);
        var circuits = rig.Circuits().ToDictionary(c => c.Root, c => c.Circuit.Most);
        return new(
            CurrentVersion,
            rig.Names.MainsVolts?.High.Value,
            rig.Names.MainsHertz,
            rig.Names.MainsCurrent?.Value,
            rig.Names.SetLength is { } set ? Math.Round(set.Value / 60, 2) : null,
            [.. rig.Power.Nodes.Select(n => new PowerNodeEntry(
                n.Device.Name,
                n.In?.Name,
                // Where supplies feed each other in a ring, the tree begins at one of them all the same.
                n.Depth > 0 && n.Parent is { } parent ? numbers[parent] : null,
                n.Outlet?.Name,
                n.SourceVolts?.Value,
                n.In?.Jacks[0].Form.Name,
                n.IsMains || n.In is null ? "VA" : "A",
                Math.Round(n.Takes.Value, 4),
                n.Takes.IsLeast,
                n.In is null ? (circuits.TryGetValue(n, out var most) ? most : null) : n.Rating,
                Math.Round(n.Drop.Value, 4)))],
            [.. rig.Batteries().Select(b => new BatteryEntry(b.Device.Name, b.Lasts is { } lasts && double.IsFinite(lasts.Value) ? Math.Round(lasts.Value / 60, 1) : null))],
            [.. rig.LastOn().Select(d => d.Name)],
            rig.NeedsSteps(),
            [.. PowerPage.Cautions(findings).Select(f => new PowerCautionEntry(f.Check.Name, SeverityWord.Of(f.Severity), f.What))],
            PowerPage.Safety);
    }
}

/// <param name="Parent">Place in the list of what feeds it; null where the tree begins.</param>
/// <param name="Unit">Of <paramref name="Takes"/> and <paramref name="Rating"/>.</param>
/// <param name="Drop">Volts lost in leads that say their gauge and length.</param>
internal sealed record PowerNodeEntry(
    string Device, string? Port, int? Parent, string? Outlet, double? Volts, string? Plug, string Unit, double Takes, bool AtLeast, double? Rating, double Drop);

internal sealed record BatteryEntry(string Device, double? Minutes);

internal sealed record PowerCautionEntry(string Check, string Severity, string What);
