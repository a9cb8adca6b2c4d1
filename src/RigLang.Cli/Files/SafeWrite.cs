namespace RigLang.Cli.Files;

/// <summary>Writes so that a file is either wholly the old one or wholly the new one, whatever happens in between.</summary>
internal static class SafeWrite
{
    /// <summary>Puts <paramref name="content"/> in the place of a file that held <paramref name="expected"/>.</summary>
    /// <returns>Null, or why the file was left as it was.</returns>
    public static string? Replace(string fullPath, byte[] expected, byte[] content)
    {
        string? temporary = null;
        try
        {
            // A link stays a link: it is the file behind it that is rewritten.
            var target = File.ResolveLinkTarget(fullPath, returnFinalTarget: true)?.FullName ?? fullPath;
            if (!MayWrite(target))
            {
                return "it is read-only, so it was left as it is";
            }
            var path = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Path.GetRandomFileName()}");
            using (var stream = new FileStream(path, NewFile()))
            {
                temporary = path;
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }
            CopyMode(target, temporary);
            if (!TextFile.Read(target).Bytes.AsSpan().SequenceEqual(expected))
            {
                return "it was changed by another program meanwhile, so it was left as it is; run the command again";
            }
            File.Move(temporary, target, overwrite: true);
            temporary = null;
            return null;
        }
        catch (UnauthorizedAccessException)
        {
            return "you have no permission to write in its folder, so it was left as it is";
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return "it could not be written, so it was left as it is; is the disk full?";
        }
        finally
        {
            Remove(temporary);
        }
    }

    /// <summary>Writes a file that must not exist yet.</summary>
    /// <returns>Null, or why nothing was written.</returns>
    public static string? Create(string fullPath, byte[] content)
    {
        string? begun = null;
        try
        {
            using (var stream = new FileStream(fullPath, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0))
            {
                begun = fullPath;
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }
            begun = null;
            return null;
        }
        catch (DirectoryNotFoundException)
        {
            return "its folder does not exist; make the folder first";
        }
        catch (UnauthorizedAccessException)
        {
            return Directory.Exists(fullPath)
                ? "this is a folder; name a file inside it"
                : "you have no permission to write there";
        }
        catch (IOException) when (begun is null && Exists(fullPath))
        {
            return "it exists already and was left as it is; choose another name, or move that file away first";
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return "it could not be written; is the name allowed, and is there space on the disk?";
        }
        finally
        {
            Remove(begun);
        }
    }

    private static bool Exists(string fullPath) => File.Exists(fullPath) || new FileInfo(fullPath).LinkTarget is not null;

    /// <summary>Renaming over a file needs no permission on the file itself, so a player's write protection is asked first.</summary>
    private static bool MayWrite(string target)
    {
        try
        {
            using var handle = File.OpenHandle(target, FileMode.Open, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete);
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static FileStreamOptions NewFile()
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
            Share = FileShare.None,
            BufferSize = 0,
        };
        if (!OperatingSystem.IsWindows())
        {
            // Nobody else may read the text before it has the old file's permissions.
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }
        return options;
    }

    private static void CopyMode(string from, string to)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(to, File.GetUnixFileMode(from));
        }
    }

    private static void Remove(string? path)
    {
        if (path is null)
        {
            return;
        }
        try
        {
            File.Delete(path);
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
        }
    }
}
