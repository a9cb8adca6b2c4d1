namespace RigLang.Flow.Ground;

/// <summary>What a listener hears.</summary>
public enum HumSound
{
    /// <summary>A low, even tone: 50 or 60 Hz.</summary>
    Hum,
    /// <summary>A harsher one, an octave up: 100 or 120 Hz and what is above.</summary>
    Buzz,
    /// <summary>High, and changing with what a computer or screen does.</summary>
    Whine,
}

/// <summary>The sounds by the words that players call them.</summary>
public static class HumSounds
{
    public static IReadOnlyList<string> Words { get; } = ["hum", "buzz", "whine"];

    /// <summary>Null for a word that is none of <see cref="Words"/>.</summary>
    public static HumSound? Named(string word) => word switch
    {
        "hum" => HumSound.Hum,
        "buzz" => HumSound.Buzz,
        "whine" => HumSound.Whine,
        _ => null,
    };
}

/// <summary>A loop that may be what is heard. <paramref name="Score"/> only ranks.</summary>
public sealed record HumSuspect(GroundLoop Loop, int Score, IReadOnlyList<string> Reasons);

/// <summary>
/// Which ground loop to suspect, by the sound. Source: common practice: 50 or 60 Hz and its even harmonics come from mains and rectifiers,
/// a whine that follows processor or screen comes over USB grounds and from switch-mode supplies.
/// </summary>
public static class HumSuspects
{
    public static IReadOnlyList<HumSuspect> For(GroundLoops loops, HumSound sound) =>
        [.. loops.Loops.Where(l => l.IsHeard).Select(l => Judged(l, sound)).OrderByDescending(s => s.Score).ThenBy(s => s.Loop.Links.Count)];

    private static HumSuspect Judged(GroundLoop loop, HumSound sound)
    {
        var reasons = new List<string>();
        var score = 0;
        if (loop.HasEarth)
        {
            var earthed = string.Join(" and ", loop.Links.Where(l => l.IsEarth).Select(l => l.JackA.Device.Name));
            Weigh((3, 2, 0), sound switch
            {
                HumSound.Hum => $"{earthed} are earthed: mains current drives the loop at 50 or 60 Hz",
                HumSound.Buzz => $"{earthed} are earthed: their rectifiers add 100 or 120 Hz",
                _ => $"{earthed} are earthed, which hums rather than whines",
            });
        }
        if (loop.HasUsb)
        {
            Weigh((0, 1, 4), sound == HumSound.Whine
                ? "USB is in it: what the computer does is heard as a whine and chirps"
                : "USB is in it, which whines rather than hums");
        }
        if (loop.HasSupply)
        {
            Weigh((1, 3, 2), sound switch
            {
                HumSound.Buzz => "a supply's return is in it: its rectifier pulses at 100 or 120 Hz",
                HumSound.Whine => "a supply's return is in it: a switch-mode supply or digital gear on it can whine",
                _ => "a supply's return is in it, which buzzes rather than hums",
            });
        }
        if (!loop.HasEarth && !loop.HasUsb && !loop.HasSupply)
        {
            Weigh((1, 0, 0), "only signal cables are in it: it picks up what is near, such as a transformer");
        }
        return new HumSuspect(loop, score, [.. reasons, .. loop.Reasons]);

        void Weigh((int Hum, int Buzz, int Whine) weights, string reason)
        {
            score += sound switch { HumSound.Hum => weights.Hum, HumSound.Buzz => weights.Buzz, _ => weights.Whine };
            reasons.Add(reason);
        }
    }
}
