namespace Halfpin.Studies.Indices;

/// <summary>How much of an output's variance an input accounts for, with the middle 95 % of bootstrap estimates.</summary>
/// <param name="First">By itself.</param>
/// <param name="FirstLow">Lower end of its interval.</param>
/// <param name="FirstHigh">Upper end.</param>
/// <param name="Total">With all its exchanges with others.</param>
/// <param name="TotalLow">Lower end of its interval.</param>
/// <param name="TotalHigh">Upper end.</param>
public readonly record struct IndexEstimate(double First, double FirstLow, double FirstHigh, double Total, double TotalLow, double TotalHigh);
