using System.Globalization;
using RigLang.Benchmarks;

// Measures the compiler; exit 0 when every aim is met, 1 when one is missed, 2 for wrong arguments.
//   (no arguments)                       lexer, parser and check on rigs of 100 to 100,000 lines
//   --quick                              the same, a quarter of the time, less steady; --upto LINES leaves the larger rigs out
//   --flow [--quick]                     the message flow alone, over 10,000 MIDI links and 20,000
//   --unheard [--quick]                  the check of many tracks that nobody hears, each at thousands of devices
//   --ground [--quick]                   ground loops of 10,000 devices and 30,000 links, counted and cured
//   --power [--quick]                    power tree and power checks of 5,000 loads and 10,000, on many circuits and on one net
//   --growth                             what a check allocates when there is twice as much of any statement, shape or mistake
//   --process RIG FILE --empty PROGRAM   a whole `rig check FILE` beside an empty program; --runs N
//   --server RIG [--quick] [--edits N]   a real `rig server` beside an echo of messages; memory over N edits
//   --soak RIG FILE [--minutes N]        a real `rig server` typed into for half an hour beside other programs; memory minute by minute
//   --write LINES                        prints the generated rig of that many lines
switch (args)
{
    case [] or ["--quick"]:
        return Stages(isQuick: args.Length == 1, largest: 100_000);
    case ["--quick", "--upto", var lines] when int.TryParse(lines, NumberStyles.None, CultureInfo.InvariantCulture, out var most) && most >= 1_000:
        return Stages(isQuick: true, most);
    case ["--audio"] or ["--audio", "--quick"]:
        return AudioBenchmark.Run(Console.Out, args.Length == 2) ? 0 : 1;
    case ["--flow"] or ["--flow", "--quick"]:
        return FlowBenchmark.Run(Console.Out, isQuick: args.Length == 2) ? 0 : 1;
    case ["--unheard"] or ["--unheard", "--quick"]:
        return UnheardBenchmark.Run(Console.Out, isQuick: args.Length == 2) ? 0 : 1;
    case ["--ground"] or ["--ground", "--quick"]:
        return GroundBenchmark.Run(Console.Out, isQuick: args.Length == 2) ? 0 : 1;
    case ["--power"] or ["--power", "--quick"]:
        return PowerBenchmark.Run(Console.Out, isQuick: args.Length == 2) ? 0 : 1;
    case ["--growth"]:
        return GrowthBenchmark.Run(Console.Out) ? 0 : 1;
    case ["--write", var lines] when int.TryParse(lines, NumberStyles.None, CultureInfo.InvariantCulture, out var count):
        Console.Out.Write(RigGenerator.Rig(count));
        return 0;
    case ["--spin"]:
        SoakBenchmark.Spin();
        return 0;
    case ["--soak", var server, var file, .. var rest] when File.Exists(server) && File.Exists(file) && Minutes(rest) is { } minutes:
        return SoakBenchmark.Run(Console.Out, server, file, minutes) ? 0 : 1;
    case ["--echo"]:
        using (Stream input = Console.OpenStandardInput(), output = Console.OpenStandardOutput())
        {
            ServerBenchmark.Echo(input, output);
        }
        return 0;
    case ["--server", var server, .. var rest] when File.Exists(server) && Edits(rest) is { } edits:
        return ServerBenchmark.Run(Console.Out, server, edits, rest.Contains("--quick")) ? 0 : 1;
    case ["--process", var rig, var file, "--empty", var empty, .. var rest] when Runs(rest) is { } runs:
        if (Array.Find([rig, file, empty], path => !File.Exists(path)) is { } missing)
        {
            Console.Error.WriteLine($"There is no file {missing}.");
            return 2;
        }
        try
        {
            return ProcessBenchmark.Run(Console.Out, rig, file, empty, runs) ? 0 : 1;
        }
        catch (InvalidOperationException notMeasured)
        {
            Console.Error.WriteLine(notMeasured.Message);
            return 2;
        }
    default:
        Console.Error.WriteLine("Use it without arguments, with --quick [--upto LINES], with --flow [--quick], with --audio [--quick], with --unheard [--quick], with --ground [--quick], "
            + "with --power [--quick], with --growth, with --server RIG [--quick] [--edits N], with --soak RIG FILE [--minutes N], with --write LINES, "
            + "or with --process RIG FILE --empty PROGRAM [--runs N].");
        return 2;
}

static int Stages(bool isQuick, int largest)
{
    // A new check may find fault with what the generator writes: then the generator is to be mended first.
    if (StageBenchmark.FirstMistake() is { } mistake)
    {
        Console.Error.WriteLine(mistake);
        return 2;
    }
    return StageBenchmark.Run(Console.Out, isQuick, largest) ? 0 : 1;
}

static int? Minutes(string[] rest) => rest switch
{
    [] => 30,
    ["--minutes", var text] when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) && minutes > 0 => minutes,
    _ => null,
};

static int? Runs(string[] rest) => rest switch
{
    [] => 40,
    ["--runs", var text] when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var runs) && runs > 0 => runs,
    _ => null,
};

static int? Edits(string[] rest) => rest.Where(word => word != "--quick").ToArray() switch
{
    [] => 20_000,
    ["--edits", var text] when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var edits) && edits > 1 => edits,
    _ => null,
};
