using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>Parts that one track plays on one channel, whether meant or not.</summary>
internal static class ChannelCompany
{
    /// <summary>Each set of two or more parts of different devices, or of one, with the first track that plays them all.</summary>
    public static IEnumerable<(MidiSource Source, int Channel, List<Listener> Together)> Of(Rig rig)
    {
        var hearing = new Dictionary<MidiAtom, List<Listener>>();
        foreach (var listener in rig.Midi.Listeners)
        {
            if (listener.Channel.Number is not { } channel)
            {
                continue;
            }
            foreach (var node in listener.Nodes)
            {
                foreach (var (atom, _) in rig.Midi.Flow.AtomsAt(node, MessageKinds.Notes))
                {
                    if (atom.Channel == channel)
                    {
                        Put(atom, listener);
                    }
                }
            }
        }
        var told = new HashSet<string>(StringComparer.Ordinal);
        var atoms = hearing.Keys.ToList();
        atoms.Sort((a, b) => (a.Source, a.Channel).CompareTo((b.Source, b.Channel)));
        foreach (var atom in atoms)
        {
            var together = hearing[atom];
            var source = rig.Midi.Sources[atom.Source];
            var isLayered = source.Track is { } track && rig.Midi.Channels.Of(source.Device, track).IsLayered;
            if (together.Count > 1 && !isLayered && told.Add(string.Join(' ', together.Select(l => l.Text))))
            {
                yield return (source, atom.Channel, together);
            }
        }

        void Put(MidiAtom atom, Listener listener)
        {
            if (!hearing.TryGetValue(atom, out var list))
            {
                hearing[atom] = list = [];
            }
            // It may come in at several ports of one part.
            if (list.Count == 0 || !ReferenceEquals(list[^1], listener))
            {
                list.Add(listener);
            }
        }
    }

    public static Location PlaceOf(Listener listener) =>
        listener.Device.Channels.TryGetValue(listener.Part.Name, out var set) ? set.At : listener.Device.At;

    public static IReadOnlyList<WayStep> WayTo(Rig rig, MidiSource source, Listener listener)
    {
        var walk = MidiPaths.WalkOf(rig, source, MessageKinds.Notes);
        return walk.Reached.FirstOrDefault(s => listener.Nodes.Contains(s.Node)) is { } step ? walk.StepsTo(step) : [];
    }
}
