namespace Halfpin.Stability.Movement;

/// <summary>Where and when bone ends first touch.</summary>
/// <param name="Factor">The load at which they do, as a multiple of the direction asked about.</param>
/// <param name="Fracture">The fracture.</param>
/// <param name="Point">The point of its ring.</param>
internal readonly record struct Touch(double Factor, int Fracture, int Point);
