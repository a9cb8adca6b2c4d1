using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>`must` and `never`: what they speak of, from where, to what. What has no meaning is refused, so that it seems to promise nothing.</summary>
internal sealed class ExpectationBinder(FileScope scope)
{
    private readonly RigNames _names = scope.Names;
    private readonly Reading _reading = scope.Reading;

    public void Bind(ExpectStatement statement)
    {
        var (signal, messages, isClear) = WhatOf(statement);
        var from = Targets(statement.From, signal);
        var to = Targets(statement.To, signal);
        bool? stereo = null;
        int? channel = null;
        Second? within = null;
        int? track = null;
        foreach (var qualifier in statement.Qualifiers)
        {
            if (Refusal(qualifier, statement, signal, messages) is { } refused)
            {
                _reading.Note(refused);
                isClear = false;
                continue;
            }
            switch (qualifier.Kind)
            {
                case Keyword.In:
                    stereo = qualifier.Word!.Value.Text == "stereo";
                    break;
                case Keyword.Channel:
                    channel = ChannelLists.One(qualifier.Channel!, "of them", _reading);
                    isClear &= channel is not null;
                    break;
                case Keyword.Track:
                    track = _reading.Whole(qualifier.Number!.Value, "a track", 1, MostTracks);
                    isClear &= track is not null;
                    break;
                case Keyword.Within:
                    within = _reading.Quantity(qualifier.Limit!, Dimension.Time) is { } seconds ? new Second(seconds) : null;
                    isClear &= within is not null;
                    break;
            }
        }
        if (!isClear || from is null || to is null)
        {
            return;
        }
        if (track is not null && Array.Find(to, target => target.Device.Gear!.Records.Count == 0) is { } deaf)
        {
            _reading.Note(new MissingAbility(deaf.At, "tracks", deaf.Device.Gear!.Name, "it has no `records` line"));
            return;
        }
        if (from.Length * to.Length > MostPairs)
        {
            _reading.Note(new OutOfRange(_reading.At(statement.Span), "what one line may speak of", $"{from.Length} x {to.Length}", "4,096 pairs of a source and a place at most: write several lines"));
            return;
        }
        // Each source by itself: all of them must arrive, none of them may.
        foreach (var source in from)
        {
            _names.Expectations.Add(new ExpectationSymbol(statement.Must, signal, messages,
                WhatText(statement), source, to, stereo, channel, within, statement, _reading.At(statement.Span)) { OnTrack = track });
        }
    }

    /// <summary>Each of them is followed by itself. Sixty-four of either is more than any stage promises at once.</summary>
    private const int MostPairs = 4096;

    /// <summary>More tracks than this no recorder has on a table. Source: common practice.</summary>
    private const int MostTracks = 256;

    private (ExpectedSignal Signal, MessageKinds Messages, bool IsClear) WhatOf(ExpectStatement statement)
    {
        ExpectedSignal? signal = null;
        var areSeveral = false;
        var messages = MessageKinds.None;
        var faults = _names.Faults.Count;
        foreach (var what in statement.What)
        {
            var one = what.Text switch { "audio" => ExpectedSignal.Audio, "power" => ExpectedSignal.Power, _ => ExpectedSignal.Messages };
            areSeveral |= signal is { } other && other != one;
            signal = signal is { } before ? (ExpectedSignal)Math.Max((int)before, (int)one) : one;
            if (what.Text is not ("audio" or "power"))
            {
                messages |= _reading.Kinds([what]);
            }
        }
        if (areSeveral)
        {
            _reading.Note(new MissingAbility(_reading.At(statement.What[0].Span.To(statement.What[^1].Span)),
                $"{string.Join(" and ", statement.What.Select(w => w.Text))} together", "One line", "write one line for each"));
        }
        return (signal ?? ExpectedSignal.Messages, messages, _names.Faults.Count == faults);
    }

    /// <summary>What a line of this kind cannot be asked; null for a qualifier that means something.</summary>
    private Fault? Refusal(QualifierNode qualifier, ExpectStatement statement, ExpectedSignal signal, MessageKinds messages)
    {
        var at = _reading.At(qualifier.Span);
        return qualifier.Kind switch
        {
            Keyword.In when qualifier.Word is not { Text: "stereo" or "mono" } => new UnknownWord(at, qualifier.Word!.Value.Text, "an expectation", ["in stereo", "in mono"]),
            Keyword.In when signal != ExpectedSignal.Audio =>
                new MissingAbility(at, qualifier.Word!.Value.Text, Line(), "only audio has a left and a right; write the line without it"),
            Keyword.Channel when (messages & MessageKinds.Channel) == MessageKinds.None =>
                new MissingAbility(at, "a MIDI channel", Line(), "only notes, controllers and other channel messages have one; write the line without it"),
            Keyword.Track when signal != ExpectedSignal.Audio => new MissingAbility(at, "a track of a recorder", Line(), "only audio is recorded; write the line without it"),
            Keyword.Within when !statement.Must || signal != ExpectedSignal.Messages =>
                new MissingAbility(at, "a time limit", statement.Must ? Line() : "A `never` line", "only MIDI messages that must arrive have one; write the line without it"),
            _ => null,
        };

        string Line() => $"A line about {WhatText(statement)}";
    }

    private static string WhatText(ExpectStatement statement) =>
        statement.What is [var only] ? only.Text : string.Join(", ", statement.What.Select(w => w.Text));

    /// <summary>Null when one of them is unknown, which is noted; all are looked at.</summary>
    private Target[]? Targets(IReadOnlyList<PathNode> paths, ExpectedSignal signal)
    {
        var targets = new Target[paths.Count];
        var areKnown = true;
        for (var i = 0; i < targets.Length; i++)
        {
            if (Target(paths[i], signal) is { } target)
            {
                targets[i] = target;
            }
            else
            {
                areKnown = false;
            }
        }
        return areKnown ? targets : null;
    }

    private Target? Target(PathNode path, ExpectedSignal signal)
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
        var sound = gear.Sounds.GetValueOrDefault(name);
        if (track is null && part is null && port is null && sound is null)
        {
            if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(path.Parts[1].Span), $"port, part or track of {gear.Name}", name,
                    [.. gear.PortsByName.Keys, .. gear.Parts.Keys, .. gear.Tracks.Keys, .. gear.Sounds.Keys]));
            }
            return null;
        }
        if (path.Parts.Count == 2)
        {
            if (sound is not null && track is null && part is null && port is null && signal != ExpectedSignal.Audio)
            {
                _reading.Note(new MissingAbility(at, "messages or power", $"`{device.Name}.{name}`", "it is a sound, and gives audio only"));
                return null;
            }
            return new Target(device, port, part, track, at) { Sound = sound };
        }
        var hasSides = signal == ExpectedSignal.Audio && port?.Signal is { Kind: SignalKind.Audio, IsStereo: true };
        var side = path.Parts[2].Text switch { "left" => Side.Left, "right" => Side.Right, _ => Side.Only };
        if (path.Parts.Count == 3 && hasSides && side != Side.Only)
        {
            return new Target(device, port, null, null, at) { Side = side };
        }
        _reading.Note(new UnknownWord(_reading.At(path.Parts[2].Span.To(path.Parts[^1].Span)), path.Parts[2].Text,
            hasSides ? "a side" : $"{name}, which has no sides here", hasSides ? ["left", "right"] : []));
        return null;
    }
}
