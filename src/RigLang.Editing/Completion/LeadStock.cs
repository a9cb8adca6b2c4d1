using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>What the box of cables still holds: the `stock` lines less what the connections use, but for the line being written.</summary>
internal sealed class LeadStock
{
    private readonly Dictionary<string, int> _left = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Lead, Metre Length), int> _leftOfLength = [];

    public LeadStock(RigView view, int offset)
    {
        foreach (var owned in view.Rig.Names.Stock)
        {
            _left[owned.Lead.Name] = _left.GetValueOrDefault(owned.Lead.Name) + owned.Count;
            if (owned.Length is { } length)
            {
                _leftOfLength[(owned.Lead.Name, length)] = _leftOfLength.GetValueOrDefault((owned.Lead.Name, length)) + owned.Count;
            }
        }
        var use = new PortUse(view, offset);
        foreach (var hookup in view.Rig.Wiring.Hookups.Where(h => !use.IsOwn(h)))
        {
            for (var i = 0; i < hookup.Leads.Count; i++)
            {
                var copies = hookup.Harness is { } harness && i < harness.Copies.Count ? harness.Copies[i] : 1;
                var name = hookup.Leads[i].Name;
                if (_left.ContainsKey(name))
                {
                    _left[name] -= copies;
                }
                if (i < hookup.Connection.Leads.Count && hookup.Connection.Leads[i].Length is { } length && _leftOfLength.ContainsKey((name, length)))
                {
                    _leftOfLength[(name, length)] -= copies;
                }
            }
        }
    }

    /// <summary>How many are left of all lengths, below 0 when more are used than there are; null for a lead that no `stock` line names.</summary>
    public int? Left(string lead) => _left.TryGetValue(lead, out var left) ? left : null;

    /// <summary>The lengths that `stock` lines give, and how many of each are left.</summary>
    public IEnumerable<(Metre Length, int Left)> Lengths(string lead) =>
        _leftOfLength.Where(entry => entry.Key.Lead == lead).Select(entry => (entry.Key.Length, entry.Value));
}
