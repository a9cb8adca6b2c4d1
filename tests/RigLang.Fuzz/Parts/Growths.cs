using CsCheck;
using RigLang.Fuzz.Growth;

namespace RigLang.Fuzz.Parts;

/// <summary>What a check takes follows the size of the rig. A case is the name of a kind of rig.</summary>
internal sealed class Growths : Part
{
    private readonly List<GrowthRow> _rows = [];

    public override string Name => "growth";

    public override string About => "of every statement, shape and check twice as much takes at most 1.3 times twice the memory, and less than the product where the answer is one";

    public override IReadOnlyList<string> Listed { get; } = [.. GrowthKinds.All.Select(k => k.Name)];

    public override Gen<string> Cases { get; } = Gen.OneOf<string>([.. GrowthKinds.All.Select(k => k.Name)]);

    public override IEnumerable<string> Summary => [Sizes.Head, .. _rows.Select(Sizes.Line)];

    public override Task<string?> JudgeAsync(string written)
    {
        if (GrowthKinds.All.FirstOrDefault(k => k.Name == written.Trim()) is not { } kind)
        {
            return Task.FromResult<string?>(null);
        }
        var row = Sizes.Of(kind);
        _rows.Add(row);
        return Task.FromResult(row.OverLinear > row.Kind.Most ? $"{kind.Name} grows faster than the rig: {Sizes.Line(row)}" : null);
    }
}
