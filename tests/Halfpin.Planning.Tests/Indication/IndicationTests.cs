using System.Collections.Immutable;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Planning.Indication;
using Halfpin.Planning.Tests.Alignment;
using Xunit;
using Record = Halfpin.Domain.Cases.Indication;

namespace Halfpin.Planning.Tests.Indication;

public class IndicationTests
{
    private static readonly Wound _wound = new() { FromLevelMm = 160, ToLevelMm = 190, FromAzimuthDeg = -40, ToAzimuthDeg = 5 };

    [Fact]
    public void Nothing_recorded_isAllMissing_andStillReminds()
    {
        IndicationReport report = Report(null);

        Assert.Contains(report.Missing, m => m.Pointer == "/indication/reasons");
        Assert.Equal("purpose of the frame", Assert.Single(report.Recorded).Item);
        Assert.Empty(report.Contradictions);
        Assert.Contains(report.Reminders, r => r.Topic == "compartment syndrome");
        Assert.Contains("does not decide", report.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void GradeIIIC_withoutRepair_contradicts() => Assert.Contains(
        Report(new() { OpenGrade = OpenFractureGrade.IIIC, Vascular = VascularState.Intact }, _wound).Contradictions, c => c.Topic == "arteries");

    [Fact]
    public void GradeIIIC_withRepair_doesNotContradict() =>
        Assert.Empty(Report(new() { OpenGrade = OpenFractureGrade.IIIC, Vascular = VascularState.RepairPlanned }, _wound).Contradictions);

    // Practice, MEMORY: conversion of femur and tibia within 14 days.
    [Theory]
    [InlineData(14, 0)]
    [InlineData(15, 1)]
    public void Nail_plannedAfterDay14_differsFromARuleAndContradictsNothing(double toDay, int expected)
    {
        IndicationReport report = Report(new() { Conversion = new() { To = ConversionTarget.Nail, FromDay = 5, ToDay = toDay } });

        Assert.Equal((expected, 0), (report.Deviations.Length, report.Contradictions.Length));
    }

    [Fact]
    public void Plate_plannedAfterDay14_doesNotDifferFromTheRuleOfNails() =>
        Assert.Empty(Report(new() { Conversion = new() { To = ConversionTarget.Plate, ToDay = 19 } }).Deviations);

    [Fact]
    public void NailInInfection_differsFromARule() => Assert.Contains(
        Report(new() { Infection = true, Conversion = new() { To = ConversionTarget.Nail, ToDay = 9 } }).Deviations, c => c.Text.Contains("infection", StringComparison.Ordinal));

    // J Orthop Surg Res 2021, 10.1186/s13018-021-02814-7 (READ).
    [Fact]
    public void Nail_planned_bringsThePublishedInfectionRates() => Assert.Contains(
        Report(new() { Conversion = new() { To = ConversionTarget.Nail, ToDay = 9 } }).Facts,
        f => f.Tag == "READ" && f.Text.Contains("23.3 % after day 28", StringComparison.Ordinal) && f.Source.Contains("s13018-021-02814-7", StringComparison.Ordinal));

    [Fact]
    public void OpenAndClosed_atOnce_contradicts() => Assert.Contains(
        Report(new() { OpenGrade = OpenFractureGrade.II, ClosedGrade = ClosedSoftTissueGrade.Grade2 }, _wound).Contradictions, c => c.Text.Contains("at once", StringComparison.Ordinal));

    [Fact]
    public void PressureGap_underThirty_contradictsUnsuspectedCompartments() => Assert.Contains(
        Report(new() { PressureGapMmHg = 27, Compartments = CompartmentState.NotSuspected }).Contradictions, c => c.Topic == "compartments");

    // ISRN Orthopedics 2013;329452 table 1 (READ): ranges overlap, and some figures fall between two.
    [Theory]
    [InlineData(93, "borderline")]
    [InlineData(83, "borderline or unstable")]
    [InlineData(57, "in extremis")]
    public void BloodPressure_isShownInEveryGradeThatHoldsIt(double mmHg, string grades) =>
        Assert.Equal(grades, Grades(new() { SystolicMmHg = mmHg }));

    [Theory]
    [InlineData(36.1, "stable")]
    [InlineData(32.4, "borderline or unstable")]
    [InlineData(29.7, "in extremis")]
    public void Temperature_betweenTwoGrades_isShownInBoth(double celsius, string grades) => Assert.Equal(grades, Grades(new() { TemperatureC = celsius }));

    [Theory]
    [InlineData(411, "stable")]
    [InlineData(323, "stable or borderline")]
    [InlineData(187, "in extremis")]
    public void Oxygenation_isShownInItsGrades(double ratio, string grades) => Assert.Equal(grades, Grades(new() { PaO2FiO2MmHg = ratio }));

    [Fact]
    public void Grade_milderThanAFigure_contradicts()
    {
        IndicationReport report = Report(new() { DamageControl = DamageControlGrade.Stable, Physiology = new() { SystolicMmHg = 71, PlateletsThousand = 170 } });

        Assert.Contains("systolic blood pressure", Assert.Single(report.Contradictions).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Objection_recorded_standsFirst()
    {
        ImmutableArray<AgainstItem> against = Report(new() { Against = [FrameObjection.MetalAllergy] }).Against;

        Assert.Equal("metal allergy", against[0].Item);
        Assert.Single(against, a => a.Recorded);
        Assert.Equal(10, against.Length);
    }

    [Fact]
    public void EveryNote_hasASourceAndATag() => Assert.All(
        Report(new() { OpenGrade = OpenFractureGrade.IIIC, Conversion = new() { To = ConversionTarget.Nail, ToDay = 33 }, DamageControl = DamageControlGrade.Unstable }, _wound) is var r ? r.Facts.Concat(r.Reminders).Concat(r.Contradictions) : [],
        n => Assert.True(n.Source.Length > 0 && n.Tag is "READ" or "MEMORY" or "DERIVED" or "ASSUMED", n.Text));

    private static string Grades(Physiology physiology) => string.Join(" or ", Assert.Single(Report(new() { Physiology = physiology }).Physiology).Grades);

    private static IndicationReport Report(Record? record, params Wound[] wounds) => IndicationRecorder.Report(
        Bench.Case(Side.Left, Bench.SingleRod(33)) with { Indication = record, Wounds = [.. wounds] }, new("halfpin", "test"), "0");
}
