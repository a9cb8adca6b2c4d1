using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A `connect` line: free outputs first, then only what the signal fits, then only leads that fit both ends.</summary>
internal static class ConnectSuggestions
{
    public static void Add(CaretLine line, EditorStyle style, SuggestionList list)
    {
        var from = new PathsTyped(line.View);
        PathsTyped? to = null;
        var i = 1;
        for (; i < line.Before.Count; i++)
        {
            var token = line.Before[i];
            if ((to ?? from).Take(token))
            {
                continue;
            }
            if (to is null && token.Keyword == Keyword.To)
            {
                to = new PathsTyped(line.View);
                continue;
            }
            break;
        }
        if (i < line.Before.Count)
        {
            if (to is not null)
            {
                LeadSuggestions.Add(line, i, from, to, style, list);
            }
            return;
        }
        if (to is null)
        {
            AddFrom(line, from, list);
        }
        else
        {
            AddTo(line, from, to, list);
        }
    }

    private static void AddFrom(CaretLine line, PathsTyped from, SuggestionList list)
    {
        var use = new PortUse(line.View, line.Offset);
        switch (from.Slot)
        {
            case PathSlot.Device or PathSlot.InImport:
                foreach (var (name, device) in line.View.NamedDevices)
                {
                    var outputs = device.Gear?.Ports.Count(p => PortUse.CanFeed(p) && use.IsFree(device, p)) ?? 0;
                    list.Device(outputs > 0 ? 0 : 1, name, from, device.Gear is null ? device.Statement.Gear.Text : $"{device.Gear.Name}, {Count(outputs)}", device);
                }
                list.Prefixes(from);
                break;
            case PathSlot.Inside or PathSlot.RangeEnd when from.Device is { Gear: { } gear } device:
                foreach (var port in gear.Ports)
                {
                    var rank = PortUse.CanFeed(port) ? port.IsOutput ? 0 : 10 : 20;
                    AddPort(device, port, rank, use, list);
                }
                break;
            case PathSlot.Side:
                AddSides(from, use, list);
                break;
            case PathSlot.After:
                list.Keyword(0, "to");
                break;
        }

        static string Count(int outputs) => outputs switch { 0 => "no free output", 1 => "1 free output", _ => $"{outputs} free outputs" };
    }

    private static void AddTo(CaretLine line, PathsTyped from, PathsTyped to, SuggestionList list)
    {
        var use = new PortUse(line.View, line.Offset);
        var source = from.Jacks()?[0];
        switch (to.Slot)
        {
            case PathSlot.Device or PathSlot.InImport:
                AddTargets(line, source, to, use, list);
                list.Prefixes(to);
                break;
            case PathSlot.Inside or PathSlot.RangeEnd when to.Device is { Gear: { } gear } device:
                foreach (var port in gear.Ports)
                {
                    if (source is { } jack && !RigWiring.GoTogether(jack.Jack.Port, port))
                    {
                        continue;
                    }
                    AddPort(device, port, RankOf(source?.Jack.Port, port), use, list);
                }
                break;
            case PathSlot.Side:
                AddSides(to, use, list);
                break;
            case PathSlot.After:
                list.Keyword(0, "with");
                LeadSuggestions.AddColours(1, list);
                break;
        }
    }

    private static void AddTargets(CaretLine line, JackRef? source, PathsTyped to, PortUse use, SuggestionList list)
    {
        var devices = new List<(int Rank, double Away, WrittenName Name, DeviceSymbol Device, string Detail)>();
        foreach (var (name, device) in line.View.NamedDevices)
        {
            if (device.Gear is not { } gear)
            {
                devices.Add((PortUse.Full + 100, 0, name, device, device.Statement.Gear.Text));
                continue;
            }
            var fitting = gear.Ports.Where(p => source is null ? PortUse.CanTake(p) : RigWiring.GoTogether(source.Value.Jack.Port, p)).ToList();
            if (fitting.Count == 0)
            {
                continue;
            }
            var best = fitting.MinBy(p => Rank(device, p))!;
            var away = source is { } from ? from.Device.DistanceTo(device)?.Value : null;
            var detail = $"{gear.Name}: {best.Name}{(use.Describe(device, best) is { Length: > 0 } taken ? ", " + taken : "")}{(away is { } metres and > 0 ? $", {new Metre(Math.Round(metres, 1))} away" : "")}";
            var rank = Rank(device, best) + (source is { } own && own.Device == device ? 50 : 0);
            devices.Add((rank, away ?? double.MaxValue, name, device, detail));
        }
        foreach (var (rank, _, name, device, detail) in devices.OrderBy(d => d.Rank).ThenBy(d => d.Away))
        {
            list.Device(rank, name, to, detail, device);
        }

        int Rank(DeviceSymbol device, PortSymbol port) => RankOf(source?.Jack.Port, port) + use.Rank(device, port);
    }

    /// <summary>The same signal, the right way round: the less, the better.</summary>
    private static int RankOf(PortSymbol? source, PortSymbol target)
    {
        var isSame = source?.Signal is null || source.Signal.Kind == target.Signal?.Kind;
        var isRightWay = source is null || (PortUse.CanFeed(source) && PortUse.CanTake(target)) || (PortUse.CanTake(source) && PortUse.CanFeed(target));
        // An input is meant before a socket that only passes on; the level it is made for before another.
        var isInput = source?.IsOutput != true || !target.IsPassive;
        return (isSame ? 0 : 20) + (isRightWay ? 0 : 10) + (IsLevel(source, target) ? 0 : 4) + (isInput ? 0 : 2);
    }

    private static bool IsLevel(PortSymbol? source, PortSymbol target) =>
        (source?.Signal, target.Signal) is not ({ Kind: SignalKind.Audio, Level: var a }, { Kind: SignalKind.Audio, Level: var b })
        || a == b
        || (a is AudioLevel.Mic or AudioLevel.Line && b == AudioLevel.MicOrLine)
        || (b is AudioLevel.Mic or AudioLevel.Line && a == AudioLevel.MicOrLine);

    private static void AddPort(DeviceSymbol device, PortSymbol port, int rank, PortUse use, SuggestionList list)
    {
        var taken = use.Describe(device, port);
        list.Name(rank + use.Rank(device, port), port.Name, SuggestionKind.Port,
            taken.Length > 0 ? $"{PortText.Of(port)}, {taken}" : PortText.Of(port), SuggestionKey.Of("port", device.Name, port.Name));
    }

    private static void AddSides(PathsTyped paths, PortUse use, SuggestionList list)
    {
        if (paths.Device is not { Gear: { } gear } device
            || !gear.PortsByName.TryGetValue(paths.Current[1].Text, out var port) || port.Jacks.Count < 2)
        {
            return;
        }
        foreach (var (jack, side) in port.Jacks.Zip(["left", "right"]))
        {
            var taken = use.Of(device, jack);
            list.Word(taken is null ? 0 : 1, side, SuggestionKind.Port,
                $"{jack.Form}{(taken is null ? "" : ", in use by " + PortText.OtherEnd(taken, new JackRef(device, jack)))}", SuggestionKey.Of("port", device.Name, port.Name));
        }
    }
}
