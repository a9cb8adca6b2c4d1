namespace RigLang.Cli.Files;

/// <summary>What comes inside the tool, as files that an editor can open: kept in the player's local application data, a folder a version.</summary>
internal static class LibraryCopy
{
    /// <summary>Where the file is; null when it cannot be put there. It is for reading: what is changed in it is put back.</summary>
    /// <returns>A full path with forward slashes.</returns>
    public static string? Put(string name, string content, Host host)
    {
        try
        {
            var home = host.Variable("RIG_LIBRARY") is { Length: > 0 } set
                ? set
                : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "riglang", ToolVersion.Number);
            var path = Path.GetFullPath(Path.Combine(home, name));
            if (TextFile.Read(path).Text != content)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                var temporary = $"{path}.{Path.GetRandomFileName()}";
                File.WriteAllText(temporary, content, Host.Utf8);
                File.Move(temporary, path, overwrite: true);
            }
            return path.Replace(Path.DirectorySeparatorChar, '/');
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return null;
        }
    }
}
