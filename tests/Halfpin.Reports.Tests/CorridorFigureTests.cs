using System.Text.RegularExpressions;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Placement.Corridors;
using Halfpin.Reports.Figures;
using Xunit;

namespace Halfpin.Reports.Tests;

public partial class CorridorFigureTests
{
    // Seen from the foot, anterior up: the fibula lies to the reader's left of a right tibia and to the right of a left one.
    [Theory]
    [InlineData(Side.Right, true)]
    [InlineData(Side.Left, false)]
    public void Fibula_isDrawnOnTheLateralSideOfEitherLeg(Side side, bool left)
    {
        string svg = CorridorFigure.Draw(Report(side, 122), side);
        double fibula = double.Parse(Fibula().Match(svg).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);
        double axis = double.Parse(Axis().Match(svg).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(left, fibula < axis);
    }

    [Fact]
    public void Figure_saysEveryGradeInWordsAndTheSafetyNote()
    {
        string svg = CorridorFigure.Draw(Report(Side.Right, 122), Side.Right);

        Assert.All(new[] { "preferred", "safe", "with caution", "to be avoided", "not a medical device" }, w => Assert.Contains(w, svg, StringComparison.Ordinal));
    }

    private static CorridorReport Report(Side side, double levelMm)
    {
        Case value = new()
        {
            Format = Case.FormatName,
            FormatVersion = 1,
            Title = "Test",
            Limb = new() { Bone = BoneName.Tibia, Side = side, LengthMm = 347, PatientMassKg = 73, BoneModel = new AnatomicalBone() },
            Fractures = [new() { LevelMm = 190, GapMm = 4, Pattern = FracturePattern.Transverse }],
            Frames = [],
        };
        return CorridorSurvey.At(value, levelMm, [], new("halfpin", "test"), "");
    }

    [GeneratedRegex("<circle cx=\"([0-9.]+)\"[^>]*class=\"fibula\"")]
    private static partial Regex Fibula();

    [GeneratedRegex("<line x1=\"([0-9.]+)\"[^>]*class=\"axis\"")]
    private static partial Regex Axis();
}
