using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Drawings;
using Halfpin.Reports.Words;

namespace Halfpin.Reports.Figures;

/// <summary>
/// A cross-section of the leg seen from the foot, anterior up: skin, bone, canal, a ring of graded directions, vessels, nerves, fibula
/// and the pins near the level. Grades differ in shade, width and word, so that they can be told apart without colour.
/// </summary>
public static class CorridorFigure
{
    private const double Width = 640, Top = 64, Body = 520, Foot = 106, Height = Top + Body + Foot;
    // What lies this close to the fibula is named on the side away from it.
    private const double BesideDeg = 25;
    // A name to the left of a place nearer than this to the edge would be cut off.
    private const double RoomForName = 200;
    private const string Fibula = "fibula";
    private const double Side = 70;
    private const double PinOutsideMm = 24;
    private const double ArcStepDeg = 2;

    private const string Style = """
        svg{color-scheme:light dark;background:#fff}text{font:13px system-ui,sans-serif;fill:#1c2730}.word{fill:#5b6872}.title{font-size:15px;font-weight:600}.small{font-size:12px;fill:#3b4750}.note{font-size:11px;fill:#5b6872}
        .skin{fill:#f6ece4;stroke:#a58f80}.bone{fill:#fffdf6;stroke:#5d5a50;stroke-width:1.5}.canal{fill:#efe6d0;stroke:#8d8674}.axis{stroke:#c3cad0;stroke-dasharray:3 4}
        .preferred{fill:#1f7a4d}.safe{fill:#8cc7a4}.caution{fill:#e3a32b}.avoid{fill:#b9c0c6}
        .vessel{fill:#b3261e}.fibula{fill:#fffdf6;stroke:#5d5a50}.pin{stroke:#2a5d8f;stroke-linecap:butt}.dimension{stroke:#5b6872}
        @media (prefers-color-scheme:dark){svg{background:#12181d}text{fill:#e8edf1}.word{fill:#9fb0bb}.small{fill:#c6d0d8}.note{fill:#9fb0bb}.skin{fill:#2b2521;stroke:#75665b}.bone,.fibula{fill:#d9d4c4;stroke:#f0ecdf}.canal{fill:#b3aa90;stroke:#746d5b}.axis{stroke:#3b4750}.preferred{fill:#37b378}.safe{fill:#2b6b4b}.caution{fill:#d99a2b}.avoid{fill:#47525b}.vessel{fill:#ff7a6b}.pin{stroke:#7fb8ee}.dimension{stroke:#9fb0bb}}
        """;

    /// <summary>The drawing as a file of its own.</summary>
    public static string Draw(CorridorReport report, Side side)
    {
        (double Right, double Up) Flat(double azimuthDeg, double mm)
        {
            (double sin, double cos) = Math.SinCos(azimuthDeg * Math.PI / 180);
            return SectionFigure.Plane(side, new LimbPoint(mm * cos, mm * sin, 0));
        }

        (double Right, double Up)[] all = [.. report.Outline.Select(o => Flat(o.AzimuthDeg, o.SkinMm)), .. report.Pins.Select(p => Flat(p.AzimuthDeg, OuterMm(report, p.AzimuthDeg) + PinOutsideMm))];
        double left = all.Min(p => p.Right), right = all.Max(p => p.Right), down = all.Min(p => p.Up), up = all.Max(p => p.Up);
        double scale = Math.Min((Width - (2 * Side)) / (right - left), Body / (up - down));
        (double cx, double cy) = ((Width / 2) - (scale * (left + right) / 2), Top + (Body / 2) + (scale * (up + down) / 2));
        (double X, double Y) At(double azimuthDeg, double mm)
        {
            (double x, double y) = Flat(azimuthDeg, mm);
            return (cx + (scale * x), cy - (scale * y));
        }

        Svg svg = new(Width, Height);
        svg.Text(16, 24, $"{Numbers.Length(report.LevelMm)} mm below the knee joint line: {report.Zone}", "title");
        svg.Polygon(report.Outline.Select(o => At(o.AzimuthDeg, o.SkinMm)), "skin");
        foreach (CorridorSector sector in report.Sectors)
        {
            Ring(svg, report, sector, At);
        }

        svg.Polygon(report.Outline.Select(o => At(o.AzimuthDeg, o.OuterMm)), "bone");
        svg.Polygon(report.Outline.Select(o => At(o.AzimuthDeg, o.CanalMm)), "canal");
        Structures(svg, report, At, scale);
        Pins(svg, report, At, scale);
        Words(svg, side, cx, cy);
        Legend(svg);
        return svg.FinishAlone(
            $"Cross-section at {Numbers.Length(report.LevelMm)} mm, {Directions.Leg(side)}, seen from the foot, anterior up: {string.Join("; ", report.Sectors.Select(s => $"{Numbers.Azimuth(s.FromDeg)} to {Numbers.Azimuth(s.ToDeg)} {Word(s.Grade)}"))}",
            Style);
    }

    private static double RingMm(CorridorGrade grade) => grade switch
    {
        CorridorGrade.Preferred => 7,
        CorridorGrade.Safe => 5.5,
        CorridorGrade.Caution => 4,
        _ => 2.5,
    };

    private static string Word(CorridorGrade grade) => grade switch
    {
        CorridorGrade.Preferred => "preferred",
        CorridorGrade.Safe => "safe",
        CorridorGrade.Caution => "with caution",
        _ => "to be avoided",
    };

    private static string Css(CorridorGrade grade) => grade.ToString().ToLowerInvariant();

    // A band that follows the bone's surface.
    private static void Ring(Svg svg, CorridorReport report, CorridorSector sector, Func<double, double, (double X, double Y)> at)
    {
        int steps = Math.Max(1, (int)Math.Ceiling((sector.ToDeg - sector.FromDeg) / ArcStepDeg));
        double[] azimuths = [.. Enumerable.Range(0, steps + 1).Select(i => sector.FromDeg + ((sector.ToDeg - sector.FromDeg) * i / steps))];
        double width = RingMm(sector.Grade);
        svg.Polygon(
            azimuths.Select(a => at(a, OuterMm(report, a) + 0.8)).Concat(azimuths.Reverse().Select(a => at(a, OuterMm(report, a) + 0.8 + width))), Css(sector.Grade));
    }

    private static double OuterMm(CorridorReport report, double azimuthDeg)
    {
        double step = 360.0 / report.Outline.Length, x = (azimuthDeg + 180) / step;
        int i = (int)Math.Floor(x);
        double t = x - i;
        return ((1 - t) * report.Outline[i % report.Outline.Length].OuterMm) + (t * report.Outline[(i + 1) % report.Outline.Length].OuterMm);
    }

    private static void Structures(Svg svg, CorridorReport report, Func<double, double, (double X, double Y)> at, double scale)
    {
        SectionStructure? beside = report.Structures.FirstOrDefault(s => s.Name == Fibula);

        // The fibula first: vessels that run close to it stay in sight.
        foreach (SectionStructure s in report.Structures.OrderByDescending(s => s.Name == Fibula))
        {
            (double x, double y) = at(s.AzimuthDeg, s.DistanceMm);
            bool fibula = s.Name == Fibula;
            svg.Circle(x, y, Math.Max(4, s.RadiusMm * scale), fibula ? "fibula" : "vessel");
            string[] lines = s.Name.Split(" and ");
            bool left = x < (beside is not null && beside != s && Math.Abs(Math.IEEERemainder(beside.AzimuthDeg - s.AzimuthDeg, 360)) < BesideDeg ? at(beside.AzimuthDeg, beside.DistanceMm).X : at(0, 0).X) && x > RoomForName;
            double off = (Math.Max(4, s.RadiusMm * scale) + 5) * (left ? -1 : 1);
            for (int i = 0; i < lines.Length; i++)
            {
                svg.Text(x + off, y + 4 + (14 * i), i == 0 || lines.Length == 1 ? lines[i] : $"and {lines[i]}", "small", left ? "end" : "start");
            }
        }
    }

    private static void Pins(Svg svg, CorridorReport report, Func<double, double, (double X, double Y)> at, double scale)
    {
        foreach (IGrouping<double, SectionPin> group in report.Pins.GroupBy(p => p.AzimuthDeg))
        {
            double opposite = group.Key > 0 ? group.Key - 180 : group.Key + 180, outside = OuterMm(report, group.Key) + PinOutsideMm;
            (double x1, double y1) = at(opposite, OuterMm(report, opposite));
            (double x2, double y2) = at(group.Key, outside);
            svg.Stroke(x1, y1, x2, y2, Math.Max(2, group.Max(p => p.DiameterMm) * scale), "pin");
            (double x, double y) = at(group.Key, outside + (14 / scale));
            string names = string.Join(", ", group.Select(p => p.Pin).Distinct());
            svg.Text(x, y + 4, $"{names} {Numbers.Azimuth(group.Key)}", "small", x > Width / 2 ? "start" : "end");
        }
    }

    private static void Words(Svg svg, Side side, double cx, double cy)
    {
        (string left, string right) = SectionFigure.SideWords(side);
        svg.Line(cx, Top - 12, cx, Top + Body + 6, "axis");
        svg.Line(8, cy, Width - 8, cy, "axis");
        svg.Text(cx, Top - 17, "anterior", "word", "middle");
        svg.Text(cx, Top + Body + 20, "posterior", "word", "middle");
        svg.Text(8, cy - 6, left, "word");
        svg.Text(Width - 8, cy - 6, right, "word", "end");
    }

    private static void Legend(Svg svg)
    {
        double x = 16;
        foreach (CorridorGrade grade in Enum.GetValues<CorridorGrade>())
        {
            svg.Rect(x, Height - Foot + 32, 18, RingMm(grade) * 2, Css(grade));
            svg.Text(x + 24, Height - Foot + 43, Word(grade), "small");
            x += 118;
        }

        svg.Circle(x + 6, Height - Foot + 39, 5, "vessel");
        svg.Text(x + 18, Height - Foot + 43, "vessels, nerves", "small");
        svg.Text(16, Height - 42, "Sectors are estimates on usual bone; anatomy varies. Dissection, sleeve and imaging decide.", "small");
        string[] note = Safety.ShortNote.Split(". ", 2);
        svg.Text(16, Height - 24, $"{note[0]}.", "note");
        svg.Text(16, Height - 10, note[1], "note");
    }
}
