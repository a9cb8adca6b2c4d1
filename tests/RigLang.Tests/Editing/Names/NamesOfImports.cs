using RigLang.Editing;
using RigLang.Formatting;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing.Names;

/// <summary>What an editor makes of <c>tide.bass</c>: two names, each with a place of its own.</summary>
public class NamesOfImports
{
    private const string Deep = """
        gear Eddy {
          in midi : midi on din-5
        }
        lead Short : din-5 to din-5 {
          4 to 4
          5 to 5
        }
        device swirl : Eddy
        """;

    private const string Tide = """
        import "deep.rig" as deep
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
        }
        lead Long : din-5 to din-5 {
          4 to 4
          5 to 5
        }
        device bass : Tern {
          voice on channel 2
        }
        device pad  : Tern
        connect bass.thru to pad.midi

        """;

    private const string Main = """
        import "tide.rig" as tide
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        device seq : Rook
        device two : tide.Tern
        connect seq.midi to tide.bass.midi with tide.Long 2 m
        accept lead-too-long on tide.bass.midi because "it is quiet"
        must notes from seq reach tide.bass.voice

        """;

    private static Compilation Compile(string main, string tide = Tide) => Rigs.Compile(main, ("tide.rig", tide), ("deep.rig", Deep));

    private static (RigView View, int Offset) At(string textWithCaret)
    {
        var offset = textWithCaret.IndexOf("$0", StringComparison.Ordinal);
        return (RigView.Of(Compile(textWithCaret.Remove(offset, 2)), "example.rig")!, offset);
    }

    private static (RigView View, int Offset) InTide(string textWithCaret)
    {
        var offset = textWithCaret.IndexOf("$0", StringComparison.Ordinal);
        return (RigView.Of(Compile(Main, textWithCaret.Remove(offset, 2)), "tide.rig")!, offset);
    }

    private static string[] Labels((RigView View, int Offset) at) =>
        [.. CompletionFinder.At(at.View, at.Offset, Completed.Metres, []).Where(s => !s.IsSnippet).Select(s => s.Label)];

    private static string Taken((RigView View, int Offset) at, string label)
    {
        var found = CompletionFinder.At(at.View, at.Offset, Completed.Metres, []).Single(s => s.Label == label && !s.IsSnippet);
        var text = at.View.Source.Content;
        return text[..found.Replace.Start] + found.Insert + text[found.Replace.End..];
    }

    [Theory]
    [InlineData("connect tide.$0", "pad, bass")]
    [InlineData("connect seq.midi to tide.$0", "bass, pad")]
    [InlineData("connect seq.midi to tide.ba$0", "bass, pad")]
    [InlineData("connect tide.bass.$0", "midi, thru")]
    [InlineData("connect seq.midi, tide.$0", "pad, bass")]
    [InlineData("connect seq.midi to tide.bass.$0", "midi, thru")]
    [InlineData("must notes from tide.$0", "bass, pad")]
    [InlineData("must notes from seq reach tide.$0", "bass, pad")]
    [InlineData("must notes from seq reach tide.bass.$0", "voice, midi, thru")]
    [InlineData("must notes from seq reach tide.bass$0.midi", "bass, pad")]
    [InlineData("accept lead-too-long on tide.$0", "bass, pad")]
    [InlineData("accept lead-too-long on tide.bass.$0", "midi, thru, voice")]
    [InlineData("device x : tide.$0", "Tern, deep.Eddy, deep")]
    [InlineData("device x : tide.deep.$0", "Eddy")]
    [InlineData("connect seq.midi to tide.bass.midi with tide.$0", "Long, deep.Short, deep")]
    [InlineData("connect seq.midi to tide.bass.midi with tide.deep.$0", "Short")]
    [InlineData("connect seq.midi to tide.bass.midi with tide.Long 2 m + tide.deep.$0", "")]
    [InlineData("stock {\n  2 tide.$0\n}", "Long, deep.Short, deep")]
    [InlineData("connect tied.$0", "")]
    [InlineData("connect seq.tide.$0", "")]
    public void Behind_the_name_of_an_import_stands_what_it_brings(string typed, string labels) =>
        Assert.Equal(labels, string.Join(", ", Labels(At(Main.Replace("connect seq.midi to tide.bass.midi with tide.Long 2 m\n", "", StringComparison.Ordinal) + typed))));

    [Theory]
    [InlineData("connect $0")]
    [InlineData("connect seq.midi to $0")]
    [InlineData("must notes from $0")]
    [InlineData("must notes from seq reach $0")]
    [InlineData("accept lead-too-long on $0")]
    [InlineData("device x : $0")]
    [InlineData("connect seq.midi to tide.bass.midi with $0")]
    [InlineData("stock {\n  2 $0\n}")]
    public void The_name_of_an_import_is_offered_where_a_name_begins(string typed)
    {
        Assert.Contains("tide", Labels(At(Main + typed)));
        Assert.Contains("tide", Taken(At(Main + typed), "tide"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("connect $0", "tide.bass", "connect tide.bass")]
    [InlineData("device x : $0", "tide.Tern", "device x : tide.Tern")]
    [InlineData("connect tide.$0", "bass", "connect tide.bass")]
    public void A_name_with_that_of_its_import_is_written_without_quotes(string typed, string label, string written) =>
        Assert.Equal(Main + written, Taken(At(Main + typed), label));

    [Fact]
    public void The_imported_file_offers_its_own_names_as_it_writes_them()
    {
        Assert.Equal(["pad", "bass", "deep.swirl", "deep"], Labels(InTide(Tide + "connect $0")).Where(l => l is not ("seq" or "two")));
        Assert.Equal(["thru", "midi"], Labels(InTide(Tide.Replace("connect bass.thru to pad.midi", "", StringComparison.Ordinal) + "connect bass.$0")));
        Assert.Contains("voice", Labels(InTide(Tide.Replace("device pad  : Tern", "device pad  : Tern {\n  $0\n}", StringComparison.Ordinal))));
    }

    [Theory]
    [InlineData("ti$0de.bass.midi with", "example.rig", "tide")]
    [InlineData("tide.ba$0ss.midi with", "tide.rig", "bass")]
    [InlineData("tide.bass.mi$0di with", "tide.rig", "midi")]
    [InlineData("with ti$0de.Long", "example.rig", "tide")]
    [InlineData("with tide.Lo$0ng", "tide.rig", "Long")]
    [InlineData(": tide.Te$0rn", "tide.rig", "Tern")]
    [InlineData("\"tide.rig\" as ti$0de", "example.rig", "tide")]
    [InlineData("lead-too-long on tide.ba$0ss", "tide.rig", "bass")]
    [InlineData("reach tide.bass.vo$0ice", "tide.rig", "voice")]
    public void A_definition_is_found_through_the_import(string place, string file, string name)
    {
        var plain = place.Replace("$0", "", StringComparison.Ordinal);
        var (view, offset) = At(Main.Replace(plain, place, StringComparison.Ordinal));
        var at = Navigation.DefinitionOf(view, offset)!.Value;
        Assert.Equal((file, name), (at.Source.Path, at.Source.Slice(at.Span)));
    }

    [Fact]
    public void Behind_two_imports_each_name_leads_to_its_own_line()
    {
        var text = Main + "device three : tide.deep.Eddy\n";
        var view = RigView.Of(Compile(text), "example.rig")!;
        string Definition(int into)
        {
            var at = Navigation.DefinitionOf(view, text.IndexOf("tide.deep", StringComparison.Ordinal) + into)!.Value;
            return $"{at.Source.Path} {at.Source.Slice(at.Span)}";
        }
        Assert.Equal(["example.rig tide", "tide.rig deep", "deep.rig Eddy"], [Definition(1), Definition(6), Definition(11)]);
    }

    [Fact]
    public void Hover_tells_of_the_device_and_of_the_import()
    {
        var (device, atDevice) = At(Main.Replace("tide.bass.midi with", "tide.ba$0ss.midi with", StringComparison.Ordinal));
        var hover = HoverFinder.At(device, atDevice, Completed.Metres)!;
        Assert.Equal("bass", device.Source.Slice(hover.Span));
        Assert.StartsWith("tide.bass: Tern", hover.Text, StringComparison.Ordinal);
        var (import, atImport) = At(Main.Replace("tide.bass.midi with", "ti$0de.bass.midi with", StringComparison.Ordinal));
        hover = HoverFinder.At(import, atImport, Completed.Metres)!;
        Assert.Equal("tide", import.Source.Slice(hover.Span));
        Assert.Contains("tide.bass and tide.pad", hover.Text, StringComparison.Ordinal);
        Assert.Contains("tide.Tern", hover.Text, StringComparison.Ordinal);
        Assert.Contains("tide.Long", hover.Text, StringComparison.Ordinal);
    }

    private static string[] Places(RigView view, int offset) =>
    [
        .. Navigation.ReferencesTo(view.NameAt(offset)!.Of, RigView.AllOf(view.Compilation), withDeclaration: true)
            .Select(p => $"{p.Source.Path}:{p.Source.PositionOf(p.Span.Start).Line + 1} {p.Source.Slice(p.Span)}"),
    ];

    [Fact]
    public void References_and_highlights_take_only_the_part_that_is_meant()
    {
        var (view, offset) = At(Main.Replace("tide.bass.midi with", "tide.ba$0ss.midi with", StringComparison.Ordinal));
        Assert.Equal(["example.rig:8 bass", "example.rig:9 bass", "example.rig:10 bass", "tide.rig:12 bass", "tide.rig:16 bass"], Places(view, offset));
        Assert.Equal(["bass", "bass", "bass"], Navigation.HighlightsAt(view, offset).Select(h => view.Source.Slice(h.Span)));
        (view, offset) = At(Main.Replace("tide.bass.midi with", "ti$0de.bass.midi with", StringComparison.Ordinal));
        Assert.Equal(["example.rig:1 tide", "example.rig:7 tide", "example.rig:8 tide", "example.rig:8 tide", "example.rig:9 tide", "example.rig:10 tide"], Places(view, offset));
        Assert.Single(Navigation.HighlightsAt(view, offset), h => h.IsDeclaration);
    }

    private static (Dictionary<string, string> Texts, string? Refusal) Renamed(RigView view, int offset, string name)
    {
        var views = RigView.AllOf(view.Compilation).ToList();
        var (edits, refusal) = Renaming.Rename(view, offset, name, views);
        var texts = views.ToDictionary(v => v.Source.Path, v => v.Source.Content);
        foreach (var edit in edits.OrderByDescending(e => e.Span.Start))
        {
            var text = texts[edit.Source.Path];
            texts[edit.Source.Path] = text[..edit.Span.Start] + edit.NewText + text[edit.Span.End..];
        }
        return (texts, refusal);
    }

    [Theory]
    [InlineData("low")]
    [InlineData("LOW END")]
    public void A_rename_of_the_device_changes_the_last_part_wherever_it_stands(string name)
    {
        var (view, offset) = At(Main.Replace("tide.bass.midi with", "tide.ba$0ss.midi with", StringComparison.Ordinal));
        var (texts, refusal) = Renamed(view, offset, name);
        var written = name.Contains(' ', StringComparison.Ordinal) ? $"\"{name}\"" : name;
        Assert.Null(refusal);
        Assert.Equal(Main.Replace("tide.bass", $"tide.{written}", StringComparison.Ordinal), texts["example.rig"]);
        Assert.Equal(Tide.Replace("device bass", $"device {written}", StringComparison.Ordinal).Replace("bass.thru", $"{written}.thru", StringComparison.Ordinal), texts["tide.rig"]);
        var (inTide, at) = InTide(Tide.Replace("device bass", "device ba$0ss", StringComparison.Ordinal));
        Assert.Equal(texts, Renamed(inTide, at, name).Texts);
        Assert.Equal(Compile(Main).Names(), Compile(texts["example.rig"], texts["tide.rig"]).Names());
    }

    [Fact]
    public void A_rename_of_the_import_changes_its_line_and_all_uses_of_it()
    {
        var (view, offset) = At(Main.Replace("as tide", "as ti$0de", StringComparison.Ordinal));
        var (texts, refusal) = Renamed(view, offset, "sea");
        Assert.Null(refusal);
        Assert.Equal(Main.Replace("tide.rig", "\0", StringComparison.Ordinal).Replace("tide", "sea", StringComparison.Ordinal).Replace("\0", "tide.rig", StringComparison.Ordinal), texts["example.rig"]);
        Assert.Equal(Tide, texts["tide.rig"]);
        Assert.Equal(Compile(Main).Names(), Compile(texts["example.rig"]).Names());
    }

    [Fact]
    public void A_name_inside_quotes_keeps_its_quotes()
    {
        var text = Main.Replace("device two : tide.Tern", "device two : \"tide.Tern\"", StringComparison.Ordinal);
        var view = RigView.Of(Compile(text), "tide.rig")!;
        var (texts, _) = Renamed(view, Tide.IndexOf("Tern", StringComparison.Ordinal), "Gull 2");
        Assert.Contains("device two : \"tide.Gull 2\"", texts["example.rig"], StringComparison.Ordinal);
        Assert.DoesNotContain("unknown-name", Compile(texts["example.rig"], texts["tide.rig"]).Names());
    }

    [Theory]
    [InlineData("device se$0q", "tide", "There is an import called tide already, at example.rig line 1.")]
    [InlineData("as ti$0de", "seq", "There is a device called seq already, at example.rig line 6.")]
    [InlineData("to tide.ba$0ss", "pad", "There is a device called pad already, at tide.rig line 15.")]
    [InlineData("with tide.Lo$0ng", "deep.Short", "There is a lead called deep.Short already, at deep.rig line 4.")]
    public void A_name_that_is_taken_where_it_would_stand_is_refused(string place, string name, string refusal)
    {
        var (view, offset) = At(Main.Replace(place.Replace("$0", "", StringComparison.Ordinal), place, StringComparison.Ordinal));
        Assert.StartsWith(refusal, Renamed(view, offset, name).Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_of_the_checked_file_is_free_in_the_import()
    {
        var (view, offset) = At(Main.Replace("device two : tide.Te$0rn", "", StringComparison.Ordinal).Replace(": tide.Tern", ": tide.Te$0rn", StringComparison.Ordinal));
        Assert.Null(Renamed(view, offset, "Wren").Refusal);
    }

    [Fact]
    public void Each_part_has_the_colour_of_what_it_is()
    {
        var view = RigView.Of(Compile(Main), "example.rig")!;
        string[] Painted(string words)
        {
            var start = Main.IndexOf(words, StringComparison.Ordinal);
            return [.. TokenPainter.In(view).Where(p => p.Span.Start >= start && p.Span.End <= start + words.Length).Select(p => $"{view.Source.Slice(p.Span)} {TokenPainter.Types[p.Type]}")];
        }
        Assert.Equal(["tide namespace", "bass variable", "midi property"], Painted("tide.bass.midi"));
        Assert.Equal(["tide namespace", "Long struct"], Painted("tide.Long"));
        Assert.Equal(["tide namespace", "Tern class"], Painted("tide.Tern"));
    }

    [Theory]
    [InlineData("connect tide.bass.thru $0", "FROM")]
    [InlineData("connect tide.bass.thru to tide.$0", "TO")]
    [InlineData("connect tide.bass.thru to tide.pad.midi with tide.Long $0", "LENGTH")]
    [InlineData("stock {\n  2 tide.$0\n}", "LEAD")]
    [InlineData("stock {\n  2 tide.Long $0\n}", "LENGTH")]
    [InlineData("device x : tide.Tern $0", "GEAR")]
    public void Signature_help_takes_it_as_one_name(string typed, string place)
    {
        var (view, offset) = At(Main + typed);
        var signature = SignatureFinder.At(view, offset)!;
        var active = signature.Parameters[signature.Active];
        Assert.StartsWith(place, signature.Label[active.Start..active.End], StringComparison.Ordinal);
    }

    [Fact]
    public void The_formatter_keeps_the_names_and_is_done_after_once()
    {
        const string Loose = "import \"tide.rig\"   as   tide\ndevice x:tide.Tern\nconnect tide.bass . thru   to x.midi with tide.Long 2 m\naccept lead-too-long on tide.bass.midi because \"so\"\nmust notes from tide.bass reach x\nstock {\n 2 tide.Long 2 m\n}\n";
        var once = Formatter.Format(new SourceText("example.rig", Loose));
        foreach (var kept in (string[])["as tide", "tide.Tern", "tide.bass.thru", "with tide.Long 2 m", "on tide.bass.midi", "from tide.bass reach", "2 tide.Long 2 m"])
        {
            Assert.Contains(kept, once, StringComparison.Ordinal);
        }
        Assert.Equal(once, Formatter.Format(new SourceText("example.rig", once)));
    }
}
