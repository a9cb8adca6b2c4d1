using System.Text.RegularExpressions;
using RigLang.Connectors;
using RigLang.Formatting;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>The library inside the tool: every gear can stand on a table, every jack of it has a lead, every lead conducts.</summary>
public partial class SharedLibraryTests
{
    private static IEnumerable<FileSymbols> Library => SharedLibrary.Paths.Select(path => SharedLibrary.Open(path)!);

    public static TheoryData<string> Paths => [.. SharedLibrary.Paths];
    public static TheoryData<string> Gear => [.. Library.SelectMany(file => file.Gear).Select(gear => gear.Name)];
    public static TheoryData<string> Leads => [.. Library.SelectMany(file => file.Leads).Select(lead => lead.Name)];

    [Fact]
    public void It_has_the_files_that_stand_in_the_repository() => Assert.Equal(Shipped.RigsIn("shared"), SharedLibrary.Paths);

    [Theory]
    [MemberData(nameof(Paths))]
    public void A_file_of_it_gives_no_finding_and_is_in_order(string path)
    {
        var compilation = Shipped.Compile(path);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        Assert.Equal(Formatter.Format(Shipped.Read(path)), Shipped.Read(path).Content);
    }

    [Fact]
    public void No_name_stands_in_it_twice() =>
        Assert.DoesNotContain("duplicate-name", Rigs.Compile(string.Concat(SharedLibrary.Paths.Select(path => $"import \"{path}\"\n"))).Names());

    [Theory]
    [MemberData(nameof(Gear))]
    public void A_gear_says_what_it_is_and_where_its_facts_come_from(string name)
    {
        var gear = GearNamed(name);
        Assert.Matches(Sourced(), SharedLibrary.Open(gear.At.Source.Path)!.Tree.DocumentationOf(gear.Statement));
    }

    [Theory]
    [MemberData(nameof(Leads))]
    public void A_lead_says_what_it_is_and_where_its_wiring_comes_from(string name)
    {
        var file = Library.Single(f => f.Leads.Exists(l => l.Name == name));
        var statement = file.Tree.Statements.OfType<LeadStatement>().Single(l => l.Name.Text == name);
        Assert.Matches(Sourced(), file.Tree.DocumentationOf(statement));
    }

    [Theory]
    [MemberData(nameof(Gear))]
    public void A_device_of_this_gear_lacks_nothing_but_cables(string name)
    {
        var compilation = Rigs.Compile($"import \"shared/gear.rig\"\ndevice it : {name}\n");
        Assert.Equal(["unwired-device@2"], compilation.Found());
    }

    [Theory]
    [MemberData(nameof(Gear))]
    public void Each_jack_of_it_has_a_lead_that_suits(string name)
    {
        foreach (var port in GearNamed(name).Ports)
        {
            var jacks = port.Signal!.Kind == SignalKind.Insert ? "mate.jack, mate.back" : "mate.jack";
            var (from, to) = port.IsOutput ? ($"it.{port.Name}", jacks) : (jacks, $"it.{port.Name}");
            var phantom = port.Signal.Phantom;
            var compilation = Rigs.Compile($$"""
                import "shared/gear.rig"
                rig { mains 230 V }
                gear Mate {
                  {{MateOf(port)}}
                }
                device it   : {{name}} {{(phantom && !port.IsOutput ? $"{{ {port.Name} phantom on }}" : "")}}
                device mate : Mate {{(phantom && port.IsOutput ? "{ jack phantom on }" : "")}}
                connect {{from}} to {{to}}
                """);
            // That it has no power, or no computer, is said of the device and not the matter here; the cable is.
            var connect = compilation.Rig.Names.Connections.Single().At.Span;
            Assert.True(compilation.Findings.All(f => !connect.Contains(f.Location.Span.Start)), $"{name}.{port.Name}\n{compilation.Told()}");
            Assert.All(compilation.Rig.Wiring.Hookups, hookup => Assert.True(hookup.IsSound));
        }
    }

    [Theory]
    [MemberData(nameof(Leads))]
    public void Each_plug_of_a_lead_is_wired_and_no_wire_stands_twice(string name)
    {
        var lead = Library.SelectMany(file => file.Leads).Single(l => l.Name == name);
        Assert.False(lead.IsIncomplete);
        Assert.Equal(lead.Wires.Distinct(), lead.Wires);
        Assert.All(lead.Ends.Index(), end => Assert.Contains(lead.Wires, wire => wire.FromEnd == end.Index || wire.ToEnd == end.Index));
    }

    /// <summary>One end of a cable to this port, as the gear at its other end would declare it.</summary>
    private static string MateOf(PortSymbol port)
    {
        var line = port.Gear.Statement.Body.OfType<PortLine>().Single(l => l.Names.Any(range => Includes(range, port.Name)));
        var source = port.Gear.At.Source;
        var signal = source.Slice(line.Signal[0].Span.To(line.Signal[^1].Span));
        var on = source.Slice(line.On[0].Span.To(line.On[^1].Span)).Replace("captive ", "", StringComparison.Ordinal);
        var way = port.IsOutput ? "in" : "out";
        return (port.Signal!.Kind, port.IsOutput) switch
        {
            (SignalKind.Insert, _) => "in jack : audio mono line on ts 6.35 mm\n  out back : audio mono line on ts 6.35 mm",
            (SignalKind.Mains, false) => "out jack : mains earthed on mains",
            (SignalKind.Mains, true) => "in jack : mains earthed on iec-c14",
            (SignalKind.Usb, false) => "out jack : usb host 5 V 900 mA on usb-a",
            (SignalKind.Usb, true) => $"in jack : usb device 5 V 100 mA on {(on == "usb-c" ? "usb-c" : "usb-b")}",
            (SignalKind.Dc, false) when port.Signal.Volts is { Low.Value: 5 } && on.StartsWith("usb", StringComparison.Ordinal) =>
                "out jack : usb charger 5 V 3 A on usb-a",
            (SignalKind.Dc, _) when port.IsPassive => $"{way} jack : dc 9 V centre-positive on {on}",
            _ => $"{way} jack : {signal} on {on}",
        };
    }

    private static bool Includes(NameRange range, string name) =>
        range.Last is not { } last
            ? range.First.Text == name
            : name.TrimEnd(Digits) == range.First.Text.TrimEnd(Digits)
              && int.Parse(name[name.TrimEnd(Digits).Length..], null) is var number
              && number >= int.Parse(range.First.Text[range.First.Text.TrimEnd(Digits).Length..], null)
              && number <= int.Parse(last.Text[last.Text.TrimEnd(Digits).Length..], null);

    private static readonly char[] Digits = [.. "0123456789"];

    private static GearSymbol GearNamed(string name) => Library.SelectMany(file => file.Gear).Single(gear => gear.Name == name);

    /// <summary>A standard by its number, a specification by its name, or the words for what has no authority.</summary>
    [GeneratedRegex(@"[Cc]ommon practice|MIDI 1\.0|RP-054|\b(IEC|AES) ?[A-Z0-9]|USB (2\.0|3|BC 1\.2|Type-C|Power Delivery)|USB-IF")]
    private static partial Regex Sourced();
}
