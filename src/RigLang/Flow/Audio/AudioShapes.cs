namespace RigLang.Flow;

/// <summary>Shapes in a player's words.</summary>
public static class AudioShapes
{
    /// <summary>"mono", "stereo", "left and right in one".</summary>
    public static string Word(AudioShape shape) => shape switch
    {
        AudioShape.Mono => "mono",
        AudioShape.MonoLeft => "mono, on the left",
        AudioShape.MonoRight => "mono, on the right",
        AudioShape.OutOfPhase => "mono, one side inverted",
        AudioShape.Stereo => "stereo",
        AudioShape.Swapped => "left and right exchanged",
        AudioShape.Folded => "left and right in one",
        AudioShape.LeftOnly => "left only",
        AudioShape.RightOnly => "right only",
        AudioShape.Difference => "left less right",
        _ => "stereo, one side inverted",
    };
}
