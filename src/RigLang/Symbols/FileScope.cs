using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>How the names in the statements of one file are looked up; a name that nothing has is noted once, at its place.</summary>
internal sealed class FileScope(FileSymbols file, RigNames names, BrokenDeclarations broken)
{
    /// <summary>A search for the name that was meant costs time that grows with the rig; after so many slips the first ones matter.</summary>
    private const int MostSlips = 100;

    public FileSymbols File { get; } = file;

    public RigNames Names { get; } = names;

    public SyntaxTree Tree { get; } = file.Tree;

    public Reading Reading { get; } = new(file.Source, names.Faults);

    public DeviceSymbol? Device(Name name)
    {
        if (Names.DevicesByName.TryGetValue(name.Text, out var device))
        {
            return device;
        }
        NoteUnknown(name, "device", Names.DevicesByName.Keys);
        return null;
    }

    public PortSymbol? Port(Name name, GearSymbol gear)
    {
        if (gear.PortsByName.TryGetValue(name.Text, out var port))
        {
            return port;
        }
        if (!gear.IsIncomplete)
        {
            Reading.Note(new UnknownName(Reading.At(name.Span), $"port of {gear.Name}", name.Text, gear.PortsByName.Keys));
        }
        return null;
    }

    public void NoteUnknown(Name name, string kind, IReadOnlyCollection<string> known)
    {
        // What a broken import would have declared, or a broken line, is not told a second time.
        if (!Names.HasBrokenImport && !broken.Declares(name.Text))
        {
            Reading.Note(new UnknownName(Reading.At(name.Span), kind, name.Text, known));
        }
    }

    /// <summary>Notes the device of a path that leads nowhere, and the device it was most likely meant for.</summary>
    public void NameAsMentioned(PathNode path)
    {
        var name = path.Parts[0].Text;
        Names.NamesInBrokenLines.Add(name);
        if (!Names.DevicesByName.ContainsKey(name) && Names.NamesInBrokenLines.Count < MostSlips
            && Spelling.Nearest(name, Names.DevicesByName.Keys) is { } meant)
        {
            Names.NamesInBrokenLines.Add(meant);
        }
    }

    public void NoteNamesOf(BrokenLine broken)
    {
        foreach (var token in Tree.TokensIn(broken.Span))
        {
            if (token.IsName)
            {
                Names.NamesInBrokenLines.Add(token.Text!);
            }
        }
    }

    public void NoteColours(IReadOnlyList<Name> colours)
    {
        foreach (var colour in colours)
        {
            if (!Vocabulary.Colours.Contains(colour.Text))
            {
                Reading.Note(new UnknownWord(Reading.At(colour.Span), colour.Text, "a cable's colour", Vocabulary.Colours));
            }
        }
    }
}
