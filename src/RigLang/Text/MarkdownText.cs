using System.Text;

namespace RigLang.Text;

/// <summary>
/// Text that stays what it is when it is read as Markdown: no picture is fetched, no link or command offered, no HTML taken. Only what
/// means something where it stands is escaped, since some editors show Markdown as it is written.
/// Source: CommonMark 0.31, backslash escapes; GitHub Flavored Markdown, tables, strikethrough and autolinks.
/// </summary>
public static class MarkdownText
{
    /// <param name="text">Any text, of one line or several.</param>
    public static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length + 8);
        var begin = 0;
        for (var at = 0; at < text.Length; at++)
        {
            if (MeansSomething(text, begin, at))
            {
                escaped.Append('\\');
            }
            escaped.Append(text[at]);
            if (text[at] == '\n')
            {
                begin = at + 1;
            }
        }
        return escaped.ToString();
    }

    /// <param name="text">The whole text.</param>
    /// <param name="begin">Where the line begins.</param>
    /// <param name="at">Where the sign stands.</param>
    private static bool MeansSomething(string text, int begin, int at) => text[at] switch
    {
        '\\' or '`' or '*' or '[' or ']' or '<' or '>' or '|' or '~' or '@' => true,
        '!' => Next(text, at) == '[',
        '&' => Next(text, at) is '#' || char.IsAsciiLetter(Next(text, at)),
        // Inside a word it is no emphasis.
        '_' => at == 0 || !char.IsLetterOrDigit(text[at - 1]) || !char.IsLetterOrDigit(Next(text, at)),
        // Of an address, whatever its scheme.
        ':' => at > 0 && char.IsAsciiLetter(text[at - 1]) && !char.IsWhiteSpace(Next(text, at)),
        '#' or '+' or '-' or '=' => text.AsSpan(begin, at - begin).IsWhiteSpace(),
        '.' => IsNumber(text.AsSpan(begin, at - begin)) || text.AsSpan(begin, at - begin).EndsWith("www", StringComparison.OrdinalIgnoreCase),
        ')' => IsNumber(text.AsSpan(begin, at - begin)),
        _ => false,
    };

    private static char Next(string text, int at) => at + 1 < text.Length ? text[at + 1] : ' ';

    private static bool IsNumber(ReadOnlySpan<char> before) => before.Trim() is { Length: > 0 } number && !number.ContainsAnyExceptInRange('0', '9');
}
