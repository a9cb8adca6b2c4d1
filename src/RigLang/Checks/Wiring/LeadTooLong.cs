using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class LeadTooLong : Check
{
    public override string Name => "lead-too-long";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A lead longer than its signal allows";
    public override string Why => "Over its limit a cable loses notes (MIDI), drops the connection (USB), or picks up hum and dulls the sound (unbalanced audio).";
    public override string Advice => "Move the two closer together, or use what goes further: a balanced line, a DI box, an active extension.";
    public override string Source => "MIDI 1.0 hardware section: 15 m (50 ft); USB 2.0, 7.1.16: 5 m; unbalanced audio 3 m: common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device bass : Tern
        connect seq.midi to bass.midi with MidiDin 20 m
        """;
    public override string GoodExample => BadExample.Replace("20 m", "10 m", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            var connection = hookup.Connection;
            var total = connection.Leads.Sum(l => l.Length?.Value ?? 0);
            if (LimitOf(connection, hookup) is var (limit, reason) && total > limit.Value)
            {
                report.Add(this, connection.Leads[0].At, $"{new Metre(total)} of cable is over the limit of {limit} for {reason}.");
                continue;
            }
            foreach (var use in connection.Leads)
            {
                if (use is { Lead.Longest: { } longest, Length: { } length } && length.Value > longest.Value)
                {
                    report.Add(this, use.At, $"{length} is over the limit of {longest} that {use.Lead.Name} declares.");
                }
            }
        }
    }

    private static (Metre Limit, string Reason)? LimitOf(ConnectionSymbol connection, Hookup hookup) => connection.From[0].Port.Signal switch
    {
        { Kind: SignalKind.Midi } => (CableLimits.Midi, "MIDI"),
        { Kind: SignalKind.Usb } => (CableLimits.Usb, "USB"),
        { Kind: SignalKind.Audio, Level: AudioLevel.Line or AudioLevel.Instrument } when !IsBalanced(hookup) => (CableLimits.UnbalancedAudio, "an unbalanced audio line"),
        _ => null,
    };

    /// <summary>Balanced from end to end: two wires and the difference taken.</summary>
    private static bool IsBalanced(Hookup hookup) =>
        hookup.Connection.From[0].Port.Signal is { Balance: not Balance.Unbalanced }
        && hookup.Connection.To[0].Port.Signal is { Balance: not Balance.Unbalanced }
        && hookup.Leads.All(lead => lead.Wires.Count >= 3 && lead.Ends.Count == 2);
}
