using System.Collections.Immutable;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>The grounds of a rig as a sheet to hand over: the loops that are heard, the cure, the loops that are not, and the safety text.</summary>
internal static class GroundPage
{
    /// <summary>What can be wrong with what grounds are read from: the text, the cables and what feeds the boxes.</summary>
    public static ImmutableArray<Topic> Topics { get; } = [Topic.Text, Topic.Wiring, Topic.Usb, Topic.Power, Topic.Ground];

    /// <summary>More loops than this and the rest is counted only.</summary>
    private const int MostLoops = 40;

    public static void Write(TextWriter output, Rig rig)
    {
        var loops = rig.Ground;
        var heard = loops.Loops.Where(l => l.IsHeard).ToList();
        Heading(output, rig, heard.Count);
        if (heard.Count > 0)
        {
            Title("Loops that are heard");
            foreach (var (loop, i) in heard.Take(MostLoops).Select((l, i) => (l, i)))
            {
                output.WriteLine();
                WriteLoop(output, loop.Links, loop.Reasons, $"{i + 1}", loops);
            }
            WriteRest(output, heard.Count);
            Title(loops.IsProven ? "The cheapest cure" : "A cure (the rig is so tangled that a cheaper one may exist)");
            WriteCure(output, loops);
        }
        else
        {
            Title($"{(loops.Count == 0 ? "There is no loop" : "No loop is heard")}, so nothing has to be isolated.");
        }
        WriteSilent(output, [.. loops.Loops.Where(l => !l.IsHeard)], heard.Count);
        Title("Safety");
        Wrap.Write(output, GroundAdvice.Safety, "  ");

        void Title(string title)
        {
            output.WriteLine();
            Wrap.Write(output, title);
        }
    }

    private static void Heading(TextWriter output, Rig rig, int heard)
    {
        var loops = rig.Ground;
        var earthed = loops.Ground.Links.Where(l => l.IsEarth).Select(l => l.JackA.Device.Name).Distinct().ToList();
        Wrap.Write(output, rig.Names.Title is { } title ? $"Grounds of {title}" : "Grounds");
        Wrap.Write(output, $"{Plural.Of(loops.Ground.Domains.Count, "ground domain", "ground domains")}, {Plural.Of(loops.Ground.Links.Count, "link", "links")}, "
            + (loops.Count == 0 ? "no loop" : $"{Plural.Of(loops.Count, "independent loop", "independent loops")}, {heard} of them heard"));
        Wrap.Write(output, earthed.Count == 0 ? "Nothing is earthed through the mains." : $"Earthed through the mains: {string.Join(", ", earthed)}");
        if (!loops.AreShortest)
        {
            Wrap.Write(output, "The rig is so tangled that its loops are not the shortest there are.");
        }
    }

    private static void WriteCure(TextWriter output, GroundLoops loops)
    {
        foreach (var cut in loops.Cure)
        {
            Wrap.Write(output, $"{GroundAdvice.For(cut.Bundle)}.", "  ");
        }
        var left = loops.LeftByCure();
        Wrap.Write(output, left.Count == 0 ? "It leaves no loop." : $"It leaves {Plural.Of(left.Count, "loop", "loops")}, {(left.Any(l => l.IsHeard) ? $"{left.Count(l => l.IsHeard)} of them heard" : "none of them heard")}.", "  ");
        var useless = loops.Ground.Links.Count(l => loops.IsolationOf(l) == Isolation.Useless);
        if (useless > 0)
        {
            Wrap.Write(output, $"Useless: to isolate {(useless == 1 ? "the one link that is" : $"any of the {useless} links that are")} in no loop.", "  ");
        }
    }

    /// <summary>Each loop on a line under the reason why it is not heard.</summary>
    private static void WriteSilent(TextWriter output, List<GroundLoop> loops, int before)
    {
        if (loops.Count == 0)
        {
            return;
        }
        output.WriteLine();
        Wrap.Write(output, "Loops that are not heard");
        var number = before;
        foreach (var reason in loops.Take(MostLoops).GroupBy(l => string.Join("; ", l.Reasons)))
        {
            output.WriteLine();
            Wrap.Write(output, $"{Prose.Capital(reason.Key)}:", "  ");
            foreach (var loop in reason)
            {
                Wrap.Write(output, string.Join(" + ", loop.Links.Select(l => l.Text)), "     ", $"{++number,3}  ");
            }
        }
        WriteRest(output, loops.Count);
    }

    private static void WriteRest(TextWriter output, int count)
    {
        if (count > MostLoops)
        {
            Wrap.Write(output, $"and {count - MostLoops} more, which --format json lists", "  ");
        }
    }

    public static void WriteHum(TextWriter output, GroundLoops loops, HumSound sound, IReadOnlyList<HumSuspect> suspects)
    {
        if (suspects.Count == 0)
        {
            Wrap.Write(output, $"No ground loop of this rig explains a {Word(sound)}. Look for a broken screen, a pickup near a transformer, or a noisy adapter: "
                + "unplug one cable after the other at the desk, until it stops.");
        }
        for (var i = 0; i < suspects.Count; i++)
        {
            if (i > 0)
            {
                output.WriteLine();
            }
            WriteLoop(output, suspects[i].Loop.Links, suspects[i].Reasons, $"{i + 1}", loops);
        }
        output.WriteLine();
        Wrap.Write(output, GroundAdvice.Safety);
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

    private static void WriteLoop(TextWriter output, IReadOnlyList<GroundLink> links, IReadOnlyList<string> reasons, string number, GroundLoops loops)
    {
        var texts = links.Select(l => Cells.Safe(l.Text)).ToList();
        var width = Math.Min(texts.Max(Cells.WidthOf), Wrap.Sheet - 38);
        for (var i = 0; i < links.Count; i++)
        {
            var first = i == 0 ? number : "";
            var padding = new string(' ', Math.Max(0, width - Cells.WidthOf(texts[i])));
            output.WriteLine($"{first,3}  {texts[i]}{padding}  {Word(links[i].Kind),-16}  {Mark(loops, links[i])}".TrimEnd());
        }
        foreach (var reason in reasons)
        {
            Wrap.Write(output, reason, "     ");
        }
    }

    private static string Mark(GroundLoops loops, GroundLink link) => loops.IsolationOf(link) switch
    {
        Isolation.Cure => link.GoesByBattery ? "unplug" : "isolate",
        Isolation.Unsafe => "never lift",
        _ => "",
    };
}
