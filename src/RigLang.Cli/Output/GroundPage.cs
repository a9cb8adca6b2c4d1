using RigLang.Flow.Ground;

namespace RigLang.Cli.Output;

/// <summary>Ground loops, their cure and what to suspect, for reading.</summary>
internal static class GroundPage
{
    /// <summary>More loops than this and the rest is counted only.</summary>
    private const int MostLoops = 40;

    public static void Write(TextWriter output, GroundLoops loops)
    {
        var heard = loops.Loops.Where(l => l.IsHeard).ToList();
        var silent = loops.Loops.Where(l => !l.IsHeard).ToList();
        var earthed = loops.Ground.Links.Where(l => l.IsEarth).Select(l => l.JackA.Device.Name).Distinct().ToList();
        Line($"{Plural.Of(loops.Ground.Domains.Count, "ground domain", "ground domains")}, {Plural.Of(loops.Ground.Links.Count, "link", "links")}, "
            + $"{Plural.Of(loops.Count, "independent loop", "independent loops")}, {heard.Count} of them heard");
        Line(earthed.Count == 0 ? "Nothing is earthed through the mains." : $"Earthed through the mains: {string.Join(", ", earthed)}");
        if (!loops.AreShortest)
        {
            Line("The rig is so tangled that its loops are not the shortest there are.");
        }
        WriteLoops("Loops that are heard", heard, 1);
        WriteLoops("Loops that are not heard", silent, heard.Count + 1);
        WriteCure();
        output.WriteLine();
        Line(GroundAdvice.Safety);

        void WriteLoops(string title, List<GroundLoop> list, int number)
        {
            if (list.Count == 0)
            {
                return;
            }
            output.WriteLine();
            Line(title);
            foreach (var loop in list.Take(MostLoops))
            {
                output.WriteLine();
                WriteLoop(output, loop.Links, loop.Reasons, $"{number++}");
            }
            if (list.Count > MostLoops)
            {
                Line($"and {list.Count - MostLoops} more, which --format json lists");
            }
        }

        void WriteCure()
        {
            output.WriteLine();
            if (loops.Cure.Count == 0)
            {
                Line("No loop is heard, so nothing has to be isolated.");
                return;
            }
            Line(loops.IsProven ? "The cheapest cure" : "A cure (the rig is so tangled that a cheaper one may exist)");
            foreach (var cut in loops.Cure)
            {
                Line($"  {GroundAdvice.For(cut.Bundle)}.");
            }
            var left = loops.LeftByCure();
            Line(left.Count == 0 ? "  It leaves no loop." : $"  It leaves {Plural.Of(left.Count, "loop", "loops")}, {(left.Any(l => l.IsHeard) ? $"{left.Count(l => l.IsHeard)} of them heard" : "none of them heard")}.");
        }

        void Line(string text) => output.WriteLine(Cells.Safe(text));
    }

    public static void WriteHum(TextWriter output, HumSound sound, IReadOnlyList<HumSuspect> suspects)
    {
        if (suspects.Count == 0)
        {
            output.WriteLine($"No ground loop of this rig explains a {Word(sound)}. Look for a broken screen, a pickup near a transformer, or a noisy adapter:");
            output.WriteLine("unplug one cable after the other at the desk, until it stops.");
        }
        for (var i = 0; i < suspects.Count; i++)
        {
            if (i > 0)
            {
                output.WriteLine();
            }
            WriteLoop(output, suspects[i].Loop.Links, suspects[i].Reasons, $"{i + 1}");
        }
        output.WriteLine();
        output.WriteLine(GroundAdvice.Safety);
    }

    internal static string Word(HumSound sound) => sound.ToString().ToLowerInvariant();

    internal static string Word(GroundLinkKind kind) => kind switch
    {
        GroundLinkKind.ProtectiveEarth => "protective earth",
        GroundLinkKind.Supply => "supply return",
        GroundLinkKind.Usb => "USB",
        GroundLinkKind.Midi => "MIDI",
        GroundLinkKind.Sync => "sync",
        GroundLinkKind.Control => "control",
        _ => "audio",
    };

    private static void WriteLoop(TextWriter output, IReadOnlyList<GroundLink> links, IReadOnlyList<string> reasons, string number)
    {
        var texts = links.Select(l => Cells.Safe(l.Text)).ToList();
        var width = texts.Max(Cells.WidthOf);
        for (var i = 0; i < links.Count; i++)
        {
            var first = i == 0 ? number : "";
            output.WriteLine($"{first,3}  {texts[i]}{new string(' ', width - Cells.WidthOf(texts[i]))}  {Word(links[i].Kind)}");
        }
        foreach (var reason in reasons)
        {
            output.WriteLine(Cells.Safe($"     {reason}"));
        }
    }
}
