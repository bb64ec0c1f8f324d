using Halfpin.Reports.Words;
using Halfpin.Workbench.Answers;
using Xunit;

namespace Halfpin.Workbench.Tests;

public class ResultTermTests
{
    public static TheoryData<string> Keys => new(ResultTerms.Keys);

    [Theory]
    [MemberData(nameof(Keys))]
    public void Number_withATerm_isExplainedInTheGlossary(string key) => Assert.NotNull(Glossary.Find(ResultTerms.Of(key)!));

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
