namespace RigLang.Syntax;

/// <summary>
/// The words of a file: each different one is one string, and known with the keyword it spells. Most of what the lexer does is
/// look up words, so that one look finds both.
/// </summary>
internal sealed class NameTable
{
    private Word?[] _words = new Word?[128];
    private int _count;

    public NameTable()
    {
        foreach (var (spelling, keyword) in Keywords.Table)
        {
            Put(new Word(spelling, keyword, HashOf(spelling)));
        }
    }

    public Word Find(ReadOnlySpan<char> text)
    {
        var hash = HashOf(text);
        for (var at = hash & (_words.Length - 1); _words[at] is { } word; at = (at + 1) & (_words.Length - 1))
        {
            if (word.Hash == hash && text.SequenceEqual(word.Text))
            {
                return word;
            }
        }
        var added = new Word(text.ToString(), Keyword.None, hash);
        Put(added);
        return added;
    }

    private void Put(Word word)
    {
        // Never more than half full: a search meets an empty place soon.
        if (++_count * 2 > _words.Length)
        {
            var before = _words;
            _words = new Word?[before.Length * 2];
            foreach (var known in before)
            {
                if (known is not null)
                {
                    Place(known);
                }
            }
        }
        Place(word);
    }

    private void Place(Word word)
    {
        var at = word.Hash & (_words.Length - 1);
        while (_words[at] is not null)
        {
            at = (at + 1) & (_words.Length - 1);
        }
        _words[at] = word;
    }

    private static int HashOf(ReadOnlySpan<char> text)
    {
        // FNV-1a, and its high bits folded onto those that choose the place.
        var hash = 2166136261;
        foreach (var c in text)
        {
            hash = (hash ^ c) * 16777619;
        }
        return (int)(hash ^ (hash >> 15));
    }

    public sealed record Word(string Text, Keyword Keyword, int Hash);
}
