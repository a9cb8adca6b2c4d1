using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Wiring;

public sealed class InputsJoined : Check
{
    public override string Name => "inputs-joined";
    public override Severity Severity => Severity.Error;
    public override string Title => "An input connected to an input";
    public override string Why => "Both wait for a signal and neither sends one: silence.";
    public override string Advice => "Start the cable at an output.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
        }
        device bass : Tern
        device lead : Tern
        connect bass.midi to lead.midi
        """;
    public override string GoodExample => BadExample.Replace("bass.midi to", "bass.thru to", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            if (hookup.Connection.From.TrueForAll(IsInput) && hookup.Connection.To.TrueForAll(IsInput))
            {
                var from = hookup.Connection.From[0];
                var outputs = from.Device.Gear!.Ports.Where(p => p.IsOutput && p.Signal?.Kind == from.Port.Signal!.Kind).Select(p => $"{from.Device.Name}.{p.Name}").ToList();
                report.Add(this, hookup.Connection.At, $"{Wording.And(hookup.Connection.From.Concat(hookup.Connection.To).Select(e => e.Text))} are both inputs.",
                    advice: outputs.Count == 0 ? null : $"Start at an output: {Wording.Or(outputs)}.");
            }
        }
    }

    private static bool IsInput(Endpoint end) =>
        end.Port is { IsOutput: false, IsPassive: false, Signal: { Kind: not (SignalKind.Usb or SignalKind.Insert) } };
}
