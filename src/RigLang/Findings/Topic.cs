namespace RigLang.Findings;

/// <summary>What a check is about. A mistake in one flow does not explain what is missing in another.</summary>
public enum Topic
{
    /// <summary>The text itself: nothing behind a line that cannot be read is known.</summary>
    Text,

    /// <summary>Plugs, jacks and leads: whatever the cable was to carry does not arrive.</summary>
    Wiring,
    Audio,
    Midi,
    Power,
    Ground,
    Usb,
    Whole,
}
