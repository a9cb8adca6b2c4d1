using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class PlugDoesNotFit : Check
{
    public override string Name => "plug-does-not-fit";
    public override Severity Severity => Severity.Error;
    public override string Title => "A plug that does not go into its jack";
    public override string Why => "The cable cannot be plugged in, or sits loose and fails when somebody moves the table.";
    public override string Advice => "Take a lead with the right plugs, or put an adapter behind it.";
    public override string Source => "the connector table of the language; each row names its standard";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line on ts 3.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.ch1 with Patch 1.5 m
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line on ts 3.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.ch1 with MiniMonoToJack 1.5 m
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup.Harness is not { Fault: HarnessFault.Misfit or HarnessFault.SameGender, Misfit: { } misfit } harness)
            {
                continue;
            }
            var connection = hookup.Connection;
            var from = connection.FromJacks.Select(j => j.Jack).ToArray();
            var to = connection.ToJacks.Select(j => j.Jack).ToArray();
            var adapter = rig.Wiring.Choice.AdapterFor(from, to, hookup.Leads);
            var lead = hookup.Leads.Count == 0 ? null : rig.Wiring.Choice.Simplest(from, to);
            report.Add(this, WhereOf(connection, hookup), What(harness.Fault, misfit), why: WhyOf(misfit),
                advice: (adapter, lead) switch
                {
                    (null, null) => FreeInputs.Advice(rig, hookup),
                    ({ } a, null) => $"Put the adapter {a.Name} behind it.",
                    (null, { } l) => $"{l.Name} fits.",
                    ({ } a, { } l) => $"{l.Name} fits, or put the adapter {a.Name} behind it.",
                },
                fixes: Fixes(connection, adapter?.Name, lead?.Name));
        }
    }

    private static string What(HarnessFault fault, (Form Plug, Form Into) misfit) => fault == HarnessFault.SameGender
        ? $"A {misfit.Plug} and a {misfit.Into} of the same gender do not go into one another."
        : misfit.Plug.LooksLike(misfit.Into)
            ? $"The {misfit.Plug} plug looks like the {misfit.Into} jack, but does not fit it."
            : $"A {misfit.Plug} plug does not go into a {misfit.Into} jack.";

    private static string? WhyOf((Form Plug, Form Into) misfit) => misfit.Plug.LooksLike(misfit.Into)
        ? "Barrels that look alike make contact now and then, or not at all: the device drops out in the middle of the set."
        : null;

    private static Location WhereOf(Symbols.ConnectionSymbol connection, Hookup hookup) =>
        connection.Leads.Count > 0 && !hookup.IsLeadChosen ? connection.Leads[0].At : connection.At;

    private static IEnumerable<Fix> Fixes(Symbols.ConnectionSymbol connection, string? adapter, string? lead)
    {
        if (connection.Leads is not [{ Lead: not null } first, ..])
        {
            yield break;
        }
        if (lead is not null && connection.Leads.Count == 1)
        {
            var name = connection.Statement.Leads[0].Lead!.Value.Span;
            yield return Wording.Replace($"Use {lead}", new Location(first.At.Source, name), Wording.Written(lead));
        }
        if (adapter is not null)
        {
            var end = new Location(first.At.Source, new TextSpan(connection.Leads[^1].At.Span.End, 0));
            yield return Wording.Replace($"Add the adapter {adapter}", end, $" + {Wording.Written(adapter)}");
        }
    }
}
