namespace Halfpin.Domain.Assessments;

/// <summary>How far results move when the least certain inputs take the ends of their bands together.</summary>
public sealed record ResultBand
{
    /// <summary>Stiffness at the fracture, all inputs at the soft end.</summary>
    public required FourStiffnesses Low { get; init; }

    /// <summary>Stiffness at the fracture, all inputs at the stiff end.</summary>
    public required FourStiffnesses High { get; init; }

    /// <summary>Size of the axial motion under the chosen load; null when an end withholds it or no load is chosen.</summary>
    public Interval? AxialMm { get; init; }

    /// <summary>Shear in the fracture plane under the chosen load; null likewise.</summary>
    public Interval? ShearMm { get; init; }

    /// <summary>Axial load at which the model's first limit is met; null when there is none.</summary>
    public Interval? FirstLimitKg { get; init; }

    /// <summary>Which inputs, and their bands.</summary>
    public required string Inputs { get; init; }
}

/// <summary>From the least to the most of a result, in the unit of the name it stands under.</summary>
public sealed record Interval(double Low, double High);
