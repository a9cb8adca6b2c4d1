using System.CommandLine;
using System.CommandLine.Invocation;

namespace RigLang.Cli.Commands;

/// <summary><c>rig --notices</c>: the licences of everything by others that is shipped. Read only when asked for.</summary>
internal sealed class SayNotices(Host host) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        host.Out.Flush();
        using var notices = typeof(SayNotices).Assembly.GetManifestResourceStream("NOTICES.txt")!;
        notices.CopyTo(host.Output);
        return ExitCode.Clear;
    }
}
