using Halfpin.Domain.Cases;

namespace Halfpin.Domain.Frames;

/// <summary>Changes the parts of a frame as a stage says.</summary>
public static class StageBuilder
{
    /// <summary>The parts after a stage.</summary>
    /// <param name="parts">The parts before it, among them all that the stage names.</param>
    /// <param name="stage">The stage.</param>
    public static Parts Apply(Parts parts, Stage stage)
    {
        HashSet<string> gone = [.. stage.Remove];
        return new()
        {
            Pins = [.. parts.Pins.Where(p => !gone.Contains(p.Id))],
            Rods = [.. parts.Rods.Where(r => !gone.Contains(r.Id)).Select(r => Moved(r, stage))],
            Clamps = [.. parts.Clamps.Where(c => !IsGone(c, gone)).Select(c => Changed(c, stage))],
        };
    }

    /// <summary>The stage of a double-rod frame by the usual scheme: the outer rod loose distally, the inner one proximally.</summary>
    /// <param name="frameId">The frame's id.</param>
    /// <param name="locked">Its parts: inner rod r1, outer rod r2, pins from proximal.</param>
    public static Stage DynamisedDoubleRod(string frameId, Parts locked)
    {
        HashSet<string> proximal = [.. locked.Pins.Take(locked.Pins.Length / 2).Select(p => p.Id)];
        return new()
        {
            Id = "both-rods-slide",
            Name = "Outer rod loose distally, inner rod loose proximally",
            Frame = frameId,
            Loosen = [.. locked.Clamps.Where(c => (c.Rod == "r1") == proximal.Contains(c.Pin!)).Select(c => c.Id)],
        };
    }

    private static bool IsGone(Clamp c, HashSet<string> gone) =>
        gone.Contains(c.Id) || gone.Contains(c.Rod) || (c.Pin is string pin && gone.Contains(pin)) || (c.OtherRod is string rod && gone.Contains(rod));

    private static Rod Moved(Rod rod, Stage stage) => stage.Move.FirstOrDefault(m => m.Rod == rod.Id) is RodMove move
        ? rod with
        {
            From = rod.From with { StandoffMm = move.StandoffMm, RadiusMm = null },
            To = rod.To with { StandoffMm = move.StandoffMm, RadiusMm = null },
        }
        : rod;

    private static Clamp Changed(Clamp clamp, Stage stage)
    {
        Clamp limited = stage.Slides.FirstOrDefault(s => s.Clamp == clamp.Id) is ClampSlide slide
            ? clamp with { SlideStopMm = slide.SlideStopMm, OneWay = slide.OneWay, SlideFrictionN = slide.SlideFrictionN }
            : clamp;
        return stage.Loosen.Contains(clamp.Id)
            ? limited with { State = ClampState.Loose }
            : stage.Tighten.Contains(clamp.Id) ? limited with { State = ClampState.Tight } : limited;
    }
}
