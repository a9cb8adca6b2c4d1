using RigLang.Syntax;
using Xunit;

namespace RigLang.Tests.Syntax;

public class KeywordTable
{
    [Fact]
    public void Every_keyword_is_spelled_as_it_is_named() =>
        Assert.All(Enum.GetValues<Keyword>().Where(k => k != Keyword.None), keyword =>
        {
            Assert.Equal(keyword.ToString().ToLowerInvariant(), Keywords.Spelling(keyword));
            Assert.Equal(keyword, Keywords.Find(Keywords.Spelling(keyword)));
        });
}
