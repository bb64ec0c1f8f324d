using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Alignment;
using Halfpin.Reports.Figures;
using Halfpin.Stability.Overload;
using Halfpin.Workbench.Fields;
using Halfpin.Workbench.Aligning;
using Halfpin.Workbench.Building;
using Halfpin.Workbench.Documents;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Server;

/// <summary>Figures of overload and alignment, and the sheet to build a frame by.</summary>
internal static class CourseFiles
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/works/{id}/overload.svg", (string id, string frame, double to, WorkspaceList works, ProgramStamp program) =>
            Find(works, id, frame) is (_, Case value, Frame found) ? Overload(value, found, to, program) : Results.NotFound());
        routes.MapGet("/works/{id}/align.svg", (string id, string frame, int? fracture, HttpRequest request, WorkspaceList works, ProgramStamp program) =>
            Find(works, id, frame) is (_, Case value, Frame found) ? Alignment(value, found, fracture ?? 1, request.Query, program) : Results.NotFound());
        routes.MapGet("/works/{id}/sheet.html", (string id, string frame, WorkspaceList works, ProgramStamp program) =>
            Find(works, id, frame) is (Workspace work, Case value, Frame found) ? Sheet(work, value, found, program) : Results.NotFound());
    }

    private static (Workspace Work, Case Case, Frame Frame)? Find(WorkspaceList works, string id, string frame) =>
        works.Find(id) is Workspace work && work.Case is Case value && value.Frames.FirstOrDefault(f => f.Id == frame) is Frame found ? (work, value, found) : null;

    private static IResult Overload(Case value, Frame frame, double toN, ProgramStamp program)
    {
        if (!(toN > 0 && toN <= OverloadAssessor.MostN))
        {
            return Results.NotFound();
        }

        OverloadReport report = new OverloadAssessor(value).Assess(frame, toN, program, "");
        return report.Path.IsEmpty ? Results.NotFound() : Svg(OverloadFigure.Draw(report));
    }

    private static IResult Alignment(Case value, Frame frame, int fracture, IQueryCollection query, ProgramStamp program)
    {
        AlignmentEntry entry = AlignmentEntry.Fields.Aggregate(AlignmentEntry.Empty, (e, f) => e.With(f.Key, NumberText.Read(query[f.Key])));
        return entry.Question(value, frame.Id, fracture) is AlignmentQuestion question && AlignmentEntry.FaultsOf(question).IsEmpty
            ? Svg(AlignmentFigure.Draw(AlignmentAssessor.Assess(question, program, null)))
            : Results.NotFound();
    }

    private static IResult Sheet(Workspace work, Case value, Frame frame, ProgramStamp program)
    {
        (Stock? stock, string? sha256) = BuildingPlan.StockOf(work);
        return Results.Text(BuildingPlan.Of(value, frame, stock, sha256, program).Sheet(value, frame), "text/html; charset=utf-8");
    }

    private static IResult Svg(string picture) => Results.Text(picture, "image/svg+xml");
}
