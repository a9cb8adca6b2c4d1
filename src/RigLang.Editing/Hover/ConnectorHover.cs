using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>A connector: its contacts, what each does in this port, what goes into it, and where that is written down.</summary>
internal static class ConnectorHover
{
    public static string Of(Form form, JackSymbol? jack, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title(form.Name);
        if (form.IsBarrel)
        {
            page.Line($"A power connector, {Trade.Units.Figure(form.BarrelMillimetres.Outer)} mm outside and {Trade.Units.Figure(form.BarrelMillimetres.Inner)} mm inside. "
                + "Only a plug of both sizes fits; which way round it is, the size does not say.");
        }
        var others = Forms.All.Where(f => f.Name != form.Name && (form.Takes(f) || f.Takes(form))).Select(f => f.Name).ToList();
        page.Fact("Goes together with", others.Count == 0 ? null : string.Join(", ", others));
        page.Fact("Source", form.Source);
        page.Table(["Contact", "Does"], jack is null ? [.. form.Contacts.Select(c => (IReadOnlyList<string>)[c, UsualUse(form, c)])] : Rows(jack));
        return page.ToString();
    }

    public static List<IReadOnlyList<string>> Rows(JackSymbol jack) =>
        [.. jack.Form.Contacts.Select((name, i) => (IReadOnlyList<string>)[name, PortWords.Role(jack, i) ?? "not used"])];

    /// <summary>What a contact most often does, where no port says. Sources: those of the form; IEC 61938 for audio, MIDI 1.0 for DIN.</summary>
    private static string UsualUse(Form form, string contact) => (form.Family, contact) switch
    {
        ("din-5", "4") => "MIDI: source",
        ("din-5", "5") => "MIDI: sink",
        ("din-5", "2") => "MIDI: screen, at outputs only",
        ("din-5", "1") => "DIN sync: run",
        ("din-5", "3") => "DIN sync: clock",
        ("xlr-3" or "combo", "1") => "ground",
        ("xlr-3" or "combo", "2") => "hot",
        ("xlr-3" or "combo", "3") => "cold",
        (_, "tip") => "signal; hot when balanced, left when stereo",
        (_, "ring") => "cold when balanced, right when stereo",
        (_, "ring2") => "ground of a headset",
        (_, "sleeve") when form.Name.StartsWith("trrs", StringComparison.Ordinal) => "microphone of a headset",
        (_, "sleeve") => "ground",
        (_, "centre") => "plus or minus, as the port says",
        (_, "outer") => "the other of the two",
        (_, "vbus") => "plus, 5 V",
        (_, "gnd") => "minus",
        (_, "dplus") => "data +",
        (_, "dminus") => "data -",
        (_, "shell") => "screen",
        (_, "earth") => "protective earth",
        _ => contact,
    };
}
