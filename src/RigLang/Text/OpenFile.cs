namespace RigLang.Text;

/// <summary>What opening a file gave: its text, or why there is none ("there is no such file").</summary>
public readonly record struct OpenedFile(SourceText? Text, string? Problem);

/// <summary>Opens the file at a path with forward slashes. Called once a path; must not throw.</summary>
public delegate OpenedFile OpenFile(string path);
