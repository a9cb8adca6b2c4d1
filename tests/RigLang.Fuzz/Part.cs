using CsCheck;

namespace RigLang.Fuzz;

/// <summary>
/// One way of trying to break the tool. A case is a text, so that it can be written down, made smaller line by line, and kept as a
/// fixture; whoever judges a case needs nothing else.
/// </summary>
internal abstract class Part
{
    /// <summary>One word, for the command line and the names of what is written down.</summary>
    public abstract string Name { get; }

    /// <summary>What is tried and what must hold, in a line.</summary>
    public abstract string About { get; }

    /// <summary>Cases by chance.</summary>
    public abstract Gen<string> Cases { get; }

    /// <summary>All cases there are, where they can be counted: then each is judged once, and none by chance.</summary>
    public virtual IReadOnlyList<string> Listed => [];

    /// <summary>How many cases are a long enough run of it when a run of commands is so long.</summary>
    public virtual int CasesIn(int runs) => runs;

    /// <returns>
    /// Null when all holds that must. Else what does not: up to the first colon the kind of failure, by which two failures are told apart,
    /// then the details. A text that is no case at all is no failure.
    /// </returns>
    public abstract Task<string?> JudgeAsync(string written);

    /// <summary>What else the cases so far came to, for the end of a run.</summary>
    public virtual IEnumerable<string> Summary => [];
}
