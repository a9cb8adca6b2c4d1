using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>One step of a way from a source to a target: the port it comes to, and how. <see cref="WayWords"/> puts it into words.</summary>
/// <param name="At">Where the step stands in the text: a cable at its line, a step inside a device at the device's name.</param>
/// <param name="Port">Where it comes to.</param>
public abstract record WayStep(Location At, PortRef Port)
{
    /// <summary>Where the way begins.</summary>
    public sealed record Start(PortRef Port) : WayStep(Port.Device.At, Port);

    /// <summary>Along a cable.</summary>
    public sealed record Cable(PortRef From, PortRef Port, Hookup Hookup) : WayStep(Hookup.Connection.At, Port);

    /// <summary>Inside a device, from one of its ports to another.</summary>
    public sealed record Through(PortRef From, PortRef Port) : WayStep(Port.Device.At, Port);

    /// <summary>A channel map of the port moves it to another channel.</summary>
    public sealed record Moved(PortRef Port, int FromChannel, int ToChannel, Location At) : WayStep(At, Port);

    /// <summary>A filter of the port drops it: the end of the way.</summary>
    public sealed record Stopped(PortRef Port, MessageKinds Kind, PortFilter Filter) : WayStep(Filter.At, Port);
}

/// <summary>Ways in words: the one place where a step becomes text.</summary>
public static class WayWords
{
    /// <summary>What happens at one step: <c>keys.midi to thru.in</c>.</summary>
    public static string Of(WayStep step) => step switch
    {
        WayStep.Cable cable => $"{cable.From} to {cable.Port}",
        WayStep.Through through => $"through {through.Port.Device.Name} to {through.Port}",
        WayStep.Moved moved => $"{moved.Port} moves channel {moved.FromChannel} to {moved.ToChannel}",
        WayStep.Stopped stopped => $"{stopped.Port} drops {MessageKindNames.Describe(stopped.Kind)}",
        _ => step.Port.ToString(),
    };

    /// <summary>
    /// A way as a chain of ports: <c>keys.midi → map.in (channel 3 becomes 5) → map.out → bass.midi</c>. The middle of a long one is counted.
    /// </summary>
    public static string Chain(IReadOnlyList<WayStep> steps)
    {
        var chain = new System.Text.StringBuilder();
        foreach (var (step, leftOut) in Prose.Ends(steps))
        {
            chain.Append(leftOut > 0 ? $" → ({leftOut} more)" : "");
            chain.Append(step switch
            {
                WayStep.Moved moved => $" (channel {moved.FromChannel} becomes {moved.ToChannel})",
                WayStep.Stopped stopped => $" (drops {MessageKindNames.Describe(stopped.Kind)})",
                _ => $"{(chain.Length == 0 ? "" : " → ")}{step.Port}",
            });
        }
        return chain.ToString();
    }
}
