using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

/// <summary>What the audio checks ask of the nets.</summary>
internal static class AudioWalk
{
    /// <summary>Every output contact of this role in a jack that is plugged in.</summary>
    public static IEnumerable<(int Contact, int Seat, Hookup Hookup)> PluggedOutputs(Rig rig, Role role)
    {
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            if (rig.Wiring.Plugged[seat] is not { IsSound: true } hookup)
            {
                continue;
            }
            var roles = rig.Nets.Jack(seat).Jack.Roles;
            for (var i = 0; i < roles.Count; i++)
            {
                if (roles[i].Role == role && roles[i].Drive == Drive.Out)
                {
                    yield return (rig.Nets.Contact(seat, i), seat, hookup);
                }
            }
        }
    }

    /// <summary>The arrivals of each audio input jack that takes two channels on one plug.</summary>
    public static IEnumerable<(Arrival Left, Arrival Right, Hookup Hookup)> StereoJacks(Rig rig)
    {
        var arrivals = rig.Links.Arrivals;
        for (var i = 0; i + 1 < arrivals.Count; i++)
        {
            if (arrivals[i].Seat == arrivals[i + 1].Seat)
            {
                yield return (arrivals[i], arrivals[i + 1], rig.Wiring.Plugged[arrivals[i].Seat]!);
            }
        }
    }

    /// <summary>True for a stereo jack that hears something on one side and nothing on the other.</summary>
    public static bool IsOneSided(Arrival left, Arrival right) => left.IsSilent != right.IsSilent;

    public static bool HasShortedChannel(Rig rig, Hookup hookup) =>
        hookup.Jacks.Any(jack => jack.Jack.Roles.Select((role, i) => (role, i)).Any(r =>
            r.role is { Role: Role.Hot, Drive: Drive.Out } && rig.Nets.IsGrounded(rig.Nets.Contact(jack.Id, r.i))));

    /// <summary>"the right channel of pad.phones", "the signal of bass.line".</summary>
    public static string ChannelName(Nets nets, int contact) => nets.RoleOf(contact).Channel switch
    {
        AudioChannel.Left => $"the left channel of {nets.Jack(nets.SeatOf(contact))}",
        AudioChannel.Right => $"the right channel of {nets.Jack(nets.SeatOf(contact))}",
        _ => $"the signal of {nets.Jack(nets.SeatOf(contact))}",
    };
}
