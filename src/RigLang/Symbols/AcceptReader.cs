using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>What an `accept` line says, with the devices and what is inside them looked up.</summary>
internal static class AcceptReader
{
    /// <param name="device">The device of that name; null, and noted, when there is none.</param>
    public static void Read(AcceptStatement statement, RigNames names, Reading reading, Func<Name, DeviceSymbol?> device)
    {
        var targets = new List<Target>();
        var isClear = true;
        foreach (var path in statement.On)
        {
            isClear &= AddTargets(path, targets, reading, device);
        }
        if (string.IsNullOrWhiteSpace(statement.Reason.Text))
        {
            reading.Note(new IncompleteDeclaration(reading.At(statement.Reason.Span), "what is accepted",
                "its reason, such as because \"short, and quiet in rehearsal\": it is read again next time"));
            isClear = false;
        }
        if (isClear)
        {
            names.Accepts.Add(new AcceptSymbol(statement.Check.Text, reading.At(statement.Check.Span), targets, statement.Reason.Text, statement,
                reading.At(statement.Span)));
        }
    }

    /// <summary>A device, or ports, parts or tracks of one; a range stands for each of its names.</summary>
    private static bool AddTargets(PathNode path, List<Target> targets, Reading reading, Func<Name, DeviceSymbol?> device)
    {
        var at = reading.At(path.Span);
        var isClear = true;
        if (path.Parts.Count == 1)
        {
            foreach (var name in path.Last is { } last ? reading.ExpandRange(path.Parts[0], last) : [path.Parts[0]])
            {
                if (device(name) is { } one)
                {
                    targets.Add(new Target(one, null, null, null, at));
                }
                else
                {
                    isClear = false;
                }
            }
            return isClear;
        }
        if (device(path.Parts[0]) is not { Gear: { } gear } owner)
        {
            return false;
        }
        foreach (var name in path.Last is { } upTo ? reading.ExpandRange(path.Parts[^1], upTo) : [path.Parts[1]])
        {
            var target = new Target(owner, gear.PortsByName.GetValueOrDefault(name.Text), gear.Parts.GetValueOrDefault(name.Text),
                gear.Tracks.GetValueOrDefault(name.Text), at);
            if (target is not { Port: null, Part: null, Track: null })
            {
                targets.Add(target);
                continue;
            }
            isClear = false;
            if (!gear.IsIncomplete)
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"port, part or track of {gear.Name}", name.Text,
                    [.. gear.PortsByName.Keys, .. gear.Parts.Keys, .. gear.Tracks.Keys]));
            }
        }
        return isClear;
    }
}
