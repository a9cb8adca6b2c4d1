using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Symbols;

/// <summary>Which of two things with one name a rig means.</summary>
public class WhoseNameCounts
{
    private const string Synth = "gear Tern {\n  in midi : midi on din-5\n}\n";
    private const string OtherSynth = "gear Tern {\n  in notes : midi on trs 3.5 mm\n}\n";

    private static string GearPortOf(Compilation rig, int device) => rig.Rig.Names.Devices[device].Gear!.Ports[0].Name;

    [Theory]
    [InlineData("import \"a.rig\"\n" + OtherSynth + "device x : Tern\n")]
    [InlineData(OtherSynth + "device x : Tern\nimport \"a.rig\"\n")]
    [InlineData("device x : Tern\nimport \"a.rig\"\n" + OtherSynth)]
    [InlineData("device x : Tern\nimport \"between.rig\"\n" + OtherSynth)]
    public void Own_gear_wins_over_imported_gear_in_any_order(string text)
    {
        var rig = Rigs.Compile(text, ("a.rig", Synth), ("between.rig", "import \"a.rig\"\n"));
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.Equal("notes", GearPortOf(rig, 0));
    }

    [Fact]
    public void Own_gear_wins_over_the_library_and_a_file_of_gear_does_too()
    {
        const string Own = "gear MonoSynth {\n  in notes : midi on din-5\n}\n";
        foreach (var rig in new[]
        {
            Rigs.Compile("import \"shared/gear.rig\"\n" + Own + "device x : MonoSynth\n"),
            Rigs.Compile("import \"shared/gear.rig\"\nimport \"own.rig\"\ndevice x : MonoSynth\n", ("own.rig", Own)),
            Rigs.Compile("import \"own.rig\"\nimport \"shared/gear.rig\"\ndevice x : MonoSynth\n", ("own.rig", Own)),
        })
        {
            Assert.DoesNotContain("duplicate-name", rig.Names());
            Assert.Equal("notes", GearPortOf(rig, 0));
        }
    }

    [Fact]
    public void An_imported_device_keeps_the_gear_that_its_own_file_means()
    {
        var rig = Rigs.Compile("import \"a.rig\"\n" + OtherSynth + "device y : Tern\n", ("a.rig", Synth + "device x : Tern\n"));
        Assert.Equal(["y notes", "x midi"], rig.Rig.Names.Devices.Select(d => $"{d.Name} {d.Gear!.Ports[0].Name}"));
    }

    [Theory]
    [InlineData("import \"a.rig\"\n" + OtherSynth + "device x : Tern\n")]
    [InlineData(OtherSynth + "device x : Tern\nimport \"a.rig\"\n")]
    public void An_own_device_wins_over_an_imported_one(string text)
    {
        var rig = Rigs.Compile(text, ("a.rig", Synth + "device x : Tern\n"));
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.Equal("notes", Assert.Single(rig.Rig.Names.Devices).Gear!.Ports[0].Name);
    }

    [Fact]
    public void An_own_lead_wins_over_the_library()
    {
        var rig = Rigs.Compile("import \"shared/leads.rig\"\nlead MidiDin : din-5 to din-5 {\n  4 to 4\n  5 to 5\n}\n"
            + "gear B {\n  in i : midi on din-5\n  out o : midi on din-5\n}\ndevice a : B\ndevice b : B\nconnect a.o to b.i with MidiDin 1 m\n");
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.False(rig.Rig.Names.Connections[0].Leads[0].Lead!.IsShared);
    }

    [Fact]
    public void Two_equal_names_in_one_file_stay_an_error() =>
        Assert.Equal(["duplicate-name@1"], Rigs.Compile(Synth + OtherSynth).Found());

    [Fact]
    public void The_same_declaration_in_two_files_is_one()
    {
        const string Respaced = "// copied\ngear Tern   {\n\n  in midi :   midi on din-5 // the back\n}\n";
        var rig = Rigs.Compile("import \"a.rig\"\nimport \"b.rig\"\ndevice x : Tern\n", ("a.rig", Synth), ("b.rig", Respaced));
        Assert.DoesNotContain("duplicate-name", rig.Names());
        Assert.NotNull(rig.Rig.Names.Devices[0].Gear);
    }

    [Fact]
    public void Two_different_ones_from_two_imports_are_one_error_where_the_name_is_used()
    {
        var rig = Rigs.Compile("import \"a.rig\"\nimport \"b.rig\"\ndevice x : Tern\ndevice y : Tern\nconnect x.midi to y.notes\nmust notes from x reach y\n",
            ("a.rig", Synth), ("b.rig", OtherSynth));
        var found = Assert.Single(rig.Findings);
        Assert.Equal(["duplicate-name@3"], rig.Found());
        Assert.Contains("a.rig line 1", found.What, StringComparison.Ordinal);
        Assert.Contains("b.rig line 1", found.What, StringComparison.Ordinal);
        Assert.Contains(" as ", found.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clash_of_names_that_the_rig_does_not_use_is_no_error() =>
        Assert.Empty(Rigs.Compile("import \"a.rig\"\nimport \"b.rig\"\n", ("a.rig", Synth), ("b.rig", OtherSynth)).Findings);

    [Fact]
    public void Two_imports_with_different_devices_of_one_name_are_one_error_at_the_import()
    {
        const string Both = Synth + "gear Knot {\n  out midi : midi on din-5\n}\n";
        var rig = Rigs.Compile("import \"a.rig\"\nimport \"b.rig\"\n",
            ("a.rig", Both + "device x : Tern\ndevice k : Knot\nconnect k.midi to x.midi\n"), ("b.rig", Both + "device x : Knot\ndevice y : Tern\nconnect x.midi to y.midi\n"));
        Assert.Equal(["duplicate-name@2"], rig.Found());
    }
}
