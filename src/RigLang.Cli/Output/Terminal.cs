namespace RigLang.Cli.Output;

internal enum ColorChoice
{
    Auto,
    Always,
    Never,
}

/// <summary>How text is laid out for this reader: colours or none, and how wide.</summary>
internal readonly record struct Terminal(Paint Paint, int Width)
{
    private const int NoTerminalWidth = 100;
    private const int NarrowestWidth = 40;

    public static Terminal For(Host host, ColorChoice color)
    {
        var isTerminal = host.IsTerminal();
        var colored = color switch
        {
            ColorChoice.Always => true,
            ColorChoice.Never => false,
            // NO_COLOR counts when it is set to anything but nothing (no-color.org, common practice).
            _ => isTerminal && string.IsNullOrEmpty(host.Variable("NO_COLOR")) && host.Variable("TERM") != "dumb",
        };
        var width = isTerminal ? host.TerminalWidth() : 0;
        // Prose over the whole of a very wide screen is hard to read, so it never gets wider than without one.
        return new(new(colored), width <= 0 ? NoTerminalWidth : Math.Clamp(width, NarrowestWidth, NoTerminalWidth));
    }
}
