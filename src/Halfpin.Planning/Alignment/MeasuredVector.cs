using Halfpin.Domain.Assessments;

namespace Halfpin.Planning.Alignment;

/// <summary>A size and a direction known from two components at right angles, each within an interval.</summary>
/// <param name="Size">Between which values the size lies.</param>
/// <param name="Azimuth">The sector in which the direction lies; null when the components may both be nothing.</param>
internal sealed record MeasuredVector(MeasuredRange Size, DirectionRange? Azimuth)
{
    private const double DegPerRad = 180 / Math.PI;

    /// <summary>
    /// Exact bounds: the components fill a rectangle; the size is least at its point nearest to the origin and greatest at a corner, and
    /// seen from an origin outside it the rectangle lies between two of its corners.
    /// </summary>
    /// <param name="anterior">The component toward azimuth 0.</param>
    /// <param name="medial">The component toward azimuth 90.</param>
    public static MeasuredVector Of(MeasuredRange anterior, MeasuredRange medial)
    {
        double least = double.Hypot(Nearest(anterior), Nearest(medial)), most = double.Hypot(Farthest(anterior), Farthest(medial));
        if (least == 0)
        {
            return new(new(least, most), null);
        }

        double middle = Math.Atan2(Middle(medial), Middle(anterior));
        double[] turns = [.. from x in new[] { anterior.Low, anterior.High }
                             from y in new[] { medial.Low, medial.High }
                             select Math.IEEERemainder(Math.Atan2(y, x) - middle, 2 * Math.PI)];
        return new(new(least, most), new(Wrapped((middle + turns.Min()) * DegPerRad), Wrapped((middle + turns.Max()) * DegPerRad)));
    }

    private static double Nearest(MeasuredRange r) => r.Low > 0 ? r.Low : r.High < 0 ? r.High : 0;

    private static double Farthest(MeasuredRange r) => Math.Max(Math.Abs(r.Low), Math.Abs(r.High));

    private static double Middle(MeasuredRange r) => (r.Low + r.High) / 2;

    private static double Wrapped(double deg) => deg > 180 ? deg - 360 : deg <= -180 ? deg + 360 : deg;
}
