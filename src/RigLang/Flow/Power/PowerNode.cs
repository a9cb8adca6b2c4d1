using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>How much is taken: amperes of low voltage, volt-amperes of mains.</summary>
/// <param name="IsLeast">True when something that takes its share does not say how much.</param>
public readonly record struct Draw(double Value, bool IsLeast)
{
    public static Draw operator +(Draw a, Draw b) => new(a.Value + b.Value, a.IsLeast || b.IsLeast);
}

/// <summary>One device as it stands in the way of the power: a wall socket, a strip, a supply, a hub, a load.</summary>
public sealed class PowerNode(DeviceSymbol device)
{
    private readonly List<PowerNode> _children = [];

    public DeviceSymbol Device { get; } = device;

    /// <summary>The port by which it is fed; null where the tree begins.</summary>
    public PortSymbol? In { get; internal init; }

    public PowerNode? Parent { get; private set; }

    /// <summary>The parent's port that it hangs on.</summary>
    public PortSymbol? Outlet { get; internal set; }

    /// <summary>The connection between the two.</summary>
    public Hookup? Hookup { get; internal set; }

    /// <summary>The port that really gives the power, past strips and splitters.</summary>
    public PortRef? Source { get; internal set; }

    /// <summary>What hangs on its outlets, in the order of its ports.</summary>
    public IReadOnlyList<PowerNode> Children => _children;

    /// <summary>Steps from where the tree begins.</summary>
    public int Depth { get; internal set; }

    /// <summary>What it takes through <see cref="In"/>, with all that it hands on.</summary>
    public Draw Takes { get; internal set; }

    /// <summary>A strip, a splitter, a daisy chain: it only hands on.</summary>
    public bool IsPassive => In is { IsPassive: true };

    public bool IsMains => Source is { Port.Signal.Kind: SignalKind.Mains };

    public bool IsUsb => Source is { Port.Signal.Kind: SignalKind.Usb };

    /// <summary>What it hangs on gives or carries, in the unit of <see cref="Takes"/>: the outlet or, of a strip or splitter, its own plug. Null when neither says.</summary>
    public double? Rating => (LimitOf(Outlet?.Signal), IsPassive ? LimitOf(In!.Signal) : null) switch
    {
        ({ } outlet, { } own) => Math.Min(outlet, own),
        var (outlet, own) => outlet ?? own,
    };

    /// <summary>True when more is taken than the rating; a millionth of it is rounding.</summary>
    public bool IsOver => Rating is { } rating && IsTooMuch(Takes.Value, rating);

    internal static bool IsTooMuch(double takes, double rating) => takes > rating * (1 + 1e-6);

    /// <summary>What of the rating is left, 0.33 for a third; negative when it is too little.</summary>
    public double? Spare => Rating is > 0 and var rating ? 1 - (Takes.Value / rating) : null;

    /// <summary>The devices that really take power here: itself, or what hangs on a strip or splitter.</summary>
    public IEnumerable<PowerNode> Loads
    {
        get
        {
            var open = new Stack<PowerNode>([this]);
            while (open.TryPop(out var node))
            {
                if (!node.IsPassive)
                {
                    yield return node;
                    continue;
                }
                for (var i = node.Children.Count - 1; i >= 0; i--)
                {
                    open.Push(node.Children[i]);
                }
            }
        }
    }

    /// <summary>A USB hub that lives on what its computer gives.</summary>
    public bool IsBusPoweredHub => In is { Signal: { Kind: SignalKind.Usb, Current: not null } }
        && In is not null && Device.Gear!.Routes.From(In).Any(to => to.Signal is { Kind: SignalKind.Usb, Usb: UsbRole.Host });

    /// <summary>An amount in the unit of <see cref="Takes"/>: 250 mA, 58 VA.</summary>
    public string Amount(double value) => IsMains ? $"{Units.Figure(Math.Round(value))} VA" : new Ampere(Math.Round(value, 4)).ToString();

    private double? LimitOf(Signal? signal) => signal is null ? null : IsMains ? MainsLimitOf(signal, SourceVolts) : signal.Current?.Value;

    /// <summary>What an outlet says that it gives: amperes, or volt-amperes of mains at this voltage. Null when it does not say.</summary>
    internal static double? MostOf(Signal? signal, Volt? mains) => signal is { Kind: SignalKind.Mains } ? MainsLimitOf(signal, mains) : signal?.Current?.Value;

    private static double? MainsLimitOf(Signal signal, Volt? mains) =>
        signal.Watts ?? (signal.Current is { } current && mains is { } volts ? current.Value * volts.Value : null);

    /// <summary>The voltage that the source gives.</summary>
    public Volt? SourceVolts { get; internal set; }

    /// <summary>What it takes in watts; mains by the power factor of common practice.</summary>
    public double? Watts => IsMains ? Takes.Value * PowerFigures.PowerFactor : SourceVolts is { } volts ? Takes.Value * volts.Value : null;

    /// <summary>What the leads from the source to it lose; leads that do not say their gauge and length count as nothing.</summary>
    public Volt Drop { get; internal set; }

    /// <summary>What arrives at it; null when the source does not say.</summary>
    public Volt? Arrives => SourceVolts is { } given ? new Volt(given.Value - Drop.Value) : null;

    /// <summary>The lowest voltage that it works from: of a bus, of the range that it declares, or within the tolerance of common practice.</summary>
    public Volt? WorksFrom => IsUsb ? UsbPower.Least : In?.Signal?.Volts switch
    {
        { } nominal when nominal.Low == nominal.High => new Volt(nominal.Low.Value * PowerFigures.LeastShareOfNominal),
        { } range => range.Low,
        null => null,
    };

    internal void HangOn(PowerNode parent)
    {
        Parent = parent;
        parent._children.Add(this);
    }

    internal void SortChildren() => _children.Sort(static (a, b) => a.OutletNumber.CompareTo(b.OutletNumber));

    private int OutletNumber => Outlet is { Jacks.Count: > 0 } outlet ? outlet.Jacks[0].Index : int.MaxValue;
}
