using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>A `must` or `never` line: kinds, where from, what is reached, and what may follow.</summary>
internal static class ExpectSuggestions
{
    private enum What
    {
        Messages,
        Audio,
        Power,
    }

    public static void Add(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        var from = IndexOf(tokens, Keyword.From, 1);
        if (from < 0)
        {
            if (tokens.Count == 1)
            {
                list.Word(1, "audio", SuggestionKind.Word);
                list.Word(1, "power", SuggestionKind.Word);
            }
            if (KindSuggestions.Add(tokens, 1, MessageKinds.All, list))
            {
                list.Keyword(0, "from");
            }
            return;
        }
        var what = tokens[1].Text switch { "audio" => What.Audio, "power" => What.Power, _ => What.Messages };
        var source = new PathsTyped(line.View);
        var i = from + 1;
        while (i < tokens.Count && source.Take(tokens[i]))
        {
            i++;
        }
        if (i == tokens.Count)
        {
            AddPath(line, source, what, isSource: true, list);
            return;
        }
        var target = new PathsTyped(line.View);
        i++;
        while (i < tokens.Count && target.Take(tokens[i]))
        {
            i++;
        }
        if (i == tokens.Count)
        {
            AddPath(line, target, what, isSource: false, list);
            if (target.Slot == PathSlot.After)
            {
                AddQualifiers(what, list);
            }
            return;
        }
        AddBehind(tokens, what, list);
    }

    private static void AddPath(CaretLine line, PathsTyped path, What what, bool isSource, SuggestionList list)
    {
        switch (path.Slot)
        {
            case PathSlot.Device or PathSlot.InImport:
                foreach (var (name, device) in line.View.NamedDevices)
                {
                    var fits = device.Gear?.Ports.Exists(p => Carries(p, what, isSource)) != false;
                    list.Device(fits ? 0 : 10, name, path, device.Statement.Gear.Text, device);
                }
                list.Prefixes(path);
                break;
            case PathSlot.Inside when path.Device is { Gear: { } gear } device:
                AddInside(device, gear, what, isSource, list);
                break;
            case PathSlot.After when isSource:
                list.Keyword(0, "reach");
                break;
        }
    }

    private static void AddInside(DeviceSymbol device, GearSymbol gear, What what, bool isSource, SuggestionList list)
    {
        if (isSource && what == What.Messages)
        {
            foreach (var track in gear.Tracks.Values)
            {
                list.Name(0, track.Name, SuggestionKind.Track, "track");
            }
        }
        else if (!isSource && what == What.Messages)
        {
            foreach (var part in gear.Parts.Values)
            {
                list.Name(0, part.Name, SuggestionKind.Part, "part");
            }
        }
        else if (isSource && what == What.Audio)
        {
            foreach (var sound in gear.Sounds.Values)
            {
                list.Name(0, sound.Name, SuggestionKind.Track, "sound");
            }
            foreach (var part in gear.Parts.Values.Where(p => p.SoundsAt.Count > 0))
            {
                list.Name(10, part.Name, SuggestionKind.Part, "part");
            }
        }
        foreach (var port in gear.Ports.Where(p => p.Signal is null || Carries(p, what, null)))
        {
            list.Name(Carries(port, what, isSource) ? 1 : 20, port.Name, SuggestionKind.Port, PortText.Of(port), SuggestionKey.Of("port", device.Name, port.Name));
        }
    }

    /// <summary>True when a port gives (or, not being the source, takes) what the line speaks of; null asks for either.</summary>
    private static bool Carries(PortSymbol port, What what, bool? isSource)
    {
        var isKind = (what, port.Signal?.Kind) switch
        {
            (What.Audio, SignalKind.Audio or SignalKind.Insert) => true,
            // USB is messages and audio both ways.
            (What.Audio or What.Messages, SignalKind.Usb) => true,
            (What.Power, _) => port.Signal is { IsPower: true } or { Kind: SignalKind.Usb },
            (What.Messages, SignalKind.Midi or SignalKind.Pulse or SignalKind.DinSync) => true,
            _ => false,
        };
        var isUsbData = port.Signal?.Kind == SignalKind.Usb && what != What.Power;
        return isKind && (isSource is null || isUsbData || (isSource == true ? PortUse.CanFeed(port) : PortUse.CanTake(port)));
    }

    private static void AddQualifiers(What what, SuggestionList list)
    {
        if (what == What.Audio)
        {
            list.Keyword(0, "in stereo");
            list.Keyword(1, "in mono");
            list.Snippet(2, "on track", "on track ${1:1}", "of a recorder");
        }
        if (what == What.Messages)
        {
            list.Snippet(0, "on channel", "on channel $1", "on this channel only");
            list.Snippet(1, "within", "within ${1:5} ms", "with no more delay than this");
        }
    }

    private static void AddBehind(IReadOnlyList<Token> tokens, What what, SuggestionList list)
    {
        switch (tokens[^1].Keyword)
        {
            case Keyword.In:
                list.Keywords(0, "stereo", "mono");
                break;
            case Keyword.On:
                list.Keyword(0, what == What.Audio ? "track" : "channel");
                break;
            case Keyword.Channel:
                for (var channel = 1; channel <= 16; channel++)
                {
                    list.Word(0, $"{channel}", SuggestionKind.Channel);
                }
                break;
            case Keyword.Within:
                break;
            default:
                if (tokens[^1].Kind == TokenKind.Number && tokens[^2].Keyword == Keyword.Within)
                {
                    UnitSuggestions.Add(list, ["ms", "s"]);
                }
                else
                {
                    AddQualifiers(what, list);
                }
                break;
        }
    }

    private static int IndexOf(IReadOnlyList<Token> tokens, Keyword keyword, int first)
    {
        for (var i = first; i < tokens.Count; i++)
        {
            if (tokens[i].Keyword == keyword)
            {
                return i;
            }
        }
        return -1;
    }
}
