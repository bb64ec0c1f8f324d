using Halfpin.Reports.Words;
using Halfpin.Workbench.Answers;
using Halfpin.Workbench.Fields;
using Xunit;

namespace Halfpin.Workbench.Tests;

public class ResultTermTests
{
    public static TheoryData<string> Keys => new(ResultTerms.Keys);

    [Theory]
    [MemberData(nameof(Keys))]
    public void Number_withATerm_isExplainedInTheGlossary(string key) => Assert.NotNull(Glossary.Find(ResultTerms.Of(key)!));

    public static TheoryData<string> Fields => new(FieldTerms.Fields);

    [Theory]
    [MemberData(nameof(Fields))]
    public void Field_withATermOfItsOwn_isExplainedInTheGlossary(string field) => Assert.NotNull(Glossary.Find(FieldTerms.Of($"/{field}")!));

    [Theory]
    [InlineData("/loading/torsionNm", "torsion-load")]
    [InlineData("/fractures/1/tiltDeg", "fracture-tilt")]
    [InlineData("/requirements/mostTiltDeg", null)]
    [InlineData("/title", null)]
    public void Field_isExplainedAsWhatItIsThere(string pointer, string? term) => Assert.Equal(term, FieldTerms.Of(pointer));

    [Fact]
    public void EveryMovementOfAFrame_isExplained()
    {
        FrameAnswers answers = new(new("halfpin", "test"));
        FrameAnswer answer = answers.Of(Works.Demo, "near-far", answers.ScalesOf(Works.Demo));
        Assert.NotEmpty(answer.Motion);
        Assert.All(answer.Motion, line => Assert.NotNull(ResultTerms.Of(line.Key)));
        Assert.All(answer.Bars, bar => Assert.NotNull(ResultTerms.Of(bar.Key)));
    }
}
