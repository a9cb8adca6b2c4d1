using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>One way that a line can go: its label with the places to fill in, and which word or sign opens each place.</summary>
internal sealed class SignatureForm
{
    private readonly List<Place> _places = [];

    /// <param name="label">Places to fill in stand in angle brackets, which are taken away: <c>connect &lt;FROM&gt; to &lt;TO&gt;</c>.</param>
    /// <param name="places">For each of them what opens it, and what it is.</param>
    public SignatureForm(string label, string documentation, params (string Opens, string Documentation)[] places)
    {
        Documentation = documentation;
        var parameters = new List<SignatureParameter>();
        var plain = new System.Text.StringBuilder();
        var start = 0;
        foreach (var c in label)
        {
            switch (c)
            {
                case '<':
                    start = plain.Length;
                    break;
                case '>':
                    parameters.Add(new SignatureParameter(start, plain.Length, places[parameters.Count].Documentation));
                    break;
                default:
                    plain.Append(c);
                    break;
            }
        }
        Label = plain.ToString();
        Parameters = parameters;
        _places.AddRange(places.Select(p => new Place(p.Opens)));
    }

    public string Label { get; }

    public string Documentation { get; }

    public IReadOnlyList<SignatureParameter> Parameters { get; }

    /// <summary>The place that the tokens before the caret lead to.</summary>
    public int ActiveAfter(IEnumerable<Token> typed)
    {
        var active = _places[0].Opens.Length == 0 ? 0 : -1;
        var before = default(Token);
        foreach (var token in typed)
        {
            if (token.Kind == TokenKind.Plus && _places.FindIndex(p => p.Opens == "with") is >= 0 and var chain)
            {
                active = chain;
            }
            for (var next = active + 1; next < _places.Count; next++)
            {
                if (_places[next].IsOpenedBy(token, before) && (next == active + 1 || !_places[next].FollowsOnly))
                {
                    active = next;
                    break;
                }
            }
            before = token;
        }
        return Math.Max(active, 0);
    }

    /// <summary>What opens a place: a word or one of several, a sign, or any name, number or text.</summary>
    private readonly record struct Place(string Opens)
    {
        /// <summary>A name or number stands anywhere; it opens a place only right after the one before.</summary>
        public bool FollowsOnly => Opens is "" or "NAME" or "NUMBER" or ",";

        public bool IsOpenedBy(Token token, Token before) => Opens switch
        {
            "" => false,
            // Behind a dot a name goes on: tide.Long is one.
            "NAME" => token.IsName && before.Kind != TokenKind.Dot,
            "NUMBER" => token.Kind is TokenKind.Number or TokenKind.Size,
            // A quoted name stands behind a dot, a comma or a keyword; the label stands by itself.
            "TEXT" => token.Kind is TokenKind.String or TokenKind.OpenString && before.Kind is not (TokenKind.Dot or TokenKind.Comma)
                && before.Keyword is not (Keyword.Connect or Keyword.To or Keyword.With),
            ":" => token.Kind == TokenKind.Colon,
            "," => token.Kind == TokenKind.Comma,
            "(" => token.Kind == TokenKind.OpenParen,
            _ => token.Kind == TokenKind.Word && Opens.Split('|').Contains(token.Text),
        };
    }
}
