using System.Collections;
using System.Reflection;
using System.Runtime.CompilerServices;
using Mono.Cecil;
using RigLang.Symbols;
using RigLang.Tests.Examples;
using RigLang.Tests.Support;
using RigLang.Wiring;
using Xunit;

namespace RigLang.Tests.Architecture;

/// <summary>
/// What a stage has made stays as it is: names once they are bound, wiring once it is plugged. A later stage, or a request of an editor
/// on another thread, looks and changes nothing.
/// </summary>
public class SettledSymbols
{
    private static readonly string[] Stages = ["RigLang.Symbols", "RigLang.Wiring"];

    private static readonly Type[] Mutable =
        [typeof(List<>), typeof(Dictionary<,>), typeof(HashSet<>), typeof(IList<>), typeof(ICollection<>), typeof(IDictionary<,>), typeof(ISet<>)];

    public static TheoryData<string> PublicTypes => [.. typeof(Compilation).Assembly.GetExportedTypes()
        .Where(type => Stages.Contains(type.Namespace)).Select(type => type.FullName!)];

    [Theory]
    [MemberData(nameof(PublicTypes))]
    public void Nothing_public_can_be_set_or_added_to(string type)
    {
        foreach (var property in typeof(Compilation).Assembly.GetType(type)!.GetProperties())
        {
            Assert.False(property.SetMethod is { IsPublic: true } set && !IsInit(set), $"{type}.{property.Name} can be set by anyone.");
            Assert.False(property.PropertyType.IsArray || IsMutable(property.PropertyType), $"{type}.{property.Name} can be added to by anyone.");
        }
    }

    [Fact]
    public void Only_the_stage_that_makes_a_thing_sets_it()
    {
        using var compiler = ModuleDefinition.ReadModule(typeof(Compilation).Assembly.Location);
        var calls = compiler.GetTypes().SelectMany(type => type.Methods).Where(method => method.HasBody)
            .SelectMany(method => method.Body.Instructions.Select(at => (Caller: method, Called: (at.Operand as MethodReference)?.Resolve())))
            .Where(call => call.Called is not null && ChangesSomething(call.Called)).ToList();

        Assert.NotEmpty(calls);
        Assert.All(calls, call => Assert.True(
            StageOf(call.Caller) == StageOf(call.Called!) || (IsGathered(call.Called!) && Stages.Contains(StageOf(call.Caller))),
            $"{call.Caller.FullName} calls {call.Called!.FullName}"));
    }

    [Theory]
    [InlineData("examples/pantile-yard.rig")]
    [InlineData("examples/mistakes/pantile-yard.rig")]
    public void Every_list_of_a_compiled_rig_is_closed(string example)
    {
        var rig = Shipped.Compile(example).Rig;
        var open = new List<string>();
        var seen = new HashSet<object>(ReferenceEqualityComparer.Instance);
        var count = 0;
        Look(rig.Names);
        Look(rig.Wiring);

        Assert.True(count > 100, $"only {count} lists were looked at");
        Assert.Empty(open);

        void Look(object thing)
        {
            if (!seen.Add(thing))
            {
                return;
            }
            foreach (var property in thing.GetType().GetProperties(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic)
                .Where(p => p.GetIndexParameters().Length == 0 && Stages.Contains(p.DeclaringType!.Namespace)))
            {
                if (!property.PropertyType.Name.StartsWith("Gathered", StringComparison.Ordinal))
                {
                    continue;
                }
                var list = (IEnumerable)property.GetValue(thing)!;
                count++;
                if (list.GetType().GetProperty("IsClosed", BindingFlags.Instance | BindingFlags.NonPublic)!.GetValue(list) is false)
                {
                    open.Add($"{thing.GetType().Name}.{property.Name}");
                }
                foreach (var item in list)
                {
                    if (item is GearSymbol or PortSymbol or LeadSymbol or DeviceSymbol or ConnectionSymbol or Hookup)
                    {
                        Look(item);
                    }
                }
            }
        }
    }

    [Fact]
    public void Asking_for_gear_of_the_library_does_not_put_it_on_the_table()
    {
        var names = Rigs.Compile("import \"shared/gear.rig\"\ndevice strip : MainsStrip\n").Rig.Names;
        var used = names.AllGear.Select(gear => gear.Name).ToList();
        var other = names.GearNames.First(name => !used.Contains(name));

        Assert.NotNull(names.FindGear(other));
        Assert.Equal(used, names.AllGear.Select(gear => gear.Name));
    }

    private static bool IsInit(MethodInfo set) => set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    private static bool IsMutable(Type type) => type.IsGenericType && Mutable.Contains(type.GetGenericTypeDefinition());

    private static bool ChangesSomething(MethodDefinition method) =>
        Stages.Contains(StageOf(method)) && (IsGathered(method) ? !method.IsPublic && !method.IsGetter && !method.IsPrivate
            : method.IsSetter && !method.ReturnType.FullName.Contains(nameof(IsExternalInit), StringComparison.Ordinal));

    private static bool IsGathered(MethodDefinition method) => method.DeclaringType.Name.StartsWith("Gathered", StringComparison.Ordinal);

    private static string StageOf(MethodDefinition method)
    {
        var type = method.DeclaringType;
        while (type.DeclaringType is not null)
        {
            type = type.DeclaringType;
        }
        return type.Namespace;
    }
}
