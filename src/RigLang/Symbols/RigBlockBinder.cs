using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>What a rig block says: title, tempo, mains and the length of the set.</summary>
internal sealed class RigBlockBinder(FileScope scope)
{
    private readonly RigNames _names = scope.Names;
    private readonly Reading _reading = scope.Reading;

    public void Bind(RigStatement rig)
    {
        if (rig.Title is { } title)
        {
            _names.Title ??= title.Text;
        }
        foreach (var line in rig.Body.OfType<RigSetting>())
        {
            Dimension[]? wanted = line.Name.Text switch
            {
                "tempo" => [Dimension.Tempo],
                "mains" => [Dimension.Voltage, Dimension.Frequency, Dimension.Current],
                "set" => [Dimension.Time],
                _ => null,
            };
            if (wanted is null)
            {
                _reading.Note(new UnknownWord(_reading.At(line.Name.Span), line.Name.Text, "a rig block", ["tempo", "mains", "set"]));
                continue;
            }
            if (line.Values.Count == 0)
            {
                _reading.Note(new IncompleteDeclaration(_reading.At(line.Span), $"`{line.Name}`", "its figure, such as tempo 112 bpm, mains 230 V 50 Hz or set 75 min"));
            }
            foreach (var value in line.Values)
            {
                if (_reading.Quantity(new AttributeNode(value.Number, null, value.Unit), wanted) is { } quantity)
                {
                    Set(quantity.Dimension, quantity.Value, line, value);
                }
            }
        }
    }

    /// <summary>What was said first counts, and the checked file speaks first; what differs from it is told.</summary>
    private void Set(Dimension dimension, double value, RigSetting line, QuantityNode written)
    {
        var span = written.Number.Span.To(written.Unit.Span);
        var said = new RigFigure(value, _reading.Source.Slice(span), _reading.At(span));
        if (!_names.RigFigures.TryAdd(dimension, said))
        {
            var first = _names.RigFigures[dimension];
            // Two spellings of one figure, such as 230 V and 0.23 kV, may differ in the last bit.
            if (Math.Abs(first.Value - value) > 1e-9 * Math.Abs(first.Value))
            {
                _reading.Note(new RigDisagreement(said.At, line.Name.Text, said.Text, first.Text, first.At, line.Name.Text == "mains"));
            }
            return;
        }
        switch (dimension)
        {
            case Dimension.Tempo:
                _names.Tempo = new Bpm(value);
                break;
            case Dimension.Voltage:
                _names.MainsVolts = new VoltRange(new Volt(value), new Volt(value));
                break;
            case Dimension.Frequency:
                _names.MainsHertz = value;
                break;
            case Dimension.Current:
                _names.MainsCurrent = new Ampere(value);
                break;
            case Dimension.Time:
                _names.SetLength = new Second(value);
                break;
        }
    }
}
