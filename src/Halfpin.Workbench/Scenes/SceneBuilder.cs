using System.Collections.Immutable;
using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Domain.Frames;
using Halfpin.Placement;
using Halfpin.Placement.Corridors;
using Halfpin.Stability.Drawings;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Handles;

namespace Halfpin.Workbench.Scenes;

/// <summary>Lays out what the drawing shows.</summary>
public static class SceneBuilder
{
    private const int Levels = 70;
    private const int Azimuths = 48;

    // From this share of a limit on, a part is marked.
    private const double MarkedFrom = 0.7;

    // A bent shape is drawn so that its largest movement is about this share of the bone's length, by a round factor.
    private const double BentShare = 0.06;

    /// <summary>The limb of a case.</summary>
    public static SceneLimb Limb(Case value)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        SkinShape skin = new(bone, value.Limb.SoftTissue);
        return new(
            Word(value.Limb.Side), value.Limb.LengthMm,
            Surface(value, bone.OuterRadiusMm), Surface(value, bone.CanalRadiusMm), Surface(value, skin.RadiusMm),
            [.. value.Fractures.Select(f => new SceneFracture(f.LevelMm, f.GapMm, f.TiltDeg, f.TiltAzimuthDeg))],
            [.. value.Wounds.Select(w => Area(w, "wound")), .. value.PlannedIncisions.Select(w => Area(w, "incision"))]);
    }

    /// <summary>The cross-section at a level, brought into the bone; null for a bone that is a bench tube.</summary>
    public static SceneCut? Cut(Case value, double levelMm, ProgramStamp program)
    {
        if (value.Limb.BoneModel is not AnatomicalBone)
        {
            return null;
        }

        double level = Math.Clamp(levelMm, 1, value.Limb.LengthMm - 1);
        CorridorReport report = CorridorSurvey.At(value, level, [], program, "");
        return new(
            level,
            [.. report.Sectors.Select(s => new SceneSector(s.FromDeg, s.ToDeg, Word(s.Grade), string.Join(", ", s.Structures)))],
            [.. report.Structures.Select(s => new SceneStructure(s.Name, s.AzimuthDeg, s.DistanceMm, Kind(s.Name)))]);
    }

    /// <summary>A frame of a case with what its assessment says of each part.</summary>
    public static SceneFrame Frame(Case value, FrameAnswer answer)
    {
        Frame frame = value.Frames.First(f => f.Id == answer.Assessment.Id);
        FrameDrawing drawing = FrameAnswers.Drawing(value, frame);
        BoneShape bone = BoneShape.For(value.Limb);
        return new(
            frame.Id,
            [
                .. drawing.Pins.Select(p => new ScenePart(p.Part.Id, [Point(p.Tip), Point(p.Entry), Point(p.OuterEnd)], p.Part.DiameterMm, "pin", false, false, Word(VerdictOf(value, bone, p.Part, answer.Assessment)))),
                .. drawing.Rods.Select(r => new ScenePart(r.Part.Id, [Point(r.From), Point(r.To)], r.Part.DiameterMm, r.IsCrossLink ? "link" : "rod", r.Part.Material.Contains("carbon", StringComparison.OrdinalIgnoreCase), false, Word(Used(answer.Assessment, r.Part.Id)))),
                .. drawing.Clamps.Select(c => new ScenePart(c.Part.Id, [Point(c.OnRod), Point(c.OnMember)], 0, "clamp", false, c.Part.State == ClampState.Loose, Word(Used(answer.Assessment, c.Part.Id)))),
            ],
            [.. FrameHandles.Of(value, frame.Id).SelectMany(h => h.Grips.Select(g => new SceneHandle(g.Part, Word(g.Motion), h.Key, h.Value, g.Factor, h.Min, h.Max, h.Step, h.Label, h.Unit)))]);
    }

    /// <summary>Movement of a frame under the chosen load; null where it is withheld.</summary>
    public static SceneBent? Bent(Case value, Frame frame)
    {
        Parts parts = frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);
        if (!value.Loading.IsChosen || new BentShape(value).Of(parts) is not { LargestMm: > 0 } bent)
        {
            return null;
        }

        return new(
            [.. bent.Lines.Select(l => new SceneBentLine(l.Part, l.DiameterMm, [.. l.Points.Select(p => Point(p.At))], [.. l.Points.Select(p => Point(p.ByMm))]))],
            [.. bent.Fragments.Select(f => new SceneBentFragment([.. f.Points.Select(p => -p.At.ZMm)], [.. f.Points.Select(p => Point(p.ByMm))], [.. f.Points.Select(p => Point(p.TurnedRad))]))],
            RoundFactor(BentShare * value.Limb.LengthMm / bent.LargestMm));
    }

    private static double RoundFactor(double factor)
    {
        double step = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(1, factor))));
        return step * new[] { 1.0, 2, 5 }.Last(s => s * step <= Math.Max(1, factor));
    }

    private static Verdict VerdictOf(Case value, BoneShape bone, Pin pin, FrameAssessment assessment)
    {
        Verdict used = Used(assessment, pin.Id);
        if (value.Limb.BoneModel is not AnatomicalBone)
        {
            return used;
        }

        Verdict entry = PinPassage.Entry(bone, pin, PlacedPin.Place(bone, pin)) switch
        {
            CorridorGrade.Avoid => Verdict.Fail,
            CorridorGrade.Caution => Verdict.Caution,
            _ => Verdict.Pass,
        };
        return entry > used ? entry : used;
    }

    private static Verdict Used(FrameAssessment assessment, string part)
    {
        double used = assessment.Utilisation.Where(u => u.Part == part).Select(u => u.Value).DefaultIfEmpty(0).Max();
        return used >= 1 ? Verdict.Fail : used >= MarkedFrom ? Verdict.Caution : Verdict.Pass;
    }

    private static SceneSurface Surface(Case value, Func<double, double, double> radiusMm)
    {
        ImmutableArray<double> levels = [.. Enumerable.Range(0, Levels + 1).Select(i => value.Limb.LengthMm * i / Levels)];
        return new(levels, [.. levels.Select(l => Enumerable.Range(0, Azimuths).Select(a => Math.Round(radiusMm(l, a * 360.0 / Azimuths), 2)).ToImmutableArray())]);
    }

    private static SceneArea Area(Wound w, string kind) => new(w.FromLevelMm, w.ToLevelMm, w.FromAzimuthDeg, w.ToAzimuthDeg, kind);

    private static string Kind(string name) =>
        name.Contains("vessels", StringComparison.Ordinal) || name.Contains("artery", StringComparison.Ordinal) ? "artery"
        : name.Contains("nerve", StringComparison.Ordinal) ? "nerve"
        : name.Contains("vein", StringComparison.Ordinal) ? "vein"
        : name.Contains("tendon", StringComparison.Ordinal) ? "tendon" : "bone";

    private static double[] Point(LimbPoint p) => [Math.Round(p.XMm, 4), Math.Round(p.YMm, 4), Math.Round(p.ZMm, 4)];

    private static string Word<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();
}
