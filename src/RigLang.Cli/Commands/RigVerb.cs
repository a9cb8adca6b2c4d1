using System.CommandLine;

namespace RigLang.Cli.Commands;

/// <summary>One command as a player meets it: what it is for, how to call it, and examples, beside its options.</summary>
internal sealed class RigVerb(string name, string purpose) : Command(name, purpose)
{
    /// <summary>What comes after the command's name, options aside: <c>FILE…</c>.</summary>
    public required string Operands { get; init; }

    /// <summary>A short paragraph or two: what it does, what it answers.</summary>
    public required string[] Page { get; init; }

    /// <summary>A line to type, and what it does.</summary>
    public required (string Line, string Meaning)[] Examples { get; init; }

    /// <summary>How to call it, for usage errors.</summary>
    public string Usage => $"rig {Name} {Operands}";
}
