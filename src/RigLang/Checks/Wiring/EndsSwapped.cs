using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Wiring;

public sealed class EndsSwapped : Check
{
    public override string Name => "ends-swapped";
    public override Severity Severity => Severity.Hint;
    public override string Title => "A connection written from the input to the output";
    public override string Why => "The cable works, but whoever reads the line takes the signal to flow the other way.";
    public override string Advice => "Write the output first.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device desk : Desk
        connect desk.ch1 to bass.line
        """;
    public override string GoodExample => BadExample.Replace("desk.ch1 to bass.line", "bass.line to desk.ch1", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            var connection = hookup.Connection;
            if (connection.From.TrueForAll(e => !e.Port.IsOutput && e.Port.Signal?.Kind != SignalKind.Insert) && connection.To.TrueForAll(e => e.Port.IsOutput))
            {
                report.Add(this, connection.At, $"{connection.To[0].Text} is the output, and {connection.From[0].Text} the input.", fixes: [Swap(connection)]);
            }
        }
    }

    private static Fix Swap(ConnectionSymbol connection)
    {
        var source = connection.At.Source;
        var from = connection.Statement.From[0].Span.To(connection.Statement.From[^1].Span);
        var to = connection.Statement.To[0].Span.To(connection.Statement.To[^1].Span);
        return new Fix("Swap the ends", true, [new TextEdit(source, from, source.Slice(to)), new TextEdit(source, to, source.Slice(from))]);
    }
}
