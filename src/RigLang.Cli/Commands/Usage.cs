using System.CommandLine.Parsing;
using System.CommandLine;
using RigLang.Cli.Output;

namespace RigLang.Cli.Commands;

/// <summary>A command line that cannot be followed: says what is wrong with it and the way out.</summary>
internal static class Usage
{
    public static int Error(Host host, string message, string? way = null)
    {
        host.Error.WriteLine($"rig: {Cells.Safe(message)}");
        host.Error.WriteLine(way ?? "rig --help shows what there is.");
        return ExitCode.CouldNot;
    }

    /// <summary>A command called without the file it needs.</summary>
    public static int NoOperand(Host host, RigVerb verb, string message)
        => Error(host, message, $"For example: {verb.Examples[0].Line}");

    /// <summary>The first thing wrong with the command line, or null.</summary>
    public static int? Check(ParseResult result, string[] args, Host host)
    {
        var command = result.CommandResult.Command;
        if (command is RootCommand root)
        {
            return UnknownCommand(root, args, host);
        }
        var help = $"rig {command.Name} --help shows the options and examples.";
        if (UnknownOption(command, args) is { } unknown)
        {
            var known = command.Options.Select(o => o.Name).Append("--help");
            return Error(host, $"{command.Name} has no option {unknown}.{Nearest.Suggestion(unknown, known)}", help);
        }
        return result.Errors.Count == 0 ? null : Error(host, Wording(result.Errors[0]), help);
    }

    private static int UnknownCommand(RootCommand root, string[] args, Host host)
    {
        var word = args.Length == 0 ? "" : args[0];
        if (word.StartsWith('-'))
        {
            return Error(host, $"there is no option {word} here.{Nearest.Suggestion(word, ["--help", "--version", "--notices"])}");
        }
        var suggestion = Nearest.Suggestion(word, root.Subcommands.Select(c => c.Name));
        if (suggestion.Length == 0 && (word.EndsWith(".rig", StringComparison.OrdinalIgnoreCase) || word.Contains('/')))
        {
            suggestion = $" Did you mean rig check {word}?";
        }
        return Error(host, $"there is no command \"{word}\".{suggestion}");
    }

    /// <summary>
    /// System.CommandLine takes an option it does not know for a file's name. A file whose name begins with a dash is
    /// named after <c>--</c> or as <c>./-name</c>.
    /// </summary>
    private static string? UnknownOption(Command command, string[] args)
    {
        foreach (var arg in args)
        {
            if (arg == "--")
            {
                return null;
            }
            var name = arg.Split('=', ':')[0];
            if (arg.Length > 1 && arg[0] == '-' && name is not ("--help" or "-h" or "-?")
                && !command.Options.Any(o => o.Name == name || o.Aliases.Contains(name)))
            {
                return name;
            }
        }
        return null;
    }

    private static string Wording(ParseError error) => error.SymbolResult switch
    {
        OptionResult { Tokens.Count: 0 } option when option.Option.HelpName is { } values
            => $"{option.Option.Name} needs one of {values.Replace("|", ", ")} after it.",
        OptionResult { IdentifierTokenCount: > 1 } option => $"{option.Option.Name} is given more than once.",
        _ => error.Message,
    };
}
