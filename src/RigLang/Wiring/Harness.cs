using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Wiring;

/// <summary>Why a harness cannot be put together.</summary>
public enum HarnessFault
{
    None,
    /// <summary>A plug that does not go into its jack or socket.</summary>
    Misfit,
    /// <summary>More or fewer plugs than jacks.</summary>
    EndCount,
    /// <summary>Two plugs, or two sockets, that would have to go into one another.</summary>
    SameGender,
}

/// <summary>Two contacts of the jacks at the ends, joined: seat (place among all jacks, `from` before `to`) and contact.</summary>
public readonly record struct JoinedContacts(int SeatA, int ContactA, int SeatB, int ContactB);

/// <summary>
/// The cable between some jacks: leads and adapters in series, plugged together. Says which contacts of the jacks it joins,
/// or what does not fit. Depends on the kinds of jack and lead only, so equal cables are worked out once.
/// </summary>
public sealed class Harness
{
    /// <summary>A chain longer than this is not something one plugs; it keeps the search for the way round each lead small.</summary>
    public const int LongestChain = 6;

    private readonly IReadOnlyList<JackSymbol> _from;
    private readonly IReadOnlyList<JackSymbol> _to;
    private readonly List<Piece> _pieces = [];
    private readonly List<(int, int)> _joined = [];
    private int _contactCount;
    private int _leftOpen = -1;

    private Harness(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to)
    {
        _from = from;
        _to = to;
    }

    public HarnessFault Fault { get; private set; }

    /// <summary>For a misfit: what should have gone in, and what it should have gone into.</summary>
    public (Form Plug, Form Into)? Misfit { get; private set; }

    /// <summary>For a wrong number of ends: how many plugs there are, and how many jacks.</summary>
    public (int Plugs, int Jacks)? Count { get; private set; }

    /// <summary>The jacks that are used: all, or of a normalled pair the left one.</summary>
    public IReadOnlyList<int> UsedSeats { get; private set; } = [];

    /// <summary>How many of each lead of the chain it takes.</summary>
    public IReadOnlyList<int> Copies { get; private set; } = [];

    public IReadOnlyList<JoinedContacts> Joined { get; private set; } = [];

    /// <summary>The chain of leads, each turned the way round that fits; with none, plug straight into jack.</summary>
    public static Harness Assemble(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, IReadOnlyList<LeadSymbol> leads)
    {
        Harness? best = null;
        var ways = 1 << Math.Min(leads.Count, LongestChain);
        for (var way = 0; way < ways; way++)
        {
            var harness = new Harness(from, to);
            harness.Build(leads, way);
            if (harness.Fault == HarnessFault.None)
            {
                return harness;
            }
            if (best is null || harness.Fault < best.Fault)
            {
                best = harness;
            }
        }
        return best!;
    }

    private void Build(IReadOnlyList<LeadSymbol> leads, int turned)
    {
        var open = JackEnds(_from, 0);
        var last = JackEnds(_to, _from.Count);
        if (IsNormalledPair(_from) && !IsPair(_to) && ExitCount(leads, turned, 2) == 2 && last.Count == 1)
        {
            open.RemoveAt(1);
            _leftOpen = 1;
        }
        var copies = new List<int>();
        for (var i = 0; i < leads.Count; i++)
        {
            open = Through(leads[i], (turned & (1 << i)) != 0, open, copies);
            if (Fault != HarnessFault.None)
            {
                return;
            }
        }
        if (IsNormalledPair(_to) && last.Count == 2 && open.Count == 1)
        {
            last.RemoveAt(1);
            _leftOpen = _from.Count + 1;
        }
        if (open.Count != last.Count)
        {
            Fault = HarnessFault.EndCount;
            Count = (open.Count, last.Count);
            return;
        }
        MatchByName(open, last);
        for (var i = 0; i < open.Count; i++)
        {
            Mate(open[i], last[i]);
        }
        if (Fault == HarnessFault.None)
        {
            Copies = copies;
            Finish();
        }
    }

    /// <summary>Mates the open ends with one side of a lead and gives its other side.</summary>
    private List<End> Through(LeadSymbol lead, bool turned, List<End> open, List<int> copies)
    {
        var (entry, exit) = turned ? (lead.FarCount, lead.NearCount) : (lead.NearCount, lead.FarCount);
        var count = entry == 1 && exit == 1 ? open.Count : 1;
        if (entry * count != open.Count)
        {
            Fault = HarnessFault.EndCount;
            Count = (entry, open.Count);
            return [];
        }
        copies.Add(count);
        var exits = new List<End>();
        for (var copy = 0; copy < count; copy++)
        {
            var ends = lead.Ends.ConvertAll(NewEnd);
            foreach (var wire in lead.Wires)
            {
                _joined.Add((ends[wire.FromEnd].FirstContact + wire.FromContact, ends[wire.ToEnd].FirstContact + wire.ToContact));
            }
            var near = ends[..lead.NearCount];
            var far = ends[lead.NearCount..];
            var (into, outOf) = turned ? (far, near) : (near, far);
            var from = count == 1 ? open : [open[copy]];
            MatchByName(into, from);
            for (var i = 0; i < into.Count; i++)
            {
                Mate(into[i], from[i]);
                if (count > 1)
                {
                    // A pair of single leads: each keeps the side of the jack it starts from.
                    outOf[0] = outOf[0] with { Name = from[i].Name };
                }
            }
            exits.AddRange(outOf);
        }
        return exits;
    }

    private void Mate(End a, End b)
    {
        if (Fault != HarnessFault.None)
        {
            return;
        }
        if (a.IsPlug == b.IsPlug)
        {
            Fault = HarnessFault.SameGender;
            Misfit = (a.Form, b.Form);
            return;
        }
        var (plug, socket) = a.IsPlug ? (a, b) : (b, a);
        if (socket.Form.Mate(plug.Form) is not { } touching)
        {
            Fault = HarnessFault.Misfit;
            Misfit = (plug.Form, socket.Form);
            return;
        }
        foreach (var (plugContact, socketContact) in touching)
        {
            _joined.Add((plug.FirstContact + plugContact, socket.FirstContact + socketContact));
        }
    }

    /// <summary>Joins the contacts of all pieces, then says which contacts of the jacks came together.</summary>
    private void Finish()
    {
        var group = new int[_contactCount];
        for (var i = 0; i < group.Length; i++)
        {
            group[i] = i;
        }
        foreach (var (a, b) in _joined)
        {
            var (rootA, rootB) = (RootOf(a), RootOf(b));
            group[rootA] = rootB;
        }
        var firstOfGroup = new Dictionary<int, (int Seat, int Contact)>();
        var joined = new List<JoinedContacts>();
        var used = new List<int>();
        foreach (var (seat, firstContact, contacts) in _pieces)
        {
            if (seat == NoSeat || seat == _leftOpen || contacts == 0)
            {
                continue;
            }
            used.Add(seat);
            for (var contact = 0; contact < contacts; contact++)
            {
                var root = RootOf(firstContact + contact);
                if (firstOfGroup.TryGetValue(root, out var first))
                {
                    joined.Add(new JoinedContacts(first.Seat, first.Contact, seat, contact));
                }
                else
                {
                    firstOfGroup[root] = (seat, contact);
                }
            }
        }
        Joined = joined;
        UsedSeats = used;

        int RootOf(int at)
        {
            while (group[at] != at)
            {
                at = group[at] = group[group[at]];
            }
            return at;
        }
    }

    // Ends are matched left with left and right with right where both sides say so, and in order otherwise.
    private static void MatchByName(List<End> ends, List<End> with)
    {
        for (var i = 0; i < ends.Count; i++)
        {
            var wanted = i < with.Count ? with[i].Name : "";
            var at = wanted.Length == 0 ? -1 : ends.FindIndex(e => e.Name == wanted);
            if (at > i)
            {
                (ends[i], ends[at]) = (ends[at], ends[i]);
            }
        }
    }

    private List<End> JackEnds(IReadOnlyList<JackSymbol> jacks, int firstSeat)
    {
        var ends = new List<End>(jacks.Count);
        for (var i = 0; i < jacks.Count; i++)
        {
            var jack = jacks[i];
            ends.Add(new End(NewPiece(firstSeat + i, jack.Form), jack.Form, jack.IsCaptive, jack.Side switch { Side.Left => "left", Side.Right => "right", _ => "" }));
        }
        return ends;
    }

    private End NewEnd(LeadEndSymbol end) => new(NewPiece(NoSeat, end.Form), end.Form, !end.IsSocket, end.Name);

    /// <summary>Numbers the contacts of one more piece of metal; gives the first.</summary>
    private int NewPiece(int seat, Form form)
    {
        var first = _contactCount;
        _pieces.Add(new Piece(seat, first, form.Contacts.Count));
        _contactCount += form.Contacts.Count;
        return first;
    }

    internal static bool IsPair(IReadOnlyList<JackSymbol> jacks) =>
        jacks.Count == 2 && ReferenceEquals(jacks[0].Port, jacks[1].Port);

    private static bool IsNormalledPair(IReadOnlyList<JackSymbol> jacks) =>
        IsPair(jacks) && jacks[0].Port.Signal is { Normalled: true };

    private static int ExitCount(IReadOnlyList<LeadSymbol> leads, int turned, int open)
    {
        for (var i = 0; i < leads.Count; i++)
        {
            var isTurned = (turned & (1 << i)) != 0;
            var (entry, exit) = isTurned ? (leads[i].FarCount, leads[i].NearCount) : (leads[i].NearCount, leads[i].FarCount);
            open = entry == 1 && exit == 1 ? open : entry == open ? exit : 0;
        }
        return open;
    }

    private const int NoSeat = -2;

    /// <summary>A jack, or an end of a lead, which has no seat: its contacts, numbered through the whole harness.</summary>
    private readonly record struct Piece(int Seat, int FirstContact, int Contacts);

    private readonly record struct End(int FirstContact, Form Form, bool IsPlug, string Name);
}
