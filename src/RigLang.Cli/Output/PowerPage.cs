using System.Collections.Immutable;
using RigLang.Checks;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Cli.Output;

/// <summary>The power of a rig as a sheet to hand over: the tree, batteries, the order of switching on, cautions, and the safety text.</summary>
internal static class PowerPage
{
    /// <summary>What can be wrong with what power is read from: the text, the cables, and power itself.</summary>
    public static ImmutableArray<Topic> Topics { get; } = [Topic.Text, Topic.Wiring, Topic.Usb, Topic.Power];

    /// <summary>Stands under every answer, whatever the rig.</summary>
    public const string Safety =
        "Never remove or lift a protective earth, whatever hums. Prefer sockets behind a residual-current device (RCD, GFCI), no strip in "
        + "a strip, no loaded cable on its reel. The sums are a plan made from what the gear declares, not a measurement: local code "
        + "and a licensed electrician decide about mains wiring.";

    /// <param name="findings">Of these the cautions are those about power.</param>
    public static void Write(TextWriter output, Rig rig, IEnumerable<Finding> findings)
    {
        foreach (var fact in Heading(rig))
        {
            Wrap.Write(output, fact);
        }
        output.WriteLine();
        var tree = rig.Power.Nodes;
        if (tree.Count == 0)
        {
            output.WriteLine("Nothing in this rig is fed by a supply.");
        }
        else
        {
            WriteTree(output, rig, tree);
        }
        Section("Lost in leads", Losses(tree));
        Section("On battery", rig.Batteries().Select(b => Battery(rig, b)));
        Section("Switching on", Order(rig));
        Section("Cautions", Cautions(findings).Select(f => $"{SeverityWord.Of(f.Severity)} at line {LineOf(f)}: {f.What}"), hanging: "  ");
        Section("Safety", [Safety]);

        void Section(string title, IEnumerable<string> lines, string hanging = "")
        {
            var all = lines.ToList();
            if (all.Count == 0)
            {
                return;
            }
            output.WriteLine();
            output.WriteLine(title);
            foreach (var text in all)
            {
                Wrap.Write(output, text, "  " + hanging, "  ");
            }
        }
    }

    /// <summary>The findings about power, of any severity.</summary>
    public static IEnumerable<Finding> Cautions(IEnumerable<Finding> findings) => findings.Where(f => CheckList.IsAboutPower(f.Check));

    private static int LineOf(Finding finding) => finding.Location.Source.PositionOf(finding.Location.Span.Start).Line + 1;

    /// <summary>When it matters: amplifiers last, and no inrush of everything at once. Common practice.</summary>
    public static IEnumerable<string> Order(Rig rig)
    {
        if (rig.NeedsSteps())
        {
            yield return "One after the other, not all by one switch: what many supplies take in the first moment can trip a breaker.";
        }
        if (rig.LastOn() is { Count: > 0 } last)
        {
            yield return $"Last on, first off: {string.Join(", ", last.Select(d => d.Name))}.";
        }
    }

    /// <summary>What leads of known gauge and length lose, from one part in a hundred.</summary>
    private static IEnumerable<string> Losses(IReadOnlyList<PowerNode> tree)
    {
        foreach (var node in tree)
        {
            if (node is { IsPassive: false, SourceVolts: { } given, Arrives: { } arrives } && node.Drop.Value >= given.Value / 100)
            {
                yield return $"{node.Device.Name}: {new Volt(Math.Round(arrives.Value, 2))} of {given} arrive"
                    + (node.WorksFrom is { } least ? $", it works from {new Volt(Math.Round(least.Value, 2))}" : "");
            }
        }
    }

    private static IEnumerable<string> Heading(Rig rig)
    {
        string?[] facts =
        [
            rig.Names.MainsVolts is { } volts ? $"Mains {volts}{(rig.Names.MainsHertz is { } hertz ? $" {Units.Figure(hertz)} Hz" : "")}" : "Mains voltage not said",
            rig.Names.MainsCurrent is { } breaker ? $"breaker {breaker}" : "breaker not said",
            rig.Names.SetLength is { } set ? $"set {BatteryRun.Words(set)}" : null,
        ];
        yield return rig.Names.Title is { } title ? $"Power of {title}" : "Power";
        yield return string.Join(", ", facts.Where(f => f is not null));
    }

    private static void WriteTree(TextWriter output, Rig rig, IReadOnlyList<PowerNode> tree)
    {
        var rows = tree.Select(node => RowOf(rig, node)).ToList();
        rows.Insert(0, new("", "supply, plug", "takes", "spare"));
        var takes = rows.Max(r => Cells.WidthOf(r.Takes));
        var plug = rows.Max(r => Cells.WidthOf(r.Plug));
        var spare = rows.Max(r => Cells.WidthOf(r.Spare));
        var name = Math.Clamp(rows.Max(r => Cells.WidthOf(r.Name)), 8, Math.Max(8, Wrap.Sheet - plug - takes - spare - 6));
        foreach (var row in rows)
        {
            var head = row.Name;
            if (Cells.WidthOf(head) > name)
            {
                // A long name has the line for itself; the figures follow under it.
                output.WriteLine(head);
                head = "";
            }
            output.WriteLine((Padded(head, name) + "  " + Padded(row.Plug, plug) + "  " + new string(' ', takes - Cells.WidthOf(row.Takes)) + row.Takes
                + "  " + row.Spare.PadLeft(spare)).TrimEnd());
        }
        string?[] legend =
        [
            rows.Exists(r => r.Plug.Contains("(+)", StringComparison.Ordinal) || r.Plug.Contains("(-)", StringComparison.Ordinal)) ? "(+) (-)  polarity of the centre contact" : null,
            tree.Any(IsIsolated) ? "*  an isolated output: it joins no grounds" : null,
            tree.Any(n => n.Takes.IsLeast) ? "? ≥  something does not say what it takes: at least so much" : null,
            tree.Any(n => n.In is { Signal: { Watts: not null, IsApparent: false } }) ? $"VA  of gear that declares watts: at a power factor of {Units.Figure(PowerFigures.PowerFactor)}" : null,
        ];
        var said = legend.Where(l => l is not null).ToList();
        if (said.Count > 0)
        {
            output.WriteLine();
            said.ForEach(output.WriteLine);
        }
    }

    private static string Padded(string text, int width) => text + new string(' ', Math.Max(0, width - Cells.WidthOf(text)));

    private sealed record Row(string Name, string Plug, string Takes, string Spare);

    private static Row RowOf(Rig rig, PowerNode node)
    {
        var name = Cells.Safe(new string(' ', node.Depth * 2) + (node.Outlet is { } outlet ? $"{outlet.Name}: " : "") + node.Device.Name);
        return node.In is null
            ? new(name, "", node.Children.Any(c => c.IsMains) ? Least(node) + Whole(rig, node) : "", Left(rig, node))
            : new(name, Plug(node), Taken(node), Spare(node));
    }

    private static string Whole(Rig rig, PowerNode root) => rig.CircuitOf(root) is { } circuit
        ? $"{Units.Figure(Math.Round(root.Takes.Value))} of {Units.Figure(circuit.Most)} VA"
        : $"{Units.Figure(Math.Round(root.Takes.Value))} VA";

    private static string Left(Rig rig, PowerNode root) => rig.CircuitOf(root) is not { } circuit ? ""
        : root.Takes.Value > circuit.Most ? "over"
        : $"{Math.Floor(100 * (1 - (root.Takes.Value / circuit.Most)))} %";

    private static string Least(PowerNode node) => node.Takes.IsLeast ? "≥ " : "";

    private static string Spare(PowerNode node) => node switch
    {
        { IsOver: true } => "over",
        { Spare: { } spare } when !IsUnsaid(node) => $"{(node.Takes.IsLeast ? "≤ " : "")}{Math.Floor((spare * 100) + 1e-6)} %",
        _ => "",
    };

    private static bool IsUnsaid(PowerNode node) => node.Takes is { IsLeast: true, Value: 0 };

    private static string Taken(PowerNode node)
    {
        if (IsUnsaid(node))
        {
            return node.Rating is { } most ? $"? of {node.Amount(most)}" : "?";
        }
        if (node.Rating is not { } rating)
        {
            return Least(node) + node.Amount(node.Takes.Value);
        }
        // Both in one unit: 750 of 1000 mA.
        return Least(node) + (node.IsMains ? $"{Units.Figure(Math.Round(node.Takes.Value))} of {node.Amount(rating)}"
            : $"{Units.Figure(Math.Round(node.Takes.Value * 1000))} of {Units.Figure(Math.Round(rating * 1000))} mA");
    }

    /// <summary>"230 V iec-c14", "9 V DC (+) 5.5x2.1 mm": the sign is that of the centre.</summary>
    private static string Plug(PowerNode node)
    {
        var form = node.In!.Jacks[0].Form;
        var volts = node.SourceVolts is { } v ? v + " " : "";
        var kind = node.Source?.Port.Signal?.Kind switch
        {
            SignalKind.Ac => "AC ",
            SignalKind.Usb => "USB ",
            SignalKind.Dc => "DC ",
            _ => "",
        };
        var sign = !form.IsBarrel ? "" : node.Source?.Port.Signal?.Polarity switch
        {
            Polarity.CentrePositive => "(+) ",
            Polarity.CentreNegative => "(-) ",
            _ => "",
        };
        return Cells.Safe(volts + kind + sign + (form.IsBarrel ? form.Name["barrel ".Length..] : form.Name)) + (IsIsolated(node) ? " *" : "");
    }

    /// <summary>Straight from an output that shares no return with the others.</summary>
    private static bool IsIsolated(PowerNode node) => node.Outlet is { IsPassive: false, Signal: { Isolated: true } };

    private static string Battery(Rig rig, BatteryRun battery) => battery.Lasts is { } lasts
        ? $"{battery.Device.Name}: about {BatteryRun.Words(lasts)}{(rig.Names.SetLength is { } set ? lasts.Value < set.Value ? $", too short for the set of {BatteryRun.Words(set)}" : $", the set is {BatteryRun.Words(set)}" : "")}"
        : $"{battery.Device.Name}: how long is not said";
}
