using System.Collections;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;

namespace Halfpin.Workbench.Fields;

/// <summary>
/// The way to a member of a case by its JSON Pointer. Unlike a number of a study the member need not be given: an object that is left out
/// and needs nothing is taken as a blank one.
/// </summary>
internal sealed class CasePath
{
    private readonly ImmutableArray<string> _steps;

    private CasePath(ImmutableArray<string> steps, PropertyInfo member, object holder) => (_steps, Member, Holder) = (steps, member, holder);

    /// <summary>The member.</summary>
    public PropertyInfo Member { get; }

    /// <summary>The object that has it, or a blank one.</summary>
    public object Holder { get; }

    /// <summary>The way to a member; null when the case has no such place.</summary>
    public static CasePath? Find(Case value, string pointer)
    {
        if (pointer.Length < 2 || pointer[0] != '/')
        {
            return null;
        }

        ImmutableArray<string> steps = [.. pointer[1..].Split('/')];
        object? holder = value;
        for (int i = 0; i < steps.Length; i++)
        {
            if (holder is IList list)
            {
                if (IndexIn(list, steps[i]) is not int at)
                {
                    return null;
                }

                holder = list[at];
            }
            else if (holder is null || MemberOf(holder.GetType(), steps[i]) is not PropertyInfo member)
            {
                return null;
            }
            else if (i == steps.Length - 1)
            {
                return new(steps, member, holder);
            }
            else
            {
                holder = member.GetValue(holder) ?? Blank(member.PropertyType);
            }
        }

        return null;
    }

    /// <summary>The member's value in a case; null when it is not given.</summary>
    public object? Of(Case value)
    {
        object? holder = value;
        foreach (string step in _steps)
        {
            holder = holder is IList list ? (IndexIn(list, step) is int i ? list[i] : null) : holder is null ? null : MemberOf(holder.GetType(), step)?.GetValue(holder);
        }

        return holder;
    }

    /// <summary>The same case with another value there.</summary>
    public Case With(Case value, object? member) => (Case)With(value, 0, member)!;

    /// <summary>What a member is when a file leaves it out; null when it must be given.</summary>
    public static object? DefaultOf(PropertyInfo member, Type holder) =>
        member.IsDefined(typeof(RequiredMemberAttribute)) ? null : member.GetValue(Activator.CreateInstance(holder));

    private object? With(object? holder, int step, object? value)
    {
        if (step == _steps.Length)
        {
            return value;
        }

        if (holder is IList list)
        {
            int i = IndexIn(list, _steps[step])!.Value;
            return holder.GetType().GetMethod(nameof(ImmutableArray<int>.SetItem))!.Invoke(holder, [i, With(list[i], step + 1, value)]);
        }

        PropertyInfo member = MemberOf(holder!.GetType(), _steps[step])!;
        object? child = member.GetValue(holder);
        if (step < _steps.Length - 1)
        {
            child ??= Blank(member.PropertyType);
        }

        object copy = holder.GetType().GetMethod("<Clone>$")!.Invoke(holder, null)!;
        member.SetValue(copy, With(child, step + 1, value));
        return copy;
    }

    // An object that may be left out, when nothing in it must be given.
    private static object? Blank(Type type) =>
        type.IsClass && !type.IsAbstract && type != typeof(string) && type.GetProperties().All(p => !p.IsDefined(typeof(RequiredMemberAttribute))) ? Activator.CreateInstance(type) : null;

    private static int? IndexIn(IList list, string step) =>
        int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < list.Count ? i : null;

    private static PropertyInfo? MemberOf(Type type, string name) => type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
        .FirstOrDefault(m => m.IsDefined(typeof(FieldAttribute)) && JsonNamingPolicy.CamelCase.ConvertName(m.Name) == name);
}
