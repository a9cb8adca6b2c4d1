using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class SettingUnwired : Check
{
    public override string Name => "setting-unwired";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A channel set for ports that nothing is plugged into";
    public override string Why => "The part waits for notes, or the track sends them, at a jack without a cable.";
    public override string Advice => "Plug a cable in, or delete the setting.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          out line : audio mono line on ts 6.35 mm
          track a sends midi
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device seq : Rook {
          a on channel 2
        }
        device desk : Desk
        connect seq.line to desk.ch1
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
          out line : audio mono line on ts 6.35 mm
          track a sends midi
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device seq  : Rook
        device desk : Desk
        connect seq.line to desk.ch1
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var device in rig.Names.Devices)
        {
            if (device.Gear is not { IsIncomplete: false } gear || rig.Names.NamesInBrokenLines.Contains(device.Name) || !Whole.UnwiredDevice.IsWired(rig, device))
            {
                continue;
            }
            foreach (var (name, set) in device.Channels.Where(c => c.Value.Channel is not null))
            {
                var ports = gear.Parts.TryGetValue(name, out var part) ? part.Receives : gear.Tracks[name].Sends;
                var isInside = gear.Tracks.Values.Any(t => t.Plays.Contains(name)) || (gear.Tracks.TryGetValue(name, out var track) && track.Plays.Count > 0);
                if (ports.Count > 0 && !isInside && !ports.Any(p => rig.Wiring.IsPlugged(device, p)))
                {
                    var jacks = ports.Select(p => $"{device.Name}.{p.Name}").ToList();
                    report.Add(this, set.At, $"{device.Name}.{name} is on channel {set.Channel}, and nothing is plugged into {Wording.Or(jacks)}.",
                        missing: MissingAt(device, name, part, ports) with
                        {
                            Origins = [new Origin.Ports(string.Join(", ", jacks))],
                            Consequence = Wording.Also(set.At, $"{device.Name}.{name} is on channel {set.Channel}"),
                        });
                }
            }
        }
    }

    private static Missing MissingAt(DeviceSymbol device, string name, PartSymbol? part, IReadOnlyList<PortSymbol> ports) => part is null
        ? new NobodyHears(device, device.Gear!.Tracks[name], MessageKinds.Channel, null)
        : new NothingComes([.. ports.Select(p => MidiGraph.In(device, p)).Where(node => node >= 0)], MessageKinds.Channel);
}
