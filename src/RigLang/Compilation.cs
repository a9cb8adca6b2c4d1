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
    public ImmutableArray<Finding> Findings { get => field.IsDefault ? Judgement.Findings : field; init; }

    /// <summary>What was found and the player accepts, by place.</summary>
    public ImmutableArray<Finding> Accepted { get => field.IsDefault ? Judgement.Accepted : field; init; }

    /// <summary>What holds in this rig and was checked, for a player who gets no finding.</summary>
    public ImmutableArray<Fact> Facts { get => field.IsDefault ? field = FactsOf(Rig, Findings, Accepted) : field; init; }

    /// <summary>The leads taken for connections that name none, by place.</summary>
    public ImmutableArray<ChosenLead> ChosenLeads { get => field.IsDefault ? field = RigFacts.ChosenLeadsOf(Rig) : field; init; }

    /// <summary>What was read and is not checked; worked out when it is asked for.</summary>
    public ImmutableArray<UncheckedFigures> NotChecked => field.IsDefault ? field = RigLang.NotChecked.Of(Rig) : field;

    /// <summary>The rig as the tools read it.</summary>
    public required Rig Rig { get; init; }

    private Judgement Judgement => field ??= Judgements.Of(Rig);

    /// <summary>
    /// The whole way from text to findings. Never throws on anything a player can write; <paramref name="open"/> brings the
    /// imports and is asked once for each path.
    /// </summary>
    public static Compilation Create(SourceText root, OpenFile open)
    {
        var compilation = Read(root, open);
        _ = compilation.Judgement;
        _ = compilation.Facts;
        return compilation;
    }

    /// <summary>As <see cref="Create"/>, but nothing is judged before it is asked for: an answer about one flow pays for no other.</summary>
    public static Compilation Read(SourceText root, OpenFile open)
    {
        var files = Imports.Follow(root, open, ReadFile);
        var names = Binder.Bind(files);
        var wiring = RigWiring.Of(names);
        var links = LinkTable.Of(wiring);
        return new Compilation
        {
            Files = [.. names.Files.Select(f => f.Source)],
            Rig = new Rig(names, wiring, links),
        };
    }

    /// <summary>
    /// What the checks of some topics find, judged by themselves: without what the rig promises, and without the flows that only other checks
    /// follow. Sorted as <see cref="Findings"/>.
    /// </summary>
    public ImmutableArray<Finding> FindingsAbout(params ImmutableArray<Topic> topics) => Judgements.About(Rig, topics).Findings;

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
