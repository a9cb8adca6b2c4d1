using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Wiring;

/// <summary>
/// A share of what an input hears: which output's channel, and how much of it (1: all of it; -0.5: half, inverted).
/// </summary>
/// <param name="Seat">The output jack's place in the nets.</param>
public readonly record struct Term(int Seat, AudioChannel Channel, double Amount);

/// <summary>What one channel of an audio input hears: the voltage between its hot contact and its cold contact, or ground.</summary>
public sealed record Arrival(int Seat, AudioChannel Channel, IReadOnlyList<Term> Terms)
{
    public bool IsSilent => Terms.Count == 0;

    /// <summary>The level that arrives when each source channel carries the given amplitude; 1 is the full level.</summary>
    public double Amplitude(Func<Term, double> source) => Terms.Sum(term => term.Amount * source(term));
}

/// <summary>
/// Works out from the nets what each audio input hears. An output that drives two contacts puts half of the signal on hot
/// and half, inverted, on cold; an input that has two takes the difference (IEC 60268-3, common practice).
/// </summary>
public static class Arrivals
{
    /// <summary>One arrival a channel of the input jack; empty for a jack that takes no audio.</summary>
    public static List<Arrival> At(Nets nets, int seat)
    {
        var jack = nets.Jack(seat).Jack;
        var arrivals = new List<Arrival>();
        for (var i = 0; i < jack.Roles.Count; i++)
        {
            if (jack.Roles[i] is { Role: Role.Hot, Drive: Drive.In } hot)
            {
                var terms = new List<Term>();
                Add(terms, nets, nets.Contact(seat, i), +1);
                var cold = ColdOf(jack, hot.Channel);
                if (cold >= 0)
                {
                    Add(terms, nets, nets.Contact(seat, cold), -1);
                }
                terms.RemoveAll(t => Math.Abs(t.Amount) < 1e-9);
                arrivals.Add(new Arrival(seat, hot.Channel, terms));
            }
        }
        return arrivals;
    }

    /// <summary>The share of its signal that an output puts on a contact, or 0.</summary>
    private static double Share(Nets nets, int contact)
    {
        var role = nets.RoleOf(contact);
        if (role.Drive != Drive.Out || role.Role is not (Role.Hot or Role.Cold))
        {
            return 0;
        }
        var signal = nets.Jack(nets.SeatOf(contact)).Jack.Port.Signal!;
        return (signal.Balance, role.Role) switch
        {
            (Balance.Balanced, Role.Hot) => 0.5,
            (Balance.Balanced, Role.Cold) => -0.5,
            (_, Role.Hot) => 1,
            _ => 0,
        };
    }

    private static void Add(List<Term> terms, Nets nets, int contact, double sign)
    {
        // A net that is on ground carries nothing, whoever drives it.
        if (nets.IsGrounded(contact))
        {
            return;
        }
        foreach (var member in nets.Members(contact))
        {
            if (Share(nets, member) is not 0 and var share)
            {
                var term = new Term(nets.SeatOf(member), nets.RoleOf(member).Channel, sign * share);
                var at = terms.FindIndex(t => t.Seat == term.Seat && t.Channel == term.Channel);
                if (at < 0)
                {
                    terms.Add(term);
                }
                else
                {
                    terms[at] = term with { Amount = terms[at].Amount + term.Amount };
                }
            }
        }
    }

    private static int ColdOf(JackSymbol jack, AudioChannel channel)
    {
        for (var i = 0; i < jack.Roles.Count; i++)
        {
            if (jack.Roles[i] is { Role: Role.Cold, Drive: Drive.In } cold && cold.Channel == channel)
            {
                return i;
            }
        }
        return -1;
    }
}
