using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Wiring;

/// <summary>
/// What is electrically one. Contacts of jacks are joined by plugs, wires and metal; each net is kept as a ring, so joining
/// two and walking one cost nothing extra.
/// </summary>
public sealed class Nets
{
    private readonly JackRef[] _seats;
    private readonly int[] _firstContact;
    private readonly int[] _seatOf;
    private readonly int[] _parent;
    private readonly int[] _next;
    private int[]? _nextDriver;

    /// <param name="seats">The jacks whose contacts are joined here; a jack is known by its place in this list.</param>
    public Nets(JackRef[] seats)
    {
        _seats = seats;
        _firstContact = new int[seats.Length];
        var contacts = 0;
        for (var seat = 0; seat < seats.Length; seat++)
        {
            _firstContact[seat] = contacts;
            contacts += seats[seat].Jack.Form.Contacts.Count;
        }
        _seatOf = new int[contacts];
        _parent = new int[contacts];
        _next = new int[contacts];
        for (var seat = 0; seat < seats.Length; seat++)
        {
            var end = _firstContact[seat] + seats[seat].Jack.Form.Contacts.Count;
            for (var contact = _firstContact[seat]; contact < end; contact++)
            {
                _seatOf[contact] = seat;
                _parent[contact] = contact;
                _next[contact] = contact;
            }
        }
    }

    public int SeatCount => _seats.Length;

    public JackRef Jack(int seat) => _seats[seat];

    /// <summary>The number of a jack's contact, for the other members.</summary>
    public int Contact(int seat, int contact) => _firstContact[seat] + contact;

    public int SeatOf(int contact) => _seatOf[contact];

    public ContactRole RoleOf(int contact)
    {
        var seat = _seatOf[contact];
        return _seats[seat].Jack.Roles[contact - _firstContact[seat]];
    }

    internal void Join(int a, int b)
    {
        var (rootA, rootB) = (Root(a), Root(b));
        if (rootA != rootB)
        {
            _parent[rootA] = rootB;
            (_next[a], _next[b]) = (_next[b], _next[a]);
            _nextDriver = null;
        }
    }

    public bool AreJoined(int a, int b) => Root(a) == Root(b);

    /// <summary>The same number for all contacts of a net.</summary>
    public int NetOf(int contact) => Root(contact);

    /// <summary>All contacts of the net, the given one first.</summary>
    public RingEnumerator Members(int contact) => new(_next, contact);

    /// <summary>The contacts that drive the net, in the order of <see cref="Members"/>; a net of thousands has one or two.</summary>
    public RingEnumerator Drivers(int contact)
    {
        _nextDriver ??= FindDrivers();
        return new(_nextDriver, RoleOf(contact).Drive == Drive.Out ? contact : _nextDriver[contact]);
    }

    /// <summary>The first contact of a role on the net, or -1.</summary>
    public int Find(int contact, Role role, Drive drive)
    {
        foreach (var member in drive == Drive.Out ? Drivers(contact) : Members(contact))
        {
            var found = RoleOf(member);
            if (found.Role == role && found.Drive == drive)
            {
                return member;
            }
        }
        return -1;
    }

    public bool IsGrounded(int contact)
    {
        foreach (var member in Members(contact))
        {
            if (RoleOf(member).Role == Role.Ground)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>For each contact the next after it on its net that drives it, -1 on a net that nothing drives. Each net is walked once.</summary>
    private int[] FindDrivers()
    {
        const int unknown = -2;
        var nextDriver = new int[_next.Length];
        Array.Fill(nextDriver, unknown);
        var ring = new List<int>();
        for (var contact = 0; contact < nextDriver.Length; contact++)
        {
            if (nextDriver[contact] != unknown)
            {
                continue;
            }
            ring.Clear();
            foreach (var member in Members(contact))
            {
                ring.Add(member);
            }
            // Backwards round the ring; what follows its end is what is found at its beginning.
            var driver = ring.FindIndex(IsDriver) is >= 0 and var first ? ring[first] : -1;
            for (var i = ring.Count - 1; i >= 0; i--)
            {
                nextDriver[ring[i]] = driver;
                driver = IsDriver(ring[i]) ? ring[i] : driver;
            }
        }
        return nextDriver;

        bool IsDriver(int contact) => RoleOf(contact).Drive == Drive.Out;
    }

    private int Root(int contact)
    {
        while (_parent[contact] != contact)
        {
            contact = _parent[contact] = _parent[_parent[contact]];
        }
        return contact;
    }

    /// <summary>Walks a ring once; no ring when it starts below 0.</summary>
    public struct RingEnumerator(int[] next, int start)
    {
        private int _current = -1;

        public readonly int Current => _current;

        public readonly RingEnumerator GetEnumerator() => this;

        public bool MoveNext()
        {
            if (_current == -1)
            {
                _current = start;
                return start >= 0;
            }
            _current = next[_current];
            return _current != start;
        }
    }
}
