using Halfpin.Workbench.Jobs;
using Xunit;

namespace Halfpin.Workbench.Tests.Jobs;

public class CreationKeyTests
{
    private readonly CreationKeys _keys = new();
    private int _created;

    [Fact]
    public void Request_repeatedUnderItsKey_createsOnce()
    {
        Creation first = Ask("k-17", "a"), again = Ask("k-17", "a");

        Assert.Equal((first.Id, true, 1), (again.Id, again.IsRepeat, _created));
    }

    [Fact]
    public void AnotherRequest_underATakenKey_createsNothing()
    {
        Ask("k-17", "a");

        Assert.Equal(new(null, false, true), Ask("k-17", "b"));
        Assert.Equal(1, _created);
    }

    [Fact]
    public void Request_withoutAKey_createsEachTime()
    {
        Ask(null, "a");
        Ask(null, "a");

        Assert.Equal(2, _created);
    }

    [Fact]
    public void Request_whoseCreationIsGone_createsAgain()
    {
        Ask("k-17", "a");
        Creation again = _keys.Once("k-17", "b", _ => false, Create);

        Assert.Equal((2, false), (_created, again.IsTaken));
    }

    [Fact]
    public void Request_thatCreatedNothing_mayTryAgainUnderItsKey()
    {
        Assert.Null(_keys.Once("k-17", "a", _ => true, () => null).Id);
        Assert.NotNull(Ask("k-17", "a").Id);
    }

    [Fact]
    public void Keys_ofLongAgo_areForgotten()
    {
        for (int i = 0; i < 300; i++)
        {
            Ask($"k-{i}", "a");
        }

        Assert.False(Ask("k-0", "a").IsRepeat);
        Assert.True(Ask("k-299", "a").IsRepeat);
    }

    [Fact]
    public void Requests_atOnceUnderOneKey_createOnce()
    {
        Parallel.For(0, 40, _ => Ask("k-17", "a"));

        Assert.Equal(1, _created);
    }

    private Creation Ask(string? key, string request) => _keys.Once(key, request, _ => true, Create);

    private string Create() => $"id-{Interlocked.Increment(ref _created)}";
}
