using System.Collections.Immutable;
using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Stocks;
using Halfpin.Planning.Kit;
using Halfpin.Planning.Steps;
using Halfpin.Reports.Html;
using Halfpin.Stability;
using Halfpin.Stability.Drawings;
using Halfpin.Storage.Cases;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Building;

/// <summary>What it takes to build a frame, and in which order.</summary>
/// <param name="Kit">The kit.</param>
/// <param name="Steps">The steps.</param>
public sealed record BuildingPlan(KitReport Kit, StepsReport Steps)
{
    /// <summary>The stock that plans of a work are taken from, with the hash of its file; nulls for a work without one.</summary>
    public static (Stock? Stock, string? Sha256) StockOf(Workspace work) => (work.Stock, work.StockSha256);

    /// <summary>The plan of a frame from a stock.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">A frame of it.</param>
    /// <param name="stock">The stock; null for sizes only.</param>
    /// <param name="stockSha256">Hash of the stock file.</param>
    /// <param name="program">The program's stamp.</param>
    public static BuildingPlan Of(Case value, Frame frame, Stock? stock, string? stockSha256, ProgramStamp program)
    {
        string sha256 = Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value)));
        return new(
            new KitPlanner(value).Plan(frame, stock, stockSha256, program, sha256),
            new StepsPlanner(value).Plan(frame, stock, program, sha256));
    }

    /// <summary>The plan as a page of its own that prints on A4.</summary>
    /// <param name="value">The case.</param>
    /// <param name="frame">The frame.</param>
    public string Sheet(Case value, Frame frame)
    {
        DrawingBuilder drawings = new(value);
        return BuildingReport.Html(value, Kit, Steps, drawings.Bone(), drawings.Frame(frame.Id, new Assessor(value).PartsOf(frame)));
    }

    /// <summary>The lines of the warning before everything else; empty when there is none.</summary>
    public ImmutableArray<string> Warnings => [.. (Kit.Warning ?? Steps.Warning)?.Split('\n') ?? []];

    /// <summary>What the kit comes to, in a sentence.</summary>
    public string KitHeadline
    {
        get
        {
            string parts = string.Join(", ", new[] { (KitKind.Pin, "pin"), (KitKind.Rod, "rod"), (KitKind.Clamp, "clamp") }.Select(k => Count(k.Item1, k.Item2)));
            return Kit switch
            {
                { Stock: null } => $"{parts}, by size: this work has no stock to take them from.",
                { Shortages.IsEmpty: true } => $"{parts}: everything is there in {Kit.Stock}.",
                _ => $"{parts}: {(Kit.Shortages.Length == 1 ? "one thing is" : $"{Kit.Shortages.Length} things are")} missing in {Kit.Stock}.",
            };
        }
    }

    private string Count(KitKind kind, string word)
    {
        int count = Kit.Items.Where(i => i.Kind == kind).Sum(i => i.Quantity);
        return $"{count} {word}{(count == 1 ? "" : "s")}";
    }
}
