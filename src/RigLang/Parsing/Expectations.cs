using System.Buffers;
using Pidgin;
using Pidgin.Configuration;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// Lists of what was expected. Parsers fill and drop one at every part of a line that may be left out, so the arrays behind
/// them are kept: a few for each thread, as deep as parsers nest. The shared pool of the runtime asks which processor it runs on,
/// and finding out how costs more than parsing a short rig.
/// </summary>
internal sealed class Expectations : ArrayPool<Expected<Token>>, IConfiguration<Token>, IArrayPoolProvider
{
    private const int Kept = 32;

    private static readonly Expectations Pool = new();

    [ThreadStatic]
    private static Expected<Token>[]?[]? s_free;

    [ThreadStatic]
    private static int s_count;

    private Expectations()
    {
    }

    /// <summary>What a parse of one line runs under.</summary>
    public static IConfiguration<Token> Configuration => Pool;

    /// <summary>An empty list, to be disposed by who asked for it.</summary>
    public static PooledList<Expected<Token>> NewList() => new(Pool);

    public override Expected<Token>[] Rent(int minimumLength)
    {
        if (s_count > 0 && s_free![s_count - 1]!.Length >= minimumLength)
        {
            return s_free[--s_count]!;
        }
        return new Expected<Token>[Math.Max(16, minimumLength)];
    }

    // The labels in it are the grammar's own and live as long as the process: nothing to clear.
    public override void Return(Expected<Token>[] array, bool clearArray = false)
    {
        s_free ??= new Expected<Token>[]?[Kept];
        if (s_count < Kept)
        {
            s_free[s_count++] = array;
        }
    }

    Func<Token, SourcePosDelta> IConfiguration<Token>.SourcePosCalculator { get; } = static _ => SourcePosDelta.OneCol;

    IArrayPoolProvider IConfiguration<Token>.ArrayPoolProvider => this;

    ArrayPool<T> IArrayPoolProvider.GetArrayPool<T>() =>
        typeof(T) == typeof(Expected<Token>) ? (ArrayPool<T>)(object)this : ArrayPool<T>.Shared;
}
