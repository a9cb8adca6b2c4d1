using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using Microsoft.Win32.SafeHandles;

namespace RigLang.Cli.Files;

internal enum FileKind
{
    /// <summary>The system does not tell, or there is no such file.</summary>
    Unknown,
    Ordinary,
    Folder,
    Pipe,
    Socket,
    Device,
}

/// <summary>What Linux knows of a file and .NET does not tell. Elsewhere nothing is known, and callers go the way that is always right.</summary>
/// <param name="Links">How many names the file has.</param>
/// <param name="Owner">User id.</param>
/// <param name="Group">Group id.</param>
internal readonly record struct Inode(FileKind Kind, uint Links, uint Owner, uint Group)
{
    /// <summary>Of a path, links followed, without opening it: to open a device can already do something.</summary>
    public static Inode Of(string fullPath) => OperatingSystem.IsLinux() ? Ask(Native.CurrentFolder, fullPath, 0) : default;

    /// <summary>Of an opened file, which nobody can put another in the place of.</summary>
    public static Inode Of(SafeFileHandle handle)
    {
        if (!OperatingSystem.IsLinux())
        {
            return default;
        }
        var isHeld = false;
        try
        {
            handle.DangerousAddRef(ref isHeld);
            return Ask((int)handle.DangerousGetHandle(), "", Native.OfHandle);
        }
        finally
        {
            if (isHeld)
            {
                handle.DangerousRelease();
            }
        }
    }

    [SupportedOSPlatform("linux")]
    private static Inode Ask(int folder, string path, int flags)
    {
        var answer = new byte[Native.StatxSize];
        try
        {
            if (Native.Statx(folder, path, flags, Native.BasicStats, answer) != 0)
            {
                return default;
            }
        }
        catch (EntryPointNotFoundException)
        {
            return default;
        }
        return new(KindOf(Short(28)), Long(16), Long(20), Long(24));

        ushort Short(int at) => BitConverter.ToUInt16(answer, at);
        uint Long(int at) => BitConverter.ToUInt32(answer, at);
    }

    /// <summary>Source: POSIX.1-2017, sys/stat.h names them; the numbers are those of the Linux headers, the same on every processor.</summary>
    private static FileKind KindOf(ushort mode) => (mode & 0xF000) switch
    {
        0x8000 => FileKind.Ordinary,
        0x4000 => FileKind.Folder,
        0x1000 => FileKind.Pipe,
        0xC000 => FileKind.Socket,
        0x2000 or 0x6000 => FileKind.Device,
        _ => FileKind.Unknown,
    };

    /// <summary>
    /// Whether two files have the same extended attributes, access lists among them. True where the file system has none; false when
    /// they cannot be read.
    /// </summary>
    [SupportedOSPlatform("linux")]
    public static bool HaveSameAttributes(string one, string other)
    {
        var names = AttributesOf(one);
        var others = AttributesOf(other);
        return names is not null && others is not null && names.Count == others.Count
            && names.All(n => others.TryGetValue(n.Key, out var value) && value.AsSpan().SequenceEqual(n.Value));
    }

    [SupportedOSPlatform("linux")]
    private static Dictionary<string, byte[]>? AttributesOf(string path)
    {
        // Both are at most 64 KB. Source: Linux, include/uapi/linux/limits.h (XATTR_LIST_MAX, XATTR_SIZE_MAX).
        var buffer = new byte[64 * 1024];
        var length = Native.ListAttributes(path, buffer, buffer.Length);
        if (length < 0)
        {
            return Marshal.GetLastPInvokeError() == Native.NotSupported ? [] : null;
        }
        var found = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        foreach (var name in System.Text.Encoding.UTF8.GetString(buffer, 0, (int)length).Split('\0', StringSplitOptions.RemoveEmptyEntries))
        {
            var size = Native.GetAttribute(path, name, buffer, buffer.Length);
            if (size < 0)
            {
                return null;
            }
            found[name] = buffer[..(int)size];
        }
        return found;
    }

    /// <summary>Makes the names in a folder last over a loss of power, where the system can.</summary>
    public static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsLinux())
        {
            using var handle = new SafeFileHandle(Native.OpenOnLinux(folder, Native.CloseOnExec), ownsHandle: true);
            if (!handle.IsInvalid)
            {
                _ = Native.Flush(handle);
            }
        }
    }

    /// <summary>Opens for reading and never waits for somebody at the other end, as opening a pipe does; null where there is no such call.</summary>
    /// <returns>A handle, invalid with the system's error number when the file could not be opened.</returns>
    public static (SafeFileHandle Handle, int Error)? OpenWithoutWaiting(string fullPath)
    {
        try
        {
            var number = OperatingSystem.IsLinux() ? Native.OpenOnLinux(fullPath, Native.NonBlocking | Native.NoTerminal | Native.CloseOnExec)
                : OperatingSystem.IsMacOS() ? Native.OpenOnMac(fullPath, Native.MacNonBlocking | Native.MacNoTerminal | Native.MacCloseOnExec)
                : (int?)null;
            return number is { } opened ? (new SafeFileHandle(opened, ownsHandle: true), opened < 0 ? Marshal.GetLastPInvokeError() : 0) : null;
        }
        catch (Exception e) when (e is DllNotFoundException or EntryPointNotFoundException)
        {
            return null;
        }
    }
}

/// <summary>The few calls of the system that .NET has no name for. The C library of Linux answers to this name with musl too.</summary>
internal static partial class Native
{
    private const string Linux = "libc.so.6";

    // Source: Linux, include/uapi (fcntl.h, stat.h, asm-generic/errno.h): the same on every processor that .NET runs on.
    public const int CurrentFolder = -100;
    public const int OfHandle = 0x1000;
    public const uint BasicStats = 0x7FF;
    public const int StatxSize = 256;
    public const int NonBlocking = 0x800;
    public const int NoTerminal = 0x100;
    public const int CloseOnExec = 0x80000;
    public const int NotSupported = 95;

    // Source: XNU, bsd/sys/fcntl.h.
    public const int MacNonBlocking = 0x4;
    public const int MacNoTerminal = 0x20000;
    public const int MacCloseOnExec = 0x1000000;

    [LibraryImport(Linux, EntryPoint = "statx", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial int Statx(int folder, string path, int flags, uint mask, [Out] byte[] answer);

    [LibraryImport(Linux, EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial int OpenOnLinux(string path, int flags);

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial int OpenOnMac(string path, int flags);

    [LibraryImport(Linux, EntryPoint = "fsync", SetLastError = true)]
    public static partial int Flush(SafeFileHandle handle);

    [LibraryImport(Linux, EntryPoint = "listxattr", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial nint ListAttributes(string path, [Out] byte[] names, nint size);

    [LibraryImport(Linux, EntryPoint = "getxattr", StringMarshalling = StringMarshalling.Utf8, SetLastError = true)]
    public static partial nint GetAttribute(string path, string name, [Out] byte[] value, nint size);
}
