using System.Runtime.Versioning;

namespace RigLang.Cli.Files;

/// <summary>Writes so that a file is either wholly the old one or wholly the new one, whatever happens in between.</summary>
internal static class SafeWrite
{
    /// <summary>Behind the name of the file and some random letters: a new text that is to take the file's place.</summary>
    private const string TemporaryEnding = ".rig-new";

    /// <summary>
    /// Puts <paramref name="content"/> in the place of a file that held <paramref name="expected"/>: with a new file that is renamed where
    /// nothing is lost by that, and into the same file, with <see cref="UndoJournal"/> beside it, where it has other names, or an owner,
    /// group, access list or attributes that a new file does not get.
    /// </summary>
    /// <param name="fullPath">The file, or a link to it.</param>
    /// <param name="expected">Bytes that it must still hold.</param>
    /// <param name="content">Bytes that it is to hold.</param>
    /// <param name="at">For tests: called after each step on the disk, where the program may be killed.</param>
    /// <returns>Null, or why the file was left as it was.</returns>
    public static string? Replace(string fullPath, byte[] expected, byte[] content, Action<string>? at = null)
    {
        try
        {
            var target = TargetOf(fullPath);
            if (!MayWrite(target))
            {
                return "it is read-only, so it was left as it is";
            }
            return OperatingSystem.IsLinux() && Inode.Of(target).Links == 1 && ByRenaming(target, expected, content, at) is { } ended
                ? ended.Problem
                : UndoJournal.WriteThrough(target, expected, content, at);
        }
        catch (UnauthorizedAccessException)
        {
            return "you have no permission to write in its folder, so it was left as it is";
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return "it could not be written, so it was left as it is; is the disk full?";
        }
    }

    /// <summary>A link stays a link: it is the file behind it that is rewritten.</summary>
    public static string TargetOf(string fullPath) => File.ResolveLinkTarget(fullPath, returnFinalTarget: true)?.FullName ?? fullPath;

    public const string ChangedMeanwhile = "it was changed by another program meanwhile, so it was left as it is; run the command again";

    private readonly record struct Ended(string? Problem);

    /// <returns>Null when something would be lost by renaming, or the file cannot be renamed over.</returns>
    [SupportedOSPlatform("linux")]
    private static Ended? ByRenaming(string target, byte[] expected, byte[] content, Action<string>? at)
    {
        string? temporary = null;
        try
        {
            var path = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Path.GetRandomFileName()}{TemporaryEnding}");
            // It stays open, and with that locked, until it has its name: who cleans up sees that somebody is still at it.
            using var stream = new FileStream(path, NewFile());
            temporary = path;
            at?.Invoke("temporary begun");
            File.SetUnixFileMode(temporary, File.GetUnixFileMode(target));
            if (!IsLike(target, temporary))
            {
                return null;
            }
            stream.Write(content);
            stream.Flush(flushToDisk: true);
            at?.Invoke("temporary written");
            if (!TextFile.Read(target).Bytes.AsSpan().SequenceEqual(expected))
            {
                return new(ChangedMeanwhile);
            }
            try
            {
                File.Move(temporary, target, overwrite: true);
            }
            catch (IOException)
            {
                // A file that is mounted by itself, as into a container, stays where it is.
                return null;
            }
            temporary = null;
            at?.Invoke("renamed");
            Inode.FlushFolder(Path.GetDirectoryName(target)!);
            return new(null);
        }
        finally
        {
            Remove(temporary);
        }
    }

    [SupportedOSPlatform("linux")]
    private static bool IsLike(string target, string temporary)
    {
        var (old, made) = (Inode.Of(target), Inode.Of(temporary));
        return old.Owner == made.Owner && old.Group == made.Group && File.GetUnixFileMode(target) == File.GetUnixFileMode(temporary)
            && Inode.HaveSameAttributes(target, temporary);
    }

    /// <summary>Takes away the temporary files of earlier runs that were killed, and none that another run is still writing.</summary>
    public static void Tidy(string folder)
    {
        try
        {
            var options = new EnumerationOptions { AttributesToSkip = FileAttributes.ReparsePoint };
            foreach (var file in new DirectoryInfo(folder).EnumerateFiles(".*" + TemporaryEnding, options))
            {
                if (IsOurs(file.Name) && Inode.Of(file.FullName).Kind is FileKind.Ordinary)
                {
                    RemoveAbandoned(file.FullName);
                }
            }
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            // What cannot be searched or removed stays; it is in nobody's way.
        }
    }

    private static void RemoveAbandoned(string path)
    {
        try
        {
            // The lock of a process ends with it.
            using var stream = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
        }
    }

    /// <summary>A point, the name of a file, a point, eight random letters, a point, three more, and the ending.</summary>
    private static bool IsOurs(string name) => name.EndsWith(TemporaryEnding, StringComparison.Ordinal)
        && name[..^TemporaryEnding.Length] is [_, _, .., '.', _, _, _, _, _, _, _, _, '.', _, _, _] whole
        && !whole.AsSpan(^12..).ContainsAnyExcept(RandomLetters);

    private static readonly System.Buffers.SearchValues<char> RandomLetters = System.Buffers.SearchValues.Create("abcdefghijklmnopqrstuvwxyz0123456789.");

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

    /// <summary>Nobody else may read the text before it has the old file's permissions, and nobody else may write to it.</summary>
    internal static FileStreamOptions NewFile()
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
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }
        return options;
    }

    internal static void Remove(string? path)
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
