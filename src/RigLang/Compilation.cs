using System.Collections.Immutable;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang;

/// <summary>What opening a file gave: its text, or why there is none ("there is no such file").</summary>
public readonly record struct OpenedFile(SourceText? Text, string? Problem);

/// <summary>Opens the file at a path with forward slashes. Called once a path; must not throw.</summary>
public delegate OpenedFile OpenFile(string path);

/// <summary>A rig file and all that it imports, compiled: what was found, and what was verified.</summary>
public sealed class Compilation
{
    /// <summary>The file that was asked for, then its imports in the order first met.</summary>
    public ImmutableArray<SourceText> Files { get; init; } = [];

    /// <summary>Sorted by file (the root first), then place.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>What holds in this rig and was checked, for a player who gets no finding.</summary>
    public ImmutableArray<Fact> Facts { get; init; } = [];

    public static Compilation Create(SourceText root, OpenFile open) => new() { Files = [root] };
}
