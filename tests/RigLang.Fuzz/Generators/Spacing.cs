using System.Text;

namespace RigLang.Fuzz.Generators;

/// <summary>Writes statements with the spaces, blank lines, comments and breaks it is given, over and over.</summary>
internal sealed record Spacing(
    string[] Gaps, string[] Between, string[] Behind, string[] Commas, string[] Blocks, string[] Comments, string[] LineEnds)
{
    public string Write(IReadOnlyList<(string[] Header, string[][]? Body)> statements, bool lineEndAtEnd)
    {
        var writer = new Writer(this);
        for (var i = 0; i < statements.Count; i++)
        {
            writer.Statement(statements[i].Header, statements[i].Body, isLast: i == statements.Count - 1 && !lineEndAtEnd);
        }
        return writer.ToString();
    }

    private sealed class Writer(Spacing spacing)
    {
        private readonly StringBuilder _text = new();
        private int _gap;
        private int _between;
        private int _behind;
        private int _comma;
        private int _block;
        private int _comment;
        private int _lineEnd;

        public void Statement(string[] header, string[][]? body, bool isLast)
        {
            Between();
            Line(header);
            if (body is null)
            {
                EndOfLine(isLast);
                return;
            }
            var oneLine = body.Length <= 1 && Next(spacing.Blocks, ref _block) == "one line";
            _text.Append(Gap("", "{")).Append('{');
            if (!oneLine)
            {
                EndOfLine(false);
            }
            foreach (var line in body)
            {
                if (oneLine)
                {
                    _text.Append(Gap("{", line[0]));
                    Line(line);
                }
                else
                {
                    Between();
                    Line(line);
                    EndOfLine(false);
                }
            }
            if (!oneLine)
            {
                Between();
            }
            _text.Append(Gap("x", "}")).Append('}');
            // The next statement may stand right behind the brace.
            if (isLast || Next(spacing.Behind, ref _behind).Length == 0)
            {
                EndOfLine(isLast);
            }
        }

        public override string ToString() => _text.ToString();

        private void Line(string[] words)
        {
            for (var i = 0; i < words.Length; i++)
            {
                _text.Append(i == 0 ? "" : words[i - 1] == "," ? AfterComma(words[i]) : Gap(words[i - 1], words[i])).Append(words[i]);
            }
        }

        private string AfterComma(string next) => Next(spacing.Commas, ref _comma) switch
        {
            "break" => NextLineEnd() + " " + Gap(",", next),
            "commented break" => " " + Next(spacing.Comments, ref _comment) + NextLineEnd() + " " + Gap(",", next),
            _ => Gap(",", next),
        };

        private void Between()
        {
            // What follows a brace on its line is no place for a comment on a line of its own.
            if (_text.Length > 0 && _text[^1] is not ('\n' or '\r'))
            {
                return;
            }
            foreach (var what in Next(spacing.Between, ref _between).Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                _text.Append(Gap("", "")).Append(what == "comment" ? Next(spacing.Comments, ref _comment) : "").Append(NextLineEnd());
            }
            _text.Append(Gap("", ""));
        }

        private void EndOfLine(bool isLast)
        {
            _text.Append(Gap("", ""));
            if (Next(spacing.Behind, ref _behind) == "comment")
            {
                _text.Append(Next(spacing.Comments, ref _comment));
            }
            _text.Append(isLast ? "" : NextLineEnd());
        }

        private string Gap(string before, string after)
        {
            var gap = Next(spacing.Gaps, ref _gap);
            return gap.Length == 0 && WouldMerge(before, after) ? " " : gap;
        }

        private string NextLineEnd() => Next(spacing.LineEnds, ref _lineEnd);

        private static string Next(string[] list, ref int at) => list[at++ % list.Length];
    }

    /// <summary>Two words need a space between them, but a number and its unit do not.</summary>
    private static bool WouldMerge(string before, string after)
    {
        if (before.Length == 0 || after.Length == 0)
        {
            return false;
        }
        var (last, first) = (before[^1], after[0]);
        if (IsNumber(before) && after == ".")
        {
            return true;
        }
        if (before == "+")
        {
            return char.IsAsciiDigit(first);
        }
        if (!IsWordly(last) || !(IsWordly(first) || first is '-' or '+'))
        {
            return false;
        }
        return !(IsNumber(before) && char.IsLetter(first) && first != 'x');
    }

    private static bool IsNumber(string word) => char.IsAsciiDigit(word[^1]) && (char.IsAsciiDigit(word[0]) || word[0] is '-' or '+');

    private static bool IsWordly(char c) => char.IsLetterOrDigit(c) || c is '_' or '-' || c >= 0x80;
}
