using RigLang.Editing;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Editing;

public class ExtractingGear
{
    private const string Text = """
        // the rig
        /// A bass.
        /// With one voice.
        gear Tide$0Table {
          in  midi : midi            on din-5  // the only one
          out line : audio mono line on ts 6.35 mm
          part voice receives midi on channel any, sounds at line
        } // behind
        device bass : TideTable

        """;

    [Fact]
    public void A_gear_moves_to_a_file_of_its_own_with_its_documentation()
    {
        var action = Acted.At(Text).Single(a => a.Kind == "refactor.extract");
        Assert.Equal("Move TideTable to tidetable.rig", action.Title);
        Assert.Equal("tidetable.rig", action.NewFile!.Value.Path);
        Assert.StartsWith("/// A bass.\n/// With one voice.\ngear TideTable {\n", action.NewFile.Value.Content, StringComparison.Ordinal);
        Assert.EndsWith("sounds at line\n}\n", action.NewFile.Value.Content, StringComparison.Ordinal);
    }

    [Fact]
    public void An_import_stands_in_its_place() =>
        Assert.Equal("// the rig\nimport \"tidetable.rig\" // behind\ndevice bass : TideTable\n", Acted.After(Text, "Move TideTable"));

    [Fact]
    public void The_rig_means_what_it_meant()
    {
        var action = Acted.At(Text).Single(a => a.Kind == "refactor.extract");
        var before = Rigs.Compile(Text.Replace("$0", "", StringComparison.Ordinal));
        var after = Rigs.Compile(Acted.After(Text, "Move TideTable"), action.NewFile!.Value);
        Assert.Equal(before.Names(), after.Names());
    }

    [Fact]
    public void A_gear_whose_block_does_not_close_stays() =>
        Assert.DoesNotContain(Acted.At("gear Te$0rn {\n  in midi : midi on din-5\n"), a => a.NewFile is not null);

    [Fact]
    public void A_name_with_other_characters_makes_a_plain_file_name() =>
        Assert.Equal("line-out-3-4.rig", Acted.At("gear \"LINE OUT 3/4$0\" {\n}\n").Single(a => a.NewFile is not null).NewFile!.Value.Path);

    [Fact]
    public void Inside_the_block_it_is_not_offered() =>
        Assert.DoesNotContain(Acted.At("gear Tern {\n  in mi$0di : midi on din-5\n}\n"), a => a.NewFile is not null);
}
