using System.Collections;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Halfpin.Domain.Validity;

namespace Halfpin.Domain.Cases;

/// <summary>A number of a case, found by its JSON Pointer: reads it and makes cases that differ in it alone.</summary>
public sealed class CaseNumber
{
    // Reflection is slow and a study sets the same members again and again.
    private static readonly ConcurrentDictionary<Type, ImmutableArray<PropertyInfo>> _members = new();
    private static readonly ConcurrentDictionary<(Type Type, string Name), PropertyInfo?> _named = new();
    private static readonly ConcurrentDictionary<(Type Type, string Name), MethodInfo> _methods = new();

    private readonly ImmutableArray<string> _steps;
    private readonly bool _isWhole;

    private CaseNumber(string pointer, ImmutableArray<string> steps, FieldAttribute field, bool isWhole)
    {
        (Pointer, _steps, _isWhole) = (pointer, steps, isWhole);
        (Min, Max) = (double.IsNaN(field.Min) ? double.NegativeInfinity : field.Min, double.IsNaN(field.Max) ? double.PositiveInfinity : field.Max);
    }

    /// <summary>Where it stands (RFC 6901).</summary>
    public string Pointer { get; }

    /// <summary>Least value allowed, in the unit of its name.</summary>
    public double Min { get; }

    /// <summary>Greatest value allowed.</summary>
    public double Max { get; }

    /// <summary>True when it counts something.</summary>
    public bool IsWhole => _isWhole;

    /// <summary>The number at a pointer; null when there is none: no such member, one that is not given, or no number.</summary>
    public static CaseNumber? Find(Case value, string pointer)
    {
        if (pointer.Length < 2 || pointer[0] != '/')
        {
            return null;
        }

        ImmutableArray<string> steps = [.. pointer[1..].Split('/').Select(s => s.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal))];
        object? holder = value;
        FieldAttribute? field = null;
        Type? type = null;
        foreach (string step in steps)
        {
            if (holder is IList list)
            {
                (holder, field) = (IndexIn(list, step) is int i ? list[i] : null, null);
            }
            else if (holder is not null && Member(holder, step) is PropertyInfo member)
            {
                (holder, field, type) = (member.GetValue(holder), member.GetCustomAttribute<FieldAttribute>(), member.PropertyType);
            }
            else
            {
                return null;
            }
        }

        // A version is no quantity, and what is uncertain about an input is no input itself.
        return holder is double or int && field is not null && steps[0] is not ("formatVersion" or "uncertainty")
            ? new(pointer, steps, field, (Nullable.GetUnderlyingType(type!) ?? type) == typeof(int))
            : null;
    }

    /// <summary>The numbers below an object of the case, by pointers from it.</summary>
    /// <param name="holder">A value of the case.</param>
    public static IEnumerable<string> Below(object? holder) => holder switch
    {
        null or string => [],
        IList list => list.Cast<object?>().SelectMany((o, i) => Below(o).Select(p => $"/{i.ToString(CultureInfo.InvariantCulture)}{p}")),
        _ => Members(holder.GetType()).SelectMany(m => m.GetValue(holder) is object child
            ? child is double or int ? [$"/{Name(m)}"] : Below(child).Select(p => $"/{Name(m)}{p}")
            : []),
    };

    /// <summary>Its value in a case that has it.</summary>
    public double Of(Case value)
    {
        object? holder = value;
        foreach (string step in _steps)
        {
            holder = holder is IList list ? list[IndexIn(list, step)!.Value] : Member(holder!, step)!.GetValue(holder);
        }

        return Convert.ToDouble(holder, CultureInfo.InvariantCulture);
    }

    /// <summary>The same case with another value there; a whole number is rounded to.</summary>
    public Case With(Case value, double number) => (Case)With(value, 0, number);

    private object With(object holder, int step, double number)
    {
        if (step == _steps.Length)
        {
            return _isWhole ? (object)(int)Math.Round(number) : number;
        }

        if (holder is IList list)
        {
            int i = IndexIn(list, _steps[step])!.Value;
            return Method(holder, nameof(ImmutableArray<int>.SetItem)).Invoke(holder, [i, With(list[i]!, step + 1, number)])!;
        }

        PropertyInfo member = Member(holder, _steps[step])!;
        object copy = Method(holder, "<Clone>$").Invoke(holder, null)!;
        member.SetValue(copy, With(member.GetValue(holder)!, step + 1, number));
        return copy;
    }

    private static int? IndexIn(IList list, string step) =>
        int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < list.Count && (step.Length == 1 || step[0] != '0') ? i : null;

    private static MethodInfo Method(object holder, string name) => _methods.GetOrAdd((holder.GetType(), name), of => of.Type.GetMethod(of.Name)!);

    private static PropertyInfo? Member(object holder, string name) =>
        _named.GetOrAdd((holder.GetType(), name), of => Members(of.Type).FirstOrDefault(m => Name(m) == of.Name));

    private static ImmutableArray<PropertyInfo> Members(Type type) => _members.GetOrAdd(
        type, of => [.. of.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(m => m.IsDefined(typeof(FieldAttribute)))]);

    private static string Name(PropertyInfo member) => JsonNamingPolicy.CamelCase.ConvertName(member.Name);
}
