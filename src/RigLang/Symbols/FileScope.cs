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

    private readonly string _prefix = names.Imports.PrefixOf(file);

    /// <summary>What a device of this file is called in the rig: <c>bass</c>, or <c>tide.bass</c> where the file is imported as `tide`.</summary>
    public string KeyOf(Name device) => _prefix.Length == 0 ? device.Text : _prefix + device.Text;

    /// <summary>The gear of that name; null when there is none, or two, which is noted.</summary>
    public GearSymbol? Gear(Name name)
    {
        var gear = Known(name, "gear", Names.MeaningOfGear(File, name.Text), static gear => gear.At, static names => names.GearNames);
        if (gear is not null)
        {
            Names.Use(gear);
        }
        return gear;
    }

    /// <inheritdoc cref="Gear"/>
    public LeadSymbol? Lead(Name name)
    {
        var lead = Known(name, "lead", Names.MeaningOfLead(File, name.Text), static lead => lead.At, static names => names.LeadNames);
        if (lead is not null)
        {
            Names.Use(lead);
        }
        return lead;
    }

    private T? Known<T>(Name name, string kind, Meaning<T> meaning, Func<T, Location> placeOf, Func<RigNames, IReadOnlyCollection<string>> namesOf)
        where T : class
    {
        if (meaning.Symbol is null)
        {
            NoteUnknown(name, kind, namesOf(Names));
        }
        else if (meaning.Other is { } other)
        {
            if (!Names.Faults.Exists(f => f is NameClash clash && clash.Kind == kind && clash.Name == name.Text))
            {
                Reading.Note(new NameClash(Reading.At(name.Span), kind, name.Text, placeOf(meaning.Symbol), placeOf(other)));
            }
            return null;
        }
        return meaning.Symbol;
    }

    public DeviceSymbol? Device(Name name)
    {
        if (Names.FindDevice(File, name.Text) is { } device)
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
        if (Names.FindDevice(File, name) is null && Names.NamesInBrokenLines.Count < MostSlips
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
