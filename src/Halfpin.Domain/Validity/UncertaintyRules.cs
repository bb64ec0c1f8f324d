using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;

namespace Halfpin.Domain.Validity;

/// <summary>What must hold of the inputs that a case calls uncertain.</summary>
public static class UncertaintyRules
{
    /// <summary>All faults; numbers that are NaN are passed over.</summary>
    public static IEnumerable<Fault> Check(Case value)
    {
        HashSet<string> taken = [];
        for (int i = 0; i < value.Uncertainty.Length; i++)
        {
            UncertainInput input = value.Uncertainty[i];
            string at = $"/uncertainty/{i}";
            if (!taken.Add(UncertainInputs.PointerOf(input.Input) ?? input.Input))
            {
                yield return new($"{at}/input", FaultCodes.DuplicateId, $"\"{input.Input}\" is given twice.", "Each input once.", "Keep one of them.");
            }

            foreach (Fault fault in Parameters(input, at).Concat(Target(value, input, at)))
            {
                yield return fault;
            }
        }
    }

    private static IEnumerable<Fault> Parameters(UncertainInput input, string at)
    {
        (string Name, double? Value, bool Wanted, bool Allowed)[] parameters = Parameters(input);
        foreach ((string name, double? given, bool wanted, bool allowed) in parameters)
        {
            if (wanted && given is null)
            {
                yield return new($"{at}/{name}", FaultCodes.Missing, $"A {Word(input.Distribution)} spread of \"{input.Input}\" needs \"{name}\".", Needs(parameters), "Add it.");
            }
            else if (!allowed && given is not null)
            {
                yield return new($"{at}/{name}", FaultCodes.Inconsistent, $"A {Word(input.Distribution)} spread has no \"{name}\".", Needs(parameters), "Remove it, or choose another distribution.");
            }
        }

        if (input is { Low: double low, High: double high } && low >= high)
        {
            yield return new($"{at}/high", FaultCodes.Inconsistent, low == high ? $"The range of \"{input.Input}\" is empty: both ends are {CaseRules.Text(low)}." : $"The range of \"{input.Input}\" runs from {CaseRules.Text(low)} down to {CaseRules.Text(high)}.", $"More than low, {CaseRules.Text(low)}.", low == high ? "Widen it, or leave the input out." : "Exchange the two.");
        }

        if (input is { Distribution: Spread.LogUniform, Low: <= 0 })
        {
            yield return new($"{at}/low", FaultCodes.Range, $"A logarithm has no value at {CaseRules.Text(input.Low.Value)}.", "More than 0.", "Raise low, or use uniform.");
        }

        if (input is { Distribution: Spread.Triangular, Mode: double mode } && (mode < input.Low || mode > input.High))
        {
            yield return new($"{at}/mode", FaultCodes.Inconsistent, $"The most likely value {CaseRules.Text(mode)} lies outside the range.", $"{CaseRules.Text(input.Low ?? double.NaN)} to {CaseRules.Text(input.High ?? double.NaN)}.", "Move the mode or the ends.");
        }

        if (input.StandardDeviation <= 0)
        {
            yield return new($"{at}/standardDeviation", FaultCodes.Range, $"The standard deviation is {CaseRules.Text(input.StandardDeviation.Value)}.", "More than 0.", "Give the spread, or leave the input out.");
        }
    }

    private static IEnumerable<Fault> Target(Case value, UncertainInput input, string at)
    {
        if (UncertainInputs.OfFrame.Contains(input.Input) || UncertainInputs.OfParts.Contains(input.Input))
        {
            return UncertainInputs.PointerOf(input.Input) is string pointer && CaseNumber.Find(value, pointer) is CaseNumber known
                ? Within(known, input, at)
                : Absent(value, input, at).Concat(Shares(input, at));
        }

        if (input.Input.StartsWith('/'))
        {
            return CaseNumber.Find(value, input.Input) is not CaseNumber number ? [NoNumber(value, input, at)]
                : number.IsWhole ? [new($"{at}/input", FaultCodes.Reference, $"\"{input.Input}\" counts something and cannot be uncertain.", "A measure.", "Vary it instead, or compare two frames.")]
                : Within(number, input, at);
        }

        string[] parts = input.Input.Split(':', 2);
        return parts.Length == 2 && UncertainInputs.OfParts.Contains(parts[0]) && HasPart(value, parts[0], parts[1]) ? [] : [Unknown(input, at, parts)];
    }

    // An input that the model of the case does not have.
    private static IEnumerable<Fault> Absent(Case value, UncertainInput input, string at) => input.Input switch
    {
        UncertainInputs.ClampRotational or UncertainInputs.SlipMoment when value.Model.Clamp is not SpringClamp =>
            [new($"{at}/input", FaultCodes.Reference, $"The case's clamps are rigid: there is no {input.Input}.", "Inputs that the model has.", "Leave it out, or set model.clamp to spring.")],
        UncertainInputs.Foundation when value.Model.PinFixity is not FoundationFixity =>
            [new($"{at}/input", FaultCodes.Reference, "The case fixes pins at the surface: there is no foundation.", "Inputs that the model has.", "Leave it out, or set model.pinFixity to foundation.")],
        UncertainInputs.BoneWall when value.Limb.BoneModel is not AnatomicalBone =>
            [new($"{at}/input", FaultCodes.Reference, $"The case's bone is a tube, whose wall is given: there is no {input.Input}.", "Inputs that the model has.", "Name /limb/boneModel/innerDiameterMm instead.")],
        _ => [],
    };

    // Shares and material figures must stay above nil whatever their spread, the wall within what leaves a canal.
    private static IEnumerable<Fault> Shares(UncertainInput input, string at) => input.Input == UncertainInputs.BoneWall ? Walls(input, at)
        : UncertainInputs.OfFrame.Contains(input.Input) && !(input.Low is null or > 0 || double.IsNaN(input.Low.Value))
        ? [new($"{at}/low", FaultCodes.Range, $"{input.Input} may reach {CaseRules.Text(input.Low.Value)}.", "More than 0.", "Raise low.")]
        : UncertainInputs.OfFrame.Contains(input.Input) && input is { Distribution: Spread.Normal, Low: null }
        ? [new($"{at}/low", FaultCodes.Missing, $"A normal spread of {input.Input} has no lower end and would reach 0.", "A low above 0.", "Give low.")]
        : [];

    private static IEnumerable<Fault> Walls(UncertainInput input, string at)
    {
        string allowed = $"{CaseRules.Text(AnatomicalBone.LeastWallShare)} to {CaseRules.Text(AnatomicalBone.MostWallShare)} of the model's wall.";
        foreach ((string name, double? given) in new[] { ("low", input.Low), ("high", input.High) })
        {
            if (given is null && input.Distribution == Spread.Normal)
            {
                yield return new($"{at}/{name}", FaultCodes.Missing, $"A normal spread of {input.Input} has no {name} and would leave no canal or no wall.", allowed, $"Give {name}.");
            }
            else if (given is < AnatomicalBone.LeastWallShare or > AnatomicalBone.MostWallShare)
            {
                yield return new($"{at}/{name}", FaultCodes.Range, $"{input.Input} may reach {CaseRules.Text(given.Value)}.", allowed, "Keep the spread within.");
            }
        }
    }

    private static IEnumerable<Fault> Within(CaseNumber number, UncertainInput input, string at)
    {
        foreach ((string name, double? given) in new[] { ("low", input.Low), ("high", input.High), ("mean", input.Mean) })
        {
            if (given < number.Min || given > number.Max)
            {
                yield return new($"{at}/{name}", FaultCodes.Range, $"{CaseRules.Text(given.Value)} is beyond what {number.Pointer} may be.", $"{CaseRules.Text(number.Min)} to {CaseRules.Text(number.Max)}.", "Keep the spread within.");
            }
        }
    }

    private static bool HasPart(Case value, string input, string id) => value.Frames.Any(f =>
        (f.Parts ?? (f.Construct is Construct c && value.Fractures.Length > 0 ? ConstructBuilder.Build(c, value.Fractures) : null)) is Parts parts
        && (input == UncertainInputs.RodStandoff ? parts.Rods.Any(r => r.Id == id) : parts.Pins.Any(p => p.Id == id)));

    private static Fault NoNumber(Case value, UncertainInput input, string at) => new(
        $"{at}/input", FaultCodes.Reference, $"There is no number at \"{input.Input}\" of this case.", "A JSON Pointer to a number that the case has, such as /limb/lengthMm.",
        Spelling.DidYouMean(input.Input, CaseNumber.Below(value)) ?? "See the case file for its members; lists count from 0.");

    private static Fault Unknown(UncertainInput input, string at, string[] parts)
    {
        string[] known = [.. UncertainInputs.OfFrame, .. UncertainInputs.OfParts];
        return parts.Length == 2 && UncertainInputs.OfParts.Contains(parts[0])
            ? new($"{at}/input", FaultCodes.Reference, $"No frame has a {(parts[0] == UncertainInputs.RodStandoff ? "rod" : "pin")} \"{parts[1]}\".", "The id of a part.", "Check the id; parts of a construct are p1…, r1….")
            : new($"{at}/input", FaultCodes.Reference, $"\"{input.Input}\" is no input.", $"{string.Join(", ", known)}, the last three also as name:part, or a JSON Pointer.", Spelling.DidYouMean(input.Input, known) ?? "Choose one of them.");
    }

    private static (string Name, double? Value, bool Wanted, bool Allowed)[] Parameters(UncertainInput input)
    {
        bool normal = input.Distribution == Spread.Normal, triangular = input.Distribution == Spread.Triangular;
        return
        [
            ("low", input.Low, !normal, true), ("high", input.High, !normal, true), ("mode", input.Mode, triangular, triangular),
            ("mean", input.Mean, normal, normal), ("standardDeviation", input.StandardDeviation, normal, normal),
        ];
    }

    private static string Needs((string Name, double? Value, bool Wanted, bool Allowed)[] parameters) =>
        string.Join(", ", parameters.Where(p => p.Wanted).Select(p => p.Name)) + ".";

    private static string Word(Spread spread) => spread == Spread.LogUniform ? "log-uniform" : spread.ToString().ToLowerInvariant();
}
