using System.Buffers;
using System.Text.Unicode;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace RigLang.Cli.Files;

/// <summary>A file's text, or why there is none. <see cref="Bytes"/> is what the disk held, byte order mark included.</summary>
internal readonly record struct ReadText(string? Text, byte[] Bytes, string? Problem)
{
    public bool HasByteOrderMark => TextFile.StartsWithMark(Bytes);
}

/// <summary>Reads a file as UTF-8 text; whatever is not text is told to the player, never guessed at.</summary>
internal static class TextFile
{
    /// <summary>64 MB: a rig of a million lines. Anything longer is a wrong file, or a device that never ends.</summary>
    public const int LargestBytes = 64 * 1024 * 1024;

    public static ReadOnlySpan<byte> Mark => [0xEF, 0xBB, 0xBF];

    public static bool StartsWithMark(ReadOnlySpan<byte> bytes) => bytes.StartsWith(Mark);

    /// <summary>How long a file may take. A disk takes milliseconds; what takes longer trickles in from somewhere.</summary>
    public static readonly TimeSpan LongestReading = TimeSpan.FromSeconds(30);

    private const int MostTries = 4;

    /// <summary>
    /// Reads an ordinary file. One that is written to meanwhile is read again: half of an old text and half of a new one is a text that
    /// nobody wrote.
    /// </summary>
    /// <param name="fullPath">The file.</param>
    /// <param name="whileReading">For tests: what happens to the file after it was read and before it is looked at again.</param>
    public static ReadText Read(string fullPath, Action? whileReading = null)
    {
        try
        {
            for (var tries = 1; tries <= MostTries; tries++)
            {
                var (handle, problem) = OrdinaryFile.Open(fullPath);
                if (handle is null)
                {
                    return new(null, [], problem);
                }
                using var stream = new FileStream(handle, FileAccess.Read, bufferSize: 0);
                var before = StateOf(handle);
                var read = Read(stream, before.Length, TimeProvider.System);
                whileReading?.Invoke();
                if (StateOf(handle) == before)
                {
                    return read;
                }
                // Who saves a file is done in no time; who keeps writing to it is not waited for.
                Thread.Sleep(TimeSpan.FromMilliseconds(10 * tries));
            }
            return new(null, [], "another program keeps writing to it, so that it could not be read whole; try again when that has ended");
        }
        catch (Exception e) when (IsFileTrouble(e))
        {
            return new(null, [], WhyNot(e, fullPath));
        }
    }

    private static (long Length, DateTime Written) StateOf(SafeFileHandle handle) => (RandomAccess.GetLength(handle), File.GetLastWriteTimeUtc(handle));

    public static ReadText ReadInput(Host host)
    {
        try
        {
            using var input = host.Input();
            return Read(input);
        }
        catch (Exception e) when (IsFileTrouble(e))
        {
            return new(null, [], "it could not be read");
        }
    }

    /// <param name="stream">Read to its end.</param>
    /// <param name="expectedBytes">A guess of its length; 0 when unknown.</param>
    /// <param name="clock">
    /// Tells when it has taken too long; null for what may take its time, as a player who types. It is looked at between pieces: a single
    /// one that the system never hands over, as of a network folder whose server is gone, cannot be called off.
    /// </param>
    public static ReadText Read(Stream stream, long expectedBytes = 0, TimeProvider? clock = null)
    {
        var bytes = ReadUpTo(stream, LargestBytes + 1, expectedBytes, clock);
        return bytes is null ? new(null, [], $"reading it takes longer than {LongestReading.TotalSeconds:0} s; copy it to a disk of this computer")
            : bytes.Length > LargestBytes ? new(null, [], "it is larger than 64 MB, which no rig is")
            : Decode(bytes);
    }

    /// <summary>The exceptions a file can cause; anything else is a fault of the tool.</summary>
    public static bool IsFileTrouble(Exception e) =>
        e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException;

    /// <summary>In a player's words. The exception's own text is not for players, and is left out of native builds.</summary>
    private static string WhyNot(Exception e, string fullPath) => e switch
    {
        FileNotFoundException => "there is no such file",
        DirectoryNotFoundException => "there is no such file, nor its folder",
        UnauthorizedAccessException when Directory.Exists(fullPath) => "this is a folder, not a file",
        UnauthorizedAccessException => "you have no permission to read it",
        ArgumentException or NotSupportedException or PathTooLongException => "no file can have such a name",
        _ => "it could not be read",
    };

    /// <returns>Null when it took too long.</returns>
    private static byte[]? ReadUpTo(Stream stream, int limit, long expectedBytes, TimeProvider? clock)
    {
        var begun = clock?.GetTimestamp() ?? 0;
        // One byte more than expected, so that the end is met without growing.
        var buffer = new byte[(int)Math.Clamp(expectedBytes + 1, 4096, limit)];
        var length = 0;
        while (true)
        {
            var got = stream.Read(buffer, length, buffer.Length - length);
            length += got;
            if (got == 0 || length == limit)
            {
                Array.Resize(ref buffer, length);
                return buffer;
            }
            if (clock?.GetElapsedTime(begun) > LongestReading)
            {
                return null;
            }
            if (length == buffer.Length)
            {
                Array.Resize(ref buffer, (int)Math.Min(limit, buffer.Length * 2L));
            }
        }
    }

    private static ReadText Decode(byte[] bytes)
    {
        var body = bytes.AsSpan(StartsWithMark(bytes) ? Mark.Length : 0);
        if (body.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || body.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
        {
            return new(null, bytes, "it is text, but saved as UTF-16; save it as UTF-8 in your editor");
        }
        var zero = body.IndexOf((byte)0);
        if (zero >= 0)
        {
            return new(null, bytes, $"it is not text: line {LineOf(body, zero)} contains a zero byte");
        }
        if (!Utf8.IsValid(body))
        {
            var line = LineOf(body, FirstInvalid(body));
            return new(null, bytes, $"it is not UTF-8 text: line {line} cannot be read; save it as UTF-8 in your editor");
        }
        return new(Encoding.UTF8.GetString(body), bytes, null);
    }

    private static int FirstInvalid(ReadOnlySpan<byte> bytes)
    {
        var at = 0;
        while (Rune.DecodeFromUtf8(bytes[at..], out _, out var used) == OperationStatus.Done)
        {
            at += used;
        }
        return at;
    }

    private static int LineOf(ReadOnlySpan<byte> bytes, int at) => bytes[..at].Count((byte)'\n') + 1;
}
