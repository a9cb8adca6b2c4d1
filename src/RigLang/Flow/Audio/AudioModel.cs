using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Everything about audio in one rig: where it can go, and where what each source gives ends up.</summary>
public sealed class AudioModel
{
    private AudioModel(RigNames names, AudioMap map)
    {
        Names = names;
        Map = map;
        Order = AudioOrder.Of(map);
    }

    internal RigNames Names { get; }
    internal AudioMap Map { get; }
    internal AudioOrder Order { get; }

    /// <summary>Where everything that sounds ends up; worked out when it is asked for.</summary>
    public AudioFlow Flow => field ??= AudioFlow.Of(this);

    public static AudioModel Of(RigNames names, RigWiring wiring, LinkTable links) => new(names, AudioMap.Of(names, wiring, links));
}
