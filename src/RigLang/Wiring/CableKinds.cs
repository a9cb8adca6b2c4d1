using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Wiring;

/// <summary>All that a cable can tell of a jack: its connector, what its contacts do, and its place in its port.</summary>
internal readonly record struct JackKind(string Form, ulong Roles, Side Side, bool IsCaptive, bool IsNormalled, bool TakesAnyPolarity)
{
    public static JackKind Of(JackSymbol jack) =>
        new(jack.Form.Name, Packed(jack.Roles), jack.Side, jack.IsCaptive, jack.Port.Signal is { Normalled: true }, jack.Port.TakesAnyPolarity);

    /// <summary>Nine bits a contact; no connector of the language has more than seven contacts.</summary>
    private static ulong Packed(IReadOnlyList<ContactRole> roles)
    {
        var packed = 0UL;
        for (var i = 0; i < roles.Count; i++)
        {
            packed = (packed << 9) | ((ulong)roles[i].Role << 4) | ((ulong)roles[i].Drive << 2) | (ulong)roles[i].Channel;
        }
        return packed;
    }
}

/// <summary>
/// Numbers the kinds of cable: jacks of the same kinds with the same leads between them get the same number, so that what
/// holds for one is worked out once, however many devices and kinds of gear a rig has.
/// </summary>
internal sealed class CableKinds
{
    private readonly Dictionary<JackKind, int> _jacks = [];
    private readonly Dictionary<LeadSymbol, int> _leads = [];
    private readonly Dictionary<(int Before, int Next), int> _sequences = [];

    public int Of(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, IReadOnlyList<LeadSymbol> leads)
    {
        var number = WithJacks(WithJacks(0, from), to);
        for (var i = 0; i < leads.Count; i++)
        {
            number = Number(_sequences, (number, Number(_leads, leads[i])));
        }
        return number;
    }

    private int WithJacks(int number, IReadOnlyList<JackSymbol> jacks)
    {
        // Whether two jacks are one port decides whether one plug may serve both; a negative number is no jack's.
        number = Number(_sequences, (number, Harness.IsPair(jacks) ? -2 : -1));
        for (var i = 0; i < jacks.Count; i++)
        {
            number = Number(_sequences, (number, Number(_jacks, JackKind.Of(jacks[i]))));
        }
        return number;
    }

    private static int Number<T>(Dictionary<T, int> numbers, T part)
        where T : notnull
    {
        if (!numbers.TryGetValue(part, out var number))
        {
            numbers[part] = number = numbers.Count + 1;
        }
        return number;
    }
}
