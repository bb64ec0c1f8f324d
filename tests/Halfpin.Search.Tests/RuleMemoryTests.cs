using System.Collections.Immutable;
using Xunit;

namespace Halfpin.Search.Tests;

public class RuleMemoryTests
{
    [Fact]
    public void Memory_askedForMoreThanItHolds_staysBoundedAndAnswersTheSame()
    {
        RuleMemory memory = new(17);
        for (int i = 0; i < 4001; i++)
        {
            string rule = $"rule {i * 7 % 53}";
            Assert.Equal([rule], memory.Of(i * 7 % 53, () => [rule]));
            Assert.InRange(memory.Count, 1, 17);
        }
    }

    [Fact]
    public void Memory_askedAgain_judgesOnce()
    {
        RuleMemory memory = new(17);
        int judged = 0;
        ImmutableArray<string> Judge()
        {
            judged++;
            return ["corridor"];
        }

        memory.Of((3, 41.5), Judge);

        Assert.Equal(["corridor"], memory.Of((3, 41.5), Judge));
        Assert.Equal(1, judged);
    }
}
