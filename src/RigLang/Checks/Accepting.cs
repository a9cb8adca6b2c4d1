using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Checks;

/// <summary>
/// Which claims the player knows of and leaves as they are. What can hurt people or destroy gear is never accepted, nor what cannot be read,
/// nor a promise that fails: that one is changed or deleted.
/// </summary>
internal sealed class Accepting
{
    private readonly Rig _rig;
    private readonly StatementPlaces _places;
    private readonly Dictionary<Claim, AcceptSymbol> _accepted = new(ReferenceEqualityComparer.Instance);
    private readonly List<Claim> _remarks = [];

    public Accepting(Rig rig, IReadOnlyList<Claim> claims)
    {
        _rig = rig;
        _places = new StatementPlaces(rig);
        if (rig.Names.Accepts.Count == 0)
        {
            return;
        }
        var byPlace = new ClaimsByPlace(claims, SubjectsOf);
        foreach (var accept in rig.Names.Accepts)
        {
            if (CheckList.Find(accept.CheckName) is { } check)
            {
                Accept(accept, check, byPlace);
            }
        }
    }

    /// <summary>What is to be said of the `accept` lines themselves.</summary>
    public IReadOnlyList<Claim> Remarks => _remarks;

    /// <summary>The line that accepts a claim; null for one that stands.</summary>
    public AcceptSymbol? For(Claim claim) => _accepted.GetValueOrDefault(claim);

    /// <summary>The device or jack that an `accept` line would name, as it is written; null for what cannot be accepted.</summary>
    public string? PlaceOf(Claim claim)
    {
        if (WhyNot(claim.Check, claim.Harm) is not null)
        {
            return null;
        }
        Subject? first = null;
        foreach (var subject in SubjectsOf(claim))
        {
            if (subject.Port is { IsOutput: false })
            {
                return Written(subject);
            }
            first ??= subject;
        }
        return first is { } only ? Written(only) : null;

        static string Written(Subject subject) =>
            Wording.Written(subject.Device.Name) + (subject.Port is { } port ? "." + Wording.Written(port.Name) : "");
    }

    private void Accept(AcceptSymbol accept, Check check, ClaimsByPlace claims)
    {
        var met = accept.Targets.SelectMany(target => claims.At(check, target)).Distinct().ToList();
        foreach (var claim in met.Where(c => WhyNot(check, c.Harm) is null))
        {
            _accepted.TryAdd(claim, accept);
        }
        var refused = met.Count == 0 ? WhyNot(check, check.Harm) : met.Select(c => WhyNot(check, c.Harm)).FirstOrDefault(why => why is not null);
        if (refused is not null)
        {
            _remarks.Add(AcceptRefused.Claim(accept, refused));
        }
        else if (met.Count == 0)
        {
            _remarks.Add(AcceptMeetsNothing.Claim(accept));
        }
    }

    private static string? WhyNot(Check check, Harm harm) => check.NeverAcceptedBecause ?? harm switch
    {
        Harm.People => "it can injure or kill people",
        Harm.Gear => "it can destroy gear",
        _ => null,
    };

    /// <summary>The claims by what an `accept` line can name.</summary>
    private sealed class ClaimsByPlace
    {
        private readonly Dictionary<(string Check, DeviceSymbol, PortSymbol?), List<Claim>> _bySubject = [];
        private readonly ILookup<(string Check, Location), Claim> _byLine;

        public ClaimsByPlace(IReadOnlyList<Claim> claims, Func<Claim, IEnumerable<Subject>> subjectsOf)
        {
            foreach (var claim in claims)
            {
                foreach (var (device, port) in subjectsOf(claim))
                {
                    Add((claim.Check.Name, device, null), claim);
                    if (port is not null)
                    {
                        Add((claim.Check.Name, device, port), claim);
                    }
                }
            }
            _byLine = claims.ToLookup(c => (c.Check.Name, c.At));
        }

        public IEnumerable<Claim> At(Check check, Target target) => target switch
        {
            { Port: null, Part: null, Track: null } => _bySubject.GetValueOrDefault((check.Name, target.Device, null)) ?? [],
            { Port: { } port } => _bySubject.GetValueOrDefault((check.Name, target.Device, port)) ?? [],
            _ => target.Device.Channels.TryGetValue(target.Part?.Name ?? target.Track!.Name, out var set) ? _byLine[(check.Name, set.At)] : [],
        };

        private void Add((string, DeviceSymbol, PortSymbol?) place, Claim claim)
        {
            if (!_bySubject.TryGetValue(place, out var here))
            {
                _bySubject[place] = here = [];
            }
            if (here.Count == 0 || !ReferenceEquals(here[^1], claim))
            {
                here.Add(claim);
            }
        }
    }

    /// <summary>What a claim is about: what it says itself, and what its line names.</summary>
    private IEnumerable<Subject> SubjectsOf(Claim claim)
    {
        foreach (var subject in claim.About)
        {
            yield return subject;
        }
        switch (_places.At(claim.At))
        {
            case ConnectStatement connect when _places.Hookup(connect) is { Connection: var connection }:
                foreach (var end in connection.To.Concat(connection.From))
                {
                    yield return new Subject(end.Device, end.Port);
                }
                break;
            case DeviceStatement device:
                foreach (var one in _places.DevicesOf(device))
                {
                    yield return new Subject(one);
                }
                break;
            case GearStatement gear:
                foreach (var one in _rig.Names.Devices.Where(d => ReferenceEquals(d.Gear?.Statement, gear)))
                {
                    yield return new Subject(one);
                }
                break;
        }
    }
}

/// <summary>An `accept` line for what is too dangerous to be left as it is.</summary>
public sealed class AcceptRefused : Check
{
    public override string Name => "accept-refused";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something accepted that cannot be accepted";
    public override string Why => "What can hurt people, destroy gear or break a promise of the rig stays a finding, whatever the file says of it.";
    public override string Advice => "Mend what the check tells of, and delete this line.";
    public override string Source => "the language";
    public override string? NeverAcceptedBecause => "it speaks of an accept line";
    public override string BadExample => """
        gear Wall {
          out socket : mains 230 V earthed on mains
        }
        gear Desk {
          in power : mains 230 V earthed, 40 W on iec-c14
        }
        device wall : Wall
        device desk : Desk
        connect wall.socket to desk.power
        accept earth-missing on desk because "it hums less"
        """;
    public override string GoodExample => BadExample.Replace("\naccept earth-missing on desk because \"it hums less\"", "", StringComparison.Ordinal);

    /// <summary>The claim is made where it is known what is accepted.</summary>
    public override void Run(Rig rig, Report report)
    {
    }

    internal static Claim Claim(AcceptSymbol accept, string why)
    {
        var page = CheckList.Find("accept-refused")!;
        return new Claim(page, page.Severity, accept.CheckAt, $"`{accept.CheckName}` cannot be accepted: {why}.", page.Why, page.Advice, []);
    }
}

/// <summary>An `accept` line that nothing is found for.</summary>
public sealed class AcceptMeetsNothing : Check
{
    public override string Name => "accept-meets-nothing";
    public override Severity Severity => Severity.Hint;
    public override string Title => "Something accepted that is not there";
    public override string Why => "The line is left over from an earlier rig, and would hide the next mistake of its kind there.";
    public override string Advice => "Delete it, or name the place where the finding is.";
    public override string Source => "the language";
    public override string? NeverAcceptedBecause => "it speaks of an accept line";
    public override string BadExample => """
        gear Rook {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        lead Patch : ts 6.35 mm to ts 6.35 mm
        device seq  : Rook
        device desk : Desk
        connect seq.line to desk.ch1 with Patch 1 m
        accept lead-too-long on desk.ch1 because "short, and quiet in rehearsal"
        """;
    public override string GoodExample => BadExample.Replace("Patch 1 m", "Patch 9 m", StringComparison.Ordinal);

    /// <inheritdoc cref="AcceptRefused.Run"/>
    public override void Run(Rig rig, Report report)
    {
    }

    internal static Claim Claim(AcceptSymbol accept)
    {
        var page = CheckList.Find("accept-meets-nothing")!;
        return new Claim(page, page.Severity, accept.At, $"Nothing is found that `accept {accept.CheckName}` could be meant for here.", page.Why, page.Advice, [])
        {
            Fixes = _ => Remove(accept),
        };
    }

    private static IEnumerable<Fix> Remove(AcceptSymbol accept)
    {
        var source = accept.At.Source;
        var line = source.LineSpan(source.PositionOf(accept.At.Span.Start).Line);
        return source.Slice(line).Trim() == source.Slice(accept.At.Span)
            ? [new Fix("Delete the line", false, [new TextEdit(source, accept.At.Span, "")])]
            : [];
    }
}
