using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Html;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;

namespace Halfpin.Cli;

/// <summary>Brings a case, its assessment and its drawings together into a report.</summary>
internal static class ReportBuilder
{
    public static byte[] Html(Case value, Assessment assessment)
    {
        DrawingBuilder drawings = new(value);
        Assessor assessor = new(value);
        return Encoding.UTF8.GetBytes(ComparisonReport.Html(
            value, assessment, drawings.Bone(), [.. value.Frames.Select(f => drawings.Frame(f.Id, assessor.PartsOf(f)))]));
    }

    /// <summary>Kit and steps of one frame as a page.</summary>
    public static byte[] Building(Case value, Frame frame, KitReport kit, StepsReport steps)
    {
        DrawingBuilder drawings = new(value);
        return Encoding.UTF8.GetBytes(BuildingReport.Html(value, kit, steps, drawings.Bone(), drawings.Frame(frame.Id, new Assessor(value).PartsOf(frame))));
    }
}
