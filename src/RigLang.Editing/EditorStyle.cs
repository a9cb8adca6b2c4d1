namespace RigLang.Editing;

/// <summary>How texts are wanted: as Markdown or plain, lengths in metres or in feet (the international foot, 0.3048 m).</summary>
public sealed record EditorStyle(bool Markdown, bool InFeet);
