using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>Looks up the names of a `must` or `never` line.</summary>
internal sealed class ExpectationBinder(FileScope scope)
{
    private readonly RigNames _names = scope.Names;
    private readonly Reading _reading = scope.Reading;

    public void Bind(ExpectStatement statement)
    {
        var signal = ExpectedSignal.Messages;
        var messages = MessageKinds.None;
        var isClear = true;
        foreach (var what in statement.What)
        {
            switch (what.Text)
            {
                case "audio":
                    signal = ExpectedSignal.Audio;
                    break;
                case "power":
                    signal = ExpectedSignal.Power;
                    break;
                default:
                    var before = _names.Faults.Count;
                    messages |= _reading.Kinds([what]);
                    isClear &= _names.Faults.Count == before;
                    break;
            }
        }
        var from = Target(statement.From);
        var to = statement.To.Select(Target).ToList();
        bool? stereo = null;
        int? channel = null;
        Second? within = null;
        foreach (var qualifier in statement.Qualifiers)
        {
            switch (qualifier.Kind)
            {
                case Keyword.In when qualifier.Word is { Text: "stereo" or "mono" } word:
                    stereo = word.Text == "stereo";
                    break;
                case Keyword.In:
                    _reading.Note(new UnknownWord(_reading.At(qualifier.Span), qualifier.Word!.Value.Text, "an expectation", ["in stereo", "in mono"]));
                    isClear = false;
                    break;
                case Keyword.Channel:
                    channel = _reading.Whole(qualifier.Channel!.Value, "a MIDI channel", 1, 16);
                    isClear &= channel is not null;
                    break;
                case Keyword.Within when !statement.Must || signal != ExpectedSignal.Messages:
                    _reading.Note(new MissingAbility(_reading.At(qualifier.Span), "a time limit", statement.Must ? $"a line about {statement.What[0].Text}" : "a `never` line",
                        "only MIDI messages that must arrive have one; write the line without it"));
                    isClear = false;
                    break;
                case Keyword.Within:
                    within = _reading.Quantity(qualifier.Limit!, Dimension.Time) is { } seconds ? new Second(seconds) : null;
                    isClear &= within is not null;
                    break;
            }
        }
        if (isClear && from is not null && to.TrueForAll(t => t is not null))
        {
            _names.Expectations.Add(new ExpectationSymbol(statement.Must, signal, messages,
                string.Join(", ", statement.What.Select(w => w.Text)), from, to!, stereo, channel, within, statement, _reading.At(statement.Span)));
        }
    }

    private Target? Target(PathNode path)
    {
        if (scope.Device(path.Parts[0]) is not { Gear: { } gear } device)
        {
            return null;
        }
        var at = _reading.At(path.Span);
        if (path.Parts.Count == 1)
        {
            return new Target(device, null, null, null, at);
        }
        var name = path.Parts[1].Text;
        var track = gear.Tracks.GetValueOrDefault(name);
        var part = gear.Parts.GetValueOrDefault(name);
        var port = gear.PortsByName.GetValueOrDefault(name);
        if (track is null && part is null && port is null)
        {
            if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(path.Parts[1].Span), $"port, part or track of {gear.Name}", name,
                    [.. gear.PortsByName.Keys, .. gear.Parts.Keys, .. gear.Tracks.Keys]));
            }
            return null;
        }
        return new Target(device, port, part, track, at);
    }
}
