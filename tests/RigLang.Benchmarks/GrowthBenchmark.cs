using System.Globalization;
using RigLang.Fuzz.Growth;

namespace RigLang.Benchmarks;

/// <summary>
/// What a check takes when there is twice and four times as much of one thing: of a statement, of a list's items, of boxes in a chain, star or
/// mesh, of any check's mistake. Allocations are counted, so that the table is the same on a busy machine; the campaign judges by the same rows.
/// </summary>
internal static class GrowthBenchmark
{
    /// <summary>False when something grows faster than it may.</summary>
    public static bool Run(TextWriter output)
    {
        output.WriteLine("  " + Sizes.Head);
        var fast = new List<GrowthRow>();
        foreach (var kind in GrowthKinds.All)
        {
            var row = Sizes.Of(kind);
            output.WriteLine("  " + Sizes.Line(row));
            if (row.OverLinear > row.Kind.Most)
            {
                fast.Add(row);
            }
        }
        output.WriteLine();
        var met = fast.Count == 0 ? "met    " : "NOT MET";
        var those = fast.Count == 0 ? "" : $": not {string.Join("; ", fast.Select(row => row.Kind.Name))}";
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{met}  each of {GrowthKinds.All.Count} kinds of rig at most {GrowthKind.NearlyLinear:0.0} times over linear when it doubles, and {GrowthKind.Product:0.00} where the answer is a product{those}"));
        return fast.Count == 0;
    }
}
