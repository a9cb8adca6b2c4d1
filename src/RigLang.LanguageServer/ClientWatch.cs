using System.Diagnostics;

namespace RigLang.LanguageServer;

/// <summary>
/// Looks now and then whether the editor still runs: one that was killed leaves nobody to hang up where another process holds its end
/// of the pipe. Source: LSP 3.17, InitializeParams.processId.
/// </summary>
internal sealed class ClientWatch : IDisposable
{
    /// <summary>Seldom enough to cost nothing.</summary>
    internal static readonly TimeSpan Often = TimeSpan.FromSeconds(10);

    private readonly Timer _timer;

    private ClientWatch(int process, Action gone, TimeSpan often) => _timer = new Timer(
        _ =>
        {
            if (!IsRunning(process))
            {
                gone();
            }
        },
        null, often, often);

    /// <returns>Null where there is nothing to watch: no number, or one that is not to be seen from here, as from inside a container.</returns>
    public static ClientWatch? Of(int? process, Action gone, TimeSpan? often = null) =>
        process is { } number && IsRunning(number) ? new ClientWatch(number, gone, often ?? Often) : null;

    private static bool IsRunning(int process)
    {
        try
        {
            using var found = Process.GetProcessById(process);
            return !found.HasExited;
        }
        catch (Exception e) when (e is ArgumentException or InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            return e is System.ComponentModel.Win32Exception;
        }
    }

    public void Dispose() => _timer.Dispose();
}
