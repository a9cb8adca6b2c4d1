using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Midi;

public sealed class FixedChannelOverlap : Check
{
    public override string Name => "fixed-channel-overlap";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A part on a channel that another box owns";
    public override string Why => "The other box cannot leave its channel, so both play whatever the track plays.";
    public override string Advice => "Move the part that can be moved, and its track, to a free channel.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Drum {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part kick receives midi on channel 2
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device drums : Drum
        device bass  : Tern {
          voice on channel 2
        }
        connect seq.midi   to drums.midi
        connect drums.thru to bass.midi
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
          track a, b sends midi
        }
        gear Drum {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part kick receives midi on channel 2
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
          b on channel 3
        }
        device drums : Drum
        device bass  : Tern {
          voice on channel 3
        }
        connect seq.midi   to drums.midi
        connect drums.thru to bass.midi
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var (source, channel, together) in ChannelCompany.Of(rig))
        {
            var meant = together.Where(l => !l.Channel.IsLayered).ToList();
            var owner = meant.Find(l => l.Channel.IsFixed);
            if (owner is null || meant.Count < 2)
            {
                continue;
            }
            var guest = meant.Find(l => !l.Channel.IsFixed) ?? meant.First(l => l != owner);
            report.Add(this, ChannelCompany.PlaceOf(guest), $"{guest.Text} shares channel {channel} with {owner.Text}, which cannot leave it: {source.Text} plays both.",
                related: [Wording.Also(owner.Part.At, $"{owner.Text} is fixed on channel {channel}"), .. MidiPaths.Related(ChannelCompany.WayTo(rig, source, guest))]);
        }
    }
}
