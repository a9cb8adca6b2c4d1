using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Suggestions as they are found: the lower rank first, and of one rank the one added first.</summary>
internal sealed class SuggestionList(CaretLine line)
{
    private readonly List<Suggestion> _all = [];
    private readonly HashSet<(string, SuggestionKind)> _seen = [];

    public IReadOnlyList<Suggestion> Sorted => [.. _all.OrderBy(s => s.SortKey, StringComparer.Ordinal)];

    /// <summary>A name, in quotes where it needs them.</summary>
    public void Name(int rank, string name, SuggestionKind kind, string detail, string? key = null)
    {
        var insert = line.IsOpenQuote ? name + "\"" : line.IsQuoted ? name : Checks.Wording.Written(name);
        Add(rank, name, kind, detail, insert, false, key);
    }

    /// <summary>
    /// A name of this file or of one of its imports. Behind <c>tide.</c> stands only what that brings, by its own name; the name of an
    /// import is no part of a quoted name.
    /// </summary>
    public void Name(int rank, WrittenName name, IReadOnlyList<string> behind, SuggestionKind kind, string detail, string? key = null)
    {
        if (behind.Count > name.Prefixes.Count || !name.Prefixes.Take(behind.Count).SequenceEqual(behind) || (line.IsQuoted && name.Prefixes.Count > behind.Count))
        {
            return;
        }
        var rest = name with { Prefixes = [.. name.Prefixes.Skip(behind.Count)] };
        if (rest.Prefixes.Count == 0)
        {
            Name(rank, rest.Own, kind, detail, key);
        }
        else
        {
            Add(rank, rest.ToString(), kind, detail, string.Join('.', rest.Prefixes.Append(rest.Own).Select(Checks.Wording.Written)), false, key);
        }
    }

    /// <summary>A device, where the path that is being typed waits for one.</summary>
    public void Device(int rank, WrittenName name, PathsTyped path, string detail, DeviceSymbol device) =>
        Name(rank, name, path.Prefix is { } prefix ? [prefix] : [], SuggestionKind.Device, detail, SuggestionKey.Of("device", device.Name));

    /// <summary>The names of this file's imports, where a path begins; behind one of them stands a device.</summary>
    public void Prefixes(PathsTyped path)
    {
        if (path.Prefix is null)
        {
            Prefixes([]);
        }
    }

    /// <summary>The names of imports that can stand next, before a device, a gear or a lead of theirs.</summary>
    public void Prefixes(IReadOnlyList<string> behind)
    {
        var (file, names) = (line.View.File, line.View.Rig.Names);
        foreach (var prefix in behind)
        {
            if (names.FileCalled(file, prefix) is not { } called)
            {
                return;
            }
            file = called;
        }
        foreach (var prefix in NamesOfFile.PrefixesOf(file))
        {
            Name(PrefixRank, prefix.Text, SuggestionKind.Import, names.FileCalled(file, prefix.Text)?.Source.Path ?? "an import that brings nothing");
        }
    }

    /// <summary>Behind the names that fit, before those that are in use already.</summary>
    private const int PrefixRank = 99;

    /// <summary>A text that always stands in quotes, where the caret is in none yet.</summary>
    public void Quoted(int rank, string text, SuggestionKind kind, string detail) => Add(rank, text, kind, detail, $"\"{text}\"", false, null);

    /// <summary>A word of the language; none stands between quotes.</summary>
    public void Word(int rank, string word, SuggestionKind kind, string detail = "", string? key = null)
    {
        if (!line.IsQuoted)
        {
            Add(rank, word, kind, detail, line.TouchesNumber ? " " + word : word, false, key);
        }
    }

    public void Keyword(int rank, string word, string detail = "") =>
        Word(rank, word, SuggestionKind.Keyword, detail, PageOf(word));

    public void Keywords(int rank, params ReadOnlySpan<string> words)
    {
        foreach (var word in words)
        {
            Keyword(rank, word);
        }
    }

    public void Snippet(int rank, string label, string insert, string detail)
    {
        if (!line.IsQuoted)
        {
            Add(rank, label, SuggestionKind.Snippet, detail, insert, true, PageOf(label));
        }
    }

    /// <summary>The page of the word that a phrase starts with.</summary>
    private static string? PageOf(string phrase)
    {
        var word = phrase.Split(' ')[0];
        return SuggestionPages.HasPage(word) ? SuggestionKey.Of("word", word) : null;
    }

    private void Add(int rank, string label, SuggestionKind kind, string detail, string insert, bool isSnippet, string? key)
    {
        // A name of no letters cannot be picked from a list.
        if (label.Length > 0 && _seen.Add((label, kind)))
        {
            _all.Add(new Suggestion(label, kind, detail, line.Replace, insert, isSnippet, $"{rank:D4}{_all.Count:D5}", key));
        }
    }
}

/// <summary>What a suggestion stands for, as one text that a client hands back.</summary>
internal static class SuggestionKey
{
    // A line end is in no name, so that it parts names whatever they hold.
    private const char Between = '\n';

    public static string Of(string kind, params ReadOnlySpan<string> names) => kind + Between + string.Join(Between, names);

    public static string[] Parts(string key) => key.Split(Between);
}
