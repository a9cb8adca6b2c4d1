namespace RigLang.Connectors;

/// <summary>What one contact of a jack does.</summary>
public enum Role : byte
{
    /// <summary>Not wired inside.</summary>
    Unused,
    /// <summary>The signal of an audio channel, or its non-inverted half when balanced.</summary>
    Hot,
    /// <summary>The inverted half of a balanced audio channel.</summary>
    Cold,
    /// <summary>Signal ground or cable screen.</summary>
    Ground,
    /// <summary>A headset's microphone.</summary>
    HeadsetMic,
    /// <summary>MIDI loop, DIN pin 4: current leaves an output here and enters an input's opto-isolator here.</summary>
    MidiSource,
    /// <summary>MIDI loop, DIN pin 5: current comes back here.</summary>
    MidiSink,
    Pulse,
    SyncRun,
    SyncClock,
    Control,
    Plus,
    Minus,
    Ac,
    Line,
    Neutral,
    Earth,
    DataPlus,
    DataMinus,
}

/// <summary>Whether a contact puts a signal on its net or takes it from there.</summary>
public enum Drive : byte
{
    None,
    Out,
    In,
}

public enum AudioChannel : byte
{
    Mono,
    Left,
    Right,
}

/// <summary>Which of a stereo pair a jack is.</summary>
public enum Side
{
    Only,
    Left,
    Right,
}

/// <summary>A contact's part in its port.</summary>
public readonly record struct ContactRole(Role Role, Drive Drive, AudioChannel Channel = AudioChannel.Mono);

/// <summary>Gives each contact of a jack its role, from the port's signal and the connector.</summary>
public static class ContactRoles
{
    /// <summary>The roles, or null when this signal cannot be on this connector.</summary>
    public static IReadOnlyList<ContactRole>? Of(Signal signal, Form form, Side side, bool isOutput, bool isPassive)
    {
        var roles = new ContactRole[form.Contacts.Count];
        var drive = isPassive ? Drive.None : isOutput ? Drive.Out : Drive.In;
        var known = signal.Kind switch
        {
            SignalKind.Midi => form.Name switch
            {
                "din-5" => Set(("4", Role.MidiSource, drive), ("5", Role.MidiSink, drive), ("2", isOutput || isPassive ? Role.Ground : Role.Unused, Drive.None)),
                _ when IsPhone(3) => signal.MidiWiring == MidiWiring.TypeB
                    ? Set(("tip", Role.MidiSource, drive), ("ring", Role.MidiSink, drive), ("sleeve", isOutput || isPassive ? Role.Ground : Role.Unused, Drive.None))
                    : Set(("ring", Role.MidiSource, drive), ("tip", Role.MidiSink, drive), ("sleeve", isOutput || isPassive ? Role.Ground : Role.Unused, Drive.None)),
                _ when IsPhone(2) => Set(("tip", Role.MidiSource, drive), ("sleeve", Role.MidiSink, drive)),
                _ => false,
            },
            SignalKind.DinSync => form.Name == "din-5" && Set(("1", Role.SyncRun, drive), ("3", Role.SyncClock, drive), ("2", Role.Ground, Drive.None)),
            SignalKind.Pulse => OneContact(Role.Pulse),
            SignalKind.Control => OneContact(Role.Control),
            SignalKind.Audio => Audio(),
            SignalKind.Insert => IsPhone(3) && Set(("tip", Role.Hot, Drive.Out), ("ring", Role.Hot, Drive.In), ("sleeve", Role.Ground, Drive.None)),
            SignalKind.Dc => Dc(),
            SignalKind.Ac => form.IsBarrel && Set(("centre", Role.Ac, drive), ("outer", Role.Ac, drive)),
            SignalKind.Mains => Mains(),
            SignalKind.Usb => form.ContactIndex("vbus") >= 0 && Usb(),
            _ => false,
        };
        return known ? roles : null;

        bool IsPhone(int poles) => form.Family.StartsWith("phone", StringComparison.Ordinal) && form.Contacts.Count == poles;

        bool Set(params ReadOnlySpan<(string Contact, Role Role, Drive Drive)> given)
        {
            foreach (var (contact, role, d) in given)
            {
                if (form.ContactIndex(contact) is >= 0 and var at)
                {
                    roles[at] = new ContactRole(role, d);
                }
            }
            return true;
        }

        bool OneContact(Role role) => form.ContactIndex("tip") >= 0 && form.ContactIndex("sleeve") >= 0
            && Set(("tip", role, drive), ("sleeve", Role.Ground, Drive.None));

        bool Audio()
        {
            var channel = side switch { Side.Left => AudioChannel.Left, Side.Right => AudioChannel.Right, _ => AudioChannel.Mono };
            var twoOnOne = signal.IsStereo && side == Side.Only;
            switch (form.Name)
            {
                case "xlr-3" or "combo" when !twoOnOne:
                    Put("1", Role.Ground, Drive.None);
                    Put("2", Role.Hot, drive, channel);
                    Put("3", signal.Balance == Balance.Unbalanced ? Role.Ground : Role.Cold, signal.Balance == Balance.Unbalanced ? Drive.None : drive, channel);
                    return true;
                case "rca" when !twoOnOne:
                case { } when IsPhone(2) && !twoOnOne:
                    Put("tip", Role.Hot, drive, channel);
                    Put("sleeve", Role.Ground, Drive.None);
                    return true;
                case { } when IsPhone(3) && twoOnOne:
                    Put("tip", Role.Hot, drive, AudioChannel.Left);
                    Put("ring", Role.Hot, drive, AudioChannel.Right);
                    Put("sleeve", Role.Ground, Drive.None);
                    return true;
                case { } when IsPhone(3):
                    Put("tip", Role.Hot, drive, channel);
                    Put("ring", signal.Balance == Balance.Unbalanced ? Role.Unused : Role.Cold, signal.Balance == Balance.Unbalanced ? Drive.None : drive, channel);
                    Put("sleeve", Role.Ground, Drive.None);
                    return true;
                case { } when IsPhone(4):
                    // Tip left, ring 1 right, ring 2 ground, sleeve microphone: the order most telephones use.
                    Put("tip", Role.Hot, drive, twoOnOne ? AudioChannel.Left : channel);
                    Put("ring", twoOnOne ? Role.Hot : Role.Unused, twoOnOne ? drive : Drive.None, AudioChannel.Right);
                    Put("ring2", Role.Ground, Drive.None);
                    Put("sleeve", Role.HeadsetMic, Drive.None);
                    return true;
                default:
                    return false;
            }
        }

        void Put(string contact, Role role, Drive d, AudioChannel channel = AudioChannel.Mono) =>
            roles[form.ContactIndex(contact)] = new ContactRole(role, d, channel);

        bool Dc()
        {
            if (form.ContactIndex("vbus") >= 0)
            {
                return Set(("vbus", Role.Plus, drive), ("gnd", Role.Minus, drive));
            }
            return form.IsBarrel && (signal.Polarity == Polarity.CentreNegative
                ? Set(("centre", Role.Minus, drive), ("outer", Role.Plus, drive))
                : Set(("centre", Role.Plus, drive), ("outer", Role.Minus, drive)));
        }

        bool Mains() => form.ContactIndex("line") >= 0 && Set(
            ("line", Role.Line, drive),
            ("neutral", Role.Neutral, drive),
            ("earth", signal.Earth == EarthClass.Earthed ? Role.Earth : Role.Unused, signal.Earth == EarthClass.Earthed ? drive : Drive.None));

        // A host gives power, a device takes it; data flows both ways and drives nothing by itself.
        bool Usb()
        {
            Set(("vbus", Role.Plus, drive), ("gnd", Role.Minus, drive));
            if (signal.Usb != UsbRole.Charger)
            {
                Set(("dplus", Role.DataPlus, drive), ("dminus", Role.DataMinus, drive));
            }
            return true;
        }
    }
}
