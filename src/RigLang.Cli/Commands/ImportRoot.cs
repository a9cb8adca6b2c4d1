using System.CommandLine;

namespace RigLang.Cli.Commands;

/// <summary>The option <c>--root</c>, which every command has that reads a rig.</summary>
internal static class ImportRoot
{
    /// <summary>Adds the option, and sees to it that the host knows the folders before the command runs.</summary>
    public static void AddTo(RigVerb verb, Host host)
    {
        var root = new Option<string[]>("--root")
        {
            Description = "Imports may read rig files in this folder too; give it again for another",
            HelpName = "FOLDER",
            Arity = ArgumentArity.OneOrMore,
            AllowMultipleArgumentsPerToken = false,
        };
        root.Validators.Add(result => host.ImportRoots = result.GetValueOrDefault<string[]>() ?? []);
        verb.Add(root);
    }
}
