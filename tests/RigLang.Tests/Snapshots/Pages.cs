using RigLang.Checks;
using RigLang.Cli;
using RigLang.Cli.Commands;
using RigLang.Tests.Cli;
using Xunit;

namespace RigLang.Tests.Snapshots;

/// <summary>The page of each check, with what its own bad example is told, and the help page of each command.</summary>
public class Pages
{
    internal const string Group = nameof(Pages);

    public static TheoryData<string> Checks => [.. CheckList.All.Select(c => c.Name)];

    public static TheoryData<string> HelpPages => [.. CommandNames()];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Of_a_check(string name)
    {
        using var session = new Session();
        // The bad example of circular-import goes by this name.
        session.Put("example.rig", CheckList.Find(name)!.BadExample + "\n");
        session.Type("explain", name).Type("check", "example.rig");
        Assert.Contains($"  {name}\n", session.Seen, StringComparison.Ordinal);
        Shot.Match(Group, "explain." + name, session.Seen);
    }

    [Fact]
    public void Of_all_checks()
    {
        using var session = new Session();
        Shot.Match(Group, "explain", session.Type("explain").Seen);
    }

    [Theory]
    [MemberData(nameof(HelpPages))]
    public void Of_a_command(string name)
    {
        using var session = new Session();
        Shot.Match(Group, "help." + name, session.Type(name, "--help").Seen);
    }

    [Fact]
    public void The_first_minute()
    {
        using var session = new Session();
        session.Type().Type("new", "my-rig.rig").Type("new", "my-rig.rig").Type("check", "my-rig.rig");
        session.Type("chekc", "my-rig.rig").Type("check");
        Shot.Match(Group, "first-minute", session.Seen);
    }

    internal static IReadOnlyList<string> Names =>
    [
        .. CheckList.All.Select(c => "explain." + c.Name), "explain",
        .. CommandNames().Select(c => "help." + c), "first-minute",
    ];

    private static string[] CommandNames()
    {
        using var stage = new Stage();
        var host = stage.HostOn(Stream.Null, Stream.Null);
        return [.. RigCommand.Define(host, new PlayersHelp(host)).Subcommands.Select(c => c.Name)];
    }
}
