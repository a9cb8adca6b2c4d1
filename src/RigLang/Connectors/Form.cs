using System.Globalization;
using RigLang.Trade;

namespace RigLang.Connectors;

/// <summary>
/// A connector form: its contacts, and which contact touches at each position when a plug is pushed into a jack. Plug and
/// jack of one family mate position by position, so a plug with fewer poles bridges the positions it is longer at.
/// </summary>
/// <param name="Name">As written in the language: <c>trs 3.5 mm</c>.</param>
/// <param name="Family">Forms of one family fit one another.</param>
/// <param name="Contacts">Names of the contacts.</param>
/// <param name="Positions">For each position along the family, the index of the contact that is there.</param>
/// <param name="Source">The standard that the contacts and their names come from.</param>
public sealed record Form(string Name, string Family, IReadOnlyList<string> Contacts, IReadOnlyList<int> Positions, string Source)
{
    /// <summary>Other families that this jack takes, with their positions: a combination jack takes XLR and 6.35 mm plugs.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<int>> AlsoTakes { get; init; } = new Dictionary<string, IReadOnlyList<int>>();

    /// <summary>Outer and inner diameter of a barrel, in mm; zero for other forms.</summary>
    public (double Outer, double Inner) BarrelMillimetres { get; init; }

    public bool IsBarrel => BarrelMillimetres.Outer > 0;

    public int ContactIndex(string name)
    {
        for (var i = 0; i < Contacts.Count; i++)
        {
            if (Contacts[i] == name)
            {
                return i;
            }
        }
        return -1;
    }

    /// <summary>The contacts that touch when <paramref name="plug"/> goes into this jack; null when it does not fit.</summary>
    public IEnumerable<(int Plug, int Jack)>? Mate(Form plug)
    {
        var mine = plug.Family == Family ? Positions : AlsoTakes.GetValueOrDefault(plug.Family);
        return mine is null ? null : plug.Positions.Zip(mine);
    }

    public bool Takes(Form plug) => plug.Family == Family || AlsoTakes.ContainsKey(plug.Family);

    /// <summary>True for two barrels that a hand takes for the same: under half a millimetre apart, but not equal.</summary>
    public bool LooksLike(Form other) =>
        IsBarrel && other.IsBarrel && Family != other.Family
        && Math.Abs(BarrelMillimetres.Outer - other.BarrelMillimetres.Outer) <= 0.5
        && Math.Abs(BarrelMillimetres.Inner - other.BarrelMillimetres.Inner) <= 0.5;

    public override string ToString() => Name;
}

/// <summary>The connector forms of the language. Each row names its source.</summary>
public static class Forms
{
    private const string Phone = "IEC 60603-11";
    private const string UsbSource = "USB 2.0 and USB Type-C specifications";

    private static readonly Dictionary<string, Form> Fixed = new Form[]
    {
        // A phone plug has four places along its shaft; a plug with fewer poles is sleeve from there on back.
        PhoneForm("ts", "6.35", "tip", "sleeve", "sleeve", "sleeve"),
        PhoneForm("trs", "6.35", "tip", "ring", "sleeve", "sleeve"),
        PhoneForm("ts", "3.5", "tip", "sleeve", "sleeve", "sleeve"),
        PhoneForm("trs", "3.5", "tip", "ring", "sleeve", "sleeve"),
        PhoneForm("trrs", "3.5", "tip", "ring", "ring2", "sleeve"),
        PhoneForm("ts", "2.5", "tip", "sleeve", "sleeve", "sleeve"),
        PhoneForm("trs", "2.5", "tip", "ring", "sleeve", "sleeve"),
        Straight("din-5", "din-5", "IEC 60130-9; contact numbers as MIDI 1.0 uses them", "1", "2", "3", "4", "5"),
        Straight("xlr-3", "xlr-3", "IEC 61076-2-103; AES14", "1", "2", "3"),
        Straight("rca", "rca", "IEC 60130-8, common practice for the names", "tip", "sleeve"),
        Straight("usb-a", "usb-a", UsbSource, "vbus", "dminus", "dplus", "gnd", "shell"),
        Straight("usb-b", "usb-b", UsbSource, "vbus", "dminus", "dplus", "gnd", "shell"),
        Straight("usb-b mini", "usb-b mini", UsbSource, "vbus", "dminus", "dplus", "gnd", "shell"),
        Straight("usb-b micro", "usb-b micro", UsbSource, "vbus", "dminus", "dplus", "gnd", "shell"),
        Straight("usb-c", "usb-c", UsbSource, "vbus", "dminus", "dplus", "gnd", "shell"),
        Straight("mains", "mains", "the household plug and socket of the place (IEC TR 60083)", "line", "neutral", "earth"),
        Straight("iec-c13", "iec 60320 c13/c14", "IEC 60320-1", "line", "neutral", "earth"),
        Straight("iec-c14", "iec 60320 c13/c14", "IEC 60320-1", "line", "neutral", "earth"),
        Straight("iec-c5", "iec 60320 c5/c6", "IEC 60320-1", "line", "neutral", "earth"),
        Straight("iec-c6", "iec 60320 c5/c6", "IEC 60320-1", "line", "neutral", "earth"),
        Straight("iec-c7", "iec 60320 c7/c8", "IEC 60320-1", "line", "neutral"),
        Straight("iec-c8", "iec 60320 c7/c8", "IEC 60320-1", "line", "neutral"),
        Straight("combo", "combo", "common practice: XLR-3 and 6.35 mm phone in one panel hole", "1", "2", "3") with
        {
            AlsoTakes = new Dictionary<string, IReadOnlyList<int>>
            {
                ["xlr-3"] = [0, 1, 2],
                ["phone 6.35 mm"] = [1, 2, 0, 0],
            },
        },
    }.ToDictionary(form => form.Name, StringComparer.Ordinal);

    /// <summary>What stands inside a box and has no contact: no plug fits, and it cannot be written.</summary>
    public static Form Inside { get; } = new("inside", "inside", [], [], "none");

    /// <summary>Every form but the barrels, which come in any size.</summary>
    public static IEnumerable<Form> All => Fixed.Values;

    public static Form? Find(ReadOnlySpan<char> name) => ByName.TryGetValue(name, out var form) ? form : null;

    private static readonly Dictionary<string, Form>.AlternateLookup<ReadOnlySpan<char>> ByName = Fixed.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>A coaxial power connector: centre and outer. Source: IEC 60130-10 for the common sizes; JEITA RC-5320A.</summary>
    public static Form Barrel(double outerMillimetres, double innerMillimetres)
    {
        // At least one decimal, as barrels are printed: 4.0x1.7.
        var size = string.Create(CultureInfo.InvariantCulture, $"{outerMillimetres:0.0##}x{innerMillimetres:0.0##} mm");
        return Straight("barrel " + size, "barrel " + size, "IEC 60130-10; JEITA RC-5320A", "centre", "outer") with
        {
            BarrelMillimetres = (outerMillimetres, innerMillimetres),
        };
    }

    private static Form PhoneForm(string kind, string size, params string[] positions)
    {
        var contacts = positions.Distinct().ToArray();
        return new Form($"{kind} {size} mm", $"phone {size} mm", contacts, [.. positions.Select(p => Array.IndexOf(contacts, p))], Phone);
    }

    private static Form Straight(string name, string family, string source, params string[] contacts) =>
        new(name, family, contacts, [.. Enumerable.Range(0, contacts.Length)], source);
}
