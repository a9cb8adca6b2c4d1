using System.CommandLine;
using RigLang.Cli.Files;
using RigLang.Cli.Output;

namespace RigLang.Cli.Commands;

/// <summary><c>rig new FILE</c>: a commented rig to start from. Never over an existing file.</summary>
internal static class NewCommand
{
    public static int Run(string path, Host host)
    {
        host.At = path;
        string fullPath;
        try
        {
            fullPath = host.FullPath(path);
        }
        catch (ArgumentException)
        {
            return Usage.Error(host, $"{path}: no file can have such a name.");
        }
        if (SafeWrite.Create(fullPath, Starter()) is { } why)
        {
            host.Error.WriteLine($"rig: {Cells.Safe(path)}: {why}");
            return ExitCode.CouldNot;
        }
        var shown = Cells.Safe(path);
        host.Out.WriteLine($"{shown}: a rig to start from. Open it in your editor, then: rig check {shown}");
        if (!path.EndsWith(".rig", StringComparison.OrdinalIgnoreCase))
        {
            host.Out.WriteLine("Its name does not end in .rig, so it is not found when a whole folder is checked.");
        }
        return ExitCode.Clear;
    }

    private static byte[] Starter()
    {
        using var resource = typeof(NewCommand).Assembly.GetManifestResourceStream("Starter.rig")!;
        var content = new byte[resource.Length];
        resource.ReadExactly(content);
        return content;
    }

    public static RigVerb Define(Host host)
    {
        var file = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var verb = new RigVerb("new", "Writes a small commented rig to start from")
        {
            Operands = "FILE",
            Page = ["The rig checks clean as it is; change it line by line into yours. A file that exists already is never written over."],
            Examples = [("rig new my-rig.rig", "begin a rig in this folder")],
        };
        verb.Add(file);
        verb.SetAction(result => result.GetValue(file) switch
        {
            [{ Length: > 0 } path] when path != RigFiles.StandardInput => Run(path, host),
            { Length: > 1 } => Usage.NoOperand(host, verb, "new writes one file at a time."),
            _ => Usage.NoOperand(host, verb, "new needs a name for the file."),
        });
        return verb;
    }
}
