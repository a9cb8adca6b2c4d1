using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>A figure of a rig block, in base units and as written.</summary>
internal readonly record struct RigFigure(double Value, string Text, Location At);
