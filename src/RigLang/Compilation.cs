using System.Collections.Immutable;
using RigLang.Checks;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang;

/// <summary>A rig file and all that it imports, compiled: what was found, and what was verified.</summary>
public sealed class Compilation
{
    /// <summary>The file that was asked for, then its imports in the order first met.</summary>
    public ImmutableArray<SourceText> Files { get; init; } = [];

    /// <summary>Sorted by file (the root first), then place.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>What was found and the player accepts, by place.</summary>
    public ImmutableArray<Finding> Accepted { get; init; } = [];

    /// <summary>What holds in this rig and was checked, for a player who gets no finding.</summary>
    public ImmutableArray<Fact> Facts { get; init; } = [];

    /// <summary>The leads taken for connections that name none, by place.</summary>
    public ImmutableArray<ChosenLead> ChosenLeads { get; init; } = [];

    /// <summary>What was read and is not checked; worked out when it is asked for.</summary>
    public ImmutableArray<UncheckedFigures> NotChecked => field.IsDefault ? field = RigLang.NotChecked.Of(Rig) : field;

    /// <summary>The rig as the tools read it.</summary>
    public required Rig Rig { get; init; }

    /// <summary>
    /// The whole way from text to findings. Never throws on anything a player can write; <paramref name="open"/> brings the
    /// imports and is asked once for each path.
    /// </summary>
    public static Compilation Create(SourceText root, OpenFile open)
    {
        var files = Imports.Follow(root, open, ReadFile);
        var names = Binder.Bind(files);
        var wiring = RigWiring.Of(names);
        var links = LinkTable.Of(wiring);
        var rig = new Rig(names, wiring, links);
        var (findings, accepted) = Judgements.Of(rig);
        return new Compilation
        {
            Files = [.. names.Files.Select(f => f.Source)],
            Rig = rig,
            Findings = findings,
            Accepted = accepted,
            ChosenLeads = RigFacts.ChosenLeadsOf(rig),
            Facts = FactsOf(rig, findings, accepted),
        };
    }

    /// <summary>One file by itself, from its text to what it declares.</summary>
    private static FileSymbols ReadFile(SourceText text)
    {
        var tokens = Lexer.Lex(text);
        var lines = Outline.Of(text, tokens);
        var statements = RigParser.Parse(text, tokens, lines);
        return FileSymbols.Of(statements);
    }

    /// <summary>What cannot be counted because the tool itself fails there is not counted; the checks that look there say so.</summary>
    private static ImmutableArray<Fact> FactsOf(Rig rig, ImmutableArray<Finding> findings, ImmutableArray<Finding> accepted)
    {
        try
        {
            return RigFacts.Of(rig, findings, accepted);
        }
        catch (Exception e) when (Guard.Contains(e))
        {
            return [];
        }
    }
}
