using System.CommandLine;

namespace RigLang.Cli.Commands;

/// <summary>An option that takes one of a few words.</summary>
internal static class Choice
{
    /// <param name="name">With its dashes.</param>
    /// <param name="description">For the help page.</param>
    /// <param name="words">The words, the first of them the default.</param>
    public static Option<string> Of(string name, string description, params string[] words)
    {
        var option = new Option<string>(name)
        {
            Description = $"{description} (without it: {words[0]})",
            HelpName = string.Join('|', words),
            DefaultValueFactory = _ => words[0],
        };
        option.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && Array.IndexOf(words, result.Tokens[0].Value) < 0)
            {
                var given = result.Tokens[0].Value;
                result.AddError($"{name} does not know \"{given}\"; it takes {string.Join(", ", words)}.{Nearest.Suggestion(given, words)}");
            }
        });
        return option;
    }
}
