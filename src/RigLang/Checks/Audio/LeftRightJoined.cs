using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class LeftRightJoined : Check
{
    public override string Name => "left-right-joined";
    public override Severity Severity => Severity.Error;
    public override string Title => "Left and right outputs on one wire";
    public override string Why => "The two outputs drive each other: thin, distorted sound, and heat in the output stage.";
    public override string Advice => "Use a summing network, a stereo channel, or the left output alone if it carries the mono sum.";
    public override string Source => "common practice";
    public override string BadExample => """
        lead WrongY : trs 3.5 mm to ts 6.35 mm {
          tip    to tip
          ring   to tip
          sleeve to sleeve
        }
        gear Pad {
          out phones : audio stereo headphone on trs 3.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1 with WrongY 1.5 m
        """;
    public override string GoodExample => """
        gear Pad {
          out phones : audio stereo headphone on trs 3.5 mm
        }
        gear Desk {
          in ch12 : audio stereo line on 2 ts 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch12
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var (contact, seat, hookup) in AudioWalk.PluggedOutputs(rig, Role.Hot))
        {
            if (rig.Nets.RoleOf(contact).Channel != AudioChannel.Left)
            {
                continue;
            }
            foreach (var member in rig.Nets.Members(contact))
            {
                var jack = rig.Nets.Jack(rig.Nets.SeatOf(member));
                if (rig.Nets.RoleOf(member) is { Role: Role.Hot, Drive: Drive.Out, Channel: AudioChannel.Right }
                    && ReferenceEquals(jack.Jack.Port, rig.Nets.Jack(seat).Jack.Port) && ReferenceEquals(jack.Device, rig.Nets.Jack(seat).Device))
                {
                    report.Add(this, hookup.Connection.At, $"Left and right of {jack.Device.Name}.{jack.Jack.Port.Name} are joined by {Wording.LeadOf(hookup)}.");
                    break;
                }
            }
        }
    }
}
