using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Checks.Language;

public sealed class UnknownNameCheck : FaultCheck<UnknownName>
{
    /// <summary>Looking for a near name costs time that grows with the file; after so many the first ones are what matters.</summary>
    private const int MostSuggestions = 100;

    public override string Name => "unknown-name";
    public override Severity Severity => Severity.Error;
    public override string Title => "A name that nothing has";
    public override string Why => "Nothing can be said about what this line connects or sets.";
    public override string Advice => "Correct the name, or declare what it names.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Weir {
          in  in   : midi on din-5
          out out1 : midi on din-5
          route in to out2
        }
        """;
    public override string GoodExample => """
        gear Weir {
          in  in   : midi on din-5
          out out1 : midi on din-5
          route in to out1
        }
        """;

    public override void Run(Rig rig, Report report)
    {
        var faults = rig.Names.Faults.OfType<UnknownName>().ToList();
        var swapped = SwappedDevices(faults, rig);
        foreach (var (gear, device) in swapped)
        {
            TellOfSwapped(gear, device, report);
        }
        faults.RemoveAll(f => swapped.Exists(s => s.Gear == f || (f.Kind == "device" && f.Name == s.Gear.Name)));
        foreach (var library in faults.GroupBy(f => (File: LibraryOf(f), f.At.Source)))
        {
            if (library.Key.File is { } file)
            {
                TellOfLibrary([.. library], file, report);
                continue;
            }
            foreach (var fault in library)
            {
                Tell(fault, rig, report);
            }
        }
        // Which checks there are is not known where names are looked up.
        foreach (var accept in rig.Names.Accepts)
        {
            if (CheckList.Find(accept.CheckName) is null)
            {
                TellOfCheck(accept, report);
            }
        }
    }

    private static string? LibraryOf(UnknownName fault) => fault.Kind is "gear" or "lead" ? SharedLibrary.FileDeclaring(fault.Name) : null;

    /// <summary>A forgotten import is one mistake, however many names it leaves unknown.</summary>
    private void TellOfLibrary(List<UnknownName> faults, string file, Report report)
    {
        // Which one stands for all is told by its words, not by its place.
        faults = [.. faults.OrderBy(LineOf, StringComparer.Ordinal).ThenBy(f => f.At.Span.Start)];
        var first = faults[0];
        var others = faults.Select(f => f.Name).Distinct().Count() - 1;
        report.Add(this, first.At, $"There is no {first.Kind} called `{first.Name}`{(others > 0 ? $", nor {Wording.Count(others, "other name")} that the library has" : "")}.",
            advice: $"It is in the library: add the line import \"{file}\".",
            related: faults.Skip(1).Take(3).Select(f => Wording.Also(f.At, $"{f.Name} is in it too")),
            fixes: _ => [ImportAtTop(file, first.At.Source)],
            alsoAt: faults.Skip(1).Select(f => f.At));

        static string LineOf(UnknownName fault) => fault.At.Source.Slice(fault.At.Source.LineSpan(fault.At.Source.PositionOf(fault.At.Span.Start).Line));
    }

    /// <summary><c>device SmallMixer : desk</c>: gear where the box's name belongs, and a name that is no gear behind it.</summary>
    private static List<(UnknownName Gear, DeviceStatement Device)> SwappedDevices(List<UnknownName> faults, Rig rig)
    {
        var swapped = new List<(UnknownName, DeviceStatement)>();
        var unknown = faults.Where(f => f.Kind == "gear").ToDictionary(f => (f.At.Source, f.At.Span));
        foreach (var file in unknown.Count == 0 ? [] : rig.Names.Files)
        {
            foreach (var device in file.Statements.OfType<DeviceStatement>())
            {
                if (!device.IsSeveral && unknown.TryGetValue((file.Source, device.Gear.Span), out var fault)
                    && (rig.Names.FindGear(file, device.Name.Text) is not null || SharedLibrary.FileDeclaring(device.Name.Text) is not null))
                {
                    swapped.Add((fault, device));
                }
            }
        }
        return swapped;
    }

    private void TellOfSwapped(UnknownName fault, DeviceStatement device, Report report)
    {
        var source = fault.At.Source;
        var (name, gear) = (source.Slice(device.Gear.Span), source.Slice(device.Name.Span));
        report.Add(this, fault.At, $"`{gear}` is the gear, and stands where the name of the box belongs.", advice: $"Write the name first: device {name} : {gear}.",
            fixes: [new Fix($"Write device {name} : {gear}", true, [new TextEdit(source, device.Name.Span, name), new TextEdit(source, device.Gear.Span, gear)])]);
    }

    private void TellOfCheck(AcceptSymbol accept, Report report)
    {
        var near = NearestChecks(accept.CheckName);
        report.Add(this, accept.CheckAt, $"There is no check called `{accept.CheckName}`.",
            why: "Nothing is accepted by this line.",
            advice: near.Count > 0
                ? $"Did you mean {Wording.Or(near.Select(n => $"`{n}`"))}? A finding gives the name of its check."
                : "Write the name that the finding gives; `rig explain` lists all checks.",
            fixes: near.Select(n => Wording.Replace($"Change to {n}", accept.CheckAt, n)));
    }

    /// <summary>The check whose name is spelled nearly so; failing that, those that share a word with it.</summary>
    private static List<string> NearestChecks(string name)
    {
        var all = CheckList.All.Select(c => c.Name).ToList();
        if (Wording.Nearest(name, all) is { } near)
        {
            return [near];
        }
        var words = name.Split('-');
        return [.. all.Where(n => n.Split('-').Intersect(words).Any(w => w.Length > 3)).Take(3)];
    }

    protected override void Tell(UnknownName fault, Rig rig, Report report)
    {
        var what = $"There is no {fault.Kind} called `{fault.Name}`.";
        var isEarly = report.Claims.Count < MostSuggestions;
        var fitting = isEarly && fault.Kind == "lead" ? LeadsThatFit(fault, rig) : [];
        var near = isEarly ? Wording.Nearest(fault.Name, fitting) ?? Wording.Nearest(fault.Name, fault.Known) : null;
        if (near is not null)
        {
            report.Add(this, fault.At, what, advice: $"Did you mean `{near}`?",
                fixes: [Wording.Replace($"Change to {near}", fault.At, Wording.Written(near))]);
            return;
        }
        report.Add(this, fault.At, what, advice: fault.Known.Count == 0
            ? $"Declare it first: there is no {fault.Kind} yet."
            : isEarly ? $"Use one of {Wording.Or(fitting.Concat(fault.Known.Except(fitting).Order(StringComparer.Ordinal)).Take(9))}, or declare it."
            : "Use a name that is declared, or declare it.");
    }

    /// <summary>Of the known leads those that fit both ends of the connection, the simplest first.</summary>
    private static List<string> LeadsThatFit(UnknownName fault, Rig rig)
    {
        var connection = rig.Names.Connections.FirstOrDefault(c => c.Leads.Count <= 1 && ReferenceEquals(c.At.Source, fault.At.Source)
            && c.At.Span.Start <= fault.At.Span.Start && fault.At.Span.End <= c.At.Span.End);
        return connection is null ? []
            : [.. rig.Wiring.Choice.Fitting([.. connection.FromJacks.Select(j => j.Jack)], [.. connection.ToJacks.Select(j => j.Jack)]).Where(fault.Known.Contains)];
    }

    /// <summary>A first line of its own, behind a byte order mark, that ends as the file's first line does.</summary>
    private static Fix ImportAtTop(string file, SourceText source)
    {
        var top = new Location(source, new TextSpan(source.Content.StartsWith('\uFEFF') ? 1 : 0, 0));
        var end = source.LineCount > 1 ? source.Content[source.LineSpan(0).End..source.LineStart(1)] : "\n";
        return Wording.Replace($"Import \"{file}\"", top, $"import \"{file}\"{end}", isSafe: true);
    }
}
