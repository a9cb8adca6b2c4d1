namespace RigLang.Text;

/// <summary>
/// One file's text and its lines. <see cref="Path"/> is what the player typed or what the import says,
/// with forward slashes; the compiler never touches the disk. Line ends are LF, CRLF or a lone CR, mixed at will.
/// </summary>
public sealed class SourceText
{
    private int[]? _lineStarts;

    public SourceText(string path, string content)
    {
        Path = path;
        Content = content;
    }

    public string Path { get; }
    public string Content { get; }
    public int Length => Content.Length;

    public int LineCount => LineStarts.Length;

    private int[] LineStarts => _lineStarts ??= FindLineStarts(Content);

    /// <summary>Zero-based line and column (UTF-16 units) of an offset; an offset past the end gives the last place.</summary>
    public (int Line, int Column) PositionOf(int offset)
    {
        offset = Math.Clamp(offset, 0, Length);
        var found = Array.BinarySearch(LineStarts, offset);
        var line = found >= 0 ? found : ~found - 1;
        return (line, offset - LineStarts[line]);
    }

    /// <summary>The line end that the file uses, by its first line.</summary>
    public string LineEnd => LineCount > 1 && Content[LineSpan(0).End..LineStarts[1]] is { Length: > 0 } end ? end : "\n";

    /// <summary>Offset of the first character of a zero-based line.</summary>
    public int LineStart(int line) => LineStarts[line];

    /// <summary>A zero-based line without its line end.</summary>
    public TextSpan LineSpan(int line)
    {
        var start = LineStarts[line];
        var end = line + 1 < LineStarts.Length ? LineStarts[line + 1] : Length;
        while (end > start && Content[end - 1] is '\n' or '\r')
        {
            end--;
        }
        return TextSpan.Between(start, end);
    }

    public string Slice(TextSpan span) => Content.Substring(span.Start, span.Length);

    private static int[] FindLineStarts(string content)
    {
        var starts = new List<int>(content.Length / 32 + 1) { 0 };
        for (var i = 0; i < content.Length; i++)
        {
            if (content[i] == '\n' || (content[i] == '\r' && (i + 1 == content.Length || content[i + 1] != '\n')))
            {
                starts.Add(i + 1);
            }
        }
        return [.. starts];
    }
}

/// <summary>A span in a file.</summary>
public readonly record struct Location(SourceText Source, TextSpan Span);
