namespace RigLang.LanguageServer;

/// <summary>
/// Collects garbage while the player thinks, not while they wait: a compilation leaves as much behind as it keeps, and a collection that
/// comes in the middle of the next one takes longer than the compilation itself. What is left behind has a bound under any load, and is
/// given back to the machine when the player goes away. Left alone the runtime would do neither: on a large machine it lets the oldest
/// generation grow as long as there is memory.
/// </summary>
internal sealed class IdleTidying : IDisposable
{
    /// <summary>What follows a pause, each step once: a quick tidying between two keys, all of it between two words, and the memory back to the machine.</summary>
    private static readonly (TimeSpan After, Action<IdleTidying> Tidy)[] Steps =
    [
        // A pause that no typist leaves between two keys of one word, and no player notices.
        (TimeSpan.FromMilliseconds(8), _ => GC.Collect(1, GCCollectionMode.Forced, blocking: true)),
        (TimeSpan.FromSeconds(1), tidying => tidying.CollectIfGrownBy(tidying._kept / 2)),
        (TimeSpan.FromSeconds(20), tidying => tidying.Collect(GCCollectionMode.Aggressive)),
    ];

    /// <summary>Bytes by which the heap may grow, beside doubling, before all of it is collected in the midst of work.</summary>
    private const long Growth = 24_000_000;

    private readonly Timer _timer;
    private readonly Func<long> _memory;
    private long _kept;
    private int _step;
    private int _generation;
    private volatile bool _isDisposed;

    /// <param name="queue">Where the server works: nothing else is under way there while it is tidied.</param>
    /// <param name="memory">Bytes on the heap; null to ask the runtime.</param>
    public IdleTidying(SynchronizationContext queue, Func<long>? memory = null)
    {
        _memory = memory ?? (() => GC.GetTotalMemory(false));
        _kept = _memory();
        _timer = new Timer(_ =>
        {
            var generation = Volatile.Read(ref _generation);
            queue.Post(_ => Tidy(generation), null);
        });
    }

    /// <summary>A message has been worked off; when nothing follows, there is time.</summary>
    public void WorkDone()
    {
        CollectIfGrownBy(_kept + Growth);
        _generation++;
        Wait(0);
    }

    private void Tidy(int generation)
    {
        if (generation == _generation)
        {
            Steps[_step].Tidy(this);
            Wait(_step + 1);
        }
    }

    private void Wait(int step)
    {
        if (_isDisposed)
        {
            return;
        }
        _step = step;
        _timer.Change(step < Steps.Length ? Steps[step].After : Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    private void CollectIfGrownBy(long growth)
    {
        if (_memory() > _kept + growth)
        {
            Collect(GCCollectionMode.Forced);
        }
    }

    private void Collect(GCCollectionMode mode)
    {
        GC.Collect(2, mode, blocking: true, compacting: mode == GCCollectionMode.Aggressive);
        _kept = _memory();
    }

    public void Dispose()
    {
        _isDisposed = true;
        _timer.Dispose();
    }
}
