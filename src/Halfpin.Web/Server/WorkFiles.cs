using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Placement.Corridors;
using Halfpin.Reports.Figures;
using Halfpin.Storage.Cases;
using Halfpin.Workbench.Documents;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Server;

/// <summary>Works begun from examples, and files of a work: the case to save, and figures that pages show as pictures.</summary>
internal static class WorkFiles
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        // A plain form, so that an example opens even before the page has its connection.
        routes.MapPost("/works/from/{example}", (string example, WorkspaceList works, ExampleList examples) =>
            examples.All.FirstOrDefault(e => e.Name == example) is { Case: Case value }
                ? Results.Redirect($"/works/{works.Begin(value, $"opened {example}").Id}/frame") : Results.NotFound());
        routes.MapGet("/works/{id}/case.json", (string id, WorkspaceList works) => works.Find(id) is Workspace work
            ? Results.File(CaseWriter.Write(work.Case), "application/json", "case.json") : Results.NotFound());
        routes.MapGet("/works/{id}/section.svg", (string id, double level, string frame, WorkspaceList works, ProgramStamp program) => works.Find(id) is Workspace work
            ? Section(work.Case, level, frame, program) : Results.NotFound());
    }

    private static IResult Section(Case value, double level, string frame, ProgramStamp program) =>
        value.Limb.BoneModel is AnatomicalBone && level >= 0 && level <= value.Limb.LengthMm
            ? Results.Text(CorridorFigure.Draw(CorridorSurvey.At(value, level, value.Frames.Where(f => f.Id == frame), program, ""), value.Limb.Side), "image/svg+xml")
            : Results.NotFound();
}
