using System.Globalization;
using System.Text;
using RigLang.Cli;

namespace RigLang.Fuzz.Growth;

/// <summary>What one kind of rig takes at three sizes, each twice the one before.</summary>
/// <param name="Bytes">Allocated by a check with a JSON report, beyond what an empty rig takes.</param>
/// <param name="TextBytes">Length of the rig.</param>
internal sealed record GrowthRow(GrowthKind Kind, int Least, long[] Bytes, long[] TextBytes)
{
    /// <summary>How often what it takes doubles when the rig's text doubles once: 1 is linear. The first doubling, then the second.</summary>
    public double[] Ratios { get; } = [Ratio(Bytes, TextBytes, 1), Ratio(Bytes, TextBytes, 2)];

    /// <summary>Of the larger rigs, where what grows fast shows.</summary>
    public double OverLinear => Ratios[1];

    /// <summary>Below that, one buffer that doubles weighs more than all that grows.</summary>
    private const double LeastBytes = 200_000;

    private static double Ratio(long[] bytes, long[] text, int at) =>
        Math.Max(LeastBytes, bytes[at]) / Math.Max(LeastBytes, bytes[at - 1]) / Math.Max(2, (double)text[at] / text[at - 1]);
}

/// <summary>Allocations are counted, never time: they are the same on a busy machine.</summary>
internal static class Sizes
{
    /// <summary>An empty rig, with everything in place that is made once.</summary>
    private static readonly Lazy<long> Empty = new(() =>
    {
        BytesOf(GrowthKinds.Everything);
        return BytesOf("");
    });

    public static GrowthRow Of(GrowthKind kind)
    {
        BytesOf(kind.Rig(Math.Max(1, kind.Least / 4)));
        string[] texts = [kind.Rig(kind.Least), kind.Rig(2 * kind.Least), kind.Rig(4 * kind.Least)];
        return new GrowthRow(kind, kind.Least, [.. texts.Select(text => Math.Max(1, BytesOf(text) - Empty.Value))], [.. texts.Select(text => (long)Encoding.UTF8.GetByteCount(text))]);
    }

    public static string Line(GrowthRow row) => string.Create(CultureInfo.InvariantCulture,
        $"{row.Kind.Name,-44} {row.Least,5} {Kilobytes(row, 0),10} {Kilobytes(row, 1),10} {Kilobytes(row, 2),10}  {row.Ratios[0],6:0.00} {row.Ratios[1],6:0.00}{(row.OverLinear > row.Kind.Most ? "  too much" : row.Kind.Most > GrowthKind.NearlyLinear ? "  a product" : "")}");

    public static string Head => $"{"kB allocated by a check as JSON",-44} {"n",5} {"n",10} {"2n",10} {"4n",10}   over linear, per doubling";

    private static string Kilobytes(GrowthRow row, int at) => (row.Bytes[at] / 1000).ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>The report goes nowhere, so that only what is made for it counts.</summary>
    private static long BytesOf(string text)
    {
        using var run = new RigRun();
        run.Put("growth.rig", text);
        var host = run.HostOn(Stream.Null, Stream.Null, () => Stream.Null);
        var before = GC.GetAllocatedBytesForCurrentThread();
        RigCommand.Run(["check", "growth.rig", "--format", "json"], host);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}
