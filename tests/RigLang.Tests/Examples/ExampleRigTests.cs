using RigLang.Connectors;
using RigLang.Formatting;
using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>The examples are what a player reads first: they are clean, in order, and show what the language can say.</summary>
public class ExampleRigTests
{
    private static readonly Compilation WholeRig = Shipped.Compile("examples/pantile-yard.rig");

    public static TheoryData<string> Clean => [.. Shipped.RigsIn("examples"), "src/RigLang.Cli/Starter.rig"];

    public static TheoryData<string> All => [.. Clean, .. Shipped.RigsIn("examples/mistakes").Select(path => new TheoryDataRow<string>(path))];

    [Theory]
    [MemberData(nameof(Clean))]
    public void It_checks_without_a_finding_of_any_severity(string path)
    {
        var compilation = Shipped.Compile(path);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
    }

    [Theory]
    [MemberData(nameof(All))]
    public void It_is_laid_out_as_the_formatter_would(string path)
    {
        var source = Shipped.Read(path);
        Assert.Equal(Formatter.Format(source), source.Content);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_gear_and_home_made_lead_of_it_is_explained(string path)
    {
        var tree = FileSymbols.Of(RigParser.Parse(Shipped.Read(path))).Tree;
        Assert.All(tree.Statements.Where(s => s is GearStatement or LeadStatement), s => Assert.NotEmpty(tree.DocumentationOf(s)));
    }

    [Fact]
    public void The_whole_rig_is_a_whole_rig()
    {
        Assert.True(WholeRig.Rig.Names.Devices.Count >= 15);
        Assert.True(WholeRig.Rig.Wiring.Hookups.Count >= 30);
        Assert.All(WholeRig.Rig.Wiring.Hookups, hookup => Assert.True(hookup.IsSound));
    }

    [Theory]
    [InlineData(SignalKind.Midi)]
    [InlineData(SignalKind.Pulse)]
    [InlineData(SignalKind.Audio)]
    [InlineData(SignalKind.Control)]
    [InlineData(SignalKind.Usb)]
    [InlineData(SignalKind.Dc)]
    [InlineData(SignalKind.Mains)]
    public void The_whole_rig_has_working_links_of_this_kind(SignalKind kind) => Assert.True(WholeRig.Rig.Links.Count(kind) > 0);

    [Fact]
    public void All_that_its_players_rely_on_holds()
    {
        Assert.Contains(WholeRig.Rig.Outcomes, o => o.Expectation.Must);
        Assert.Contains(WholeRig.Rig.Outcomes, o => !o.Expectation.Must);
        Assert.All(WholeRig.Rig.Outcomes, o => Assert.True(o.Holds, $"{o.Expectation.At}: {o.Stopped}"));
    }

    [Fact]
    public void It_shows_what_a_player_can_say_about_a_cable()
    {
        var statements = WholeRig.Rig.Names.Connections.Select(c => c.Statement).ToList();
        Assert.Contains(statements, s => s.Colours.Count > 0);
        Assert.Contains(statements, s => s.Label is not null);
        Assert.Contains(statements, s => s.Leads.Count == 0);
        Assert.Contains(statements, s => s.To.Count > 1);
        Assert.Contains(WholeRig.Rig.Names.Devices, d => d.Place is not null);
        Assert.NotEmpty(WholeRig.Rig.Names.Stock);
    }

    [Fact]
    public void The_starter_uses_the_library_and_relies_on_something()
    {
        var rig = Shipped.Compile("src/RigLang.Cli/Starter.rig").Rig;
        Assert.Contains(rig.Names.Devices, d => d.Gear is { } gear && SharedLibrary.IsShared(gear.At.Source.Path));
        Assert.NotEmpty(rig.Outcomes);
    }
}
