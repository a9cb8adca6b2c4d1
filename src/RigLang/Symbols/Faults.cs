using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>Something a stage met while reading; the check of the same pattern tells the player.</summary>
public abstract record Fault(Location At);

/// <summary>A line outside the grammar.</summary>
public sealed record BadSyntax(Location At, SyntaxFault Fault) : Fault(At);

public enum ImportTrouble
{
    NotFound,
    Circular,
    Repeated,
    Absolute,
}

/// <summary>An import that brings nothing. <see cref="Reason"/> is what opening the file said.</summary>
public sealed record BadImport(Location At, ImportTrouble Trouble, string Path, string? Reason, Location? Other) : Fault(At);

/// <summary>A name that nothing has. <see cref="Kind"/>: "device", "gear", "port of Tern".</summary>
public sealed record UnknownName(Location At, string Kind, string Name, IReadOnlyCollection<string> Known) : Fault(At);

public sealed record DuplicateName(Location At, string Kind, string Name, Location First) : Fault(At);

/// <summary>Two imports bring different things of one name, and the rig uses it.</summary>
public sealed record NameClash(Location At, string Kind, string Name, Location One, Location Other) : Fault(At);

/// <summary>Two rig blocks say different things. <see cref="What"/>: "the mains".</summary>
public sealed record RigDisagreement(Location At, string What, string Text, string FirstText, Location First, bool IsMains) : Fault(At);

/// <summary>A word that means nothing where it stands. <see cref="Where"/>: "a midi port".</summary>
public sealed record UnknownWord(Location At, string Word, string Where, IReadOnlyList<string> Known) : Fault(At);

/// <param name="Figure">The number before it.</param>
/// <param name="Wanted">What could be measured there.</param>
public sealed record UnknownUnit(Location At, string Unit, Location Figure, IReadOnlyList<Dimension> Wanted) : Fault(At);

/// <summary>A quantity of the wrong dimension; <see cref="Wanted"/> are the dimensions that would do.</summary>
public sealed record WrongDimension(Location At, string Text, Dimension Found, IReadOnlyList<Dimension> Wanted) : Fault(At);

/// <summary>A number that cannot be. <see cref="Allowed"/>: "1 to 16".</summary>
/// <param name="Meant">What was most likely meant, such as 250 mA for 250 A; null when nothing is near.</param>
public sealed record OutOfRange(Location At, string What, string Text, string Allowed, string? Meant = null) : Fault(At);

/// <summary>Something that has to be said and is not. <see cref="Missing"/>: "a voltage, such as 9 V".</summary>
public sealed record IncompleteDeclaration(Location At, string What, string Missing) : Fault(At);

/// <summary>A signal on a connector that cannot carry it.</summary>
public sealed record ImpossibleConnector(Location At, string Signal, string Connector, string Possible) : Fault(At);

/// <summary>A setting that this gear does not have. <see cref="Can"/> says what it does have.</summary>
public sealed record MissingAbility(Location At, string Setting, string Gear, string Can) : Fault(At);

/// <summary>Two lists that go together one by one and differ in length. <see cref="How"/>: "in pairs", "one by one".</summary>
public sealed record UnequalLists(Location At, string How, string One, int OneCount, string Other, int OtherCount) : Fault(At);

/// <summary>Put <see cref="Text"/> in the place of <see cref="Span"/>, in the file of the fault.</summary>
public sealed record Rewrite(string Title, TextSpan Span, string Text);

/// <summary>
/// What is meant can be told, or is one of few things, and the language says it otherwise. <see cref="Rewrites"/> are the ways to say it: one when it
/// is certain.
/// </summary>
public sealed record WrongForm(Location At, string What, string Do, IReadOnlyList<Rewrite> Rewrites) : Fault(At);

/// <summary>Gear that is like itself, by way of others perhaps: <see cref="Circle"/> names them in their order.</summary>
public sealed record LikeItself(Location At, IReadOnlyList<string> Circle) : Fault(At);
