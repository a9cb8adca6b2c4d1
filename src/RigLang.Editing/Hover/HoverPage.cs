using System.Text;
using RigLang.Formatting;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>
/// Puts a text together, as Markdown or plain. What a player named is set off as code and what a player said is escaped, so that none of
/// it is read as Markdown; signs that hide or reorder text are shown.
/// </summary>
internal sealed class HoverPage(EditorStyle style)
{
    private readonly StringBuilder _text = new();
    private Block _last = Block.None;

    private enum Block
    {
        None,
        Paragraph,
        Facts,
        Table,
        Rig,
    }

    public bool IsMarkdown => style.Markdown;

    /// <summary>A name as it stands in a file.</summary>
    public string Name(string name)
    {
        if (!style.Markdown)
        {
            return name;
        }
        var fence = new string('`', LongestRun(name, '`') + 1);
        return name.Length == 0 || name[0] == '`' || name[^1] == '`' ? $"{fence} {name} {fence}" : fence + name + fence;
    }

    public string Names(IEnumerable<string> names, int most = 8) => Checks.Wording.And(names.Select(Name), most);

    /// <summary>To two decimals: what a tape measure shows.</summary>
    public string Length(Metre length) => style.InFeet
        ? $"{Units.Figure(Math.Round(length.Value / Units.Table["ft"].InBaseUnits, 2))} ft"
        : new Metre(Math.Round(length.Value, 2)).ToString();

    /// <param name="text">Its names already set off.</param>
    public HoverPage Title(string text)
    {
        Begin(Block.Paragraph);
        _text.Append(style.Markdown ? $"**{text}**" : text);
        return this;
    }

    public HoverPage Line(string text)
    {
        Begin(Block.Paragraph);
        _text.Append(text);
        return this;
    }

    /// <summary>What a player wrote, shown as it was written.</summary>
    public HoverPage Said(string text) => Line(style.Markdown ? MarkdownText.Escape(VisibleText.Of(text, keepLines: true)) : text);

    /// <summary>A line about one thing; left out when there is nothing to say.</summary>
    public HoverPage Fact(string label, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            Begin(Block.Facts);
            _text.Append(style.Markdown ? "- " : "").Append(label).Append(": ").Append(text);
        }
        return this;
    }

    public HoverPage Table(IReadOnlyList<string> heads, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        if (rows.Count == 0)
        {
            return this;
        }
        Begin(Block.Table);
        IEnumerable<IReadOnlyList<string>> all = [heads, .. rows];
        _text.AppendJoin('\n', style.Markdown ? MarkdownRows(all, heads.Count) : AlignedRows([.. all]));
        return this;
    }

    public HoverPage Rig(string example)
    {
        Begin(Block.Rig);
        var lines = example.ReplaceLineEndings("\n").Trim('\n').Split('\n');
        _text.AppendJoin('\n', style.Markdown ? ["```rig", .. lines, "```"] : lines.Select(line => line.Length == 0 ? "" : $"    {line}"));
        return this;
    }

    public override string ToString() => VisibleText.Of(_text.ToString(), keepLines: true);

    private void Begin(Block block)
    {
        if (_last != Block.None)
        {
            _text.Append(block == Block.Facts && _last == Block.Facts ? "\n" : "\n\n");
        }
        _last = block;
    }

    private static IEnumerable<string> MarkdownRows(IEnumerable<IReadOnlyList<string>> rows, int columns) => rows
        .Select(row => $"| {string.Join(" | ", row.Select(cell => cell.Replace("|", "\\|", StringComparison.Ordinal)))} |")
        .Select((row, i) => i == 0 ? $"{row}\n|{string.Concat(Enumerable.Repeat(" --- |", columns))}" : row);

    private static IEnumerable<string> AlignedRows(IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var widths = rows[0].Select((_, i) => rows.Max(row => DisplayWidth.Of(row[i]))).ToList();
        return rows.Select(row => string.Join("  ", row.Select((cell, i) => cell + new string(' ', widths[i] - DisplayWidth.Of(cell)))).TrimEnd());
    }

    private static int LongestRun(string text, char wanted)
    {
        var (longest, run) = (0, 0);
        foreach (var c in text)
        {
            run = c == wanted ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }
        return longest;
    }
}
