using System.Text;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;
using Range = RigLang.LanguageServer.Protocol.Range;

namespace RigLang.LanguageServer;

/// <summary>How a client counts the characters of a line. Source: LSP 3.17, PositionEncodingKind.</summary>
internal enum PositionEncoding
{
    Utf16,
    Utf8,
    Utf32,
}

/// <summary>Offsets to positions and back, as one client counts them. A place outside the text is the nearest place in it.</summary>
internal static class Positions
{
    /// <summary>The first the client names that the server knows; UTF-16 when it names none. UTF-8 and UTF-32 cost a walk along the line.</summary>
    public static PositionEncoding Negotiate(IReadOnlyList<string>? offered)
    {
        foreach (var name in offered ?? [])
        {
            switch (name)
            {
                case "utf-8":
                    return PositionEncoding.Utf8;
                case "utf-16":
                    return PositionEncoding.Utf16;
                case "utf-32":
                    return PositionEncoding.Utf32;
            }
        }
        return PositionEncoding.Utf16;
    }

    public static string NameOf(PositionEncoding encoding) => encoding switch
    {
        PositionEncoding.Utf8 => "utf-8",
        PositionEncoding.Utf32 => "utf-32",
        _ => "utf-16",
    };

    public static int OffsetOf(SourceText source, Position position, PositionEncoding encoding)
    {
        if (position.Line < 0)
        {
            return 0;
        }
        if (position.Line >= source.LineCount)
        {
            return source.Length;
        }
        var line = source.LineSpan(position.Line);
        var text = source.Content.AsSpan(line.Start, line.Length);
        return line.Start + encoding switch
        {
            PositionEncoding.Utf8 => UnitsFor(text, position.Character, static rune => rune.Utf8SequenceLength),
            PositionEncoding.Utf32 => UnitsFor(text, position.Character, static _ => 1),
            _ => Math.Clamp(position.Character, 0, line.Length),
        };
    }

    public static Position PositionOf(SourceText source, int offset, PositionEncoding encoding)
    {
        var (line, column) = source.PositionOf(offset);
        if (encoding == PositionEncoding.Utf16)
        {
            return new Position(line, column);
        }
        var count = 0;
        foreach (var rune in source.Content.AsSpan(source.LineStart(line), column).EnumerateRunes())
        {
            count += encoding == PositionEncoding.Utf8 ? rune.Utf8SequenceLength : 1;
        }
        return new Position(line, count);
    }

    public static Range RangeOf(SourceText source, TextSpan span, PositionEncoding encoding) =>
        new(PositionOf(source, span.Start, encoding), PositionOf(source, span.End, encoding));

    public static TextSpan SpanOf(SourceText source, Range range, PositionEncoding encoding)
    {
        // The wrong way round is read as the editor must have meant it.
        var (one, other) = (OffsetOf(source, range.Start, encoding), OffsetOf(source, range.End, encoding));
        return TextSpan.Between(Math.Min(one, other), Math.Max(one, other));
    }

    /// <summary>How many UTF-16 units hold so many of the client's; a place inside a character is the place before it.</summary>
    private static int UnitsFor(ReadOnlySpan<char> line, int wanted, Func<Rune, int> sizeOf)
    {
        var units = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            wanted -= sizeOf(rune);
            if (wanted < 0)
            {
                break;
            }
            units += rune.Utf16SequenceLength;
        }
        return units;
    }
}
