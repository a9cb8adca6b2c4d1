using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>A file of the library is read one declaration at a time; what comes out is what reading the whole file gives.</summary>
public class LibraryIndexTests
{
    public static TheoryData<string> Paths => [.. SharedLibrary.Paths];

    [Theory]
    [MemberData(nameof(Paths))]
    public void The_text_inside_the_tool_is_the_file(string path) =>
        Assert.Equal(Shipped.Read(path).Content, SharedLibrary.Open(path)!.Source.Content);

    [Theory]
    [MemberData(nameof(Paths))]
    public void A_library_file_holds_nothing_but_gear_and_leads(string path) =>
        Assert.All(RigParser.Parse(Shipped.Read(path)).Statements, s => Assert.True(s is GearStatement or LeadStatement));

    [Theory]
    [MemberData(nameof(Paths))]
    public void Every_declaration_is_found_in_its_place_without_parsing(string path)
    {
        var (whole, index) = (FileSymbols.Of(RigParser.Parse(Shipped.Read(path))), SharedLibrary.Open(path)!.Library!);
        Assert.Equal(whole.Gear.Select(g => (g.Name, g.At.Span)), index.GearNames.Select(name => (name, index.GearAt(name)!.Value.Span)));
        Assert.Equal(whole.Leads.Select(l => (l.Name, l.At.Span)), index.LeadNames.Select(name => (name, index.LeadAt(name)!.Value.Span)));
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public void A_gear_read_alone_is_the_gear_of_the_whole_file(string path)
    {
        var whole = FileSymbols.Of(RigParser.Parse(Shipped.Read(path)));
        var alone = SharedLibrary.Open(path)!;
        Assert.Equal(whole.Gear.Select(Described), alone.Gear.Select(Described));
        Assert.Equal(whole.Gear.Select(g => g.Statement.Span), alone.Gear.Select(g => g.Statement.Span));

        static string Described(GearSymbol gear) => $"{gear.Name} {gear.JackCount} {gear.ContactCount} " + string.Join("; ", gear.Ports.Select(port =>
            $"{port.Name} {port.At.Span} {port.Signal} {string.Join(", ", port.Jacks.Select(j => $"{j.Form} {j.Side} {string.Join(' ', j.Roles)}"))}"))
            + $" {string.Join(", ", gear.Parts.Keys)} {string.Join(", ", gear.Tracks.Keys)} {string.Join(", ", gear.Routes.Select(r => r.From.Name + r.To.Name))}";
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public void A_lead_read_alone_is_the_lead_of_the_whole_file(string path)
    {
        var whole = FileSymbols.Of(RigParser.Parse(Shipped.Read(path)));
        Assert.Equal(whole.Leads.Select(Described), SharedLibrary.Open(path)!.Leads.Select(Described));

        static string Described(LeadSymbol lead) =>
            $"{lead.Name} {lead.At.Span} {lead.NearCount} {lead.Longest} {string.Join(", ", lead.Ends)} {string.Join(", ", lead.Wires)}";
    }

    /// <summary>The choice of a lead reads only those whose first line names a plug that could fit.</summary>
    [Fact]
    public void A_lead_is_found_by_each_of_its_plugs()
    {
        foreach (var lead in SharedLibrary.Leads)
        {
            Assert.All(lead.Ends, end => Assert.Contains(lead, SharedLibrary.LeadsBetween([end.Form], [lead.Ends[0].Form])));
        }
    }

    [Fact]
    public void A_gear_that_a_rig_names_twice_is_one()
    {
        var rig = Rigs.Compile("import \"shared/gear.rig\"\ndevice a : MonoSynth\ndevice b : MonoSynth\n").Rig;
        Assert.Same(rig.Names.Devices[0].Gear, rig.Names.Devices[1].Gear);
        Assert.Same(rig.Names.Devices[0].Gear, SharedLibrary.Open("shared/gear.rig")!.Library!.FindGear("MonoSynth"));
    }

    [Fact]
    public void A_slip_in_a_name_of_the_library_is_told_with_the_name_that_was_meant()
    {
        var found = Assert.Single(Rigs.Compile("import \"shared/gear.rig\"\ndevice a : MonoSinth\n").Findings);
        Assert.Contains("MonoSynth", found.What + string.Concat(found.Fixes.Select(f => f.Title)) + found.Advice, StringComparison.Ordinal);
    }
}
