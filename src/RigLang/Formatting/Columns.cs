using RigLang.Syntax;

namespace RigLang.Formatting;

/// <summary>Lines of one shape that follow each other share their columns.</summary>
internal enum Shape : byte
{
    None,
    Device,
    Lead,
    Connect,
    Expect,
    Accept,
    RigSetting,
    Port,
    Route,
    Join,
    Part,
    Track,
    Wire,
    LeadFact,
    DeviceSetting,
    Stock,
}

/// <summary>Where each kind of line is cut into columns. Column 0 begins with the line.</summary>
internal sealed class Columns
{
    /// <summary>Column <c>on</c> of a port line: what stands before it is a description, and may well be long.</summary>
    public const int PortConnector = 3;

    private Token[] _tokens = [];
    private TokenRange _range;

    /// <summary>The first token of each column after 0, in order. A line may leave columns out.</summary>
    public List<(int Token, int Column)> Cuts { get; } = [];

    /// <summary>Cuts a line; the result is in <see cref="Cuts"/> until the next call.</summary>
    public Shape Cut(Statement statement, Token[] tokens, TokenRange range)
    {
        _tokens = tokens;
        _range = range;
        Cuts.Clear();
        return statement switch
        {
            DeviceStatement device => Cut(device),
            LeadStatement lead => Cut(lead),
            ConnectStatement connect => Cut(connect),
            ExpectStatement expect => Cut(expect),
            AcceptStatement accept => Cut(accept),
            RigSetting setting => Cut(setting),
            PortLine port => Cut(port),
            RouteLine route => Cut(route),
            JoinLine join => Cut(join),
            PartLine part => Cut(part),
            TrackLine track => Cut(track),
            WireLine wire => Cut(wire),
            LeadProperty property => Cut(property),
            ChannelSetting setting => CutAfterNames(setting.Names),
            FilterSetting setting => CutAfterNames(setting.Ports),
            SwitchSetting setting => CutAfterNames(setting.Ports),
            UnclearSetting setting => CutAfterNames(setting.Names),
            StockLine stock => Cut(stock),
            _ => Shape.None,
        };
    }

    // bass | : Tern | at (0.8 m, 0.4 m)
    private Shape Cut(DeviceStatement device)
    {
        After(device.Names[^1].Span.End, 1);
        After(device.Gear.Span.End, 2);
        return Shape.Device;
    }

    // lead MiniJack | : trs 3.5 mm | to trs 3.5 mm
    private Shape Cut(LeadStatement lead)
    {
        After(lead.Name.Span.End, 1);
        Before(lead.Far[0].Span.Start, 2);
        return Shape.Lead;
    }

    // connect seq.midi | to thru.in | with MidiTrsB 0.6 m
    private Shape Cut(ConnectStatement connect)
    {
        Before(connect.To[0].Span.Start, 1);
        After(connect.To[^1].Span.End, 2);
        return Shape.Connect;
    }

    // never | start, stop from keys reach bass
    private Shape Cut(ExpectStatement expect)
    {
        At(expect.What[0].Span.Start, 1);
        return Shape.Expect;
    }

    // accept lead-too-long | on bass.line | because "quiet in rehearsal"
    private Shape Cut(AcceptStatement accept)
    {
        Before(accept.On[0].Span.Start, 1);
        Before(accept.Reason.Span.Start, 2);
        return Shape.Accept;
    }

    // tempo | 112 bpm
    private Shape Cut(RigSetting setting)
    {
        After(setting.Name.Span.End, 1);
        return Shape.RigSetting;
    }

    // in | power | : dc 9 V centre-positive, 250 mA | on barrel 5.5x2.1 mm
    private Shape Cut(PortLine port)
    {
        At(port.Names[0].Span.Start, 1);
        After(port.Names[^1].Span.End, 2);
        if (port.OnWord is { } on)
        {
            At(on.Start, PortConnector);
        }
        return Shape.Port;
    }

    // route in | to left, right | latency 3 ms
    private Shape Cut(RouteLine route)
    {
        Before(route.To[0].Span.Start, 1);
        After(route.To[^1].Span.End, 2);
        return Shape.Route;
    }

    private Shape Cut(JoinLine join)
    {
        Before(join.To[0].Span.Start, 1);
        return Shape.Join;
    }

    // part kick | receives midi | on channel 10, | sounds at main
    private Shape Cut(PartLine part)
    {
        Before(part.Receives[0].Span.Start, 1);
        if (part.Channel is { } channel)
        {
            At(channel.Value.Start, 2, back: 2);
        }
        if (part.SoundsAt.Count > 0)
        {
            At(part.SoundsAt[0].Span.Start, 3, back: 2);
        }
        return Shape.Part;
    }

    // track a, b | sends midi | on channel 3
    private Shape Cut(TrackLine track)
    {
        Before(track.Sends[0].Span.Start, 1);
        if (track.Channel is { } channel)
        {
            At(channel.Value.Start, 2, back: 2);
        }
        return Shape.Track;
    }

    // sleeve | to left.sleeve, right.sleeve
    private Shape Cut(WireLine wire)
    {
        Before(wire.To[0].Span.Start, 1);
        return Shape.Wire;
    }

    // longest | 2 m
    private Shape Cut(LeadProperty property)
    {
        At(property.Value.Span.Start, 1);
        return Shape.LeadFact;
    }

    // voice | on channel 2
    private Shape CutAfterNames(IReadOnlyList<NameRange> names)
    {
        After(names[^1].Span.End, 1);
        return Shape.DeviceSetting;
    }

    // 6 | MidiDin | 1.5 m | yellow
    private Shape Cut(StockLine stock)
    {
        At(stock.Lead.Span.Start, 1);
        if (stock.Length is { } length)
        {
            At(length.Span.Start, 2);
        }
        if (stock.Colours.Count > 0)
        {
            At(stock.Colours[0].Span.Start, 3);
        }
        return Shape.Stock;
    }

    private void Before(int offset, int column) => At(offset, column, back: 1);

    private void After(int offset, int column) => At(offset, column);

    /// <summary>Cuts at the first token from an offset on, or some tokens before it.</summary>
    private void At(int offset, int column, int back = 0)
    {
        var low = _range.First;
        var high = _range.End;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_tokens[middle].Start < offset)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        var token = low - back;
        if (token < _range.End && token > _range.First)
        {
            Cuts.Add((token, column));
        }
    }
}
