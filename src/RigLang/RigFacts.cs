using System.Collections.Immutable;
using RigLang.Checks.Whole;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang;

/// <summary>What was verified, counted: silence must not be mistaken for success.</summary>
internal static class RigFacts
{
    /// <summary>
    /// A link that a finding speaks of is not counted as one that holds, wherever on its cables the finding stands. A promise
    /// that fails speaks of the way it took, whose cables may all be sound.
    /// </summary>
    public static ImmutableArray<Fact> Of(Rig rig, ImmutableArray<Finding> findings, ImmutableArray<Finding> accepted)
    {
        var faulty = findings.SelectMany(f => f.Check is MustFails or NeverFails ? [] : f.Related.Select(r => r.Location).Append(f.Location)).ToHashSet();
        var facts = new List<Fact>();
        if (rig.Names.Devices.Count == 0)
        {
            // A file of gear: what it declares is all there is to count.
            var root = rig.Names.Files[0];
            Add(root.Gear.Count, "kind of gear that can be read", "kinds of gear that can be read");
            Add(root.Leads.Count, "kind of lead that can be read", "kinds of lead that can be read");
            return [.. facts];
        }
        facts.Add(new(rig.Names.Devices.Count, Plural(rig.Names.Devices.Count, "device")));
        facts.Add(new(rig.Wiring.Hookups.Count, Plural(rig.Wiring.Hookups.Count, "connection")));
        Add(rig.Wiring.Hookups.Count(h => h.IsLeadChosen), "connection without a named lead, the simplest that fits taken", "connections without a named lead, the simplest that fits taken");
        AddLinks("MIDI link whose current loop closes", "MIDI links whose current loops close", SignalKind.Midi);
        AddLinks("clock pulse link", "clock pulse links", SignalKind.Pulse, SignalKind.DinSync);
        AddLinks("audio link with every channel where it belongs", "audio links with every channel where it belongs", SignalKind.Audio);
        AddLinks("supply link with the right voltage and polarity", "supply links with the right voltage and polarity", SignalKind.Dc, SignalKind.Ac);
        AddLinks("mains link", "mains links", SignalKind.Mains);
        AddLinks("USB data link to a host", "USB data links to a host", SignalKind.Usb);
        AddLinks("control link", "control links", SignalKind.Control);
        Add(rig.Outcomes.Count(o => o.Holds), "expectation holds", "expectations hold");
        Add(accepted.Length, "finding accepted", "findings accepted");
        return [.. facts];

        void Add(int count, string one, string many)
        {
            if (count > 0)
            {
                facts.Add(new Fact(count, count == 1 ? one : many));
            }
        }

        void AddLinks(string one, string many, params SignalKind[] kinds) => Add(rig.Links.Links.Count(l => kinds.Contains(l.Kind) && !faulty.Contains(l.Hookup.Connection.At)), one, many);
    }

    public static ImmutableArray<ChosenLead> ChosenLeadsOf(Rig rig)
    {
        var chosen = ImmutableArray.CreateBuilder<ChosenLead>();
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup is { IsLeadChosen: true, IsSound: true, Connection: var connection })
            {
                chosen.Add(new ChosenLead(connection.At, $"{Ends(connection.From)} to {Ends(connection.To)}", hookup.Leads[0].Name, hookup.Harness!.Copies[0]));
            }
        }
        return chosen.DrainToImmutable();
    }

    private static string Ends(IEnumerable<Endpoint> ends) => string.Join(", ", ends.Select(e => e.Text).Distinct());

    private static string Plural(int count, string noun) => count == 1 ? noun : noun + "s";
}
