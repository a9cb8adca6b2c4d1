using System.CommandLine.Invocation;
using System.CommandLine;
using RigLang.Cli.Output;

namespace RigLang.Cli.Commands;

/// <summary>The help pages: the words and examples are each command's own, the list of options comes from the command itself.</summary>
internal sealed class PlayersHelp(Host host) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        if (parseResult.CommandResult.Command is RigVerb verb)
        {
            WriteCommand(verb);
        }
        else
        {
            WriteFrontPage(parseResult.RootCommandResult.Command);
        }
        return ExitCode.Clear;
    }

    private int Width => Terminal.For(host, ColorChoice.Never).Width;

    public void WriteFrontPage(Command root)
    {
        Paragraph(root.Description!);
        Title("Commands");
        var verbs = root.Subcommands.OfType<RigVerb>().ToList();
        Table(verbs.Select(v => ($"rig {v.Name} {v.Operands}", v.Description!)));
        Title("To begin");
        Table(
        [
            ("rig new my-rig.rig", "a commented rig to start from"),
            ("rig check my-rig.rig", "is it right?"),
        ]);
        host.Out.WriteLine();
        Paragraph("rig COMMAND --help tells more about a command. rig --version tells which rig this is, "
            + "rig --notices whose work is in it.");
    }

    private void WriteCommand(RigVerb verb)
    {
        host.Out.WriteLine(verb.Usage);
        host.Out.WriteLine();
        Paragraph(verb.Description! + ".");
        foreach (var paragraph in verb.Page)
        {
            host.Out.WriteLine();
            Paragraph(paragraph);
        }
        Title("Options");
        Table(verb.Options
            .Select(o => ($"{o.Name} {o.HelpName}".TrimEnd(), o.Description!))
            .Append(("--help", "This page")));
        Title("Examples");
        Table(verb.Examples);
    }

    private void Title(string title)
    {
        host.Out.WriteLine();
        host.Out.WriteLine(title);
    }

    private void Paragraph(string text)
    {
        foreach (var line in Wrap.Lines(text, Width))
        {
            host.Out.WriteLine(line);
        }
    }

    private void Table(IEnumerable<(string Left, string Right)> rows)
    {
        var all = rows.ToList();
        var column = all.Max(r => r.Left.Length) + 4;
        foreach (var (left, right) in all)
        {
            var head = $"  {left}".PadRight(column);
            foreach (var line in Wrap.Lines(right, Math.Max(20, Width - column)))
            {
                host.Out.WriteLine(head + line);
                head = new string(' ', column);
            }
        }
    }
}
