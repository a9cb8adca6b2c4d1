using System.Text;
using RigLang.Cli;

namespace RigLang.Fuzz;

/// <summary>What a command said, in memory.</summary>
/// <param name="Bytes">Allocated by the thread that ran it.</param>
internal sealed record RigResult(int Code, string Out, string Error, long Bytes);

/// <summary>A folder of its own and the <c>rig</c> command in this process.</summary>
internal sealed class RigRun : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("rig-fuzz-").FullName;

    public string PathOf(string name) => Path.Combine(Folder, name);

    public byte[] Input { get; set; } = [];

    public void Put(string name, string text) => File.WriteAllText(PathOf(name), text, Host.Utf8);

    public RigResult Rig(params string[] args)
    {
        using var output = new MemoryStream();
        using var error = new MemoryStream();
        var host = HostOn(output, error, () => new MemoryStream(Input));
        var before = GC.GetAllocatedBytesForCurrentThread();
        var code = RigCommand.Run(args, host);
        var bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        host.Out.Flush();
        return new RigResult(code, Encoding.UTF8.GetString(output.GetBuffer(), 0, (int)output.Length), Encoding.UTF8.GetString(error.GetBuffer(), 0, (int)error.Length), bytes);
    }

    public Host HostOn(Stream output, Stream error, Func<Stream> input) => new(output, () => error)
    {
        Input = input,
        IsTerminal = () => false,
        TerminalWidth = () => 0,
        // What the server keeps for editors stays in this folder too.
        Variable = name => name == "RIG_LIBRARY" ? PathOf("library") : null,
        Folder = Folder,
    };

    public void Dispose()
    {
        try
        {
            Directory.Delete(Folder, recursive: true);
        }
        catch (IOException)
        {
            // A command that never ended still holds something in it; the operating system clears its temporary folder.
        }
    }
}
