namespace RigLang.Findings;

/// <summary>Which failures stay inside the part that failed, so that all else goes on.</summary>
internal static class Guard
{
    /// <summary>Not for what leaves the program itself in doubt.</summary>
    public static bool Contains(Exception e) => e is not (OutOfMemoryException or StackOverflowException or OperationCanceledException);
}
