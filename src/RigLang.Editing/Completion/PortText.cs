using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A port in a player's words.</summary>
internal static class PortText
{
    /// <summary>"stereo line audio on 2 ts 6.35 mm".</summary>
    public static string Of(PortSymbol port) =>
        port.Signal is { } signal ? $"{signal.Describe()}{(port.Jacks.Count > 0 ? " on " + JacksOf(port) : "")}" : "a signal that cannot be read";

    /// <summary>"2 ts 6.35 mm", "captive barrel 5.5x2.1 mm".</summary>
    public static string JacksOf(PortSymbol port)
    {
        var jack = port.Jacks[0];
        return $"{(jack.IsCaptive ? "captive " : "")}{(port.Jacks.Count > 1 ? $"{port.Jacks.Count} " : "")}{jack.Form}";
    }

    /// <summary>Where the other plugs of a cable are, seen from one of its jacks: "desk.ch1".</summary>
    public static string OtherEnd(Hookup hookup, JackRef jack)
    {
        var connection = hookup.Connection;
        var ends = connection.FromJacks.Any(j => j.Id == jack.Id) ? connection.To : connection.From;
        return ends.Count == 0 ? "a line that is not finished" : string.Join(", ", ends.Select(e => e.Text).Distinct());
    }
}
