using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>A few words shown in a line that are not part of it.</summary>
/// <param name="IsBefore">True when a space belongs after it, else before it.</param>
public sealed record Hint(int Offset, string Text, string Tooltip, bool IsBefore);

/// <summary>What the compiler worked out and the file does not say: what a cable carries, the lead taken for it, the channel that `auto` got.</summary>
public static class HintFinder
{
    public static IReadOnlyList<Hint> In(RigView view, TextSpan span, EditorStyle style)
    {
        var hints = new List<Hint>();
        var chosen = view.Compilation.ChosenLeads.Where(c => ReferenceEquals(c.At.Source, view.Source)).ToDictionary(c => c.At.Span.Start);
        var hookups = new Dictionary<Statement, Wiring.Hookup>(ReferenceEqualityComparer.Instance);
        foreach (var hookup in view.Rig.Wiring.Hookups)
        {
            hookups[hookup.Connection.Statement] = hookup;
        }
        foreach (var statement in view.Tree.Statements)
        {
            switch (statement)
            {
                case ConnectStatement connect when Touches(span, connect.Span) && hookups.TryGetValue(connect, out var hookup):
                    if (chosen.TryGetValue(hookup.Connection.At.Span.Start, out var lead) && LeadHint(connect, lead) is { } named)
                    {
                        hints.Add(named);
                    }
                    if (CableHint(connect, new CableView(view.Rig, hookup)) is { } carries)
                    {
                        hints.Add(carries);
                    }
                    break;
                case DeviceStatement device when device.Body.Count > 0 && Touches(span, view.WholeSpan(device)):
                    hints.AddRange(device.Body.OfType<ChannelSetting>().Where(s => Touches(span, s.Span)).Select(s => AutoHint(view, device, s)).OfType<Hint>());
                    break;
            }
        }
        return hints;
    }

    private static bool Touches(TextSpan a, TextSpan b) => a.Start <= b.End && b.Start <= a.End;

    /// <summary>Where the lead would be written: before a length that stands alone, else behind the jacks.</summary>
    private static Hint? LeadHint(ConnectStatement connect, ChosenLead lead)
    {
        var name = lead.Count > 1 ? $"{lead.Count} x {lead.Lead}" : lead.Lead;
        var tooltip = $"No lead is named here: {name} is the simplest that fits and carries everything.";
        return connect.Leads is [{ Length: { } length, Lead: null }, ..] ? new Hint(length.Span.Start, name, tooltip, IsBefore: true)
            : connect.To.Count > 0 ? new Hint(connect.To[^1].Span.End, $"with {name}", tooltip, IsBefore: false)
            : null;
    }

    private static Hint? CableHint(ConnectStatement connect, CableView cable)
    {
        if (!cable.Hookup.IsSound || cable.Source.Port.Signal is not { } signal)
        {
            return null;
        }
        var text = signal.Kind switch
        {
            SignalKind.Audio => $"{cable.AudioChannels} ch · {Level(signal.Level)}",
            SignalKind.Insert => "send + return",
            SignalKind.Midi => "MIDI",
            SignalKind.Pulse => signal.Rate is { } rate ? rate.ToString() : "pulses",
            SignalKind.DinSync => "DIN sync",
            SignalKind.Control => "control",
            SignalKind.Usb => signal.Usb == UsbRole.Charger ? "USB power" : "USB",
            SignalKind.Mains => "mains",
            _ => cable.Volts is { } volts ? $"{volts}{(signal.Kind == SignalKind.Ac ? " AC" : "")}" : "power",
        };
        var tooltip = signal.Kind == SignalKind.Audio
            ? $"{Checks.Wording.Count(cable.AudioChannels, "channel")} of {signal.Describe()} in this cable."
            : $"This cable carries {PortWords.Carried(signal, cable.Volts)}.";
        return new Hint(connect.Span.End, text, tooltip, IsBefore: false);
    }

    private static string Level(AudioLevel level) => level switch
    {
        AudioLevel.Mic => "mic",
        AudioLevel.MicOrLine => "mic or line",
        AudioLevel.Instrument => "instrument",
        AudioLevel.Headphone => "headphone",
        AudioLevel.Speaker => "speaker",
        _ => "line",
    };

    private static Hint? AutoHint(RigView view, DeviceStatement statement, ChannelSetting setting)
    {
        if (setting.Channel.Value.Text != "auto" || view.DeviceCalled(statement.Name.Text) is not { } device
            || !ReferenceEquals(device.Statement, statement))
        {
            return null;
        }
        var chosen = view.Rig.Midi.Channels.Chosen;
        var numbers = new Symbols.Reading(view.Source, []).Expand(setting.Names)
            .Where(name => chosen.ContainsKey((device, name.Text)))
            .Select(name => (name.Text, Channel: chosen[(device, name.Text)]))
            .ToList();
        return numbers.Count == 0 ? null : new Hint(
            setting.Channel.Span.End,
            $"= {string.Join(", ", numbers.Select(n => n.Channel))}",
            $"Chosen as the lowest that stands in nobody's way: {string.Join(", ", numbers.Select(n => $"{device.Name}.{n.Text} on channel {n.Channel}"))}.",
            IsBefore: false);
    }
}
