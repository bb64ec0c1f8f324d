using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Course;

/// <summary>A stage that can be added to a case.</summary>
/// <param name="Edit">The change; null when it cannot be made.</param>
/// <param name="Note">Why it cannot be made, or how the stage differs from what was proposed; empty when neither.</param>
public sealed record StageOffer(CaseEdit? Edit, string Note);

/// <summary>Changes to the stages of a frame.</summary>
public static class StageEdits
{
    private const int MostNameLetters = 120;

    /// <summary>
    /// A stage after those that the frame has, at whose end the given clamps are loose and no others that the frame had tight. Proposals look
    /// at the frame as mounted, so clamps that earlier stages loosened are tightened again.
    /// </summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">A frame of it.</param>
    /// <param name="clamps">Clamps of the frame.</param>
    public static StageOffer Loosen(Case value, Frame frame, ImmutableArray<string> clamps)
    {
        Parts mounted = PartsOf(value, frame);
        Parts now = value.Stages.Where(s => s.Frame == frame.Id).Aggregate(mounted, StageBuilder.Apply);
        string[] gone = [.. clamps.Where(id => now.Clamps.All(c => c.Id != id))];
        if (gone.Length > 0)
        {
            return new(null, $"An earlier stage takes {string.Join(", ", gone)} away.");
        }

        string[] tighten = [.. now.Clamps.Where(c => c.State == ClampState.Loose && !clamps.Contains(c.Id) && WasTight(mounted, c)).Select(c => c.Id)];
        string name = $"Loosen {string.Join(", ", clamps)}{(tighten.Length > 0 ? $", tighten {string.Join(", ", tighten)}" : "")}";
        Stage stage = new()
        {
            Id = FreeId(value, "stage"),
            Name = name.Length <= MostNameLetters ? name : null,
            Frame = frame.Id,
            Loosen = clamps,
            Tighten = [.. tighten],
        };
        Parts then = StageBuilder.Apply(now, stage);
        if (Same(now, then))
        {
            return new(null, "The last stage is this one already.");
        }

        string note = Same(then, StageBuilder.Apply(mounted, stage with { Tighten = [] }))
            ? ""
            : "Earlier stages change more than clamps loosened: as a stage after them it keeps what the table will say.";
        return new(Adding(stage), note);
    }

    /// <summary>A stage that is shown though the case does not have it, made one of the case.</summary>
    public static StageOffer Keep(Case value, Frame frame)
    {
        Stage usual = StageBuilder.DynamisedDoubleRod(frame.Id, PartsOf(value, frame));
        return new(Adding(value.Stages.Any(s => s.Id == usual.Id) ? usual with { Id = FreeId(value, usual.Id) } : usual), "");
    }

    /// <summary>Without a stage.</summary>
    public static CaseEdit Remove(Stage stage) => new($"remove stage {stage.DisplayName}", v => v with { Stages = v.Stages.RemoveAll(s => s.Id == stage.Id) });

    private static CaseEdit Adding(Stage stage) => new($"add stage {stage.DisplayName}", v => v with { Stages = v.Stages.Add(stage) });

    private static string FreeId(Case value, string like) => Enumerable.Range(1, value.Stages.Length + 1)
        .Select(i => string.Create(CultureInfo.InvariantCulture, $"{like}-{i}")).First(id => value.Stages.All(s => s.Id != id));

    private static bool WasTight(Parts mounted, Clamp clamp) => mounted.Clamps.Any(c => c.Id == clamp.Id && c.State == ClampState.Tight);

    private static Parts PartsOf(Case value, Frame frame) => frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);

    // Parts compare their lists by reference.
    private static bool Same(Parts a, Parts b) => a.Pins.SequenceEqual(b.Pins) && a.Rods.SequenceEqual(b.Rods) && a.Clamps.SequenceEqual(b.Clamps);
}
