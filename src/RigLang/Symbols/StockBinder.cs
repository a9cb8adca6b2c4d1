using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>What a stock block says: the leads that the player owns.</summary>
internal sealed class StockBinder(FileScope scope)
{
    private readonly RigNames _names = scope.Names;
    private readonly Reading _reading = scope.Reading;

    public void Bind(StockStatement stock)
    {
        foreach (var line in stock.Body.OfType<StockLine>())
        {
            var count = _reading.Whole(line.Count, "a number of leads", 0, 10_000);
            var length = _reading.Length(line.Length);
            scope.NoteColours(line.Colours);
            if (scope.Lead(line.Lead) is { } lead && count is { } c)
            {
                _names.Stock.Add(new StockSymbol(lead, c, length, _reading.At(line.Span)));
            }
        }
    }
}
