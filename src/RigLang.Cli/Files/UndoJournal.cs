using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace RigLang.Cli.Files;

/// <summary>
/// Writes into a file that cannot be replaced by another. A kill in the middle leaves half of each text, so that both texts are put in a
/// journal beside the file first; whoever comes next finds it and puts the old text back. It is locked as long as somebody is at it.
/// Where a file system knows no locks, two runs at the same file at the same time are not kept apart.
/// </summary>
internal static class UndoJournal
{
    private const string Ending = ".rig-undo";

    /// <summary>What a text that could not be put back is kept under.</summary>
    private const string KeptEnding = ".before";

    private const int MostTries = 4;

    private const string Mark = "rig format undo 1";

    /// <summary>Small enough that a test can stop between two of them.</summary>
    private const int PieceBytes = 64 * 1024;

    /// <summary>Two texts and a first line.</summary>
    private const long LargestBytes = 2L * TextFile.LargestBytes + 1024;

    /// <param name="Old">What the file held.</param>
    /// <param name="New">What it was to hold.</param>
    private sealed record Texts(byte[] Old, byte[] New);

    private static string PathFor(string target) => Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}{Ending}");

    /// <inheritdoc cref="SafeWrite.Replace"/>
    public static string? WriteThrough(string target, byte[] expected, byte[] content, Action<string>? at)
    {
        var path = PathFor(target);
        FileStream journal;
        try
        {
            journal = new FileStream(path, SafeWrite.NewFile());
        }
        catch (IOException) when (File.Exists(path))
        {
            return AnotherRun;
        }
        var isNeeded = false;
        try
        {
            using (journal)
            {
                at?.Invoke("journal begun");
                Write(journal, new Texts(expected, content));
                Inode.FlushFolder(Path.GetDirectoryName(path)!);
                at?.Invoke("journal written");
                using var file = new FileStream(target, FileMode.Open, FileAccess.ReadWrite, FileShare.Read, bufferSize: 0);
                if (!Holds(file, expected))
                {
                    return SafeWrite.ChangedMeanwhile;
                }
                isNeeded = true;
                try
                {
                    Overwrite(file, content, at);
                }
                catch (IOException)
                {
                    return PutBack(file, expected, out isNeeded);
                }
                isNeeded = false;
                at?.Invoke("written");
                return null;
            }
        }
        finally
        {
            if (!isNeeded)
            {
                SafeWrite.Remove(path);
            }
        }
    }

    /// <summary>After a full disk. The old text had room there before; where it has none any more, the journal stays.</summary>
    private static string PutBack(FileStream file, byte[] old, out bool isNeeded)
    {
        try
        {
            Overwrite(file, old, null);
            isNeeded = false;
            return "it could not be written, so it was left as it is; is the disk full?";
        }
        catch (IOException)
        {
            isNeeded = true;
            return "it could not be written whole, nor put back; make room on the disk, then run rig format again, which puts the text back";
        }
    }

    private const string Ended = "an earlier run of rig format was ended while it wrote this file";

    private const string AnotherRun = "another run of rig format is at it, so it was left as it is; run the command again when that has ended";

    /// <summary>Why a text is not to be trusted; null for all files but those that a killed run half wrote.</summary>
    public static string? WhyNotRead(string fullPath)
    {
        try
        {
            var path = File.Exists(fullPath) ? PathFor(SafeWrite.TargetOf(fullPath)) : null;
            for (var tries = 1; File.Exists(path); tries++)
            {
                if (tries == MostTries)
                {
                    return $"{Ended}; run rig format again, which puts the text back";
                }
                // A run that is at it now is done in no time.
                Thread.Sleep(TimeSpan.FromMilliseconds(10 * tries));
            }
            return null;
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return null;
        }
    }

    /// <summary>Looks for what a killed run left of a file, puts its text back, and clears the folder.</summary>
    /// <param name="fullPath">The file, or a link to it.</param>
    /// <param name="tidied">Folders that are cleared already.</param>
    /// <returns>Whether a text was put back; and why the file is better left alone, if so.</returns>
    public static (bool IsRestored, string? Problem) Recover(string fullPath, HashSet<string> tidied)
    {
        try
        {
            var target = SafeWrite.TargetOf(fullPath);
            var folder = Path.GetDirectoryName(target)!;
            if (tidied.Add(folder))
            {
                SafeWrite.Tidy(folder);
            }
            var path = PathFor(target);
            if (!File.Exists(path) || !File.Exists(target))
            {
                return (false, null);
            }
            return Inode.Of(path).Kind is FileKind.Ordinary or FileKind.Unknown && new FileInfo(path).LinkTarget is null
                ? Recover(target, path)
                : (false, $"what lies beside it as {Path.GetFileName(path)} was not made by rig; take it away first");
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return (false, $"{Ended}, and its text could not be put back; have you the permission, and is there space on the disk?");
        }
    }

    private static (bool IsRestored, string? Problem) Recover(string target, string path)
    {
        FileStream journal;
        try
        {
            journal = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None, bufferSize: 0);
        }
        catch (FileNotFoundException)
        {
            return (false, null);
        }
        catch (IOException)
        {
            return (false, AnotherRun);
        }
        using (journal)
        {
            // A journal that is not whole was being written itself, and then the file was not touched yet.
            if (Read(journal) is not { } texts)
            {
                SafeWrite.Remove(path);
                return (false, null);
            }
            using var file = new FileStream(target, FileMode.Open, FileAccess.ReadWrite, FileShare.Read, bufferSize: 0);
            if (Holds(file, texts.Old) || Holds(file, texts.New))
            {
                SafeWrite.Remove(path);
                return (false, null);
            }
            if (!IsHalfWritten(Content(file), texts))
            {
                return (false, KeepOld(target, path, texts.Old));
            }
            Overwrite(file, texts.Old, null);
            SafeWrite.Remove(path);
            return (true, null);
        }
    }

    /// <summary>Somebody has worked at the file since. Both texts may be wanted.</summary>
    private static string KeepOld(string target, string path, byte[] old)
    {
        var kept = target + KeptEnding;
        if (SafeWrite.Create(kept, old) is { } why)
        {
            return $"{Ended}, and the text from before could not be kept as {Path.GetFileName(kept)}: {why}";
        }
        SafeWrite.Remove(path);
        return $"{Ended}, and it was changed since, so it was left as it is; its text from before is in {Path.GetFileName(kept)}: "
            + "compare the two, then run the command again";
    }

    /// <summary>
    /// Each byte is that of one of the two texts, or a zero, which a loss of power leaves where a new block was not written yet. Anything
    /// else somebody wrote.
    /// </summary>
    private static bool IsHalfWritten(byte[] now, Texts texts)
    {
        if (now.Length < Math.Min(texts.Old.Length, texts.New.Length) || now.Length > Math.Max(texts.Old.Length, texts.New.Length))
        {
            return false;
        }
        for (var i = 0; i < now.Length; i++)
        {
            if (now[i] != 0 && !(i < texts.Old.Length && now[i] == texts.Old[i]) && !(i < texts.New.Length && now[i] == texts.New[i]))
            {
                return false;
            }
        }
        return true;
    }

    private static void Overwrite(FileStream file, byte[] content, Action<string>? at)
    {
        file.Position = 0;
        for (var start = 0; start < content.Length; start += PieceBytes)
        {
            file.Write(content, start, Math.Min(PieceBytes, content.Length - start));
            at?.Invoke("piece written");
        }
        file.SetLength(content.Length);
        file.Flush(flushToDisk: true);
    }

    private static bool Holds(FileStream file, byte[] content) => file.Length == content.Length && Content(file).AsSpan().SequenceEqual(content);

    private static byte[] Content(FileStream file)
    {
        var bytes = new byte[Math.Min(file.Length, LargestBytes)];
        file.Position = 0;
        file.ReadExactly(bytes);
        return bytes;
    }

    private static void Write(FileStream journal, Texts texts)
    {
        byte[] body = [.. texts.Old, .. texts.New];
        journal.Write(Encoding.ASCII.GetBytes(FirstLine(texts.Old.Length, texts.New.Length, body)));
        journal.Write(body);
        journal.Flush(flushToDisk: true);
    }

    private static string FirstLine(int old, int @new, ReadOnlySpan<byte> body) =>
        string.Create(CultureInfo.InvariantCulture, $"{Mark} {old} {@new} {Convert.ToHexStringLower(SHA256.HashData(body))}\n");

    /// <returns>Null when it is not whole.</returns>
    private static Texts? Read(FileStream journal)
    {
        var bytes = Content(journal);
        var end = Array.IndexOf(bytes, (byte)'\n') + 1;
        var words = Encoding.ASCII.GetString(bytes, 0, Math.Min(end, 200)).Split(' ');
        if (words.Length < 3 || !int.TryParse(words[^3], NumberStyles.None, CultureInfo.InvariantCulture, out var old)
            || !int.TryParse(words[^2], NumberStyles.None, CultureInfo.InvariantCulture, out var @new) || (long)old + @new != bytes.Length - end)
        {
            return null;
        }
        var body = bytes.AsSpan(end);
        return Encoding.ASCII.GetBytes(FirstLine(old, @new, body)).AsSpan().SequenceEqual(bytes.AsSpan(0, end))
            ? new Texts(body[..old].ToArray(), body[old..].ToArray())
            : null;
    }
}
