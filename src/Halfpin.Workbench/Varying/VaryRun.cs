using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Storage.Cases;
using Halfpin.Storage.Tables;
using Halfpin.Studies.Varying;
using Halfpin.Workbench.Runs;

namespace Halfpin.Workbench.Varying;

/// <summary>The variation of a work: one frame while one or two numbers run through a range.</summary>
public sealed class VaryRun(ProgramStamp program, TimeProvider time, CancellationToken gone = default)
{
    /// <summary>Most rows on a screen; longer studies are for the command line, whose table goes to a file.</summary>
    public const int MaxRows = 2500;

    /// <summary>State, progress and result.</summary>
    public LongRun<VariationReport> Run { get; } = new(time, gone);

    /// <summary>What was asked for last; null before the first.</summary>
    public VaryRequest? Asked { get; private set; }

    /// <summary>Starts a variation.</summary>
    /// <param name="value">The valid case.</param>
    /// <param name="request">What is to vary.</param>
    /// <returns>All that is wrong with the request, in which case nothing is started; and the run, to wait for, null when none was started.</returns>
    public (ImmutableArray<Fault> Faults, Task? Running) Start(Case value, VaryRequest request)
    {
        (ImmutableArray<VariedRange> ranges, ImmutableArray<Fault> faults) = Read(value, request);
        if (!faults.IsEmpty || Run.IsBusy)
        {
            return (faults, null);
        }

        Asked = request;
        return ([], Run.Start(value, (tell, stop) =>
            new VariationAssessor(value).Assess(request.Frame, ranges, WorkRuns.Threads, program, Convert.ToHexStringLower(SHA256.HashData(CaseWriter.Write(value))), tell, stop)));
    }

    /// <summary>A report's rows as CSV, the same that the command line writes.</summary>
    public static byte[] Csv(VariationReport report)
    {
        string path = Path.Combine(Path.GetTempPath(), $"{Path.GetRandomFileName()}.csv");
        try
        {
            VariationTable.Write(path, report);
            return File.ReadAllBytes(path);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static (ImmutableArray<VariedRange> Ranges, ImmutableArray<Fault> Faults) Read(Case value, VaryRequest request)
    {
        Fault[] unread = [.. request.Ranges.SelectMany((r, i) => Unread(r, Which(request, i)))];
        if (unread.Length > 0)
        {
            return ([], [.. unread]);
        }

        string[] texts = [.. request.Ranges.Select(Text)];
        (ImmutableArray<VariedRange> ranges, ImmutableArray<Fault> faults) = VariedRange.Read(value, request.Frame, texts);
        long rows = ranges.Aggregate(1L, (n, r) => n * r.Values.Length);
        return !faults.IsEmpty
            ? ([], [.. faults.Select(f => f with { Pointer = Named(f.Pointer, texts, request), Try = f.Try.Replace("Give --over once or twice.", "Choose one or two.", StringComparison.Ordinal) })])
            : rows > MaxRows
            ? ([], [new("Values", FaultCodes.Range, string.Create(CultureInfo.InvariantCulture, $"That makes {rows} rows."), string.Create(CultureInfo.InvariantCulture, $"At most {MaxRows} rows here."), "Use fewer values; the command line takes more.")])
            : (ranges, []);
    }

    private static IEnumerable<Fault> Unread(AskedRange range, string which)
    {
        if (string.IsNullOrWhiteSpace(range.Name))
        {
            yield return new(which, FaultCodes.Missing, "No value is chosen.", "A value of the frame, or a number of the case by its pointer.", "Choose one.");
        }

        foreach ((double? number, string what) in new[] { (range.From, "From"), (range.To, "To"), (range.Values, "Values") })
        {
            if (number is null)
            {
                yield return new(which, FaultCodes.Type, $"{what} is no number.", "A number, with point or comma.", "Type it again.");
            }
        }
    }

    private static string Text(AskedRange r) => string.Create(CultureInfo.InvariantCulture, $"{r.Name.Trim()}={r.From:R}..{r.To:R}:{r.Values:R}");

    private static string Named(string pointer, string[] texts, VaryRequest request)
    {
        int at = Array.FindIndex(texts, t => pointer == $"--over {t}");
        return at < 0 ? "Values" : Which(request, at);
    }

    private static string Which(VaryRequest request, int at) => request.Ranges.Length == 1 ? "Value" : at == 0 ? "First value" : "Second value";
}
