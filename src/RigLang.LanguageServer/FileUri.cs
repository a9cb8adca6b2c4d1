namespace RigLang.LanguageServer;

/// <summary>
/// Between the URIs of a client and the paths of the compiler, which have forward slashes. A document that is on no disk (untitled:) is
/// called by its URI.
/// </summary>
internal static class FileUri
{
    public static string ToPath(string uri)
    {
        if (!uri.StartsWith("file:", StringComparison.OrdinalIgnoreCase) || !Uri.TryCreate(uri, UriKind.Absolute, out var parsed))
        {
            return uri;
        }
        var path = Uri.UnescapeDataString(parsed.AbsolutePath);
        // file:///c:/rigs is c:/rigs, and file://box/rigs is //box/rigs.
        return parsed.Host.Length > 0 ? $"//{parsed.Host}{path}"
            : path.Length > 2 && path[0] == '/' && path[2] == ':' ? path[1..]
            : path;
    }

    public static string FromPath(string path)
    {
        if (!path.StartsWith('/') && !(path.Length > 1 && path[1] == ':'))
        {
            return path;
        }
        var escaped = string.Join('/', path.Split('/').Select(Uri.EscapeDataString));
        return path.StartsWith("//", StringComparison.Ordinal) ? "file:" + escaped
            : path.StartsWith('/') ? "file://" + escaped
            : "file:///" + escaped;
    }
}
