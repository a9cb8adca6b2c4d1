namespace RigLang.Cli.Files;

/// <summary>A file or folder the tool could do nothing with, and why, in a player's words.</summary>
internal readonly record struct FileProblem(string Path, string Message);
