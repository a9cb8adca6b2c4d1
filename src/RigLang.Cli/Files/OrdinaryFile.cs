using Microsoft.Win32.SafeHandles;

namespace RigLang.Cli.Files;

/// <summary>
/// Opens ordinary files for reading and nothing else. A pipe gives nothing until somebody writes, a device may never end, and to open one
/// can already do something: a rig from somebody else must not be able to stop the tool by what it names.
/// </summary>
internal static class OrdinaryFile
{
    /// <returns>An opened file, or why there is none, in a player's words.</returns>
    public static (SafeFileHandle? Handle, string? Problem) Open(string fullPath)
    {
        // Asked before, so that no device is opened; asked again of what was opened, since somebody may have put another in its place.
        if (WhyNot(Inode.Of(fullPath).Kind) is { } refusal)
        {
            return (null, refusal);
        }
        if (Inode.OpenWithoutWaiting(fullPath) is not var (handle, error))
        {
            return (File.OpenHandle(fullPath, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete), null);
        }
        if (handle.IsInvalid)
        {
            handle.Dispose();
            return (null, WhyNot(error, fullPath));
        }
        var kind = Inode.Of(handle).Kind;
        if ((WhyNot(kind) ?? (kind == FileKind.Unknown ? WhyNotByLooking(handle, fullPath) : null)) is { } reason)
        {
            handle.Dispose();
            return (null, reason);
        }
        return (handle, null);
    }

    public static string? WhyNot(FileKind kind) => kind switch
    {
        FileKind.Folder => "this is a folder, not a file",
        FileKind.Pipe => NotOrdinary("a pipe"),
        FileKind.Socket => NotOrdinary("a socket"),
        FileKind.Device => NotOrdinary("a device"),
        _ => null,
    };

    private static string NotOrdinary(string what) =>
        $"it is not an ordinary file but {what}, and reading it might never end; save the rig as a file, or name - for what another program writes";

    /// <summary>Where the system does not tell the kind: what has no length is no ordinary file.</summary>
    private static string? WhyNotByLooking(SafeFileHandle handle, string fullPath)
    {
        if (Directory.Exists(fullPath))
        {
            return WhyNot(FileKind.Folder);
        }
        try
        {
            _ = RandomAccess.GetLength(handle);
            return null;
        }
        catch (NotSupportedException)
        {
            return NotOrdinary("a pipe or a device");
        }
    }

    /// <param name="error">Source: POSIX.1-2017, errno.h; the numbers are the same on Linux and macOS but for the length of names.</param>
    /// <param name="fullPath">What was to be opened.</param>
    private static string WhyNot(int error, string fullPath) => error switch
    {
        2 when Directory.Exists(Path.GetDirectoryName(fullPath)) => "there is no such file",
        2 or 20 => "there is no such file, nor its folder",
        1 or 13 => "you have no permission to read it",
        6 => NotOrdinary("a socket or a device"),
        36 or 63 => "no file can have such a name",
        _ => "it could not be read",
    };
}
