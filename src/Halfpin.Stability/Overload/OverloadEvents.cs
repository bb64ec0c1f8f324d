using System.Globalization;
using Halfpin.Domain.Assessments;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Path;
using Halfpin.Stability.Demand;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Overload;

/// <summary>The events of an overload path in their order and in words.</summary>
internal sealed class OverloadEvents(OverloadPath path, FrameData data)
{
    /// <summary>All events with their places on the path, in their order.</summary>
    public IEnumerable<(double Position, OverloadEvent Event)> InOrder() => Placed().Concat(Limits()).OrderBy(e => e.Position);

    /// <summary>Which clamps give way, for a sentence.</summary>
    public string Giving() => Phrases(path.GivingComponents.ToArray());

    /// <summary>A fracture's name.</summary>
    public string Fracture(int fracture) => path.Fractures == 1 ? "fracture" : $"fracture {fracture + 1}";

    /// <summary>A load for a sentence.</summary>
    public static string Load(double loadN) =>
        string.Create(CultureInfo.InvariantCulture, $"{loadN:0} N ({loadN / Loading.NewtonPerKg:0.#} kg)");

    private static string Load(double loadN, bool back) => Load(loadN) + (back ? " as the load comes off" : "");

    private List<(double Position, OverloadEvent Event)> Placed()
    {
        List<(double, OverloadEvent)> events = [];
        HashSet<int>[] closedAt = [.. Enumerable.Range(0, path.Fractures).Select(_ => new HashSet<int>())];
        foreach (PathEvent e in path.Events)
        {
            int fracture = e.Kind is PathEventKind.Close or PathEventKind.Open ? path.FractureOf(e.Index) : 0;
            HashSet<int> closed = closedAt[fracture];
            bool bore = closed.Count > 0;
            if (e.Kind == PathEventKind.Close)
            {
                closed.Add(e.Index);
            }
            else if (e.Kind == PathEventKind.Open)
            {
                closed.Remove(e.Index);
            }

            bool back = e.Point >= path.Turn;
            string load = Load(e.LoadFactor, back);
            if (e.Kind == PathEventKind.Slip)
            {
                DemandItem item = Item(e.Index);
                events.Add((e.Point, new(e.LoadFactor, OverloadEventKind.Slip, DemandWords.Part(item, data), $"Slip begins at {load}: {DemandWords.Phrase(item, data)}.", back)));
            }
            else if (e.Kind == PathEventKind.Plateau)
            {
                DemandItem item = Item(e.Index);
                events.Add((e.Point, new(e.LoadFactor, OverloadEventKind.Slip, DemandWords.Part(item, data),
                    $"The frame gives way at {load} until {Stopping(e.Point + 1)}: {DemandWords.Phrase(item, data)}.", back)));
            }
            else if (e.Kind is PathEventKind.Stop or PathEventKind.Leave)
            {
                int clamp = path.Components[e.Index].Clamp;
                string does = e.Kind == PathEventKind.Stop ? "reaches" : "leaves";
                events.Add((e.Point, new(e.LoadFactor, OverloadEventKind.Stop, data.ClampParts[clamp].Id,
                    $"Clamp {data.ClampParts[clamp].Id} {does} {StopOf(clamp, path.DislocationAt(e.Point, e.Index))} on {data.ClampParts[clamp].Rod} at {load}.", back)));
            }
            else if (bore != closed.Count > 0)
            {
                events.Add((e.Point, new(e.LoadFactor, OverloadEventKind.Contact, Fracture(fracture), bore ? $"The bone ends{Where(fracture)} come apart at {load}." : $"The bone ends{Where(fracture)} touch at {load}.", back)));
            }
        }

        return events;
    }

    // What ends a run under a constant load.
    private string Stopping(int corner)
    {
        bool bone = false, stop = false;
        foreach (PathEvent e in path.Events)
        {
            bone |= e.Point == corner && e.Kind == PathEventKind.Close;
            stop |= e.Point == corner && e.Kind == PathEventKind.Stop;
        }

        return bone && stop ? "bone and a clamp's stop hold it" : stop ? "a clamp's stop holds it" : "bone stops it";
    }

    // Where it started, a one-way clamp stands on its way's end and not on the stop in front.
    private string StopOf(int clamp, double slidMm) =>
        data.ClampParts[clamp].OneWay && slidMm == 0 ? "its start, the end of its one way," : "its stop";

    // The first place at which each pin or rod reaches its limit stress, and each pin the bone's strength.
    private IEnumerable<(double Position, OverloadEvent Event)> Limits()
    {
        (Limit Limit, int Part)[] all = [.. path.DemandAt(0).ToArray()
            .Where(i => i.Limit is Limit.PinYield or Limit.RodYield or Limit.BoneBearing).Select(i => (i.Limit, i.Part))];
        foreach ((Limit limit, int part) in all)
        {
            if (path.FirstReach(position => Find(position).Value, 1) is double at)
            {
                DemandItem item = Find(at);
                double loadN = path.LoadN(at);
                bool back = at > path.Turn;
                string load = Load(loadN, back), where = DemandWords.Phrase(item, data);
                yield return (at, limit == Limit.BoneBearing
                    ? new(loadN, OverloadEventKind.Bearing, DemandWords.Part(item, data), $"Pressure on bone reaches its strength at {load}: {where}.", back)
                    : new(loadN, OverloadEventKind.Yield, DemandWords.Part(item, data), $"Yield begins at {load}: {where}.", back));
            }

            DemandItem Find(double position)
            {
                foreach (DemandItem item in path.DemandAt(position))
                {
                    if (item.Limit == limit && item.Part == part)
                    {
                        return item;
                    }
                }

                throw new InvalidOperationException("Parts do not change along a path.");
            }
        }
    }

    private string Where(int fracture) => path.Fractures == 1 ? "" : $" at fracture {fracture + 1}";

    private string Phrases(int[] components) => string.Join(", ", components.Select(i => DemandWords.Phrase(Item(i), data)));

    private DemandItem Item(int component) =>
        new(path.Components[component].Limit, path.Components[component].Clamp, DemandPlace.AtClamp, path.Components[component].Clamp, 1);
}
