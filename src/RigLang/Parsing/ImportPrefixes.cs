using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// Where a file imports another `as tide`, the first two names of <c>tide.bass.midi</c> are one: the device. In such a file a path
/// that begins with the import's name never means a device of that name.
/// </summary>
internal static class ImportPrefixes
{
    public static void Join(List<Statement> statements)
    {
        List<string>? prefixes = null;
        foreach (var statement in statements)
        {
            if (statement is ImportStatement { As: { } name })
            {
                (prefixes ??= []).Add(name.Text);
            }
        }
        for (var i = 0; prefixes is not null && i < statements.Count; i++)
        {
            statements[i] = statements[i] switch
            {
                ConnectStatement connect => connect with { From = All(connect.From, prefixes), To = All(connect.To, prefixes) },
                ExpectStatement expect => expect with { From = All(expect.From, prefixes), To = All(expect.To, prefixes) },
                AcceptStatement accept => accept with { On = All(accept.On, prefixes) },
                var other => other,
            };
        }
    }

    private static IReadOnlyList<PathNode> All(IReadOnlyList<PathNode> paths, List<string> prefixes) => [.. paths.Select(p => One(p, prefixes))];

    private static PathNode One(PathNode path, List<string> prefixes) =>
        path.Parts.Count > 1 && prefixes.Contains(path.Parts[0].Text)
            ? path with { Parts = [new Name($"{path.Parts[0]}.{path.Parts[1]}", path.Parts[0].Span.To(path.Parts[1].Span)), .. path.Parts.Skip(2)] }
            : path;
}
