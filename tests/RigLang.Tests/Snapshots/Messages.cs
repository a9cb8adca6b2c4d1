using System.Text.RegularExpressions;
using Xunit;

namespace RigLang.Tests.Snapshots;

/// <summary>Each thing that the command has to say, by a small rig that makes it say so (<see cref="MessageRigs"/>).</summary>
public class Messages
{
    internal const string Group = nameof(Messages);

    public static TheoryData<string> All => [.. MessageRigs.Checked.Keys];

    public static TheoryData<string> Asked => [.. MessageRigs.Asked.Keys];

    [Theory]
    [MemberData(nameof(All))]
    public void Of_a_small_rig(string name)
    {
        using var session = new Session();
        session.Put("small.rig", MessageRigs.Checked[name]);
        session.Type("check", "small.rig");
        // A table of messages is no good for a rig that has nothing wrong with it.
        Assert.DoesNotContain("(exit code 2)", session.Seen, StringComparison.Ordinal);
        Assert.DoesNotContain("Nothing wrong found", session.Seen, StringComparison.Ordinal);
        Shot.Match(Group, FileOf(name), session.Seen);
    }

    [Theory]
    [MemberData(nameof(Asked))]
    public void Of_a_question(string name)
    {
        using var session = new Session();
        var (rig, commands) = MessageRigs.Asked[name];
        session.Put("small.rig", rig);
        foreach (var command in commands)
        {
            session.Type(command);
        }
        Shot.Match(Group, FileOf(name), session.Seen);
    }

    [Fact]
    public void Refused_imports()
    {
        using var session = new Session();
        session.Put("gear/our.rig", "gear Tern {\n  in midi : midi on din-5\n}\n");
        session.Put("trio/notes.txt", "the set list\n");
        session.Put("trio/trio.rig", """
            import "../gear/our.rig"
            import "notes.txt"
            import "nowhere.rig"
            import "shared/geer.rig"
            import "trio.rig"

            """);
        Shot.Match(Group, FileOf(RefusedImports), session.Type("check", "trio/trio.rig").Seen);
    }

    private const string RefusedImports = "refused imports";

    internal static IReadOnlyList<string> Names =>
        [.. MessageRigs.Checked.Keys.Concat(MessageRigs.Asked.Keys).Append(RefusedImports).Select(FileOf)];

    /// <summary>Letters and digits, so that every system takes the name.</summary>
    private static string FileOf(string name) => Regex.Replace(name, "[^A-Za-z0-9]+", "-").ToLowerInvariant();
}
