namespace RigLang.Text;

/// <summary>How a sentence names a line: a player looks for it in the file that is spoken of, unless another is named.</summary>
public static class LineWords
{
    /// <summary>"line 12", or "line 12 of tide.rig" where the reader is in another file.</summary>
    public static string Of(Location at, SourceText readIn)
    {
        var line = $"line {at.Source.PositionOf(at.Span.Start).Line + 1}";
        return at.Source.Path == readIn.Path ? line : $"{line} of {PathFrom(readIn.Path, at.Source.Path)}";
    }

    /// <summary>As an import in the one file would write the other: long paths say nothing more.</summary>
    private static string PathFrom(string readIn, string path)
    {
        var folder = readIn[..(readIn.LastIndexOf('/') + 1)];
        return folder.Length > 0 && path.StartsWith(folder, StringComparison.Ordinal) ? path[folder.Length..] : path;
    }
}
