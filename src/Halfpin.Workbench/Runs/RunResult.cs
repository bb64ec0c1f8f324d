using Halfpin.Domain.Cases;

namespace Halfpin.Workbench.Runs;

/// <summary>What a run found, with the case that it was about.</summary>
/// <param name="Case">The case as it was when the run was started.</param>
/// <param name="Report">What was found.</param>
/// <param name="Number">Number of the run, from 1, by which its pictures and tables are told apart.</param>
public sealed record RunResult<T>(Case Case, T Report, int Number);
