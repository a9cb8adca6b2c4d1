using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>What a name means in a file. <see cref="Other"/> is set when two imports bring different things of that name.</summary>
internal readonly record struct Meaning<T>(T? Symbol, T? Other)
    where T : class;

/// <summary>
/// Which gear, or which lead, a name means in a file. What the file declares itself wins over what its imports bring, and what a
/// player wrote wins over the library of the tool, so that no name added elsewhere changes a rig that has one of its own.
/// </summary>
internal sealed class DeclarationScope<T>(
    ImportGraph imports, Func<FileSymbols, string, T?> own, Func<LibraryFile, string, T?> ofLibrary, Func<T, T, bool> areEqual)
    where T : class
{
    private readonly Dictionary<(FileSymbols, string), Meaning<T>> _known = [];

    public Meaning<T> Find(FileSymbols file, string name)
    {
        if (!_known.TryGetValue((file, name), out var meaning))
        {
            meaning = FindFrom(file, name);
            if (meaning.Symbol is null && file != imports.Root)
            {
                // A file may leave it to the one that imports it to bring the gear.
                meaning = FindFrom(imports.Root, name);
            }
            _known.Add((file, name), meaning);
        }
        return meaning;
    }

    private Meaning<T> FindFrom(FileSymbols file, string name)
    {
        if (Own(file, name) is { } mine)
        {
            return new(mine, null);
        }
        if (name.IndexOf('.') is > 0 and var dot && imports.FileCalled(file, name[..dot]) is { } called)
        {
            return FindFrom(called, name[(dot + 1)..]);
        }
        var brought = new Brought();
        Collect(file, name, [file], brought);
        return brought.Players.Count > 0
            ? new(brought.Players[0], brought.Players.Count > 1 ? brought.Players[1] : null)
            : new(brought.Library, null);
    }

    private sealed class Brought
    {
        public List<T> Players { get; } = [];
        public T? Library { get; set; }
    }

    private void Collect(FileSymbols importer, string name, HashSet<FileSymbols> seen, Brought brought)
    {
        foreach (var imported in imports.ImportsOf(importer))
        {
            if (imported.As is not null || !seen.Add(imported.File))
            {
                continue;
            }
            if (Own(imported.File, name) is not { } found)
            {
                Collect(imported.File, name, seen, brought);
            }
            else if (imported.File.Library is not null)
            {
                brought.Library ??= found;
            }
            else if (!brought.Players.Exists(p => areEqual(p, found)))
            {
                brought.Players.Add(found);
            }
        }
    }

    private T? Own(FileSymbols file, string name) => file.Library is { } library ? ofLibrary(library, name) : own(file, name);
}

/// <summary>Whether two declarations say the same.</summary>
internal static class Declarations
{
    /// <summary>The same words in the same order; comments and layout do not count.</summary>
    public static bool AreEqual(FileSymbols one, Statement first, FileSymbols other, Statement second)
    {
        var a = one.Tree.TokensIn(one.Tree.WholeSpan(first));
        var b = other.Tree.TokensIn(other.Tree.WholeSpan(second));
        int i = 0, j = 0;
        while (true)
        {
            i = SkipLineEnds(a, i);
            j = SkipLineEnds(b, j);
            if (i == a.Length || j == b.Length)
            {
                return i == a.Length && j == b.Length;
            }
            // Lines are told apart by what stands on them; only where a line ends must be the same.
            if (!IsSame(a[i], one, b[j], other) || StartsLine(a, i) != StartsLine(b, j))
            {
                return false;
            }
            i++;
            j++;
        }
    }

    private static int SkipLineEnds(ReadOnlySpan<Token> tokens, int at)
    {
        while (at < tokens.Length && tokens[at].Kind == TokenKind.NewLine)
        {
            at++;
        }
        return at;
    }

    /// <summary>A line that goes on past a comma is one line; beside a brace a line end says nothing.</summary>
    private static bool StartsLine(ReadOnlySpan<Token> tokens, int at) =>
        at > 1 && tokens[at - 1].Kind == TokenKind.NewLine && tokens[at].Kind != TokenKind.CloseBrace
        && LastWordBefore(tokens, at) is not (TokenKind.Comma or TokenKind.OpenBrace);

    private static TokenKind LastWordBefore(ReadOnlySpan<Token> tokens, int at)
    {
        while (at > 0 && tokens[at - 1].Kind == TokenKind.NewLine)
        {
            at--;
        }
        return at > 0 ? tokens[at - 1].Kind : TokenKind.NewLine;
    }

    private static bool IsSame(Token a, FileSymbols one, Token b, FileSymbols other) =>
        a.Kind == b.Kind && (a.Text ?? one.Source.Slice(a.Span)) == (b.Text ?? other.Source.Slice(b.Span));
}
