using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Xunit;

namespace Halfpin.Reports.Tests;

public class WordTests
{
    [Theory]
    [InlineData("standoffMm", "Standoff", "mm")]
    [InlineData("crossLinks", "Cross links", "")]
    [InlineData("pin/diameterMm", "Pin, diameter", "mm")]
    [InlineData("/fractures/1/tiltDeg", "Fractures 2, tilt", "°")]
    [InlineData("/model/clamp/rotationalNmPerRad", "Model, clamp, rotational", "N·m/rad")]
    [InlineData("/", "/", "")]
    public void NumberPath_readsAsLabelAndUnit(string path, string label, string unit) => Assert.Equal((label, unit), NumberWords.OfPath(path));

    [Fact]
    public void Variation_inASentence_hasTheUnitBehindTheValue()
    {
        Assert.Equal("standoff 47.3 mm", VariationWords.Plain.With("standoffMm", "47.3"));
        Assert.Equal("azimuth −35°", VariationWords.Plain.With("azimuthDeg", "−35"));
        Assert.Equal("Standoff, mm", VariationWords.Plain.Heading("standoffMm"));
        Assert.Equal("Cross links", VariationWords.Plain.Heading("crossLinks"));
    }

    [Theory]
    [InlineData(0, "free")]
    [InlineData(0.0613, "0.061")]
    [InlineData(0.55, "0.55")]
    [InlineData(0.998, "1.0")]
    [InlineData(2.04, "2.0")]
    [InlineData(9.949, "9.9")]
    [InlineData(9.96, "10")]
    [InlineData(16.2, "16")]
    [InlineData(289.7, "290")]
    [InlineData(1234.5, "1230")]
    [InlineData(96.4993, "96")]
    public void Stiffness_readsTwoFiguresOrWhole(double value, string text) => Assert.Equal(text, Numbers.Stiffness(value));

    [Theory]
    [InlineData(-0.6712, "0.67")]
    [InlineData(9.9949, "9.99")]
    [InlineData(9.996, "10.0")]
    [InlineData(12.34, "12.3")]
    public void Motion_readsHundredthsWithoutSign(double value, string text) => Assert.Equal(text, Numbers.Motion(value));

    [Theory]
    [InlineData(0.0031, "under 1 %")]
    [InlineData(0.0534, "5.3 %")]
    [InlineData(0.441, "44 %")]
    [InlineData(0.997, "99 %")]
    [InlineData(1.004, "100 %")]
    [InlineData(1.371, "140 %")]
    public void Percent_readsTwoFigures_andNoFullHundredBelowTheLimit(double share, string text) => Assert.Equal(text, Numbers.Percent(share));

    [Theory]
    [InlineData(0, "anterior")]
    [InlineData(50, "anteromedial")]
    [InlineData(80, "medial")]
    [InlineData(-40, "anterolateral")]
    [InlineData(-91, "lateral")]
    [InlineData(-179, "posterior")]
    [InlineData(130, "posteromedial")]
    [InlineData(-20, "anterior")]
    public void Direction_isTheNearestOfEight(double azimuthDeg, string word) => Assert.Equal(word, Directions.Of(azimuthDeg));

    [Theory]
    [InlineData(-4, "anterior–posterior")]
    [InlineData(90, "medial–lateral")]
    [InlineData(51, "anteromedial–posterolateral")]
    [InlineData(-40, "anterolateral–posteromedial")]
    public void Plane_isNamedByBothOfItsEnds(double azimuthDeg, string word) => Assert.Equal(word, Directions.Plane(azimuthDeg));

    [Theory]
    [InlineData("p3", "yield", "bone surface", "pin p3, yield at the bone's surface")]
    [InlineData("p3", "yield", "clamp c3", "pin p3, yield at clamp c3")]
    [InlineData("p3", "fatigue", "within the bone", "pin p3, fatigue within the bone")]
    [InlineData("r1", "yield", "clamp c3", "rod r1, yield at clamp c3")]
    [InlineData("c3", "pivot", "on p3 and r1", "clamp c3, pin p3 tilting on rod r1")]
    [InlineData("c3", "slip about pin", "on p3 and r1", "clamp c3, turning about pin p3")]
    [InlineData("c3", "slip about rod", "on p3 and r1", "clamp c3, turning about rod r1")]
    [InlineData("x2", "slide", "on l1 and r2", "clamp x2, sliding along rod r2")]
    [InlineData("x2", "pivot", "on l1 and r2", "clamp x2, rod l1 tilting on rod r2")]
    [InlineData("p3", "bearing", "far cortex", "bone under pin p3, at the far cortex")]
    public void Limit_isSaidInASurgeonsWords(string part, string check, string place, string words) =>
        Assert.Equal(words, LimitWords.Of(part, check, place, _twoPlane));

    [Fact]
    public void Touch_isSaidWithoutAPart() => Assert.Equal("the bone ends touch", LimitWords.Of(new("fracture", FirstLimits.Touch, "bone ends", 201, 20.5), _twoPlane));

    // Every limit the assessment knows belongs to exactly one kind.
    [Fact]
    public void Kinds_takeEveryLimitOnce()
    {
        FrameAssessment frame = new Assessor(ComparisonReportTests.Example).Assess("two-plane", new("halfpin", "test"), "abc").Frames[0];

        Assert.Equal(8, frame.Utilisation.Select(u => (u.Check, u.Part[0] == 'r' || u.Part[0] == 'l')).Distinct().Count(c => !c.Item2 || c.Check == "yield"));
        Assert.All(frame.Utilisation, u => Assert.Single(LimitWords.Kinds, k => k.Holds(u, _twoPlane)));
    }

    [Fact]
    public void Count_tellsCrossLinksFromRods() => Assert.Equal("8 pins, 2 rods + 2 cross-links, 12 clamps", PartWords.Count(new(8, 4, 12), _twoPlane));

    [Fact]
    public void Diameters_nameCoreAndBore()
    {
        Assert.Equal("5\u00a0/\u00a03.9\u00a0/\u00a031", PartWords.Diameter(_twoPlane.Pins[0].Part with { CoreDiameterMm = 3.9, ThreadLengthMm = 31 }));
        Assert.Equal("11, bore 7.5", PartWords.Diameter(_twoPlane.Rods[0].Part with { InnerDiameterMm = 7.5 }));
    }

    private static readonly FrameDrawing _twoPlane = Drawing(ComparisonReportTests.Example, 4);

    private static FrameDrawing Drawing(Case value, int frame) => new DrawingBuilder(value).Frame(value.Frames[frame].Id, new Assessor(value).PartsOf(value.Frames[frame]));
}
