using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

public enum NameKind
{
    Gear,
    Lead,
    Device,
    Port,
    Part,
    Track,
    /// <summary>What a device plays by itself.</summary>
    Sound,
    /// <summary>The path of an import.</summary>
    File,
    /// <summary>What an import is called in its file, as in <c>as tide</c>.</summary>
    Import,
}

/// <summary>
/// What a name stands for. Two are the same when they are of one kind and declared at one place, so that a gear means the
/// same in every rig that imports it.
/// </summary>
/// <param name="Symbol">What the compiler knows of it: GearSymbol, LeadSymbol, DeviceSymbol, PortSymbol, PartSymbol, TrackSymbol, SoundSymbol, FileSymbols, or ImportStatement.</param>
/// <param name="Device">For a port, part or track that is named by way of a device: the device.</param>
public sealed record Named(NameKind Kind, string Name, Location At, object Symbol, DeviceSymbol? Device = null)
{
    public bool IsSameAs(Named other) =>
        Kind == other.Kind && Name == other.Name && At.Span == other.At.Span && At.Source.Path == other.At.Source.Path;

    /// <summary>True for what comes with the tool, which nobody can edit.</summary>
    public bool IsShared => SharedLibrary.IsShared(At.Source.Path);
}

/// <summary>A place where a name stands.</summary>
/// <param name="IsInRange">The span is a range such as out1..out5, of which the name is one: it cannot be replaced by itself.</param>
/// <param name="Prefix">What stands before it of the same name: empty, or <c>tide.</c></param>
/// <param name="IsInQuotes">Part of a name in quotes, <c>"tide.bass"</c>: what takes its place brings none of its own.</param>
public sealed record Occurrence(Named Of, TextSpan Span, bool IsDeclaration, bool IsInRange = false, string Prefix = "", bool IsInQuotes = false);
