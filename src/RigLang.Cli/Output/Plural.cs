namespace RigLang.Cli.Output;

internal static class Plural
{
    public static string Of(int count, string one, string many) => $"{count} {(count == 1 ? one : many)}";
}
