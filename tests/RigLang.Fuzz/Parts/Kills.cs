using System.Diagnostics;
using System.Globalization;
using System.Text;
using CsCheck;
using RigLang.Formatting;
using RigLang.Text;

namespace RigLang.Fuzz.Parts;

/// <summary>
/// <c>rig format</c> is killed at any moment. A case is what is killed when: how the file is named (<c>plain</c>, by a <c>link</c>, or with a second name, a <c>hard</c> link), then
/// <c>start N</c> for N thousandths of a whole run, or <c>writing N</c> for N microseconds after something new stands in the folder.
/// </summary>
internal sealed class Kills : Part
{
    private const string Rig = "case.rig";
    private const string Link = "link.rig";

    /// <summary>Only to end what hangs.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private static readonly string Untidy = Unlaid();
    private static readonly string Tidy = Formatter.Format(new SourceText(Rig, Untidy));

    private readonly Lazy<TimeSpan> _wholeRun = new(() =>
    {
        using var run = new RigRun();
        run.Put(Rig, Untidy);
        using var child = Start(run, Rig);
        var watch = Stopwatch.StartNew();
        child.WaitForExit(Patience);
        return watch.Elapsed;
    });

    private int _old;
    private int _new;
    private int _withTemporary;

    public override string Name => "kills";

    public override string About => "a rig whose formatting is killed at any moment is wholly the old or wholly the new, and nothing is left beside it after the next run";

    public override int CasesIn(int runs) => Math.Max(1, runs / 200);

    public override Gen<string> Cases { get; } = Gen.Select(Gen.OneOf("plain", "plain", "link", "hard"), Gen.Frequency(
        (1, Gen.Int[300, 1_300].Select(n => $"start {n}")),
        (3, Gen.Frequency((1, Gen.Int[0, 200]), (2, Gen.Int[0, 6_000])).Select(n => $"writing {n}"))), (named, moment) => $"{named} {moment}");

    public override IEnumerable<string> Summary =>
        [string.Create(CultureInfo.InvariantCulture, $"killed before the rig was new: {_old}, after: {_new}; with a temporary file left: {_withTemporary}")];

    public override async Task<string?> JudgeAsync(string written)
    {
        if (written.Trim().Split(' ') is not [var named, var moment, var number] || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var delay)
            || named is not ("plain" or "link" or "hard") || moment is not ("start" or "writing"))
        {
            return null;
        }
        using var run = new RigRun();
        run.Put(Rig, Untidy);
        var (isLink, isHard) = (named == "link", named == "hard");
        if (isLink)
        {
            File.CreateSymbolicLink(run.PathOf(Link), run.PathOf(Rig));
        }
        if (isHard)
        {
            using var ln = Process.Start("ln", [run.PathOf(Rig), run.PathOf(Link)]);
            await ln.WaitForExitAsync();
        }
        await KillAsync(run, isLink ? Link : Rig, moment == "writing", delay);
        var after = File.ReadAllText(run.PathOf(Rig));
        // Two names of one file can only be kept by writing it in its place; then the next run makes it whole.
        if (after != Untidy && after != Tidy && !isHard)
        {
            return $"a rig is neither the old nor the new: {after.Length} characters of {Untidy.Length} and {Tidy.Length}";
        }
        _ = after == Tidy ? _new++ : _old++;
        _withTemporary += Directory.GetFileSystemEntries(run.Folder).Length > (isLink || isHard ? 2 : 1) ? 1 : 0;
        var again = run.Rig("format", isLink ? Link : Rig);
        return again.Code != 0 ? $"the next run fails: {again.Error}"
            : File.ReadAllText(run.PathOf(Rig)) != Tidy ? "the next run does not lay the rig out: " + again.Out
            : isLink && new FileInfo(run.PathOf(Link)).LinkTarget is null ? "a link is a link no more: " + written
            : isHard && File.ReadAllText(run.PathOf(Link)) != Tidy ? "the second name of a file keeps the old text: " + written
            : Left(run);
    }

    private static string? Left(RigRun run)
    {
        var left = Directory.GetFileSystemEntries(run.Folder).Select(Path.GetFileName).Where(name => name is not (Rig or Link)).ToList();
        return left.Count == 0 ? null : $"a temporary file is left after the next run: {string.Join(", ", left)}";
    }

    private async Task KillAsync(RigRun run, string name, bool isWhenWriting, int delay)
    {
        var entries = Directory.GetFileSystemEntries(run.Folder).Length;
        var wholeRun = _wholeRun.Value;
        using var child = Start(run, name);
        var watch = Stopwatch.StartNew();
        if (isWhenWriting)
        {
            while (!child.HasExited && watch.Elapsed < Patience && Directory.GetFileSystemEntries(run.Folder).Length == entries)
            {
            }
            watch.Restart();
        }
        var moment = isWhenWriting ? TimeSpan.FromMicroseconds(delay) : wholeRun * (delay / 1_000.0);
        while (!child.HasExited && watch.Elapsed < moment)
        {
        }
        child.Kill();
        using var patience = new CancellationTokenSource(Patience);
        await child.WaitForExitAsync(patience.Token);
    }

    /// <summary>The native program that <c>RIG</c> names, or else the portable one beside this.</summary>
    private static Process Start(RigRun run, string name)
    {
        var native = Environment.GetEnvironmentVariable("RIG");
        var start = new ProcessStartInfo(native is { Length: > 0 } ? native : "dotnet") { WorkingDirectory = run.Folder, RedirectStandardOutput = true, RedirectStandardError = true };
        if (native is not { Length: > 0 })
        {
            start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "rig.dll"));
        }
        start.ArgumentList.Add("format");
        start.ArgumentList.Add(name);
        return Process.Start(start)!;
    }

    /// <summary>Long enough that writing it takes a moment: the examples many times over, with every line set in.</summary>
    private static string Unlaid()
    {
        var text = new StringBuilder();
        for (var i = 0; i < 20; i++)
        {
            foreach (var line in Texts.Shipped.SelectMany(t => t.Split('\n')))
            {
                text.Append("   ").Append(line).Append('\n');
            }
        }
        return text.ToString();
    }
}
