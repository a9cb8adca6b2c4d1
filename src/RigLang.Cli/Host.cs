using System.Text;

namespace RigLang.Cli;

/// <summary>What a command sees of the machine it runs on.</summary>
internal sealed class Host
{
    /// <summary>UTF-8 without a byte order mark: pipes and files want none.</summary>
    public static Encoding Utf8 { get; } = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

    private readonly Lazy<TextWriter> _error;

    public Host(Stream output, Func<Stream> error)
    {
        Output = output;
        // A check of a sound rig fits in; a larger buffer would take longer to be got than it saves.
        Out = new StreamWriter(output, Utf8, bufferSize: 2 * 1024) { NewLine = "\n" };
        _error = new(() => new StreamWriter(error(), Utf8) { NewLine = "\n", AutoFlush = true });
    }

    /// <summary>Standard output as text, buffered. Flushed when the command ends.</summary>
    public TextWriter Out { get; }

    /// <summary>Standard output as bytes. Flush <see cref="Out"/> before writing here.</summary>
    public Stream Output { get; }

    /// <summary>Standard error. What was said on standard output so far goes out first, so that the two stay in order.</summary>
    public TextWriter Error
    {
        get
        {
            Out.Flush();
            return _error.Value;
        }
    }

    /// <summary>For the very end, when standard output itself may be what failed. Never throws for a stream that is gone.</summary>
    public void LastWords(string message)
    {
        try
        {
            Out.Flush();
        }
        catch (Exception e) when (IsStreamTrouble(e))
        {
            // What was to be said there cannot be; the message still can.
        }
        try
        {
            _error.Value.WriteLine(message);
        }
        catch (Exception e) when (IsStreamTrouble(e))
        {
            // Nobody is left to tell; the exit code tells.
        }
    }

    public required Func<Stream> Input { get; init; }
    public required Func<bool> IsTerminal { get; init; }

    /// <summary>Columns of the terminal. Asked for only when there is one.</summary>
    public required Func<int> TerminalWidth { get; init; }

    /// <summary>An environment variable, or null.</summary>
    public required Func<string, string?> Variable { get; init; }

    /// <summary>The current folder, absolute: relative names start here.</summary>
    public required string Folder { get; init; }

    /// <summary>The file being worked on, to be named should the tool itself fail.</summary>
    public string? At { get; set; }

    /// <summary>Folders that imports may read besides the rig's own, as the player typed them.</summary>
    public IReadOnlyList<string> ImportRoots { get; set; } = [];

    public string FullPath(string path) => Path.GetFullPath(path, Folder);

    public static Host OfThisProcess() => new(OpenOrNowhere(Console.OpenStandardOutput), () => OpenOrNowhere(Console.OpenStandardError))
    {
        Input = Console.OpenStandardInput,
        IsTerminal = () => !Console.IsOutputRedirected,
        TerminalWidth = WidthOfConsole,
        Variable = Environment.GetEnvironmentVariable,
        Folder = Environment.CurrentDirectory,
    };

    /// <summary>A stream that is full, closed or forbidden.</summary>
    public static bool IsStreamTrouble(Exception e) => e is IOException or UnauthorizedAccessException;

    /// <summary>A caller may have closed a stream altogether; the exit code still tells.</summary>
    private static Stream OpenOrNowhere(Func<Stream> open)
    {
        try
        {
            return open();
        }
        catch (Exception e) when (IsStreamTrouble(e))
        {
            return Stream.Null;
        }
    }

    private static int WidthOfConsole()
    {
        try
        {
            return Console.WindowWidth;
        }
        catch (Exception e) when (e is IOException or PlatformNotSupportedException)
        {
            return 0;
        }
    }
}
