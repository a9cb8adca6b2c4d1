using System.Globalization;
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
            // Its gear and leads are read when they are named.
            names.Library.Add(library);
            return;
        }
        foreach (var gear in file.Gear)
        {
            if (file.OwnGear(gear.Name) is { } first && first != gear)
            {
                names.Faults.Add(new DuplicateName(gear.At, "gear", gear.Name, first.At));
            }
            else if (names.Gear.TryAdd(gear.Name, gear) || names.MeaningOfGear(file, gear.Name).Symbol is { } mine && !IsKnown(file, mine))
            {
                names.AllGear.Add(gear);
            }
        }
        foreach (var lead in file.Leads)
        {
            if (file.OwnLead(lead.Name) is { } first && first != lead)
            {
                names.Faults.Add(new DuplicateName(lead.At, "lead", lead.Name, first.At));
            }
            else
            {
                names.Leads.TryAdd(lead.Name, lead);
            }
        }
    }

    /// <summary>True when gear that says the same was entered before.</summary>
    private bool IsKnown(FileSymbols file, GearSymbol gear) => names.AllGear.Exists(known => known.Name == gear.Name
        && names.Files.FirstOrDefault(f => ReferenceEquals(f.Source, known.At.Source)) is { } other
        && Declarations.AreEqual(file, gear.Statement, other, known.Statement));

    /// <summary>One device a name: the checked file's own before one that an import brings, whatever the order of the lines.</summary>
    public void DeclareDevices(List<FileScope> scopes)
    {
        var winners = scopes.Count > 1 || scopes.Exists(HasTwoOfAName) ? WinnersOf(scopes) : null;
        foreach (var scope in scopes)
        {
            foreach (var device in scope.File.Statements.OfType<DeviceStatement>())
            {
                DeclareDevices(device, scope, winners);
            }
        }
        foreach (var scope in scopes)
        {
            NoteTakenPrefixes(scope);
        }
    }

    /// <summary>A hundred names on one line, each of gear with a hundred jacks, are more than their letters: beyond what any tour carries, no more are plugged.</summary>
    private const int MostJacks = 250_000;

    /// <summary>One device, or one for each name of a line that declares several.</summary>
    private void DeclareDevices(DeviceStatement device, FileScope scope, Dictionary<string, Winner>? winners)
    {
        GearSymbol? gear = null;
        var isLookedUp = false;
        var isTooMany = false;
        foreach (var name in scope.Reading.Expand(device.Names))
        {
            if (Enter(device, name, scope, winners) is not { } symbol)
            {
                continue;
            }
            gear = isLookedUp ? gear : scope.Gear(device.Gear);
            isLookedUp = true;
            if (gear is not null && names.JackCount + gear.JackCount > MostJacks)
            {
                if (!isTooMany)
                {
                    isTooMany = true;
                    names.Faults.Add(new OutOfRange(symbol.At, "the number of jacks in a rig", $"{names.JackCount + gear.JackCount}",
                        $"{MostJacks.ToString("N0", CultureInfo.InvariantCulture)} at most, and what comes after them is left unread"));
                }
                continue;
            }
            if (gear is not null)
            {
                symbol.Gear = gear;
                names.JackCount += gear.JackCount;
                names.ContactCount += gear.ContactCount;
            }
        }
    }

    /// <summary>The device of a name; null when another has it, or when nothing is concluded from it.</summary>
    private DeviceSymbol? Enter(DeviceStatement device, Name written, FileScope scope, Dictionary<string, Winner>? winners)
    {
        var name = scope.KeyOf(written);
        var winner = winners?.GetValueOrDefault(name);
        if (winner is not null && winner.Scope != scope)
        {
            return null;
        }
        if (winner is not null && !ReferenceEquals(winner.Device, device))
        {
            names.Faults.Add(new DuplicateName(scope.Reading.At(written.Span), "device", name, scope.Reading.At(winner.Device.Name.Span)));
            return null;
        }
        var symbol = new DeviceSymbol(name, scope.Reading.At(written.Span), device) { Index = names.Devices.Count };
        if (!names.DevicesByName.TryAdd(name, symbol))
        {
            names.Faults.Add(new DuplicateName(symbol.At, "device", name, names.DevicesByName[name].At));
            return null;
        }
        names.Devices.Add(symbol);
        symbol.FirstJack = names.JackCount;
        symbol.FirstContact = names.ContactCount;
        if (winner?.Rival is { } rival)
        {
            // Nothing is concluded from a device that may be either of two.
            var other = rival.Scope.Reading.At(rival.Device.Name.Span);
            names.Faults.Add(new NameClash(names.Imports.LineThatBrings(rival.Scope.File) ?? symbol.At, "device", name, symbol.At, other));
            return null;
        }
        return symbol;
    }

    /// <summary>`tide.bass` must not mean both a jack of a device and a device of an import.</summary>
    private void NoteTakenPrefixes(FileScope scope)
    {
        var taken = new Dictionary<string, Location>(StringComparer.Ordinal);
        foreach (var import in scope.File.Statements.OfType<ImportStatement>())
        {
            if (import.As is not { } name)
            {
                continue;
            }
            var at = scope.Reading.At(name.Span);
            if (names.FindDevice(scope.File, name.Text) is { } device)
            {
                names.Faults.Add(new DuplicateName(at, "device", name.Text, device.At));
            }
            else if (!taken.TryAdd(name.Text, at))
            {
                names.Faults.Add(new DuplicateName(at, "imported file", name.Text, taken[name.Text]));
            }
        }
    }

    private static bool HasTwoOfAName(FileScope scope)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var device in scope.File.Statements.OfType<DeviceStatement>())
        {
            foreach (var range in device.Names)
            {
                // Ranges are few; whether two of them overlap is seen when they are written out.
                if (range.Last is not null || !seen.Add(range.First.Text))
                {
                    return true;
                }
            }
        }
        return false;
    }

    private sealed record Winner(FileScope Scope, DeviceStatement Device, (FileScope Scope, DeviceStatement Device)? Rival);

    /// <summary>Of each name that several files declare: the device that has it, and one that has as much right to it.</summary>
    private Dictionary<string, Winner> WinnersOf(List<FileScope> scopes)
    {
        var all = new Dictionary<string, List<(FileScope Scope, DeviceStatement Device)>>(StringComparer.Ordinal);
        foreach (var scope in scopes)
        {
            foreach (var device in scope.File.Statements.OfType<DeviceStatement>())
            {
                foreach (var written in scope.Reading.Silent.Expand(device.Names))
                {
                    var name = scope.KeyOf(written);
                    if (!all.TryGetValue(name, out var same))
                    {
                        all.Add(name, same = []);
                    }
                    // Of two in one file the one whose words come last has the name, wherever they stand.
                    if (same.FindIndex(s => s.Scope == scope) is not (>= 0 and var index))
                    {
                        same.Add((scope, device));
                    }
                    else if (string.CompareOrdinal(scope.Reading.Source.Slice(device.Span), scope.Reading.Source.Slice(same[index].Device.Span)) > 0)
                    {
                        same[index] = (scope, device);
                    }
                }
            }
        }
        var winners = new Dictionary<string, Winner>(StringComparer.Ordinal);
        foreach (var (name, same) in all)
        {
            winners.Add(name, WinnerOf(same));
        }
        return winners;
    }

    private Winner WinnerOf(List<(FileScope Scope, DeviceStatement Device)> same)
    {
        // A file that imports another wins over it; the checked file imports all.
        var top = same.FindAll(s => !same.Exists(o => o.Scope != s.Scope
            && names.Imports.Reaches(o.Scope.File, s.Scope.File) && !names.Imports.Reaches(s.Scope.File, o.Scope.File)));
        if (top.Exists(s => s.Scope.File == names.Files[0]))
        {
            top = top.FindAll(s => s.Scope.File == names.Files[0]);
        }
        var first = top[0];
        foreach (var other in top)
        {
            if (other.Scope != first.Scope && !Declarations.AreEqual(first.Scope.File, first.Device, other.Scope.File, other.Device))
            {
                return new Winner(first.Scope, first.Device, other);
            }
        }
        return new Winner(first.Scope, first.Device, null);
    }
}
