using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>A stretch of text, with what it is (a place in <see cref="TokenPainter.Types"/>) and how (bits of <see cref="TokenPainter.Modifiers"/>).</summary>
public readonly record struct Paint(TextSpan Span, int Type, int Modifiers);

/// <summary>
/// What each word is, for colouring. Types are those that LSP 3.17 names, so that every colour scheme has a colour for them: gear is a class, a lead
/// a struct, a device a variable, a port a property, a part a function, a track an event, the name of an import a namespace.
/// </summary>
public static class TokenPainter
{
    public static IReadOnlyList<string> Types { get; } =
        ["keyword", "class", "struct", "variable", "property", "function", "event", "string", "number", "enumMember", "comment", "namespace"];

    public static IReadOnlyList<string> Modifiers { get; } = ["declaration", "defaultLibrary"];

    private const int Keyword = 0, Gear = 1, Lead = 2, Device = 3, Port = 4, Part = 5, Track = 6, Text = 7, Number = 8, Word = 9, Comment = 10, Import = 11;
    private const int Declaration = 1, DefaultLibrary = 2;

    /// <summary>In the order of the text, none over another.</summary>
    public static IReadOnlyList<Paint> In(RigView view)
    {
        var named = new Dictionary<int, Occurrence>();
        foreach (var occurrence in view.Occurrences)
        {
            named.TryAdd(occurrence.Span.Start, occurrence);
        }
        var paints = new List<Paint>();
        var end = 0;
        var before = default(Token);
        foreach (var token in view.Tree.Tokens)
        {
            AddComments(view.Source, TextSpan.Between(end, token.Start), paints);
            end = token.End;
            if (named.TryGetValue(token.Start, out var name))
            {
                var modifiers = (name.IsDeclaration ? Declaration : 0) | (name.Of.IsShared ? DefaultLibrary : 0);
                paints.Add(new Paint(token.Span, TypeOf(name.Of.Kind), name.Of.Kind == NameKind.File ? 0 : modifiers));
            }
            else if (TypeOf(token, before) is { } type)
            {
                paints.Add(new Paint(token.Span, type, 0));
            }
            before = token;
        }
        AddComments(view.Source, TextSpan.Between(end, view.Source.Length), paints);
        return paints;
    }

    private static int TypeOf(NameKind kind) => kind switch
    {
        NameKind.Gear => Gear,
        NameKind.Lead => Lead,
        NameKind.Device => Device,
        NameKind.Port => Port,
        NameKind.Part => Part,
        NameKind.Track or NameKind.Sound => Track,
        NameKind.Import => Import,
        _ => Text,
    };

    private static int? TypeOf(Token token, Token before) => token.Kind switch
    {
        TokenKind.String or TokenKind.OpenString => Text,
        TokenKind.Number or TokenKind.Size => Number,
        TokenKind.Word when before.Kind is TokenKind.Number or TokenKind.Size && Units.Table.ContainsKey(token.Text!) => Number,
        // Behind a dot stands the name of a jack that is not known.
        TokenKind.Word when before.Kind is TokenKind.Dot or TokenKind.DotDot => null,
        TokenKind.Word => token.Keyword != Syntax.Keyword.None ? Keyword : Word,
        _ => null,
    };

    private static void AddComments(SourceText source, TextSpan gap, List<Paint> paints)
    {
        for (var at = gap.Start; at < gap.End;)
        {
            var start = source.Content.IndexOf("//", at, gap.End - at, StringComparison.Ordinal);
            if (start < 0)
            {
                return;
            }
            var stop = source.LineSpan(source.PositionOf(start).Line).End;
            paints.Add(new Paint(TextSpan.Between(start, Math.Min(stop, gap.End)), Comment, 0));
            at = stop;
        }
    }
}
