using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>What a caret in a path waits for.</summary>
internal enum PathSlot
{
    Device,
    /// <summary>A device that an import brings under the name before the dot.</summary>
    InImport,
    Inside,
    Side,
    RangeEnd,
    /// <summary>Behind a whole path.</summary>
    After,
    /// <summary>Nothing can be said.</summary>
    Lost,
}

/// <summary>
/// Reads a list of paths such as <c>desk.ch1, desk.ch34.left</c> token by token. Behind the name of an import the next name is still
/// the device's: <c>tide.bass</c> is one name.
/// </summary>
internal sealed class PathsTyped(RigView view)
{
    public List<List<Name>> Paths { get; } = [];

    /// <summary>The last name of a range <c>out1..out3</c>, by place in <see cref="Paths"/>.</summary>
    public Dictionary<int, Name> RangeEnds { get; } = [];

    public PathSlot Slot { get; private set; } = PathSlot.Device;

    /// <summary>The path that is being typed.</summary>
    public IReadOnlyList<Name> Current => Paths.Count > 0 ? Paths[^1] : [];

    /// <summary>The device that the path being typed begins with; null when it is not known.</summary>
    public DeviceSymbol? Device => Current.Count > 0 ? view.DeviceCalled(Current[0].Text) : null;

    /// <summary>The import whose device is being typed; null where none is.</summary>
    public string? Prefix => Slot == PathSlot.InImport ? Current[0].Text : null;

    /// <summary>True while the path is only the name of an import.</summary>
    private bool _isPrefix;

    /// <summary>False when the token is no part of a path, which is over then.</summary>
    public bool Take(Token token)
    {
        switch (Slot)
        {
            case PathSlot.Device when token.IsName:
                Paths.Add([new Name(token)]);
                _isPrefix = view.Prefixes.Contains(token.Text!);
                Slot = PathSlot.After;
                return true;
            case PathSlot.InImport when token.IsName:
                Paths[^1][0] = new Name($"{Paths[^1][0].Text}.{token.Text}", Paths[^1][0].Span.To(token.Span));
                _isPrefix = false;
                Slot = PathSlot.After;
                return true;
            case PathSlot.Inside or PathSlot.Side when token.IsName:
                Paths[^1].Add(new Name(token));
                Slot = PathSlot.After;
                return true;
            case PathSlot.RangeEnd when token.IsName:
                RangeEnds[Paths.Count - 1] = new Name(token);
                Slot = PathSlot.After;
                return true;
            case PathSlot.After when token.Kind == TokenKind.Dot:
                Slot = _isPrefix ? PathSlot.InImport : Paths[^1].Count switch { 1 => PathSlot.Inside, 2 => PathSlot.Side, _ => PathSlot.Lost };
                return true;
            case PathSlot.After when token.Kind == TokenKind.DotDot:
                Slot = PathSlot.RangeEnd;
                return true;
            case PathSlot.After when token.Kind == TokenKind.Comma:
                Slot = PathSlot.Device;
                return true;
            case PathSlot.After:
                return false;
            default:
                Slot = PathSlot.Lost;
                return true;
        }
    }

    /// <summary>The jacks that the whole paths name; null when one of them is not known.</summary>
    public IReadOnlyList<JackRef>? Jacks()
    {
        var jacks = new List<JackRef>();
        for (var i = 0; i < Paths.Count; i++)
        {
            var path = Paths[i];
            if (path.Count < 2 || view.DeviceCalled(path[0].Text) is not { Gear: { } gear } device)
            {
                return null;
            }
            var names = RangeEnds.TryGetValue(i, out var last) ? new Reading(view.Source, []).Expand([new NameRange(path[1], last)]) : [path[1]];
            foreach (var name in names)
            {
                if (!gear.PortsByName.TryGetValue(name.Text, out var port))
                {
                    return null;
                }
                jacks.AddRange(JacksOf(port, path.Count > 2 ? path[2].Text : null).Select(jack => new JackRef(device, jack)));
            }
        }
        return jacks.Count > 0 ? jacks : null;
    }

    private static IEnumerable<JackSymbol> JacksOf(PortSymbol port, string? side) => side switch
    {
        "left" when port.Jacks.Count > 1 => [port.Jacks[0]],
        "right" when port.Jacks.Count > 1 => [port.Jacks[1]],
        _ => port.Jacks,
    };
}
