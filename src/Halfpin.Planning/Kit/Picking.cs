namespace Halfpin.Planning.Kit;

/// <summary>Gives each need an item of a stock, as many needs as can be met at once.</summary>
internal static class Picking
{
    /// <summary>The item for each need, −1 where none is left.</summary>
    /// <param name="needs">Number of needs, the hardest to meet first.</param>
    /// <param name="quantities">How many there are of each item.</param>
    /// <param name="rank">How well an item meets a need, the lower the better; null when it does not.</param>
    /// <remarks>Augmenting paths (bipartite matching), so a shortage is never the fault of an unlucky order.</remarks>
    public static int[] Pick(int needs, int[] quantities, Func<int, int, double?> rank)
    {
        int[][] choices = [.. Enumerable.Range(0, needs).Select(n => Enumerable.Range(0, quantities.Length)
            .Select(i => (Item: i, Rank: rank(n, i))).Where(c => c.Rank is not null && quantities[c.Item] > 0).OrderBy(c => c.Rank).Select(c => c.Item).ToArray())];
        int[] picked = [.. Enumerable.Repeat(-1, needs)];
        List<int>[] holders = [.. quantities.Select(_ => new List<int>())];
        for (int n = 0; n < needs; n++)
        {
            Place(n, new bool[quantities.Length]);
        }

        return picked;

        bool Place(int need, bool[] seen)
        {
            foreach (int item in choices[need].Where(i => !seen[i]))
            {
                seen[item] = true;
                if (holders[item].Count < quantities[item])
                {
                    Take(need, item);
                    return true;
                }

                foreach (int other in holders[item].ToArray())
                {
                    // The other moves away first; only then is there room.
                    if (Place(other, seen))
                    {
                        holders[item].Remove(other);
                        Take(need, item);
                        return true;
                    }
                }
            }

            return false;
        }

        void Take(int need, int item)
        {
            holders[item].Add(need);
            picked[need] = item;
        }
    }
}
