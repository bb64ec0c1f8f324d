using System.Text;
using Halfpin.Domain.Assessments;
using Halfpin.Reports.Figures;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Comparing;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Runs;
using Halfpin.Workbench.Varying;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Server;

/// <summary>Files of a comparison and of a variation: tables, the figure, the page to print.</summary>
internal static class PlanningFiles
{
    private const string Csv = "text/csv; charset=utf-8";

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/works/{id}/compare.csv", (string id, string? frames, WorkspaceList works, FrameAnswers answers, WorkRuns runs) => works.Find(id) is Workspace work
            ? Results.File(Encoding.UTF8.GetBytes(ComparisonCsv.Of(work.Case, ComparisonWriter.Chosen(work.Case, frames), answers, SharedBandsWriter.InForce(runs.Bands(work).Run.Result, work.Case))), Csv, "comparison.csv") : Results.NotFound());
        routes.MapGet("/works/{id}/report.html", (string id, string? frames, WorkspaceList works, ProgramStamp program) => works.Find(id) is Workspace work
            ? Results.Text(ComparisonPage.Html(work.Case, ComparisonWriter.Chosen(work.Case, frames), program), "text/html", Encoding.UTF8) : Results.NotFound());
        routes.MapGet("/works/{id}/vary.svg", (string id, WorkspaceList works, WorkRuns runs) => works.Find(id) is Workspace work && runs.Vary(work).Run.Result is { } result
            ? Results.Text(VariationFigure.Draw(result.Report, VariationWriter.Words(result)), "image/svg+xml", Encoding.UTF8) : Results.NotFound());
        routes.MapGet("/works/{id}/vary.csv", (string id, WorkspaceList works, WorkRuns runs) => works.Find(id) is Workspace work && runs.Vary(work).Run.Result is { } result
            ? Results.File(VaryRun.Csv(result.Report), Csv, "variation.csv") : Results.NotFound());
    }
}
