using RigLang.Flow;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Checks.Language;

/// <summary>A line of each kind that works, for a player whose line cannot be read. A test reads them all.</summary>
internal static class LineSamples
{
    public static readonly IReadOnlyDictionary<Keyword, string> OfFile = new Dictionary<Keyword, string>
    {
        [Keyword.Rig] = "rig \"Tide Table\" {",
        [Keyword.Import] = "import \"our-gear.rig\"",
        [Keyword.Gear] = "gear Tern {",
        [Keyword.Lead] = "lead Patch : ts 6.35 mm to ts 6.35 mm",
        [Keyword.Device] = "device bass : MonoSynth at (0.8 m, 0.4 m)",
        [Keyword.Connect] = "connect bass.line to desk.line1 with Patch 1.5 m yellow \"BASS\"",
        [Keyword.Stock] = "stock {",
        [Keyword.Must] = "must notes from seq.a reach bass on channel 3",
        [Keyword.Never] = "never start, stop from keys reach bass, drums",
        [Keyword.Accept] = "accept lead-too-long on bass.line because \"short, and quiet in rehearsal\"",
    };

    public static readonly IReadOnlyDictionary<Keyword, string> OfGear = new Dictionary<Keyword, string>
    {
        [Keyword.In] = "in midi : midi on din-5",
        [Keyword.Out] = "out line : audio mono line on ts 6.35 mm",
        [Keyword.Route] = "route midi to thru",
        [Keyword.Join] = "join plug to outlet1..outlet8",
        [Keyword.Part] = "part voice receives midi on channel any, sounds at line",
        [Keyword.Track] = "track keys sends out on channel 1..16",
        [Keyword.Clock] = "clock follows internal, midi",
        [Keyword.Transport] = "transport sends midi",
        [Keyword.Battery] = "battery 6 h",
        [Keyword.Bus] = "bus group1, group2 : audio mono",
        [Keyword.Assign] = "assign ch1..ch8 to group1, main",
        [Keyword.Sound] = "sound click at usb channels 7",
        [Keyword.Records] = "records mic1, mic2, line",
    };

    /// <summary>A line like the one at a place; null where the line does not say of what kind it is.</summary>
    public static string? For(Rig rig, Location at)
    {
        var line = at.Source.LineSpan(at.Source.PositionOf(at.Span.Start).Line);
        return rig.Names.FileOf(at).Tree.TokensIn(line) is [{ Keyword: var first }, ..] ? OfFile.GetValueOrDefault(first) ?? OfGear.GetValueOrDefault(first) : null;
    }
}
