namespace RigLang.Findings;

/// <summary>What a mistake can do at the worst, the gravest first: the order in which findings are told.</summary>
public enum Harm
{
    /// <summary>It can injure or kill: mains without its earth, a circuit that burns.</summary>
    People,

    /// <summary>It can destroy gear in the moment of plugging in.</summary>
    Gear,

    /// <summary>Something stays silent, dark or out of time on stage.</summary>
    Stage,

    /// <summary>It works, and could be better.</summary>
    Rest,
}
