using System.Collections.Immutable;
using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Planning.Alignment;
using Halfpin.Web.Api.Description;

namespace Halfpin.Web.Api.Requests;

/// <summary>A measurement of alignment as query parameters.</summary>
internal static class AlignmentQuery
{
    public static ImmutableArray<ApiParameter> Parameters { get; } =
    [
        new("ap", "number", "Angulation on the AP view, degrees: varus +, valgus −.", IsRequired: true),
        new("lat", "number", "Angulation on the lateral view, degrees: procurvatum +, recurvatum −.", IsRequired: true),
        new("rotation", "number", "Rotation of the distal fragment, degrees: external +, internal −."),
        new("apShift", "number", "Shift of the distal end on the AP view, mm: medial +, lateral −."),
        new("latShift", "number", "Shift of the distal end on the lateral view, mm: anterior +, posterior −."),
        new("length", "number", "Length at the fracture, mm: distraction +, shortening −."),
        new("errorDeg", "number", $"Error of every angle, either way, degrees; {Text(AlignmentMeasurement.UsualErrorDeg)} (ASSUMED) unless given."),
        new("errorMm", "number", $"Error of every length, either way, mm; {Text(AlignmentMeasurement.UsualErrorMm)} (ASSUMED) unless given."),
        new("side", "string", "left or right; a case tells its own."),
        new("frame", "string", "Only the frame with this id, of the case."),
        new("fracture", "integer", "Number of the deformed fracture of the case, from proximal; 1 unless given."),
    ];

    /// <summary>Reads the question; what is wrong is gathered by the query.</summary>
    public static AlignmentQuestion Read(RequestQuery query, Case? value)
    {
        AlignmentMeasurement measured = new()
        {
            ApDeg = Angle(query, "ap", required: true) ?? 0,
            LateralDeg = Angle(query, "lat", required: true) ?? 0,
            RotationDeg = Angle(query, "rotation"),
            ApShiftMm = Length(query, "apShift"),
            LateralShiftMm = Length(query, "latShift"),
            LengthMm = Length(query, "length"),
            ErrorDeg = query.Number("errorDeg", 0, MeasurementRules.MostErrorDeg, "°") ?? AlignmentMeasurement.UsualErrorDeg,
            ErrorMm = query.Number("errorMm", 0, MeasurementRules.MostErrorMm, " mm") ?? AlignmentMeasurement.UsualErrorMm,
        };
        string? frame = value is null ? query.Text("frame") : query.Frame("frame", value, required: false);
        int fracture = (int)query.Whole("fracture", 1, value?.Fractures.Length ?? 1, 1);
        if (value is null && frame is not null)
        {
            query.Refuse("frame", FaultCodes.Reference, "A frame is named, but no case.", "A case as the body.", "Send the case, or leave the frame out.");
            frame = null;
        }

        AlignmentQuestion question = new(measured, Side(query), value, frame, fracture);
        if (query.Faults.IsEmpty)
        {
            query.Refuse(question.Faults());
        }

        return question;
    }

    private static double? Angle(RequestQuery query, string name, bool required = false) => query.Number(name, -MeasurementRules.MostAngleDeg, MeasurementRules.MostAngleDeg, "°", required);

    private static double? Length(RequestQuery query, string name) => query.Number(name, -MeasurementRules.MostLengthMm, MeasurementRules.MostLengthMm, " mm");

    private static Side? Side(RequestQuery query)
    {
        switch (query.Text("side"))
        {
            case null:
                return null;
            case "left":
                return Domain.Cases.Side.Left;
            case "right":
                return Domain.Cases.Side.Right;
            default:
                query.Refuse("side", FaultCodes.Choice, "side is neither left nor right.", "left, right", "Choose one, or leave it out.");
                return null;
        }
    }

    private static string Text(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
