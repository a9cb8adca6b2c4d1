using System.Diagnostics.CodeAnalysis;
using System.IO.Pipelines;

namespace RigLang.LanguageServer;

/// <summary>
/// Keeps a client from running ahead: what it sends faster than it can be worked off, or than it reads the answers, stays in the pipe
/// and not in the memory of the server.
/// </summary>
/// <param name="queue">Where the server works; it takes messages in their order.</param>
/// <param name="handled">Called there after each message.</param>
[SuppressMessage("Reliability", "CA1001", Justification = "The last message may still be under way in the queue; no handle is ever made of the semaphore.")]
internal sealed class Pace(SynchronizationContext queue, Action handled)
{
    /// <summary>More than a typist sends while one rig is checked, and few enough to be called off in time.</summary>
    private const int MostWaiting = 64;

    /// <summary>Requests without an answer up to which reading goes on while the client does not read.</summary>
    private const int MostUnanswered = 64;

    private readonly SemaphoreSlim _room = new(MostWaiting);
    private volatile Task _writing = Task.CompletedTask;
    private bool _isHolding;

    /// <summary>Waits until there is room for one more message. It is taken up by the next that is read.</summary>
    public async ValueTask MayReadAsync(int unanswered, CancellationToken token)
    {
        if (!_isHolding)
        {
            await _room.WaitAsync(token).ConfigureAwait(false);
            _isHolding = true;
        }
        if (unanswered > MostUnanswered && _writing is { IsCompleted: false } writing)
        {
            await Task.WhenAny(writing, Task.Delay(Timeout.Infinite, token)).ConfigureAwait(false);
        }
    }

    /// <summary>The message that was read last is on its way to the queue: when its turn is over there is room again.</summary>
    public void HandedOver()
    {
        if (_isHolding)
        {
            _isHolding = false;
            queue.Post(
                _ =>
                {
                    _room.Release();
                    handled();
                },
                null);
        }
    }

    /// <summary>Writing that is held up for as long as the client does not read.</summary>
    public async ValueTask WriteAsync(ValueTask<FlushResult> flush)
    {
        if (flush.IsCompleted)
        {
            await flush.ConfigureAwait(false);
            return;
        }
        var writing = flush.AsTask();
        _writing = writing;
        await writing.ConfigureAwait(false);
    }
}
