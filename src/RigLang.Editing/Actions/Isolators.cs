using RigLang.Checks;
using RigLang.Checks.Ground;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Puts a box that isolates into a cable, against hum from a ground loop; only where nothing new is found with it.</summary>
internal static class Isolators
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span)
    {
        if (Rewriting.HookupAt(view, span) is not { } hookup)
        {
            return [];
        }
        var name = FixPlan.FreeName("isolator", view.Rig.Names.DevicesByName.ContainsKey);
        foreach (var box in IsolatingBox.For(view.Rig, hookup))
        {
            var edits = box.Edits(view.Rig, name).ToList();
            if (Rewriting.Import(view, SharedEdits.GearLibrary) is { } import)
            {
                edits.Add(import);
            }
            if (Rewriting.AddsNoFinding(view.Compilation, Rewriting.Trial(view, edits)))
            {
                return [EditAction.Changing($"Put a {box.Gear} into this cable", EditAction.Refactor, edits)];
            }
        }
        return [];
    }
}
