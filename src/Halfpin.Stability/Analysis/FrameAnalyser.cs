using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Mechanics.Condensation;
using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Members;
using Halfpin.Mechanics.Solution;
using Halfpin.Stability.FreeMotions;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Analysis;

/// <summary>How an analysis ended.</summary>
public enum AnalysisStatus
{
    /// <summary>The frame holds the fracture, but for intended freedoms.</summary>
    Ok,

    /// <summary>Something moves freely that should not.</summary>
    Mechanism,

    /// <summary>The equations could not be solved to the accuracy that results need.</summary>
    Inaccurate,
}

/// <summary>
/// Analyses frames on one bone and its fractures, from parts to site stiffness: placement, idealisation, solution and condensation.
/// Keeps its plan and memory, so that variants of one construct follow each other without allocation.
/// </summary>
/// <remarks>
/// The distal end is held in six freedoms and the proximal end carries unit wrenches (<c>potted</c>). Since frames between
/// two bodies are statically determinate at the ends, <c>ball</c> follows from the same solution. Not thread-safe.
/// </remarks>
public sealed class FrameAnalyser
{
    /// <summary>
    /// Largest share of a load that may be left unbalanced at a node. Rounding leaves 1e-9 in the stiffest frames tried;
    /// results are wanted to 1e-6.
    /// </summary>
    public const double MaxImbalance = 1e-6;

    // Makes forces and moments comparable: the size of a frame.
    private const double LeverMm = 100;

    private FramePlan? _plan;
    private FrameSystem? _system;
    private SiteAnalysis? _site;
    private bool[] _slidesHeld = [];
    private int[] _limited = [];
    private MemberSlide[] _slides = [];

    /// <summary>An analyser for a bone with one fracture.</summary>
    public FrameAnalyser(BoneShape bone, Fracture fracture, ModelOptions model, MaterialTable materials)
        : this(bone, [fracture], model, materials, new BoneFlexibility(bone, TheoryOf(model)))
    {
    }

    /// <summary>An analyser that shares a tabulated bone with others.</summary>
    /// <param name="bone">The bone.</param>
    /// <param name="fractures">Its fractures, from proximal: at least one, none reaching into another.</param>
    /// <param name="model">Modelling assumptions.</param>
    /// <param name="materials">Materials of the parts.</param>
    /// <param name="flexibility">The bone's flexibility, tabulated for the model's beam theory.</param>
    public FrameAnalyser(BoneShape bone, ImmutableArray<Fracture> fractures, ModelOptions model, MaterialTable materials, BoneFlexibility flexibility)
    {
        Use(bone, fractures, model, materials, flexibility);
    }

    /// <summary>
    /// True when loose clamps with a stop, one way or friction are to be held in their slide, up to
    /// <see cref="SiteEquilibrium.MaxStiffSlides"/>, and their slides followed as unit cases.
    /// </summary>
    internal bool HoldsLimitedSlides { get; init; }

    /// <summary>Middle of each gap on the axis, from proximal: where fracture motion is read.</summary>
    public ImmutableArray<Vec3> SitePointsMm { get; private set; }

    /// <summary>Middle of the first fracture's gap.</summary>
    public Vec3 SitePointMm => SitePointsMm[0];

    /// <summary>Outcome of the last analysis.</summary>
    public AnalysisStatus Status { get; private set; }

    /// <summary>Freedoms and free motions found in the last analysis.</summary>
    public FreedomReport Freedoms { get; private set; } = FreedomReport.None;

    /// <summary>Largest nodal imbalance of the last analysis, as a share of the load.</summary>
    public double Imbalance { get; private set; }

    /// <summary>Stiffnesses of the last analysis; meaningful when its status is Ok.</summary>
    public SiteAnalysis Site => _site ?? throw new InvalidOperationException("Nothing has been analysed yet.");

    /// <summary>Clamps whose slide is held and followed, in the order of the site analysis' slides.</summary>
    internal ReadOnlySpan<int> LimitedClamps => _limited;

    internal FrameData Data { get; private set; }

    internal BoneFlexibility Flexibility { get; private set; }

    internal MaterialTable Materials { get; private set; }

    internal FrameWriter Writer { get; private set; }

    internal FramePlan Plan => _plan ?? throw new InvalidOperationException("Nothing has been analysed yet.");

    internal FrameSystem System => _system ?? throw new InvalidOperationException("Nothing has been analysed yet.");

    /// <summary>Beam theory of a case's model.</summary>
    public static BeamTheory TheoryOf(ModelOptions model) =>
        model.Beam == BeamChoice.Timoshenko ? BeamTheory.Timoshenko : BeamTheory.EulerBernoulli;

    /// <summary>Takes other inputs for the analyses to come; plan and memory stay for frames that are joined alike.</summary>
    /// <param name="bone">The bone.</param>
    /// <param name="fractures">Its fractures, from proximal.</param>
    /// <param name="model">Modelling assumptions.</param>
    /// <param name="materials">Materials of the parts.</param>
    /// <param name="flexibility">The bone's flexibility, tabulated for the model's beam theory.</param>
    [MemberNotNull(nameof(Data), nameof(Materials), nameof(Flexibility), nameof(Writer))]
    public void Use(BoneShape bone, ImmutableArray<Fracture> fractures, ModelOptions model, MaterialTable materials, BoneFlexibility flexibility)
    {
        Data = new(bone, fractures, model);
        Materials = materials;
        Flexibility = flexibility;
        Writer = new(Data, flexibility, materials, TheoryOf(model));
        SitePointsMm = [.. fractures.Select(f => new Vec3(0, 0, -f.LevelMm))];
    }

    /// <summary>Analyses a frame.</summary>
    /// <param name="parts">Its parts, valid for the bone and fracture.</param>
    /// <returns>The outcome; results stay in the analyser until the next call.</returns>
    public AnalysisStatus Analyse(Parts parts)
    {
        Data.Set(parts);
        int limited = HoldsLimitedSlides ? parts.Clamps.Count(c => c.IsLimitedSlide()) : 0;
        if (_plan is null || _plan.Sites.Length != Data.Fractures.Length || !_plan.Fits(Data) || limited != _limited.Length)
        {
            _plan = new(Data);
            _limited = new int[limited];
            _slides = new MemberSlide[limited];
            _system = new(_plan.Topology, SiteAnalysis.ColumnsFor(_plan.Sites.Length, limited));
            _site = new(_system, FramePlan.LoadedNode, _plan.Sites.AsSpan(), limited);
            _slidesHeld = new bool[_plan.Clamps.Length];
        }

        Array.Clear(_slidesHeld);
        FindLimitedSlides();
        Freedoms = FreedomReport.None;
        Writer.Write(_plan, System, _slidesHeld);
        if (Solve())
        {
            return Status = AnalysisStatus.Ok;
        }

        // A lost pivot, or equations out of balance, since rounding may leave a free motion a little stiffness: look for what moves.
        Freedoms = FreedomAnalysis.Of(this);
        if (Freedoms.IsMechanism)
        {
            return Status = AnalysisStatus.Mechanism;
        }

        foreach (int clamp in Freedoms.HeldClamps)
        {
            _slidesHeld[clamp] = true;
        }

        Writer.Write(Plan, System, _slidesHeld);
        return Status = Solve() ? AnalysisStatus.Ok : AnalysisStatus.Inaccurate;
    }

    private void FindLimitedSlides()
    {
        int found = 0;
        for (int m = 0; _limited.Length > 0 && m < Plan.Members.Length; m++)
        {
            if (Plan.Members[m].Kind == MemberKind.Clamp && Data.ClampParts[Plan.Members[m].Part].IsLimitedSlide())
            {
                int clamp = Plan.Members[m].Part;
                _slidesHeld[clamp] = true;
                _slides[found] = new(m, Data.PlacedRods[Data.Clamps[clamp].Rod].Along);
                _limited[found++] = clamp;
            }
        }
    }

    private bool Solve()
    {
        if (!System.Factorise().IsStable)
        {
            Imbalance = double.PositiveInfinity;
            return false;
        }

        Imbalance = Site.Run(System.Node(FramePlan.LoadedNode), SitePointsMm.AsSpan(), LeverMm, _slides);
        return Imbalance <= MaxImbalance;
    }
}
