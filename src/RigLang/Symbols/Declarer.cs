using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>Enters what the files declare, so that every name is known before one is looked up.</summary>
internal sealed class Declarer(RigNames names)
{
    public void DeclareGearAndLeads(FileSymbols file)
    {
        if (file.Library is { } library)
        {
            DeclareLibrary(library);
            return;
        }
        foreach (var gear in file.Gear)
        {
            Declare(names.Gear, gear.Name, gear, "gear", gear.At, GearAt(gear.Name));
        }
        foreach (var lead in file.Leads)
        {
            Declare(names.Leads, lead.Name, lead, "lead", lead.At, LeadAt(lead.Name));
        }
    }

    /// <summary>Its gear and leads are looked up when they are named; here only those count whose names are taken.</summary>
    private void DeclareLibrary(LibraryFile library)
    {
        foreach (var name in library.GearNames)
        {
            NoteIfTaken("gear", name, library.GearAt(name)!.Value, GearAt(name));
        }
        foreach (var name in library.LeadNames)
        {
            NoteIfTaken("lead", name, library.LeadAt(name)!.Value, LeadAt(name));
        }
        names.Library.Add(library);
    }

    /// <summary>Where the first gear of that name is declared so far.</summary>
    private Location? GearAt(string name)
    {
        var at = names.Gear.GetValueOrDefault(name)?.At;
        for (var i = 0; at is null && i < names.Library.Count; i++)
        {
            at = names.Library[i].GearAt(name);
        }
        return at;
    }

    /// <summary>Where the first lead of that name is declared so far.</summary>
    private Location? LeadAt(string name)
    {
        var at = names.Leads.GetValueOrDefault(name)?.At;
        for (var i = 0; at is null && i < names.Library.Count; i++)
        {
            at = names.Library[i].LeadAt(name);
        }
        return at;
    }

    public void DeclareDevice(DeviceStatement device, FileScope scope)
    {
        var gear = names.FindGear(device.Gear.Text);
        if (gear is null)
        {
            scope.NoteUnknown(device.Gear, "gear", names.GearNames);
        }
        foreach (var name in scope.Reading.Expand(device.Names))
        {
            DeclareDevice(device, name, gear, scope);
        }
    }

    private void DeclareDevice(DeviceStatement device, Name name, GearSymbol? gear, FileScope scope)
    {
        var symbol = new DeviceSymbol(name.Text, scope.Reading.At(name.Span), device) { Index = names.Devices.Count };
        if (!Declare(names.DevicesByName, symbol.Name, symbol, "device", symbol.At, names.DevicesByName.GetValueOrDefault(symbol.Name)?.At))
        {
            return;
        }
        names.Devices.Add(symbol);
        symbol.FirstJack = names.JackCount;
        symbol.FirstContact = names.ContactCount;
        if (gear is not null)
        {
            symbol.Gear = gear;
            names.JackCount += gear.JackCount;
            names.ContactCount += gear.ContactCount;
        }
    }

    private bool NoteIfTaken(string kind, string name, Location at, Location? first)
    {
        if (first is { } taken)
        {
            names.Faults.Add(new DuplicateName(at, kind, name, taken));
        }
        return first is not null;
    }

    private bool Declare<T>(Dictionary<string, T> table, string name, T symbol, string kind, Location at, Location? first)
    {
        if (NoteIfTaken(kind, name, at, first))
        {
            return false;
        }
        table.Add(name, symbol);
        return true;
    }
}
