using System.Runtime.CompilerServices;
using Halfpin.Domain.Assessments;
using Halfpin.Workbench.Comparing;
using Halfpin.Workbench.Documents;
using Halfpin.Workbench.Searches;
using Halfpin.Workbench.Uncertain;
using Halfpin.Workbench.Varying;

namespace Halfpin.Workbench.Runs;

/// <summary>The runs of each work, kept as long as the work is open; they end when it is deleted.</summary>
public sealed class WorkRuns(ProgramStamp program, TimeProvider time)
{
    private readonly ConditionalWeakTable<Workspace, SearchRun> _searches = [];
    private readonly ConditionalWeakTable<Workspace, VaryRun> _variations = [];
    private readonly ConditionalWeakTable<Workspace, UncertaintyRun> _uncertainties = [];
    private readonly ConditionalWeakTable<Workspace, SharedBandsRun> _bands = [];

    /// <summary>Threads that a run works on: one is left to the screens.</summary>
    public static int Threads { get; } = Math.Max(1, Environment.ProcessorCount - 1);

    /// <summary>The search of a work.</summary>
    public SearchRun Search(Workspace work) => _searches.GetValue(work, w => new(program, time, w.Gone));

    /// <summary>The variation of a work.</summary>
    public VaryRun Vary(Workspace work) => _variations.GetValue(work, w => new(program, time, w.Gone));

    /// <summary>The bands of a work's comparison.</summary>
    public SharedBandsRun Bands(Workspace work) => _bands.GetValue(work, w => new(time, w.Gone));

    /// <summary>The study of uncertainty of a work.</summary>
    public UncertaintyRun Uncertainty(Workspace work) => _uncertainties.GetValue(work, w => new(program, time, w.Gone));
}
