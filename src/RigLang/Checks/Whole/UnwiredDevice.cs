using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Whole;

public sealed class UnwiredDevice : Check
{
    public override string Name => "unwired-device";
    public override Severity Severity => Severity.Warning;
    public override bool ExplainsAbsence => true;
    public override string Title => "A device on the table that nothing is plugged into";
    public override string Why => "Either a connection was forgotten, or the box is carried to the stage for nothing.";
    public override string Advice => "Connect it, or delete the device.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device bass : Tern
        device lead : Tern
        connect seq.midi to bass.midi
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device bass : Tern
        connect seq.midi to bass.midi
        """;

    /// <summary>True when a plug is in any jack of the device.</summary>
    public static bool IsWired(Rig rig, DeviceSymbol device)
    {
        for (var jack = 0; jack < (device.Gear?.JackCount ?? 0); jack++)
        {
            if (rig.Wiring.Plugged[device.FirstJack + jack] is not null)
            {
                return true;
            }
        }
        return false;
    }

    public override void Run(Rig rig, Report report)
    {
        foreach (var device in rig.Names.Devices)
        {
            if (device.Gear is { JackCount: > 0, IsIncomplete: false } && !IsWired(rig, device) && !rig.Names.NamesInBrokenLines.Contains(device.Name))
            {
                report.Add(this, device.At, $"Nothing is plugged into {device.Name}.");
            }
        }
    }
}
