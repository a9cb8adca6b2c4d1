using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>The starts of statements, and the short ones: rig, import, lead, stock.</summary>
internal static class OtherSuggestions
{
    public static void AddStatements(EditorStyle style, SuggestionList list)
    {
        var (from, length) = style.InFeet ? ("0 ft", "5 ft") : ("0 m", "1.5 m");
        list.Snippet(0, "connect …", "connect ${1:device.port} to ${2:device.port}", "a cable");
        list.Snippet(1, "device …", "device ${1:name} : ${2:Gear} at (${3:" + from + "}, ${4:" + from + "})", "a box on the table");
        list.Snippet(2, "must …", "must ${1:notes} from ${2:device} reach ${3:device}", "what the players rely on");
        list.Snippet(3, "never …", "never ${1:start, stop} from ${2:device} reach ${3:device}", "what must not arrive");
        list.Snippet(4, "gear …", "gear ${1:Name} {\n  in  ${2:midi} : midi on din-5\n  out ${3:line} : audio mono line on ts 6.35 mm\n}", "a kind of box");
        list.Snippet(5, "lead …", "lead ${1:Name} : ${2:trs 3.5 mm} to ${3:trs 3.5 mm}", "a kind of cable");
        list.Snippet(6, "stock …", "stock {\n  ${1:6} ${2:MidiDin} ${3:" + length + "}\n}", "what is in the box of cables");
        list.Snippet(7, "import …", "import \"${1:shared/leads.rig}\"", "gear and leads of another file");
        list.Snippet(8, "rig …", "rig \"${1:Title}\" {\n  tempo ${2:112} bpm\n  mains ${3:230} V ${4:50} Hz\n  set ${5:75} min\n}", "what holds for the whole evening");
        list.Snippet(9, "accept …", "accept ${1:check} on ${2:device.port} because \"${3:reason}\"", "a finding that is left as it is");
        list.Keywords(20, "connect", "device", "must", "never", "gear", "lead", "stock", "import", "rig", "accept");
    }

    /// <summary><c>gear Name like Other</c>.</summary>
    public static void AddGearHeader(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        if (tokens.Count == 2 && tokens[1].IsName)
        {
            list.Keyword(0, "like", "it has all lines of another gear");
        }
        else if (tokens.Count == 3 && tokens[2].Keyword == Keyword.Like)
        {
            var names = line.View.Rig.Names;
            foreach (var name in names.GearOf(line.View.File).Where(n => n.Prefixes.Count == 0).Select(n => n.Own))
            {
                if (name != tokens[1].Text)
                {
                    list.Name(names.Gear.ContainsKey(name) ? 0 : 10, name, SuggestionKind.Gear, "", SuggestionKey.Of("gear", name));
                }
            }
        }
    }

    /// <summary>The files beside this one, then the library's; those that are imported already come last.</summary>
    public static void AddImports(CaretLine line, IReadOnlyList<string> importable, SuggestionList list)
    {
        if (line.Before.Count != 1)
        {
            return;
        }
        var here = line.View.Tree.Statements.OfType<ImportStatement>()
            .Where(i => line.Offset < i.Span.Start || i.Span.End < line.Offset).Select(i => i.Path.Text).ToHashSet(StringComparer.Ordinal);
        foreach (var path in importable.Concat(SharedLibrary.Paths))
        {
            var isShared = SharedLibrary.IsShared(path);
            var rank = (here.Contains(path) ? 100 : 0) + (isShared ? 10 : 0);
            var detail = here.Contains(path) ? "imported already" : isShared ? "the library" : "";
            if (line.IsQuoted)
            {
                list.Name(rank, path, SuggestionKind.File, detail);
            }
            else
            {
                list.Quoted(rank, path, SuggestionKind.File, detail);
            }
        }
    }

    public static void AddRigLine(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        if (tokens.Count == 0)
        {
            list.Snippet(0, "tempo", "tempo ${1:112} bpm", "quarter notes a minute");
            list.Snippet(1, "mains", "mains ${1:230} V ${2:50} Hz", "what the wall gives");
            list.Snippet(2, "set", "set ${1:75} min", "how long the set is");
            list.Keywords(10, "tempo", "mains", "set");
        }
        else if (tokens[^1].Kind == TokenKind.Number)
        {
            switch (tokens[0].Text)
            {
                case "tempo":
                    UnitSuggestions.Add(list, Dimension.Tempo);
                    break;
                case "mains":
                    UnitSuggestions.Add(list, ["V", "Hz", "A"]);
                    break;
                case "set":
                    UnitSuggestions.Add(list, ["min", "h", "s"]);
                    break;
            }
        }
    }

    public static void AddStockLine(CaretLine line, EditorStyle style, SuggestionList list)
    {
        if (line.Before is [{ Kind: TokenKind.Number }, ..] && PrefixesTyped.Behind(line.Before, 1) is { } prefixes)
        {
            var used = line.View.Rig.Wiring.Hookups.SelectMany(h => h.Leads).ToHashSet();
            foreach (var (name, lead) in LeadSuggestions.Behind(line.View, prefixes))
            {
                list.Name(used.Contains(lead) ? 0 : 10, name, prefixes, SuggestionKind.Lead, LeadText.Plugs(lead), SuggestionKey.Of("lead", name.ToString()));
            }
            list.Prefixes(prefixes);
            return;
        }
        switch (line.Before)
        {
            case [{ Kind: TokenKind.Number }, _, .., { Kind: TokenKind.Number }]:
                UnitSuggestions.Add(list, style.InFeet ? ["ft", "m", "inch", "cm"] : ["m", "cm", "ft", "inch"]);
                break;
            case [{ Kind: TokenKind.Number }, { IsName: true }, ..]:
                LeadSuggestions.AddColours(0, list);
                break;
        }
    }

    /// <summary><c>lead Name : PLUG to PLUG, PLUG</c>.</summary>
    public static void AddLeadHeader(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        if (!tokens.Any(t => t.Kind == TokenKind.Colon))
        {
            return;
        }
        switch (tokens[^1])
        {
            case { Kind: TokenKind.Colon or TokenKind.Comma }:
            case { Keyword: Keyword.To }:
                list.Keyword(10, "socket", "an end that a plug goes into");
                AddForms();
                break;
            case { Text: "socket" }:
                AddForms();
                break;
            case { Kind: TokenKind.Number or TokenKind.Size }:
                list.Word(0, "mm", SuggestionKind.Unit, "a length");
                break;
            default:
                list.Keyword(0, "to");
                break;
        }

        void AddForms()
        {
            foreach (var form in Forms.All.Append(Forms.Barrel(5.5, 2.1)))
            {
                list.Word(0, form.Name, SuggestionKind.Word, form.Source);
            }
        }
    }

    /// <summary>Contacts of the plugs before `to`, then of those behind it.</summary>
    public static void AddLeadLine(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        var lead = line.Header.Count > 1 ? line.View.LeadCalled(line.Header[1].Text ?? "") : null;
        if (tokens.Count == 0)
        {
            list.Snippet(10, "longest", "longest ${1:2} m", "no longer than this");
            list.Snippet(11, "gauge", "gauge ${1:24} awg", "how thick its wires are");
            list.Keywords(20, "longest", "gauge");
        }
        else if (tokens[^1].Kind == TokenKind.Number && tokens[0].Text is "longest" or "gauge")
        {
            UnitSuggestions.Add(list, tokens[0].Text == "gauge" ? ["awg"] : ["m", "cm", "ft"]);
            return;
        }
        if (lead is null)
        {
            return;
        }
        var isFar = tokens.Any(t => t.Keyword == Keyword.To);
        var ends = isFar ? lead.Ends.Skip(lead.NearCount).ToList() : [.. lead.Ends.Take(lead.NearCount)];
        if (tokens.Count > 1 && tokens[^1].Kind == TokenKind.Dot)
        {
            AddContacts(ends.Where(e => e.Name == tokens[^2].Text));
        }
        else if (tokens.Count > 0 && tokens[^1].IsName && tokens[^1].Keyword != Keyword.To)
        {
            if (!isFar)
            {
                list.Keyword(0, "to");
            }
        }
        else if (ends.Count == 1)
        {
            AddContacts(ends);
        }
        else
        {
            foreach (var end in ends)
            {
                list.Name(0, end.Name, SuggestionKind.Word, end.Form.Name);
            }
        }

        void AddContacts(IEnumerable<LeadEndSymbol> of)
        {
            foreach (var contact in of.SelectMany(e => e.Form.Contacts))
            {
                list.Word(0, contact, SuggestionKind.Word);
            }
        }
    }
}
