using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Validity;
using Halfpin.Placement.Corridors;
using Halfpin.Planning.Alignment;
using Halfpin.Planning.Indication;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Halfpin.Stability;
using Halfpin.Stability.Dynamisation;
using Halfpin.Stability.Healing;
using Halfpin.Stability.Overload;
using Halfpin.Web.Api.Description;
using Halfpin.Web.Api.Problems;
using Halfpin.Web.Api.Requests;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Halfpin.Web.Api;

/// <summary>Operations that take a case and answer with a report, the one that the verb of the command line prints.</summary>
internal static class ReportOperations
{
    private const string Group = "Reports";
    private const double MostFreeMm = 50;

    private static readonly ApiParameter _oneFrame = new("frame", "string", "Only the frame with this id.");
    private static readonly ApiParameter _theFrame = new("frame", "string", "The id of the frame.", IsRequired: true);

    /// <summary>A request whose files have no faults.</summary>
    private sealed record Asked(RequestFiles Files, RequestQuery Query, ProgramStamp Program)
    {
        public Case Case => Files.Case!.Case!;

        public string Sha256 => Files.Case!.Sha256;

        public Frame The(string id) => Case.Frames.First(f => f.Id == id);
    }

    public static void Map(IEndpointRouteBuilder routes)
    {
        Map(routes, "assessments", "assess", "Assess frames in full", "Stiffness, motion at the fracture, nearest limits, checks, and frames compared in words. As halfpin assess --json and, for all frames, halfpin compare --json.",
            "assessment", Assess, [_oneFrame], further: ProblemError.Gait);
        Map(routes, "checks", "check", "Hold every frame against every rule", "Checks worst first, with cure and source. As halfpin check --json.", "check", Check);
        Map(routes, "corridors", "survey", "Where half-pins may go at a level", "What is at risk, room for the rod, the pins there. As halfpin corridors --json.", "corridors", Corridors,
            [new("level", "number", "Level from the knee joint line, mm; within the bone.", IsRequired: true), new("frame", "string", "Only the pins of the frame with this id.")]);
        Map(routes, "kits", "listKit", "What it takes to build a frame", "Pins, rods, clamps and tools by size; with a stock what is missing and the nearest frame it can build. As halfpin kit --json.", "kit", Kit, [_theFrame], further: ProblemError.Stock);
        Map(routes, "steps", "listSteps", "The order of building a frame", "Step by step with its numbers, checks and what follows. As halfpin steps --json.", "steps", Steps, [_theFrame], further: ProblemError.Stock);
        Map(routes, "healing", "followHealing", "Frames with callus in the gap, week by week", "Motion, strain, the frame's share; weeks are assumed unless the case gives them. As halfpin healing --json.", "healing", Healing, [_oneFrame]);
        Map(routes, "dynamisations", "dynamise", "Frames stage by stage as they are made to yield", "What is freed, what is kept, which clamps to loosen. As halfpin dynamise --json.", "dynamise", Dynamise,
            [_oneFrame, new("freeMm", "number", $"Propose clamps to loosen that let the gap close by at least this under the chosen load, mm; at most {MostFreeMm}.")]);
        Map(routes, "overloads", "overload", "One frame under a growing axial load and back", "Bone ends that touch, clamps that slip, first yield, what is left; complete is false when the path ends early. As halfpin overload --json.", "overload", Overload,
            [_theFrame, new("toN", "number", $"The greatest axial load, N; at most {OverloadAssessor.MostN:0}.", IsRequired: true)]);
        Map(routes, "indications", "recordIndication", "Why a frame now", "What the case records, what is missing, what contradicts, what is published; it decides nothing. As halfpin indication --json.", "indication",
            a => () => IndicationRecorder.Report(a.Case, a.Program, a.Sha256));
        Map(routes, "alignments", "measureAlignment", "A deformity from two views", "True angle and plane with their error, published limits; with a case which clamps of its frames to loosen. As halfpin align --json. The case may be left out.", "align", Align,
            AlignmentQuery.Parameters, body: ApiBody.CaseOrNothing);
    }

    private static Func<object> Assess(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: false);
        return () =>
        {
            Assessment assessment = new Assessor(a.Case).Assess(frame, a.Program, a.Sha256, a.Files.Gait?.Gait);
            return a.Files.Gait is null ? assessment : assessment with { GaitSha256 = a.Files.Gait.Sha256 };
        };
    }

    private static Func<object> Check(Asked a) => () => CheckReport.Of(new Assessor(a.Case).Assess(null, a.Program, a.Sha256));

    private static Func<object> Corridors(Asked a)
    {
        double? level = a.Query.Number("level", 0, a.Case.Limb.LengthMm, " mm", required: true);
        string? frame = a.Query.Frame("frame", a.Case, required: false);
        if (a.Case.Limb.BoneModel is not AnatomicalBone)
        {
            a.Query.Refuse("level", FaultCodes.Inconsistent, "The bone of this case is a synthetic tube: it has no corridors.", "A case with an anatomical boneModel.", "Use an anatomical boneModel.");
        }

        return () => CorridorSurvey.At(a.Case, level!.Value, a.Case.Frames.Where(f => frame is null || f.Id == frame), a.Program, a.Sha256);
    }

    private static Func<object> Kit(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: true);
        return () => new KitPlanner(a.Case).Plan(a.The(frame!), a.Files.Stock?.Stock, a.Files.Stock?.Sha256, a.Program, a.Sha256);
    }

    private static Func<object> Steps(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: true);
        return () => new StepsPlanner(a.Case).Plan(a.The(frame!), a.Files.Stock?.Stock, a.Program, a.Sha256);
    }

    private static Func<object> Healing(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: false);
        return () => new HealingAssessor(a.Case).Assess(frame, a.Program, a.Sha256);
    }

    private static Func<object> Dynamise(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: false);
        double? free = a.Query.Number("freeMm", double.Epsilon, MostFreeMm, " mm");
        return () => new DynamisationAssessor(a.Case).Assess(frame, a.Program, a.Sha256, free);
    }

    private static Func<object> Overload(Asked a)
    {
        string? frame = a.Query.Frame("frame", a.Case, required: true);
        double? to = a.Query.Number("toN", double.Epsilon, OverloadAssessor.MostN, " N", required: true);
        return () => new OverloadAssessor(a.Case).Assess(a.The(frame!), to!.Value, a.Program, a.Sha256);
    }

    private static Func<object> Align(Asked a)
    {
        AlignmentQuestion question = AlignmentQuery.Read(a.Query, a.Files.Case?.Case);
        return () => AlignmentAssessor.Assess(question, a.Program, a.Files.Case?.Sha256);
    }

    private static void Map(
        IEndpointRouteBuilder routes, string path, string id, string summary, string description, string schema, Func<Asked, Func<object>> prepare,
        ImmutableArray<ApiParameter> query = default, string? further = null, ApiBody body = ApiBody.Case)
    {
        ApiOperation operation = new(id, Group, summary, description)
        {
            Query = query.IsDefault ? [] : query,
            Body = body,
            Further = further,
            Answer = new(StatusCodes.Status200OK, "The report; a frame that cannot be analysed says so in its status and diagnosis.", schema),
            Problems =
            [
                ProblemKind.NotJson, ProblemKind.TooLarge, ProblemKind.MediaType, ProblemKind.InvalidCase, ProblemKind.InvalidParameter, ProblemKind.TookTooLong,
                .. further switch { ProblemError.Stock => (ProblemKind[])[ProblemKind.InvalidStock], ProblemError.Gait => [ProblemKind.InvalidGait], _ => [] },
            ],
        };
        routes.MapPost($"/api/{path}", (HttpContext context, ApiServices services) => AnswerAsync(context, services, operation, prepare)).WithMetadata(operation).WithName(id);
    }

    private static async Task<IResult> AnswerAsync(HttpContext context, ApiServices services, ApiOperation operation, Func<Asked, Func<object>> prepare)
    {
        RequestFiles files = await RequestFiles.ReadAsync(context.Request, operation.Further, operation.Body == ApiBody.CaseOrNothing).ConfigureAwait(false);
        if (files.Problem is not null)
        {
            return files.Problem;
        }

        Asked asked = new(files, new(context.Request.Query, operation.QueryNames), services.Program);
        Func<object> work = prepare(asked);
        return asked.Query.Faults.IsEmpty
            ? await services.ComputeAsync(() => new ReportAnswer(work()), context.RequestAborted).ConfigureAwait(false)
            : Problem.Of(ProblemKind.InvalidParameter, ProblemError.Query, asked.Query.Faults);
    }
}
