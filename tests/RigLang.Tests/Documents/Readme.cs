using RigLang.Tests.Cli;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Documents;

/// <summary>The tour in the README shows what the tool really prints.</summary>
public class Readme
{
    private static readonly string Text = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));

    [Fact]
    public void A_new_rig_checks_as_the_tour_shows()
    {
        using var stage = new Stage();
        Assert.Contains("$ rig new tour.rig\n" + stage.Rig("new", "tour.rig").Out, Text, StringComparison.Ordinal);
        Assert.Contains("$ rig check tour.rig\n" + stage.Rig("check", "tour.rig").Out, Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_tired_players_mistakes_are_told_as_the_tour_shows()
    {
        using var stage = new Stage();
        stage.Rig("new", "tour.rig");
        var rig = File.ReadAllText(stage.PathOf("tour.rig"))
            .Replace("connect drums.mix to desk.ch34", "connect drums.mix to desk.ch34\nconnect drums.phones to desk.line2 with Balanced 1.5 m", StringComparison.Ordinal)
            .Replace("device bass-supply  : Adapter9Positive", "device bass-supply  : Adapter9Negative", StringComparison.Ordinal);
        stage.Put("tour.rig", rig);
        var (code, output, _) = stage.Rig("check", "tour.rig");
        Assert.Equal(1, code);
        Assert.Contains("$ rig check tour.rig\n" + output, Text, StringComparison.Ordinal);
    }
}
