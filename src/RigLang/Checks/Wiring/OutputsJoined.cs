using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class OutputsJoined : Check
{
    public override string Name => "outputs-joined";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two outputs on one wire";
    public override string Why => "Each output drives the other instead of the input: distortion, lost messages, at worst damage.";
    public override string Advice => "Use a mixer or a summing network for audio, a merger for MIDI, one supply for each load.";
    public override string Source => "common practice for audio and supplies; MIDI 1.0: one output drives one input";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device lead : Wren
        device desk : Desk
        connect bass.line, lead.line to desk.ch1 with SplitY 1.5 m
        """;
    public override string GoodExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device lead : Wren
        device desk : Desk
        connect bass.line to desk.ch1
        connect lead.line to desk.ch2
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.AreBothOutputs))
        {
            var (from, to) = (hookup.Connection.From[0], hookup.Connection.To[0]);
            report.Add(this, hookup.Connection.At, $"{from.Text} and {to.Text} are both outputs, and are joined.", why: WhyOf(from.Port.Signal!.Kind),
                advice: FreeInputs.Advice(rig, hookup), fixes: plan => FreeInputs.Fixes(plan, hookup));
        }
        var told = new HashSet<Hookup>();
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            if (rig.Wiring.Plugged[seat] is { IsSound: true } hookup && OtherOutput(rig.Nets, seat) is { } other && rig.Wiring.Plugged[other] is { } second
                && told.Add(hookup) && (ReferenceEquals(hookup, second) || told.Add(second)))
            {
                var (later, earlier) = hookup.Connection.At.Span.Start >= second.Connection.At.Span.Start ? (hookup, second) : (second, hookup);
                report.Add(this, later.Connection.At, $"{rig.Nets.Jack(seat)} and {rig.Nets.Jack(other)} are both outputs, and are joined.",
                    why: WhyOf(rig.Nets.Jack(seat).Jack.Port.Signal!.Kind),
                    related: ReferenceEquals(later, earlier) ? null : [Wording.Also(earlier.Connection.At, "the other connection")]);
            }
        }
    }

    private static string? WhyOf(SignalKind kind) => kind switch
    {
        SignalKind.Dc or SignalKind.Ac or SignalKind.Mains => "One supply feeds back into the other: it can overheat, and the load gets an uncertain voltage.",
        SignalKind.Midi => "Two MIDI outputs on one wire garble every message.",
        _ => null,
    };

    /// <summary>Another jack's output contact on a net that this jack drives; USB hosts are told by a check of their own.</summary>
    private static int? OtherOutput(Nets nets, int seat)
    {
        var roles = nets.Jack(seat).Jack.Roles;
        for (var i = 0; i < roles.Count; i++)
        {
            if (roles[i].Drive != Drive.Out || nets.Jack(seat).Jack.Port.Signal is { Kind: SignalKind.Usb })
            {
                continue;
            }
            foreach (var member in nets.Members(nets.Contact(seat, i)))
            {
                if (nets.SeatOf(member) != seat && nets.RoleOf(member).Drive == Drive.Out && !SamePort(nets, seat, nets.SeatOf(member)))
                {
                    return nets.SeatOf(member);
                }
            }
        }
        return null;
    }

    private static bool SamePort(Nets nets, int a, int b) =>
        ReferenceEquals(nets.Jack(a).Device, nets.Jack(b).Device) && ReferenceEquals(nets.Jack(a).Jack.Port, nets.Jack(b).Jack.Port);
}
