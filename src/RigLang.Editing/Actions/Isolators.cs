using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// Puts a box with transformers into an audio cable, against hum from a ground loop. It takes gear of the library whose input and
/// output are both isolated, and only where nothing new is found with it.
/// </summary>
internal static class Isolators
{
    private const string Library = "shared/gear.rig";

    /// <summary>Gear of the library that isolates, with its way through.</summary>
    private static readonly Lazy<IReadOnlyList<(string Gear, PortSymbol In, PortSymbol Out)>> Boxes = new(() =>
    [
        .. from gear in SharedLibrary.Open(Library)!.Gear
           from route in gear.Routes
           where route.From.Signal is { Kind: SignalKind.Audio, Isolated: true } && route.To.Signal is { Kind: SignalKind.Audio, Isolated: true }
           select (gear.Name, route.From, route.To),
    ]);

    public static IEnumerable<EditAction> In(RigView view, TextSpan span)
    {
        if (Rewriting.HookupAt(view, span) is not { IsSound: true, Connection: { From: [var from], To: [var to] } connection }
            || from.Port.Signal?.Kind != SignalKind.Audio || to.Port.Signal?.Kind != SignalKind.Audio
            || from.Port.Signal.Isolated || to.Port.Signal.Isolated)
        {
            return [];
        }
        var channels = from.Jacks.Count == 2 || (from.Port.Signal.IsStereo && from.Jacks[0].Side == Side.Only) ? 2 : 1;
        var name = Rewriting.FreeName("isolator", view.Rig.Names.DevicesByName.ContainsKey);
        foreach (var (gear, input, output) in Boxes.Value)
        {
            var side = channels == 1 && input.Jacks.Count == 2 ? ".left" : "";
            foreach (var keepsLead in connection.Leads.Count == 0 ? (IReadOnlyList<bool>)[true] : [true, false])
            {
                var edits = Edits(view, connection, name, gear, input.Name + side, output.Name + side, keepsLead);
                if (Rewriting.AddsNoFinding(view.Compilation, Rewriting.Trial(view, edits)))
                {
                    return [EditAction.Changing($"Put a {gear} into this cable", EditAction.Refactor, edits)];
                }
            }
        }
        return [];
    }

    /// <summary>The cable goes to the box with its colours and label; a second one, whose lead is chosen, goes on from there.</summary>
    private static List<TextEdit> Edits(RigView view, ConnectionSymbol connection, string name, string gear, string input, string output, bool keepsLead)
    {
        var statement = connection.Statement;
        var to = statement.To[0].Span.To(statement.To[^1].Span);
        var second = $"connect {name}.{output} to {view.Source.Slice(to)}";
        var device = $"device {name} : {gear}";
        var edits = new List<TextEdit> { new(view.Source, to, $"{name}.{input}") };
        if (!keepsLead)
        {
            var length = statement.Leads is [{ Length: { } only }] ? $" with {view.Source.Slice(only.Span)}" : "";
            edits.Add(new TextEdit(view.Source, TextSpan.Between(to.End, statement.Leads[^1].Span.End), length));
        }
        if (view.Tree.Statements.OfType<Syntax.DeviceStatement>().LastOrDefault() is { } last)
        {
            edits.Add(Rewriting.LineAfter(view, view.WholeSpan(last).End, device));
            edits.Add(Rewriting.LineAfter(view, statement.Span.End, second));
        }
        else
        {
            edits.Add(Rewriting.LineAfter(view, statement.Span.End, $"{second}\n{device}"));
        }
        if (Rewriting.Import(view, Library) is { } import)
        {
            edits.Add(import);
        }
        return edits;
    }
}
