using Halfpin.Domain.Assessments;
using Xunit;

namespace Halfpin.Domain.Tests;

public class SafetyTests
{
    [Theory]
    [InlineData("not a medical device")]
    [InlineData("Local protocol")]
    [InlineData("licensed clinical judgement")]
    [InlineData("never issues an allowed load")]
    public void Note_saysWhatItMust(string words) => Assert.Contains(words, Safety.Note, StringComparison.Ordinal);
}
