using RigLang.Connectors;
using RigLang.Wiring;

namespace RigLang.Tests.Support;

/// <summary>Two boxes and one cable on the bench: the smallest rig that shows what a plug does in a jack.</summary>
public static class Bench
{
    /// <summary>Box `a` with an output `out` and box `b` with an input `in`, joined by the given lead.</summary>
    public static Compilation Join(string output, string lead, string input, string leads = "", string settings = "") => Rigs.Compile($$"""
        import "shared/leads.rig"
        {{leads}}
        gear Left {
          out out : {{output}}
        }
        gear Right {
          in in : {{input}}
        }
        device a : Left
        device b : Right {
          {{settings}}
        }
        connect a.out to b.in{{(lead.Length == 0 ? "" : " with " + lead)}}
        """);

    /// <summary>What the input's channel hears; each term as source channel and amount.</summary>
    public static IReadOnlyList<Term> Hears(this Compilation compilation, AudioChannel channel) =>
        compilation.Rig.Links.Arrivals.Single(a => a.Channel == channel).Terms;

    /// <summary>The level that arrives for given amplitudes of the source's left and right; 1 is full level.</summary>
    public static double Level(this Compilation compilation, double left, double right) =>
        compilation.Rig.Links.Arrivals.Single().Amplitude(term => term.Channel == AudioChannel.Right ? right : left);
}
