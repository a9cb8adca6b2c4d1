using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks;

/// <summary>A check that tells what an earlier stage noted.</summary>
public abstract class FaultCheck<T> : Check
    where T : Fault
{
    public override void Run(Rig rig, Report report)
    {
        foreach (var fault in rig.Names.Faults)
        {
            if (fault is T known)
            {
                Tell(known, rig, report);
            }
        }
    }

    protected abstract void Tell(T fault, Rig rig, Report report);
}
