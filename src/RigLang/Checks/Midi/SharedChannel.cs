using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Midi;

public sealed class SharedChannel : Check
{
    public override string Name => "shared-channel";
    public override Severity Severity => Severity.Warning;
    public override string Title => "Two parts that one track plays at once";
    public override string Why => "Both sound together, and one of them was meant for another track.";
    public override string Advice => "Put one of them on another channel, or say that it is meant: `voice on channel 2 layered`.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device bass : Tern {
          voice on channel 2
        }
        device lead : Tern {
          voice on channel 2
        }
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        """;
    public override string GoodExample => BadExample.Replace("voice on channel 2", "voice on channel 2 layered", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (source, channel, together) in ChannelCompany.Of(rig))
        {
            var meant = together.Where(l => !l.Channel.IsLayered).ToList();
            // A part that its gear fixes on the channel is the matter of another check.
            if (meant.Count > 1 && !meant.Exists(l => l.Channel.IsFixed))
            {
                var second = meant[1];
                report.Add(this, ChannelCompany.PlaceOf(second), $"{source.Text} on channel {channel} plays {Wording.And(meant.Select(l => l.Text))} at once.",
                    related: [.. meant.Where(l => l != second).Select(l => Wording.Also(ChannelCompany.PlaceOf(l), $"{l.Text} is on channel {channel} too")),
                        .. MidiPaths.Related(ChannelCompany.WayTo(rig, source, second))]);
            }
        }
    }
}
