using System.Collections.Frozen;
using RigLang.Checks;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What to show of a place, and which text it is about.</summary>
public sealed record HoverText(TextSpan Span, string Text);

/// <summary>
/// What there is to know about the place under the pointer. A name comes first, then the name of a check, then what the word means
/// there; the rest of a `connect` line is the cable.
/// </summary>
public static class HoverFinder
{
    private static readonly FrozenDictionary<string, Check> ChecksByName = CheckList.All.ToFrozenDictionary(c => c.Name);

    public static HoverText? At(RigView view, int offset, EditorStyle style)
    {
        offset = Math.Clamp(offset, 0, view.Source.Length);
        if (view.NameAt(offset) is { } name)
        {
            return new HoverText(name.Span, OfName(view, name.Of, style));
        }
        return CheckNameAt(view, offset, style) ?? WordAt(view, offset, style) ?? LineAt(view, offset, style);
    }

    /// <summary>The text about a thing, wherever it is named.</summary>
    internal static string OfName(RigView view, Named named, EditorStyle style) => named.Symbol switch
    {
        DeviceSymbol device => DeviceHover.Of(view, device, style),
        PortSymbol port => PortHover.Of(view, port, named.Device, style),
        LeadSymbol lead => LeadHover.Of(view, lead, style),
        GearSymbol gear => GearHover.Of(view, gear, style),
        PartSymbol part => VoiceHover.Of(view, part, named.Device, style),
        TrackSymbol track => VoiceHover.Of(view, track, named.Device, style),
        SoundSymbol sound => VoiceHover.Of(sound, named.Device, style),
        FileSymbols file => FileHover.Of(file, style),
        ImportStatement import => FileHover.OfImport(view, named, import, style),
        _ => named.Name,
    };

    /// <summary>The page of a check, wherever its name stands: in a comment too.</summary>
    private static HoverText? CheckNameAt(RigView view, int offset, EditorStyle style)
    {
        var text = view.Source.Content;
        var (start, end) = (offset, offset);
        while (start > 0 && IsOfCheckName(text[start - 1]))
        {
            start--;
        }
        while (end < text.Length && IsOfCheckName(text[end]))
        {
            end++;
        }
        return end > start && ChecksByName.TryGetValue(text[start..end], out var check)
            ? new HoverText(TextSpan.Between(start, end), CheckText.Of(check, style))
            : null;

        static bool IsOfCheckName(char c) => c is '-' || char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c);
    }

    private static HoverText? WordAt(RigView view, int offset, EditorStyle style)
    {
        var line = TypedLine.At(view, offset);
        var at = IndexAt(line.Tokens, offset);
        if (at < 0)
        {
            return null;
        }
        var token = line.Tokens[at];
        var word = token.Kind == TokenKind.Word ? token.Text! : "";
        var first = line.Tokens[0].Keyword;
        if (MessageKindAt(line.Tokens, at) is var (kind, span))
        {
            return new HoverText(span, WordText.Of(WordText.MessageKinds, kind, style)!);
        }
        if (ConnectorAt(view, offset, style) is { } connector)
        {
            return connector;
        }
        if (at > 0 && line.Tokens[at - 1].Kind is TokenKind.Number or TokenKind.Size && UnitHover.Of(word, line.Tokens[at - 1].Text, style) is { } unit)
        {
            return new HoverText(line.Tokens[at - 1].Span.To(token.Span), unit);
        }
        var isPort = line.Block == Keyword.Gear && first is Keyword.In or Keyword.Out && IsBehind(line.Tokens, at, TokenKind.Colon);
        if (isPort && WordText.Of(WordText.Signals, word, style) is { } signal)
        {
            return new HoverText(token.Span, signal);
        }
        if (at > 0 && line.Tokens[at - 1].Kind == TokenKind.Dot)
        {
            // A name that nothing has, whatever it spells.
            return null;
        }
        if (token.Keyword != Keyword.None && !isPort && !IsNamePlace(line, at) && LineStatementAt(view, offset) is not (ConnectStatement or ExpectStatement))
        {
            return new HoverText(token.Span, KeywordText.Of(token.Keyword, style));
        }
        return line.Block != Keyword.None && !isPort && !IsNamePlace(line, at) && WordText.Of(WordText.Settings, word, style) is { } setting
            ? new HoverText(token.Span, setting)
            : null;
    }

    /// <summary>The rest of a line: the cable, the promise, or the port that a line declares.</summary>
    private static HoverText? LineAt(RigView view, int offset, EditorStyle style)
    {
        var statement = LineStatementAt(view, offset);
        var text = statement switch
        {
            ConnectStatement connect => CableView.Of(view.Rig, connect) is { } cable ? ConnectionHover.Of(view, cable, style) : null,
            ExpectStatement expect => ExpectationHover.Of(view, expect, style),
            PortLine port => PortOf(view, port) is { } symbol ? PortHover.Of(view, symbol, null, style) : null,
            _ => null,
        };
        return text is null ? null : new HoverText(statement!.Span, text);
    }

    /// <summary>The statement, or the line of its block, that the offset is within.</summary>
    private static Statement? LineStatementAt(RigView view, int offset) => view.StatementAt(offset) is not { } statement ? null
        : statement.Span.Start <= offset && offset <= statement.Span.End ? statement
        : RigView.LineAt(statement, offset);

    private static int IndexAt(IReadOnlyList<Token> tokens, int offset)
    {
        var found = -1;
        for (var i = 0; i < tokens.Count && tokens[i].Start <= offset; i++)
        {
            if (tokens[i].End > offset || (tokens[i].End == offset && tokens[i].Kind is TokenKind.Word or TokenKind.Number or TokenKind.Size))
            {
                found = i;
            }
        }
        return found;
    }

    private static bool IsBehind(IReadOnlyList<Token> tokens, int at, TokenKind kind) => tokens.Take(at).Any(t => t.Kind == kind);

    /// <summary>Where a statement gives its name, any word is one.</summary>
    private static bool IsNamePlace(TypedLine line, int at) => at switch
    {
        1 => line.Block == Keyword.None && line.Tokens[0].Keyword is Keyword.Gear or Keyword.Lead or Keyword.Device,
        3 => line.Block == Keyword.None && line.Tokens[0].Keyword == Keyword.Device,
        0 => line.Block == Keyword.Device && line.Tokens[0].Keyword is not (Keyword.Clock or Keyword.Transport or Keyword.Runs),
        _ => false,
    };

    /// <summary>
    /// A message kind, one or two words: before `from` on a line of `must` or `never`, or behind `drops`, `only` or `filters`.
    /// </summary>
    private static (string Kind, TextSpan Span)? MessageKindAt(IReadOnlyList<Token> tokens, int at)
    {
        if (at == 0 || !StandsWhereKindsDo(tokens, at))
        {
            return null;
        }
        foreach (var first in (ReadOnlySpan<int>)[at, at - 1])
        {
            if (first > 0 && first + 1 < tokens.Count && at <= first + 1 && tokens[first].Text is { } one && tokens[first + 1].Text is { } two
                && WordText.MessageKinds.ContainsKey($"{one} {two}"))
            {
                return ($"{one} {two}", tokens[first].Span.To(tokens[first + 1].Span));
            }
        }
        return tokens[at].Text is { } only && WordText.MessageKinds.ContainsKey(only) ? (only, tokens[at].Span) : null;
    }

    private static bool StandsWhereKindsDo(IReadOnlyList<Token> tokens, int at)
    {
        var before = tokens.Take(at).Select(t => t.Keyword).ToList();
        return before[0] is Keyword.Must or Keyword.Never ? !before.Contains(Keyword.From)
            : before[0] == Keyword.Filters || before.Contains(Keyword.Drops) || before.Contains(Keyword.Only);
    }

    private static HoverText? ConnectorAt(RigView view, int offset, EditorStyle style)
    {
        switch (LineStatementAt(view, offset))
        {
            case PortLine { OnWord: { } on, On: [_, ..] words } port when offset > on.End:
                var jack = PortOf(view, port) is { Jacks: [var first, ..] } ? first : null;
                var span = words[0].Span.To(words[^1].Span);
                return jack is not null && TrailingWordAt(view, words, offset) is null
                    ? new HoverText(span, ConnectorHover.Of(jack.Form, jack, style))
                    : jack is null && FormOf(view, words) is { } form ? new HoverText(span, ConnectorHover.Of(form, null, style)) : null;
            case LeadStatement lead:
                var end = lead.Near.Concat(lead.Far).FirstOrDefault(e => e.Span.Start <= offset && offset <= e.Span.End);
                return end is not null && FormOf(view, end.Words) is { } plug ? new HoverText(end.Span, ConnectorHover.Of(plug, null, style)) : null;
            default:
                return null;
        }
    }

    /// <summary>A word of a connector that is explained by itself: <c>captive</c>, <c>type-b</c>.</summary>
    private static string? TrailingWordAt(RigView view, IReadOnlyList<AttributeNode> words, int offset) =>
        words.Where(w => w.IsWord && w.Span.Start <= offset && offset <= w.Span.End).Select(w => view.Source.Slice(w.Span))
            .FirstOrDefault(w => WordText.Signals.ContainsKey(w));

    private static Form? FormOf(RigView view, IReadOnlyList<AttributeNode> words) => new Reading(view.Source, []).Connector(words, out _);

    private static PortSymbol? PortOf(RigView view, PortLine line) =>
        line.Names.Count > 0 ? view.NameAt(line.Names[0].Span.Start)?.Of.Symbol as PortSymbol : null;
}
