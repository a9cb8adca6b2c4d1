using RigLang.Formatting;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Formatting;

/// <summary>How the formatter's tests ask and answer.</summary>
internal static class Layout
{
    public static string Of(string text) => Formatter.Format(new SourceText("layout.rig", text));

    /// <summary>A text comes out as expected, means what it meant, and stays as it is when formatted again.</summary>
    public static void Becomes(string text, string expected)
    {
        var formatted = Of(text);
        Assert.Equal(expected, formatted);
        Assert.Equal(expected, Of(formatted));
        Assert.Equal(Meaning.Of(text), Meaning.Of(formatted));
    }

    public static void StaysAsItIs(string text) => Becomes(text, text);
}
