using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Domain.Validity;

/// <summary>What must hold between the stages of a case and its frames.</summary>
internal static class StageRules
{
    public static IEnumerable<Fault> Check(Case value)
    {
        foreach (Fault f in CaseRules.Duplicates(value.Stages.Select((s, i) => (s.Id, $"/stages/{i}/id"))))
        {
            yield return f;
        }

        Dictionary<string, Parts> now = [];
        for (int i = 0; i < value.Stages.Length; i++)
        {
            Stage stage = value.Stages[i];
            if (value.Frames.FirstOrDefault(f => f.Id == stage.Frame) is not Frame frame)
            {
                yield return new($"/stages/{i}/frame", FaultCodes.Reference, $"There is no frame \"{stage.Frame}\".", string.Join(", ", value.Frames.Select(f => f.Id)), "Name one of the case's frames.");
                continue;
            }

            if (!now.TryGetValue(frame.Id, out Parts? parts) && (parts = PartsOf(value, frame)) is null)
            {
                continue; // The frame's own faults have been told.
            }

            Fault[] unknown = [.. Unknown(stage, parts, i)];
            foreach (Fault f in unknown)
            {
                yield return f;
            }

            foreach (Fault f in OneWay(value, stage, parts, i))
            {
                yield return f;
            }

            now[frame.Id] = unknown.Length == 0 ? StageBuilder.Apply(parts, stage) : parts;
        }
    }

    private static Parts? PartsOf(Case value, Frame frame) => (frame.Parts, frame.Construct) switch
    {
        (Parts parts, _) => parts,
        (null, Construct c) when !value.Fractures.IsEmpty => ConstructBuilder.Build(c, value.Fractures),
        _ => null,
    };

    private static IEnumerable<Fault> OneWay(Case value, Stage stage, Parts parts, int index)
    {
        for (int s = 0; s < stage.Slides.Length; s++)
        {
            if (stage.Slides[s].OneWay && parts.Clamps.FirstOrDefault(c => c.Id == stage.Slides[s].Clamp) is Clamp clamp)
            {
                foreach (Fault f in FrameRules.OneWayFaults(value, parts, clamp with { OneWay = true }, $"/stages/{index}/slides/{s}"))
                {
                    yield return f;
                }
            }
        }
    }

    private static IEnumerable<Fault> Unknown(Stage stage, Parts parts, int index)
    {
        string[] clamps = [.. parts.Clamps.Select(c => c.Id)], rods = [.. parts.Rods.Select(r => r.Id)];
        string[] all = [.. parts.Pins.Select(p => p.Id), .. rods, .. clamps];
        return stage.Loosen.Select((c, j) => (c, $"loosen/{j}", "clamp", clamps))
            .Concat(stage.Tighten.Select((c, j) => (c, $"tighten/{j}", "clamp", clamps)))
            .Concat(stage.Slides.Select((s, j) => (s.Clamp, $"slides/{j}/clamp", "clamp", clamps)))
            .Concat(stage.Remove.Select((p, j) => (p, $"remove/{j}", "part", all)))
            .Concat(stage.Move.Select((m, j) => (m.Rod, $"move/{j}/rod", "rod", rods)))
            .Where(named => !named.Item4.Contains(named.Item1))
            .Select(named => new Fault(
                $"/stages/{index}/{named.Item2}", FaultCodes.Reference, $"At this stage frame {stage.Frame} has no {named.Item3} \"{named.Item1}\".",
                named.Item4.Length == 0 ? "There is none left." : string.Join(", ", named.Item4), "Name a part that is there; earlier stages may have taken it away."));
    }
}
