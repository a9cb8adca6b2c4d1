namespace RigLang.LanguageServer;

/// <summary>
/// Collects garbage while the player thinks, not while they wait: a compilation leaves as much behind as it keeps, and a collection that
/// comes in the middle of the next one takes longer than the compilation itself.
/// </summary>
internal sealed class IdleTidying : IDisposable
{
    /// <summary>A pause that no typist leaves between two keys of one word, and no player notices.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(8);

    /// <summary>Bytes by which the heap may grow, beside doubling, before all of it is collected: on a large machine nothing else asks for that.</summary>
    private const long Growth = 64_000_000;

    private readonly Timer _timer;
    private long _kept = GC.GetTotalMemory(false);

    /// <param name="queue">Where the server works: nothing else is under way there while it is tidied.</param>
    public IdleTidying(SynchronizationContext queue) => _timer = new Timer(
        _ => queue.Post(_ => GC.Collect(1, GCCollectionMode.Forced, blocking: true), null));

    /// <summary>Work has been done; when nothing follows, there is time.</summary>
    public void WorkDone()
    {
        if (GC.GetTotalMemory(false) > (2 * _kept) + Growth)
        {
            GC.Collect(2, GCCollectionMode.Forced, blocking: true);
            _kept = GC.GetTotalMemory(false);
        }
        _timer.Change(Pause, Timeout.InfiniteTimeSpan);
    }

    public void Dispose() => _timer.Dispose();
}
