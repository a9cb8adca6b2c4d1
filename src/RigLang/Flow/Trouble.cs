using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Flow;

/// <summary>Which devices a mistake that is told already may keep from getting what they should.</summary>
public static class Trouble
{
    /// <summary>
    /// Devices at the ends of a connection that joins nothing or stands on a line that an error is told of, those named in lines that could not be read, and all
    /// that hangs behind them by passive boxes.
    /// </summary>
    public static HashSet<DeviceSymbol> TroubledDevices(this Rig rig, IEnumerable<Location> errors)
    {
        var lines = errors.Select(at => (at.Source, at.Source.PositionOf(at.Span.Start).Line)).ToHashSet();
        var troubled = rig.Names.Devices.Where(d => rig.Names.NamesInBrokenLines.Contains(d.Name)).ToHashSet();
        foreach (var hookup in rig.Wiring.Hookups)
        {
            var connection = hookup.Connection;
            if (!hookup.IsSound || lines.Contains((connection.At.Source, connection.At.Source.PositionOf(connection.At.Span.Start).Line)))
            {
                troubled.UnionWith(connection.From.Concat(connection.To).Select(e => e.Device));
            }
        }
        SpreadThroughPassive(rig, troubled);
        return troubled;
    }

    /// <summary>A strip or splitter that gets nothing has nothing to give: what is plugged into it is in the same trouble.</summary>
    private static void SpreadThroughPassive(Rig rig, HashSet<DeviceSymbol> troubled)
    {
        var open = new Queue<DeviceSymbol>(troubled);
        while (open.TryDequeue(out var device))
        {
            if (device.Gear is not { Joins.Count: > 0 } gear)
            {
                continue;
            }
            for (var jack = 0; jack < gear.JackCount; jack++)
            {
                foreach (var other in rig.Wiring.Plugged[device.FirstJack + jack]?.Jacks ?? [])
                {
                    if (troubled.Add(other.Device))
                    {
                        open.Enqueue(other.Device);
                    }
                }
            }
        }
    }
}
