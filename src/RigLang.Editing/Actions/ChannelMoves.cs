using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Moves what a line sets to the next channel that nobody is on: `voice on channel 2`.</summary>
internal static class ChannelMoves
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span, IReadOnlyList<Finding> findings)
    {
        if (view.StatementAt(span.Start) is not DeviceStatement statement
            || RigView.LineAt(statement, span.Start) is not ChannelSetting { Channel.UpTo: null } setting
            || setting.Channel.Value is not { Kind: TokenKind.Number } number
            || view.Rig.Names.Devices.FirstOrDefault(d => ReferenceEquals(d.Statement, statement)) is not { Gear: { } gear } device)
        {
            yield break;
        }
        var mends = findings.FirstOrDefault(f => f.Check.Name is "shared-channel" or "fixed-channel-overlap");
        if (mends is null && (span.Start < number.Start || span.Start > number.End))
        {
            yield break;
        }
        if (Next(view, device, gear, setting, number) is not { } free)
        {
            yield break;
        }
        var title = $"Move to channel {free}, which is free";
        var edit = new TextEdit(view.Source, number.Span, $"{free}");
        yield return mends is null ? EditAction.Changing(title, EditAction.Rewrite, edit) : EditAction.Mending(title, mends, edit);
    }

    private static int? Next(RigView view, DeviceSymbol device, GearSymbol gear, ChannelSetting setting, Token number)
    {
        var names = new Reading(view.Source, []).Expand(setting.Names).Select(n => n.Text).ToList();
        var choices = names.Where(gear.Parts.ContainsKey).Select(n => gear.Parts[n].Channels)
            .Concat(names.Where(gear.Tracks.ContainsKey).Select(n => gear.Tracks[n].Channels)).ToList();
        var current = device.Channels.GetValueOrDefault(names.FirstOrDefault() ?? "").Channel ?? 0;
        var free = ChannelChart.Of(view.Rig).Free.Where(c => choices.TrueForAll(choice => choice.Allows(c)) && number.Text != $"{c}").ToList();
        return free.Count == 0 ? null : free.Exists(c => c > current) ? free.First(c => c > current) : free[0];
    }
}
