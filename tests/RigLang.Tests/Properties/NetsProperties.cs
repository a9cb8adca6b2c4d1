using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Tests.Support;
using RigLang.Wiring;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>Joined contacts are the connected components of a graph; QuikGraph finds those another way.</summary>
public class NetsProperties
{
    private static readonly JackRef[] Seats = TwelveJacks();
    private static readonly int ContactCount = Seats.Sum(seat => seat.Jack.Form.Contacts.Count);

    private static readonly Gen<(int A, int B)[]> Joins =
        Gen.Select(Gen.Int[0, ContactCount - 1], Gen.Int[0, ContactCount - 1], (a, b) => (a, b)).Array[0, 60];

    [Fact]
    public void Contacts_are_joined_when_a_graph_of_the_joins_connects_them() => Joins.Sample(
        joins =>
        {
            var nets = NetsOf(joins);
            var component = ComponentsOf(joins);
            for (var a = 0; a < ContactCount; a++)
            {
                for (var b = 0; b < ContactCount; b++)
                {
                    Assert.Equal(component[a] == component[b], nets.AreJoined(a, b));
                }
            }
        },
        iter: 300);

    [Fact]
    public void The_members_of_a_net_are_its_component_each_once_the_asked_one_first() => Joins.Sample(
        joins =>
        {
            var nets = NetsOf(joins);
            var component = ComponentsOf(joins);
            for (var contact = 0; contact < ContactCount; contact++)
            {
                var members = Listed(nets.Members(contact));
                Assert.Equal(contact, members[0]);
                Assert.Equal(component.Keys.Where(c => component[c] == component[contact]).Order(), members.Order());
            }
        },
        iter: 300);

    [Fact]
    public void A_net_is_grounded_and_found_by_what_any_member_does() => Joins.Sample(
        joins =>
        {
            var nets = NetsOf(joins);
            var component = ComponentsOf(joins);
            for (var contact = 0; contact < ContactCount; contact++)
            {
                var roles = component.Keys.Where(c => component[c] == component[contact]).Select(nets.RoleOf).ToList();
                Assert.Equal(roles.Exists(r => r.Role == Role.Ground), nets.IsGrounded(contact));
                Assert.Equal(roles.Exists(r => r is { Role: Role.Hot, Drive: Drive.Out }), nets.Find(contact, Role.Hot, Drive.Out) >= 0);
            }
        },
        iter: 300);

    [Fact]
    public void The_drivers_of_a_net_are_its_members_that_drive_it_in_their_order_however_much_was_joined_before_they_were_asked_for() => Joins.Sample(
        joins =>
        {
            var nets = NetsOf(joins[..(joins.Length / 2)]);
            AssertDrivers(nets);
            foreach (var (a, b) in joins[(joins.Length / 2)..])
            {
                nets.Join(a, b);
            }
            AssertDrivers(nets);
        },
        iter: 300);

    private static void AssertDrivers(Nets nets)
    {
        for (var contact = 0; contact < ContactCount; contact++)
        {
            Assert.Equal(Listed(nets.Members(contact)).Where(member => nets.RoleOf(member).Drive == Drive.Out), Listed(nets.Drivers(contact)));
        }
    }

    private static List<int> Listed(Nets.RingEnumerator ring)
    {
        var contacts = new List<int>();
        foreach (var contact in ring)
        {
            contacts.Add(contact);
        }
        return contacts;
    }

    private static Nets NetsOf((int A, int B)[] joins)
    {
        var nets = new Nets(Seats);
        foreach (var (a, b) in joins)
        {
            nets.Join(a, b);
        }
        return nets;
    }

    private static Dictionary<int, int> ComponentsOf((int A, int B)[] joins)
    {
        var graph = new UndirectedGraph<int, Edge<int>>();
        graph.AddVertexRange(Enumerable.Range(0, ContactCount));
        graph.AddEdgeRange(joins.Select(join => new Edge<int>(join.A, join.B)));
        var components = new Dictionary<int, int>();
        graph.ConnectedComponents(components);
        return components;
    }

    private static JackRef[] TwelveJacks()
    {
        var rig = Rigs.Compile("""
            gear Box {
              out left  : audio stereo line on 2 trs 6.35 mm
              in  right : audio mono line on xlr-3
              in  midi  : midi on din-5
            }
            device a : Box
            device b : Box
            device c : Box
            """).Rig;
        return [.. Enumerable.Range(0, rig.Nets.SeatCount).Select(rig.Nets.Jack)];
    }
}
