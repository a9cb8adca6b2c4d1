using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine;
using RigLang.Cli.Commands;

namespace RigLang.Cli;

/// <summary>From arguments to the right command. Nothing gets past it as an exception.</summary>
internal static class RigCommand
{
    public static int Run(string[] args, Host host)
    {
        try
        {
            var code = Dispatch(args, host);
            host.Out.Flush();
            return code;
        }
        catch (Exception e) when (Host.IsStreamTrouble(e))
        {
            // Trouble with the player's files is dealt with where each is opened; what is left is the output.
            host.LastWords("rig: not all of the output could be written; is the disk full?");
            return ExitCode.CouldNot;
        }
        catch (Exception e)
        {
            return Fault.Say(e, host);
        }
    }

    private static int Dispatch(string[] args, Host host)
        => IsPlainCheck(args) ? CheckCommand.Run(new(args[1..]), host) : Parse(args, host);

    /// <summary>
    /// <c>rig check FILE…</c> without any option. It is what editors and hooks run over and over, and it need not wait
    /// for the option parser: its start takes a fifth of the time an empty program takes. The result is the same; a test holds that.
    /// </summary>
    private static bool IsPlainCheck(string[] args)
    {
        if (args.Length < 2 || args[0] != "check")
        {
            return false;
        }
        for (var i = 1; i < args.Length; i++)
        {
            if (args[i].StartsWith('-') && args[i] != "-")
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>Any command line, by System.CommandLine.</summary>
    internal static int Parse(string[] args, Host host)
    {
        var help = new PlayersHelp(host);
        var root = Define(host, help);
        if (args is ["help", ..])
        {
            args = [.. args[1..], "--help"];
        }
        if (args.Length == 0)
        {
            help.WriteFrontPage(root);
            return ExitCode.Clear;
        }
        // An argument that begins with @ is a file's name like any other, not a file full of arguments.
        var result = root.Parse(args, new() { ResponseFileTokenReplacer = null, EnablePosixBundling = false });
        if (result.Action is not (PlayersHelp or SayVersion or SayNotices) && Usage.Check(result, args, host) is { } error)
        {
            return error;
        }
        return result.Invoke(new()
        {
            Output = host.Out,
            Error = host.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        });
    }

    internal static RootCommand Define(Host host, PlayersHelp help)
    {
        var root = new RootCommand(
            "rig reads the plan of a music rig, written as plain text, and tells whether it will work before a plug is pushed in.")
        {
            CheckCommand.Define(host),
            ExplainCommand.Define(host),
            FormatCommand.Define(host),
            TraceCommand.Define(host),
            ChannelsCommand.Define(host),
            AudioCommand.Define(host),
            PowerCommand.Define(host),
            GroundCommand.Define(host),
            HumCommand.Define(host),
            NewCommand.Define(host),
            ServerCommand.Define(host),
            new Option<bool>("--notices") { Description = "The licences of what the command contains", Action = new SayNotices(host) },
        };
        root.Directives.Clear();
        foreach (var option in root.Options)
        {
            switch (option)
            {
                case HelpOption:
                    option.Action = help;
                    break;
                case VersionOption:
                    option.Action = new SayVersion(host);
                    break;
                default:
                    break;
            }
        }
        return root;
    }

    private sealed class SayVersion(Host host) : SynchronousCommandLineAction
    {
        public override bool ClearsParseErrors => true;

        public override int Invoke(ParseResult parseResult)
        {
            host.Out.WriteLine($"rig {ToolVersion.Number}");
            return ExitCode.Clear;
        }
    }
}
