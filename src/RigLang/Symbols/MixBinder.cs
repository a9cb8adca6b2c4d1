using RigLang.Connectors;
using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>What is dialled in on a mixer: pan, gain, mute, sends, where a channel goes, mono.</summary>
internal sealed class MixBinder(DeviceSymbol device, GearSymbol gear, Reading reading)
{
    /// <summary>True for a line that sets a port or bus, and not a part or track; a name that nothing has is told as that of a port.</summary>
    public static bool Reads(Statement line, GearSymbol gear) => line switch
    {
        StateSetting state => state.Ports[0].First.Text is var name && (gear.PortsByName.ContainsKey(name) || !(gear.Parts.ContainsKey(name) || gear.Tracks.ContainsKey(name))),
        SwitchSetting { Switch.Text: "pan" } => true,
        SwitchSetting send => gear.PortsByName.ContainsKey(send.Switch.Text) && send.Switch.Text is not ("phantom" or "thru" or "local"),
        _ => true,
    };

    public void Bind(Statement line)
    {
        switch (line)
        {
            case SwitchSetting { Switch.Text: "pan" } pan:
                BindPan(pan);
                break;
            case SwitchSetting off:
                foreach (var port in PortsOf(off.Ports))
                {
                    BindSend(port, off.Switch, null, line);
                }
                break;
            case LevelSetting level:
                BindLevel(level);
                break;
            case StateSetting state:
                BindState(state);
                break;
            case AssignSetting assign:
                BindAssign(assign);
                break;
        }
    }

    private void BindPan(SwitchSetting line)
    {
        Side? to = line.State.Text switch { "left" => Side.Left, "right" => Side.Right, "centre" or "center" => Side.Only, _ => null };
        if (to is not { } side)
        {
            reading.Note(new UnknownWord(reading.At(line.State.Span), line.State.Text, "a pan", ["left", "right", "centre"]));
            return;
        }
        foreach (var port in PortsOf(line.Ports))
        {
            if (!IsMono(port))
            {
                Refuse(line, "a pan", $"`{port.Name}` is not one channel of sound");
            }
            else if (!gear.Routes.From(port).Any(IsWide))
            {
                Refuse(line, $"a pan at `{port.Name}`", "it is routed to nothing with a left and a right");
            }
            else
            {
                Add(new MixSetting.Pan(port, side, At(line)));
            }
        }

        static bool IsMono(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: false } or { Kind: SignalKind.Insert };
        static bool IsWide(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: true } or { Kind: SignalKind.Usb };
    }

    private void BindLevel(LevelSetting line)
    {
        if (reading.Quantity(line.Level, Trade.Dimension.Gain) is not { } decibels)
        {
            return;
        }
        foreach (var port in PortsOf(line.Ports))
        {
            if (line.What.Text != "gain")
            {
                BindSend(port, line.What, decibels, line);
            }
            else if (IsAudio(port))
            {
                Add(new MixSetting.Gain(port, decibels, At(line)));
            }
            else
            {
                Refuse(line, "a gain", $"`{port.Name}` carries no sound");
            }
        }
    }

    private void BindSend(PortSymbol port, Name to, double? decibels, Statement line)
    {
        if (!gear.PortsByName.TryGetValue(to.Text, out var output))
        {
            if (!gear.IsIncomplete)
            {
                reading.Note(new UnknownName(reading.At(to.Span), $"send of {gear.Name}", to.Text, [.. gear.Routes.From(port).Select(p => p.Name).Append("gain")]));
            }
        }
        else if (!gear.Routes.Contains(port, output))
        {
            Refuse(line, $"a send from `{port.Name}` to `{output.Name}`", "it has no such route");
        }
        else
        {
            Add(new MixSetting.Send(port, output, decibels, At(line)));
        }
    }

    private void BindState(StateSetting line)
    {
        var isMuted = line.State.Text == "muted";
        foreach (var port in PortsOf(line.Ports))
        {
            if (isMuted ? !IsAudio(port) : port.Signal is not { Kind: SignalKind.Audio, IsStereo: true })
            {
                Refuse(line, isMuted ? "a mute" : "a mono switch", isMuted ? $"`{port.Name}` carries no sound" : $"`{port.Name}` has no left and right");
            }
            else
            {
                Add(isMuted ? new MixSetting.Muted(port, At(line)) : new MixSetting.Mono(port, At(line)));
            }
        }
    }

    private void BindAssign(AssignSetting line)
    {
        var to = PortsOf(line.To).ToList();
        foreach (var port in PortsOf(line.Ports))
        {
            var can = gear.Assigns.From(port);
            if (to.Find(output => !can.Contains(output)) is { } wrong)
            {
                Refuse(line, $"`{port.Name}` to `{wrong.Name}`", can.Count == 0 ? $"nothing can be chosen for `{port.Name}`: its gear has no `assign` line with it" : $"it can be assigned to {string.Join(", ", can.Select(p => p.Name))}");
            }
            else if (to.Count > 0)
            {
                Add(new MixSetting.Assign(port, to, At(line)));
            }
        }
    }

    /// <summary>One thing is set once: of two lines that say it, nobody knows which holds.</summary>
    private void Add(MixSetting setting)
    {
        var same = device.Mix.FirstOrDefault(other => other.GetType() == setting.GetType() && ReferenceEquals(other.Port, setting.Port)
            && (setting is not MixSetting.Send send || ReferenceEquals(((MixSetting.Send)other).To, send.To)));
        if (same is not null)
        {
            reading.Note(new DuplicateName(setting.At, $"setting of {device.Name}", setting.Port.Name, same.At));
            return;
        }
        device.Mix.Add(setting);
    }

    private IEnumerable<PortSymbol> PortsOf(IReadOnlyList<NameRange> names)
    {
        foreach (var name in reading.Expand(names))
        {
            if (gear.PortsByName.TryGetValue(name.Text, out var port))
            {
                yield return port;
            }
            else if (!gear.IsIncomplete)
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"port of {gear.Name}", name.Text, gear.PortsByName.Keys));
            }
        }
    }

    private static bool IsAudio(PortSymbol port) => port.IsBus || port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb };

    private void Refuse(Statement line, string setting, string why) => reading.Note(new MissingAbility(reading.At(line.Span), setting, gear.Name, why));

    private Text.Location At(Statement line) => reading.At(line.Span);
}
