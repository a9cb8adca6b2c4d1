using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>
/// Looks up every name of a rig and its imports. An unknown name is noted once, at its place; what depends on it is left
/// open and concludes nothing.
/// </summary>
internal static class Binder
{
    public static RigNames Bind(RigFiles rig)
    {
        var (files, graph, faults) = rig;
        var names = new RigNames { Files = files, Imports = graph };
        names.Faults.AddRange(faults);
        names.HasBrokenImport = faults.Any(f => f is BadImport { Trouble: ImportTrouble.NotFound or ImportTrouble.Absolute });
        var declarer = new Declarer(names);
        foreach (var file in files)
        {
            names.Faults.AddRange(file.Faults);
            declarer.DeclareGearAndLeads(file);
        }
        var scopes = ScopesOf(names);
        Likeness.Resolve(names, (file, name) => scopes.Find(s => ReferenceEquals(s.File, file))?.Gear(name));
        declarer.DeclareDevices(scopes);
        foreach (var scope in scopes)
        {
            BindStatements(scope);
        }
        names.Close();
        return names;
    }

    /// <summary>One for each file that a player wrote; a library file has no statement with names to look up.</summary>
    private static List<FileScope> ScopesOf(RigNames names)
    {
        var broken = new BrokenDeclarations(names.Files);
        return [.. names.Files.Where(f => f.Library is null).Select(f => new FileScope(f, names, broken))];
    }

    private static void BindStatements(FileScope scope)
    {
        var rigs = new RigBlockBinder(scope);
        var devices = new DeviceBinder(scope);
        var connections = new ConnectionBinder(scope);
        var stocks = new StockBinder(scope);
        var expectations = new ExpectationBinder(scope);
        foreach (var statement in scope.File.Statements)
        {
            switch (statement)
            {
                case RigStatement rig:
                    rigs.Bind(rig);
                    break;
                case DeviceStatement device:
                    devices.BindAll(device);
                    break;
                case ConnectStatement connect:
                    connections.Bind(connect);
                    break;
                case StockStatement stock:
                    stocks.Bind(stock);
                    break;
                case ExpectStatement expect:
                    expectations.Bind(expect);
                    break;
                case AcceptStatement accept:
                    AcceptReader.Read(accept, scope.Names, scope.Reading, scope.Device);
                    break;
                case BrokenLine broken:
                    scope.NoteNamesOf(broken);
                    break;
            }
        }
    }
}
