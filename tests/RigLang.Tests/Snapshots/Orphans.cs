using Xunit;

namespace RigLang.Tests.Snapshots;

/// <summary>No snapshot stands that no test reads: its words would be reviewed, and hold for nothing.</summary>
public class Orphans
{
    private static readonly Dictionary<string, IReadOnlyList<string>> Read = new(StringComparer.Ordinal)
    {
        [Commands.Group] = Commands.Names,
        [Messages.Group] = Messages.Names,
        [Pages.Group] = Pages.Names,
    };

    public static TheoryData<string> Groups => [.. Read.Keys];

    [Theory]
    [MemberData(nameof(Groups))]
    public void Every_file_has_a_test_that_reads_it(string group) => Shot.NoOrphans(group, Read[group]);

    [Fact]
    public void Every_folder_has_a_class_that_reads_it() => Assert.Empty(Shot.Groups().Except(Read.Keys));
}
