using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Symbols;

/// <summary><c>import "tide.rig" as tide</c>: its names are written <c>tide.bass</c> and <c>tide.Tern</c>.</summary>
public class ImportsUnderAName
{
    private const string Tide = """
        import "shared/leads.rig"
        gear Tern {
          in midi : midi on din-5
          out thru : midi on din-5
        }
        lead Long : din-5 to din-5 {
          4 to 4
          5 to 5
        }
        device bass : Tern
        device lead : Tern
        connect bass.thru to lead.midi
        """;

    private static Compilation With(string text) => Rigs.Compile("import \"tide.rig\" as tide\n" + text, ("tide.rig", Tide));

    [Fact]
    public void Gear_leads_and_devices_are_named_by_way_of_the_import()
    {
        var rig = With("device mine : tide.Tern\nconnect tide.lead.thru to mine.midi with tide.Long 2 m\nnever clock from tide.bass reach mine.midi\n");
        Assert.DoesNotContain("unknown-name", rig.Names());
        Assert.DoesNotContain("syntax-error", rig.Names());
        var names = rig.Rig.Names;
        Assert.Equal(["mine", "tide.bass", "tide.lead"], names.Devices.Select(d => d.Name));
        Assert.Equal("tide.lead.thru", names.Connections[0].From[0].Text);
        Assert.Equal("Long", names.Connections[0].Leads[0].Lead!.Name);
        Assert.Equal("tide.bass", names.Expectations[0].From.Text);
    }

    [Fact]
    public void The_imported_file_goes_on_using_its_own_names() =>
        Assert.Equal(["tide.bass.thru"], With("").Rig.Names.Connections.SelectMany(c => c.From).Select(e => e.Text));

    [Fact]
    public void Its_names_do_not_meet_those_of_the_file()
    {
        var rig = With("gear Tern {\n  in keys : midi on din-5\n}\ndevice bass : Tern\n");
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.Equal(["bass keys", "tide.bass midi", "tide.lead midi"], rig.Rig.Names.Devices.Select(d => $"{d.Name} {d.Gear!.Ports[0].Name}"));
    }

    [Fact]
    public void Without_its_prefix_the_name_is_unknown() => Assert.Contains("unknown-name@2", With("device x : Tern\n").Found());

    [Fact]
    public void A_device_called_as_the_import_is_an_error() =>
        Assert.Contains("duplicate-name@1", With("device tide : tide.Tern\n").Found());

    [Fact]
    public void It_is_the_way_out_of_a_clash()
    {
        const string One = "gear Wren {\n  in a : midi on din-5\n}\n";
        const string Two = "gear Wren {\n  in b : midi on din-5\n}\n";
        var rig = Rigs.Compile("import \"one.rig\"\nimport \"two.rig\" as two\ndevice x : Wren\ndevice y : two.Wren\n", ("one.rig", One), ("two.rig", Two));
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.Equal(["a", "b"], rig.Rig.Names.Devices.Select(d => d.Gear!.Ports[0].Name));
    }
}
