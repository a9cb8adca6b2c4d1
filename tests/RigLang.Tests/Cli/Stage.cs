using System.Text;
using RigLang.Cli;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Tests.Cli;

/// <summary>A folder of its own, a console that remembers, and the <c>rig</c> command run in this process.</summary>
internal sealed class Stage : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("rig-test-").FullName;
    public byte[] Input { get; set; } = [];
    public int TerminalWidth { get; set; }
    public Dictionary<string, string> Variables { get; } = [];

    public (int Code, string Out, string Error) Rig(params string[] args) => With(host => RigCommand.Run(args, host));

    public (int Code, string Out, string Error) With(Func<Host, int> run)
    {
        var output = new MemoryStream();
        var error = new MemoryStream();
        var host = HostOn(output, error);
        var code = run(host);
        host.Out.Flush();
        return (code, Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(error.ToArray()));
    }

    public Host HostOn(Stream output, Stream error) => new(output, () => error)
    {
        Input = () => new MemoryStream(Input),
        IsTerminal = () => TerminalWidth > 0,
        TerminalWidth = () => TerminalWidth,
        Variable = Variables.GetValueOrDefault,
        Folder = Folder,
    };

    public string PathOf(string name) => Path.Combine(Folder, name);

    public string Put(string name, string text) => Put(name, Encoding.UTF8.GetBytes(text));

    public string Put(string name, byte[] bytes)
    {
        var path = PathOf(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}

/// <summary>A check made up for tests of how findings are shown.</summary>
internal sealed class MadeUpCheck(string name = "plug-upside-down", Severity severity = Severity.Error) : Check
{
    public override string Name => name;
    public override Severity Severity => severity;
    public override string Title => "A plug sits upside down";
    public override string Why => "Nothing is heard.";
    public override string Advice => "Turn it round.";
    public override string Source => "common practice";
    public override string BadExample => "plug { down }\n";
    public override string GoodExample => "plug { up }\n";

    public override void Run(Rig rig, Report report)
    {
    }
}

/// <summary>Compilations made by hand.</summary>
internal static class MadeUp
{
    /// <summary>For tests of what is written of a rig's findings and facts, whatever the rig.</summary>
    public static readonly Rig NoRig = Compilation.Create(new SourceText("none.rig", ""), path => new OpenedFile(null, $"{path} is not there")).Rig;

    public static Compilation Rig(SourceText root, params Finding[] findings)
        => new() { Rig = NoRig, Files = [root], Findings = [.. findings] };

    /// <summary>A finding at the first place where the source says <paramref name="words"/>.</summary>
    public static Finding At(SourceText source, string words, Severity severity = Severity.Error, string what = "It is upside down.")
        => new(
            new MadeUpCheck(severity: severity), severity, Place(source, words), what, "Nothing is heard.", "Turn it round.", [], []);

    public static Location Place(SourceText source, string words)
        => new(source, new TextSpan(source.Content.IndexOf(words, StringComparison.Ordinal), words.Length));
}
