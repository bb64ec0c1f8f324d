using System.Collections.Immutable;
using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Reports.Html;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Halfpin.Storage.Cases;

namespace Halfpin.Workbench.Comparing;

/// <summary>A comparison as a page to print and keep.</summary>
public static class ComparisonPage
{
    /// <summary>The page, self-contained.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frames">Frames of it.</param>
    /// <param name="program">The program's stamp.</param>
    public static string Html(Case value, ImmutableArray<Frame> frames, ProgramStamp program)
    {
        Case shown = value with { Frames = frames, Stages = [.. value.Stages.Where(s => frames.Any(f => f.Id == s.Frame))] };
        Assessor assessor = new(shown);
        DrawingBuilder drawings = new(shown);
        Assessment assessment = assessor.Assess(null, program, Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value))));
        return ComparisonReport.Html(shown, assessment, drawings.Bone(), [.. frames.Select(f => drawings.Frame(f.Id, assessor.PartsOf(f)))]);
    }
}
