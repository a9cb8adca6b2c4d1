using System.Globalization;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>Behind the jacks of a `connect` line: leads that fit both ends, lengths, colours.</summary>
internal static class LeadSuggestions
{
    /// <summary>Lengths that leads are sold in, in m and in ft; common practice.</summary>
    private static readonly double[] MetresSold = [0.3, 0.6, 1, 1.5, 2, 3, 5, 10];
    private static readonly double[] FeetSold = [1, 2, 3, 5, 6, 10, 15, 25];

    /// <summary>Metres in an international foot (1959).</summary>
    private const double Foot = 0.3048;

    public static void Add(CaretLine line, int first, PathsTyped from, PathsTyped to, EditorStyle style, SuggestionList list)
    {
        var chain = new List<string>();
        var prefixes = new List<string>();
        var waits = line.Before[first].Keyword == Keyword.With ? Waits.Lead : Waits.Colour;
        for (var i = first + 1; i < line.Before.Count; i++)
        {
            var token = line.Before[i];
            waits = (waits, token.Kind) switch
            {
                (Waits.Lead, TokenKind.Word or TokenKind.String) => Waits.Length,
                (Waits.Length, TokenKind.Dot) => Waits.Lead,
                (Waits.Lead or Waits.Length, TokenKind.Number) => Waits.Unit,
                (Waits.Unit, TokenKind.Word) => Waits.Colour,
                (Waits.Length or Waits.Colour, TokenKind.Plus) => Waits.Lead,
                (Waits.Length or Waits.Colour, TokenKind.Word) => Waits.Colour,
                _ => Waits.Nothing,
            };
            if (waits == Waits.Length)
            {
                chain.Add(string.Join('.', prefixes.Append(token.Text!)));
                prefixes.Clear();
            }
            else if (token.Kind == TokenKind.Dot && waits == Waits.Lead)
            {
                // What stands before the dot is the name of an import, or several.
                prefixes.AddRange(chain[^1].Split('.'));
                chain.RemoveAt(chain.Count - 1);
            }
        }
        switch (waits)
        {
            case Waits.Lead:
                AddLeads(line, from, to, chain, prefixes, list);
                list.Prefixes(prefixes);
                break;
            case Waits.Length:
                AddLengths(line, chain[^1], from, to, style, list);
                AddColours(100, list);
                list.Word(200, "+", SuggestionKind.Word, "another lead or adapter behind it");
                break;
            case Waits.Unit:
                UnitSuggestions.Add(list, style.InFeet ? ["ft", "m", "inch", "cm", "mm"] : ["m", "cm", "mm", "ft", "inch"]);
                break;
            case Waits.Colour:
                AddColours(0, list);
                break;
        }
    }

    private enum Waits
    {
        Lead,
        Length,
        Unit,
        Colour,
        Nothing,
    }

    public static void AddColours(int rank, SuggestionList list)
    {
        foreach (var word in Colours.Words)
        {
            list.Word(rank, word, SuggestionKind.Colour);
        }
    }

    /// <summary>
    /// Leads that can be plugged in at both ends. First those that carry what the simplest carries and are in the box, then the simplest
    /// itself, then those that must be bought; those wired otherwise come last.
    /// </summary>
    private static void AddLeads(CaretLine line, PathsTyped from, PathsTyped to, List<string> chain, List<string> prefixes, SuggestionList list)
    {
        var stock = new LeadStock(line.View, line.Offset);
        var before = chain.Select(line.View.LeadCalled).ToList();
        if (before.Contains(null) || before.Count >= Harness.LongestChain || from.Jacks() is not { } near || to.Jacks() is not { } far)
        {
            foreach (var (name, lead) in Behind(line.View, prefixes))
            {
                Add(name, lead, 0, "");
            }
            return;
        }
        var (fromJacks, toJacks) = (Jacks(near), Jacks(far));
        var choice = line.View.Rig.Wiring.Choice;
        var simplest = before.Count == 0 ? choice.Simplest(fromJacks, toJacks) : choice.AdapterFor(fromJacks, toJacks, before!);
        var wanted = simplest is null ? null : Harness.Assemble(fromJacks, toJacks, [.. before!, simplest]);
        foreach (var (name, lead) in Behind(line.View, prefixes))
        {
            if (lead.IsIncomplete || Harness.Assemble(fromJacks, toJacks, [.. before!, lead]) is not { Fault: HarnessFault.None } harness)
            {
                continue;
            }
            var carriesAll = wanted is null || CarriesTheSame(harness, wanted, [.. near, .. far]);
            var left = stock.Left(lead.Name);
            var rank = (carriesAll ? 0 : 100) + (left > 0 ? 0 : lead == simplest ? 10 : left is null ? 20 : 30);
            Add(name, lead, rank, !carriesAll ? $"wired otherwise than {simplest!.Name}" : lead == simplest ? "the simplest that fits" : "");
        }

        void Add(WrittenName name, LeadSymbol lead, int rank, string note)
        {
            var left = stock.Left(lead.Name);
            var box = left is null ? "" : $"{Math.Max(0, left.Value)} left";
            list.Name(rank, name, prefixes, SuggestionKind.Lead, string.Join("; ", ((string[])[box, note, LeadText.Plugs(lead)]).Where(t => t.Length > 0)), SuggestionKey.Of("lead", name.ToString()));
        }
    }

    /// <summary>
    /// The leads that can be named behind the names of imports that are typed already. The library is offered by way of an import only
    /// when that is asked for, since most files bring it themselves.
    /// </summary>
    public static IEnumerable<(WrittenName Name, LeadSymbol Lead)> Behind(RigView view, IReadOnlyList<string> prefixes)
    {
        foreach (var name in view.Rig.Names.LeadsOf(view.File))
        {
            if (view.LeadCalled(name.ToString()) is { } lead && (name.Prefixes.Count <= prefixes.Count || !SharedLibrary.IsShared(lead.At.Source.Path)))
            {
                yield return (name, lead);
            }
        }
    }

    private static JackSymbol[] Jacks(IReadOnlyList<JackRef> jacks) => [.. jacks.Select(j => j.Jack)];

    /// <summary>True when two cables join the same of the contacts that do something.</summary>
    private static bool CarriesTheSame(Harness one, Harness other, JackRef[] seats)
    {
        var (a, b) = (NetsOf(one), NetsOf(other));
        var contacts = new List<int>();
        for (var seat = 0; seat < seats.Length; seat++)
        {
            for (var contact = 0; contact < seats[seat].Jack.Roles.Count; contact++)
            {
                if (seats[seat].Jack.Roles[contact].Role != Role.Unused)
                {
                    contacts.Add(a.Contact(seat, contact));
                }
            }
        }
        for (var i = 0; i < contacts.Count; i++)
        {
            for (var j = i + 1; j < contacts.Count; j++)
            {
                if (a.AreJoined(contacts[i], contacts[j]) != b.AreJoined(contacts[i], contacts[j]))
                {
                    return false;
                }
            }
        }
        return true;

        Nets NetsOf(Harness harness)
        {
            var nets = new Nets(seats);
            foreach (var joined in harness.Joined)
            {
                nets.Join(nets.Contact(joined.SeatA, joined.ContactA), nets.Contact(joined.SeatB, joined.ContactB));
            }
            return nets;
        }
    }

    /// <summary>What is left in the box, what the rig uses already, and what is sold; what does not reach comes last.</summary>
    private static void AddLengths(CaretLine line, string lead, PathsTyped from, PathsTyped to, EditorStyle style, SuggestionList list)
    {
        var stock = new LeadStock(line.View, line.Offset);
        var away = from.Jacks() is { } near && to.Jacks() is { } far
            ? near.SelectMany(a => far.Select(b => a.Device.DistanceTo(b.Device)?.Value ?? 0)).Max()
            : 0;
        foreach (var (length, left) in stock.Lengths(line.View.LeadCalled(lead)?.Name ?? lead).OrderBy(l => l.Length.Value))
        {
            Add(length, left > 0 ? 0 : 30, $"{Math.Max(0, left)} left");
        }
        foreach (var sold in style.InFeet ? FeetSold.Select(feet => new Metre(feet * Foot)) : MetresSold.Select(m => new Metre(m)))
        {
            Add(sold, 20, "");
        }

        void Add(Metre length, int rank, string detail)
        {
            var reaches = length.Value >= away;
            var text = style.InFeet ? $"{Math.Round(length.Value / Foot, 2).ToString(CultureInfo.InvariantCulture)} ft" : length.ToString();
            var note = away > 0 ? reaches ? $"the way is {new Metre(Math.Round(away, 1))}" : $"too short: the way is {new Metre(Math.Round(away, 1))}" : "";
            list.Word(rank + (reaches ? 0 : 40), text, SuggestionKind.Unit, string.Join("; ", ((string[])[detail, note]).Where(t => t.Length > 0)));
        }
    }
}
