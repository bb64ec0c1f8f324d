using Halfpin.Anatomy.Bones;
using Halfpin.Anatomy.Corridors;
using Halfpin.Anatomy.SoftTissue;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;

namespace Halfpin.Placement.Corridors;

/// <summary>Where half-pins may go at a level of a case's tibia, and which pins of its frames stand near it.</summary>
public static class CorridorSurvey
{
    /// <summary>Pins this near to the level are shown in its cross-section.</summary>
    public const double NearMm = 15;

    private const double UsualRodMm = 11;
    private const int StepDeg = 5;

    /// <summary>The report at a level within the bone.</summary>
    /// <param name="value">The case; its bone must be the anatomical one.</param>
    /// <param name="levelMm">Level, from 0 to the bone's length.</param>
    /// <param name="frames">The frames whose pins are shown.</param>
    /// <param name="program">The program's stamp.</param>
    /// <param name="caseSha256">Hash of the case file.</param>
    public static CorridorReport At(Case value, double levelMm, IEnumerable<Frame> frames, ProgramStamp program, string caseSha256)
    {
        BoneShape bone = BoneShape.For(value.Limb);
        SkinShape skin = new(bone, value.Limb.SoftTissue);
        double percent = 100 * levelMm / bone.LengthMm, swelling = value.Limb.SoftTissue.SwellingMm;
        return new()
        {
            Program = program,
            CaseSha256 = caseSha256,
            CaseTitle = value.Title,
            SafetyNote = Safety.Note,
            LevelMm = levelMm,
            LevelPercent = percent,
            Zone = TibiaCorridors.ZoneName(percent),
            Sectors = TibiaCorridors.SectorsAt(percent),
            Structures = [.. TibiaStructure.All.Select(s => s.At(levelMm, bone.LengthMm)).OfType<SectionStructure>()],
            Outline = [.. Enumerable.Range(0, 360 / StepDeg).Select(i => (double)((i * StepDeg) - 180)).Select(a => new SectionDirection(
                a, bone.CanalRadiusMm(levelMm, a), bone.OuterRadiusMm(levelMm, a), skin.RadiusMm(levelMm, a), Clearance.LeastStandoffMm(skin, levelMm, a, swelling, UsualRodMm)))],
            SwellingMm = swelling,
            TissueSource = SkinShape.Source,
            Pins = [.. frames.SelectMany(f => Pins(value, f, bone, levelMm))],
            Cautions =
            [
                "Sectors are a synthesis of published arcs, measured bone and estimates; anatomy varies between people, and an old injury or operation changes it.",
                "Preferred is where to enter, not how deep: behind the bone lie vessels and nerves. See the tip on the image.",
                .. Safety.Cautions,
            ],
        };
    }

    private static IEnumerable<SectionPin> Pins(Case value, Frame frame, BoneShape bone, double levelMm)
    {
        Parts parts = frame.Parts ?? ConstructBuilder.Build(frame.Construct!, value.Fractures);
        return parts.Pins.Where(p => Math.Abs(p.LevelMm - levelMm) <= NearMm).Select(p =>
        {
            PlacedPin placed = PlacedPin.Place(bone, p);
            return new SectionPin(frame.Id, p.Id, p.LevelMm, p.AzimuthDeg, p.DiameterMm, PinPassage.Entry(bone, p, placed), PinPassage.Behind(bone, placed));
        });
    }
}
