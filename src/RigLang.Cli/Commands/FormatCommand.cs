using System.CommandLine;
using RigLang.Cli.Files;
using RigLang.Cli.Output;
using RigLang.Formatting;
using RigLang.Text;

namespace RigLang.Cli.Commands;

/// <summary>Lays a text out. <see cref="Formatter.Format"/>, except in tests of what is done with the result.</summary>
internal delegate string LayOut(SourceText source);

/// <summary><c>rig format FILE…</c>: the canonical layout, written in place.</summary>
internal static class FormatCommand
{
    public static int Run(IReadOnlyList<string> named, bool onlyCheck, Host host, LayOut? layOut = null)
    {
        layOut ??= Formatter.Format;
        var (changed, unchanged, problems) = (0, 0, 0);
        var tidied = new HashSet<string>(StringComparer.Ordinal);
        foreach (var path in RigFiles.Find(named, host, OnProblem))
        {
            host.At = path;
            var changes = path == RigFiles.StandardInput
                ? FormatInput(onlyCheck, host, layOut, OnProblem)
                : PutRight(path, onlyCheck, tidied, host, OnProblem) ? FormatFile(path, onlyCheck, host, layOut, OnProblem)
                : null;
            switch (changes)
            {
                case true:
                    changed++;
                    break;
                case false:
                    unchanged++;
                    break;
                default:
                    break;
            }
        }
        if (named.Count != 1 || named[0] != RigFiles.StandardInput)
        {
            WriteCount(host.Out, onlyCheck, changed, unchanged);
        }
        return problems > 0 ? ExitCode.CouldNot
            : onlyCheck && changed > 0 ? ExitCode.Findings
            : ExitCode.Clear;

        void OnProblem(FileProblem problem)
        {
            problems++;
            host.Error.WriteLine($"rig: {Cells.Safe(problem.Path)}: {Cells.Safe(problem.Message)}");
        }
    }

    /// <summary>An earlier run may have been killed: what it left is cleared away, and a text that it half wrote is put back.</summary>
    /// <returns>False when the file is better left alone.</returns>
    private static bool PutRight(string path, bool onlyCheck, HashSet<string> tidied, Host host, Action<FileProblem> onProblem)
    {
        var (isRestored, problem) = onlyCheck ? (false, UndoJournal.WhyNotRead(host.FullPath(path))) : UndoJournal.Recover(host.FullPath(path), tidied);
        if (isRestored)
        {
            host.Out.WriteLine($"{Cells.Safe(path)}: put back as it was before an earlier run that was ended in the middle");
        }
        if (problem is not null)
        {
            onProblem(new(path, problem));
        }
        return problem is null;
    }

    /// <returns>Whether the layout changes, or null when the file could not be read or written.</returns>
    private static bool? FormatFile(string path, bool onlyCheck, Host host, LayOut layOut, Action<FileProblem> onProblem)
    {
        var fullPath = host.FullPath(path);
        var read = TextFile.Read(fullPath);
        if (read.Text is not { } text)
        {
            onProblem(new(path, read.Problem ?? "it could not be read"));
            return null;
        }
        var laidOut = layOut(new SourceText(path, text));
        if (laidOut == text)
        {
            return false;
        }
        if (!onlyCheck && SafeWrite.Replace(fullPath, read.Bytes, Encode(laidOut, read.HasByteOrderMark)) is { } why)
        {
            onProblem(new(path, why));
            return null;
        }
        host.Out.WriteLine($"{Cells.Safe(path)}: {(onlyCheck ? "would change" : "laid out")}");
        return true;
    }

    private static bool? FormatInput(bool onlyCheck, Host host, LayOut layOut, Action<FileProblem> onProblem)
    {
        var read = TextFile.ReadInput(host);
        if (read.Text is not { } text)
        {
            onProblem(new(RigFiles.StandardInputPath, read.Problem ?? "it could not be read"));
            return null;
        }
        var laidOut = layOut(new SourceText(RigFiles.StandardInputPath, text));
        if (onlyCheck)
        {
            if (laidOut != text)
            {
                host.Out.WriteLine($"{RigFiles.StandardInputPath}: would change");
            }
        }
        else
        {
            host.Out.Write(read.HasByteOrderMark ? "\uFEFF" + laidOut : laidOut);
        }
        return laidOut != text;
    }

    private static byte[] Encode(string text, bool withMark)
        => withMark ? [.. TextFile.Mark, .. Host.Utf8.GetBytes(text)] : Host.Utf8.GetBytes(text);

    private static void WriteCount(TextWriter output, bool onlyCheck, int changed, int unchanged)
    {
        if (changed + unchanged == 0)
        {
            return;
        }
        var done = onlyCheck ? $"{Plural.Of(changed, "file", "files")} would change" : $"{Plural.Of(changed, "file", "files")} laid out";
        output.WriteLine($"{done}, {unchanged} already in order.");
    }

    public static RigVerb Define(Host host)
    {
        var files = new Argument<string[]>("FILE") { Arity = ArgumentArity.ZeroOrMore };
        var check = new Option<bool>("--check")
        {
            Description = "Change nothing; list the files that would change, and make the exit code 1 if there are any",
        };
        var verb = new RigVerb("format", "Lays a rig out neatly, without changing what it says")
        {
            Operands = "FILE…",
            Page =
            [
                "Columns are lined up within a block and spacing is made even; comments stay where they are. A file with "
                + "mistakes in it is laid out around them. A folder is searched for .rig files; - takes a rig from another "
                + "program and hands it on. A file that is in order already is not touched, and one that cannot be written "
                + "whole stays as it was.",
            ],
            Examples =
            [
                ("rig format trio.rig", "one rig"),
                ("rig format --check .", "is everything in this folder in order?"),
            ],
        };
        verb.Add(files);
        verb.Add(check);
        verb.SetAction(result => result.GetValue(files) is { Length: > 0 } named
            ? Run(named, result.GetValue(check), host)
            : Usage.NoOperand(host, verb, "format needs the name of a rig file or a folder."));
        return verb;
    }
}
