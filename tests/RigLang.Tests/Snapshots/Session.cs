using System.Text;
using RigLang.Tests.Cli;
using RigLang.Tests.Examples;

namespace RigLang.Tests.Snapshots;

/// <summary>Commands typed one after the other in a folder, and what came back, as a player would see it.</summary>
internal sealed class Session : IDisposable
{
    private readonly Stage _stage = new();
    private readonly StringBuilder _seen = new();

    public string Seen => _seen.ToString();

    public void Put(string name, string text) => _stage.Put(name, text.ReplaceLineEndings("\n"));

    /// <summary>The examples where they stand in the repository, in a folder whose imports reach what they reach there.</summary>
    public Session WithExamples()
    {
        Directory.CreateDirectory(_stage.PathOf(".git"));
        foreach (var path in Commands.Examples)
        {
            Put(path, Shipped.Read(path).Content);
        }
        return this;
    }

    public Session Type(params string[] args)
    {
        var (code, output, error) = _stage.Rig(args);
        _seen.Append($"$ {string.Join(' ', args.Select(Quoted).Prepend("rig"))}\n{output}");
        if (error.Length > 0)
        {
            _seen.Append($"(standard error)\n{error}");
        }
        _seen.Append($"(exit code {code})\n\n");
        return this;
    }

    /// <summary>What a command writes for another program, alone.</summary>
    public string Output(params string[] args) => _stage.Rig(args).Out;

    public void Dispose() => _stage.Dispose();

    private static string Quoted(string arg) => arg.Contains(' ', StringComparison.Ordinal) ? $"\"{arg}\"" : arg;
}
