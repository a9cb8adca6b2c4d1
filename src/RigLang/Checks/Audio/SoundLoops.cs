using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Audio;

/// <summary>Ways of audio round to where they began, on which nothing but levels stands between it and a howl.</summary>
internal static class SoundLoops
{
    /// <summary>One for each knot of the map, the shortest that begins at the first of its ports by name.</summary>
    public static IEnumerable<IReadOnlyList<WayStep>> Of(Rig rig)
    {
        var map = rig.Audio.Map;
        // Left and right each have their own knot, and go round by the same ports.
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var knot in rig.Audio.Order.Knots)
        {
            var inside = knot.ToHashSet();
            var starts = knot.Where(lane => map.PortOf(lane) is not null && map.IsIn(lane)).OrderBy(lane => map.PortOf(lane)!.Value.ToString(), StringComparer.Ordinal).ThenBy(lane => lane);
            foreach (var start in starts)
            {
                if (AudioWays.Round(map, start, edge => inside.Contains(edge.To) && IsOpen(rig, map, edge)) is { Count: > 0 } loop)
                {
                    if (told.Add(WayWords.Chain(loop)))
                    {
                        yield return loop;
                    }
                    break;
                }
            }
        }
    }

    /// <summary>
    /// Not open for sure: one of several ways that are open one at a time; what a computer's programs would have to pass on; an instrument that can listen to what it
    /// samples; and the send of a mixer, which has a knob for each channel that stands at nothing until somebody turns it up, unless the player says how far.
    /// </summary>
    private static bool IsOpen(Rig rig, AudioMap map, AudioEdge edge)
    {
        if (edge.Cable is not null)
        {
            return true;
        }
        if (edge.Open != AudioOpen.Always || map.PortOf(edge.To) is not { } to)
        {
            return edge.Open == AudioOpen.Always;
        }
        var gear = to.Device.Gear!;
        if (gear.Parts.Count > 0)
        {
            return false;
        }
        return !IsSend(gear, to.Port) || (map.PortOf(edge.From) is { } from && to.Device.Mix.Any(setting => setting is MixSetting.Send { Decibels: not null } send
            && ReferenceEquals(send.Port, from.Port) && ReferenceEquals(send.To, to.Port)));
    }

    /// <summary>A mono output or bus beside a stereo one that takes the same inputs, or one that is called a send. Source: common practice.</summary>
    private static bool IsSend(GearSymbol gear, PortSymbol output)
    {
        string[] names = ["send", "aux", "fx", "effect", "foldback"];
        if (names.Any(name => output.Name.Contains(name, StringComparison.OrdinalIgnoreCase)))
        {
            return true;
        }
        return output.Signal is { Kind: SignalKind.Audio, IsStereo: false }
            && gear.Routes.To(output).Take(Many).SelectMany(gear.Routes.From).Any(other => other.Signal is { Kind: SignalKind.Audio, IsStereo: true });
    }

    private const int Many = 8;
}
