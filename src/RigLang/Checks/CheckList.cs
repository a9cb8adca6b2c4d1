using System.Collections.Immutable;
using RigLang.Findings;

namespace RigLang.Checks;

/// <summary>The contents page: every check there is, in the order the reference lists them.</summary>
public static class CheckList
{
    public static ImmutableArray<Check> All { get; } = [];

    /// <summary>The check of that name, or null.</summary>
    public static Check? Find(string name) => All.FirstOrDefault(c => c.Name == name);
}
