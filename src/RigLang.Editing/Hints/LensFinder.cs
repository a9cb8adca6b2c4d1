using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>A line of facts above a statement.</summary>
public sealed record Lens(TextSpan Span, string Title);

/// <summary>Above a device that supplies power, what is drawn from it; above one with tracks or parts, their channels.</summary>
public static class LensFinder
{
    private const int MostNames = 8;

    public static IReadOnlyList<Lens> In(RigView view)
    {
        var lenses = new List<Lens>();
        foreach (var device in view.Rig.Names.Devices.Where(d => ReferenceEquals(d.At.Source, view.Source) && d.Gear is not null))
        {
            var span = device.Statement.Span;
            if (PowerSums.Describe(view.Rig, device) is { } power)
            {
                lenses.Add(new Lens(span, power));
            }
            if (ChannelsOf(view.Rig, device, device.Gear!) is { Length: > 0 } channels)
            {
                lenses.Add(new Lens(span, channels));
            }
        }
        return lenses;
    }

    private static string ChannelsOf(Flow.Rig rig, DeviceSymbol device, GearSymbol gear)
    {
        var channels = rig.Midi.Channels;
        var sends = gear.Tracks.Values.Select(t => $"{t.Name} {Short(channels.Of(device, t))}").ToList();
        var hears = gear.Parts.Values.Select(p => $"{p.Name} {Short(channels.Of(device, p))}").ToList();
        return string.Join(" · ", new[] { Some("sends", sends), Some("hears", hears) }.Where(t => t.Length > 0));
    }

    private static string Some(string verb, List<string> voices) => voices.Count == 0 ? ""
        : $"{verb} {string.Join(", ", voices.Take(MostNames))}{(voices.Count > MostNames ? $" and {voices.Count - MostNames} more" : "")}";

    private static string Short(KnownChannel channel) =>
        channel.Number is { } number ? $"{number}" : channel.IsAny ? "any" : channel.IsOff ? "off" : "not set";
}
