using System.Collections;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Validity;
using Halfpin.Workbench.Documents;

namespace Halfpin.Workbench.Fields;

/// <summary>
/// A member of a case as a field of a form: its name, unit, meaning, range and default, what it is now, and the change that a text typed
/// into it makes. All of it follows from the member itself.
/// </summary>
public sealed class CaseField
{
    private const string Yes = "yes";
    private const string No = "no";

    private readonly CasePath _path;
    private readonly Type _type;
    private readonly FieldAttribute _field;
    private readonly string _subject;

    private CaseField(Case value, string pointer, CasePath path)
    {
        PropertyInfo member = path.Member;
        Type holder = path.Holder.GetType();
        (Pointer, _path, _field) = (pointer, path, member.GetCustomAttribute<FieldAttribute>()!);
        _type = Nullable.GetUnderlyingType(member.PropertyType) ?? member.PropertyType;
        MayBeEmpty = Nullable.GetUnderlyingType(member.PropertyType) is not null;
        Default = CasePath.DefaultOf(member, holder);
        Label = FieldNames.Label(member.DeclaringType!, member.Name);
        Unit = IsNumber ? FieldNames.Unit(member.Name) : "";
        _subject = Subject(value, pointer.Split('/'));
    }

    /// <summary>Where it stands (RFC 6901).</summary>
    public string Pointer { get; }

    /// <summary>Its name for people.</summary>
    public string Label { get; }

    /// <summary>Its unit; empty when it has none.</summary>
    public string Unit { get; }

    /// <summary>What it means.</summary>
    public string Help => _field.Meaning;

    /// <summary>How it is filled in.</summary>
    public FieldKind Kind => IsNumber ? FieldKind.Number : _type == typeof(string) ? FieldKind.Text : _type.IsGenericType ? FieldKind.Choices : FieldKind.Choice;

    /// <summary>True when it may be left empty, for not given.</summary>
    public bool MayBeEmpty { get; }

    /// <summary>What it is when it is left out; null when it must be given, or when to leave it out means not given.</summary>
    public object? Default { get; }

    /// <summary>The default as text with its unit; empty when there is none.</summary>
    public string DefaultText => Default is null ? "" : WithUnit(TextFor(Default));

    /// <summary>The values allowed in words: "150 to 600 mm"; empty for no limits.</summary>
    public string RangeText => !IsNumber || double.IsNaN(_field.Min) || double.IsNaN(_field.Max) ? "" : WithUnit($"{Say(_field.Min)} to {Say(_field.Max)}");

    /// <summary>The choices, in their order; a field that may be empty has one for that, last.</summary>
    public ImmutableArray<FieldChoice> Choices =>
    [
        .. ChoiceType is Type choice && choice.IsEnum ? Enum.GetValues(choice).Cast<Enum>().Select(e => new FieldChoice(e.ToString(), FieldNames.Choice(e)))
            : _type == typeof(bool) ? [new(Yes, "yes"), new(No, "no")] : Array.Empty<FieldChoice>(),
        .. Kind == FieldKind.Choice && MayBeEmpty ? [new FieldChoice("", "not recorded")] : Array.Empty<FieldChoice>(),
    ];

    private bool IsNumber => _type == typeof(double) || _type == typeof(int);

    private Type? ChoiceType => Kind == FieldKind.Choices ? _type.GetGenericArguments()[0] : Kind == FieldKind.Choice ? _type : null;

    /// <summary>The field at a pointer; null when the case has no such member or it is none that a form can show.</summary>
    public static CaseField? Find(Case value, string pointer)
    {
        if (CasePath.Find(value, pointer) is not CasePath path)
        {
            return null;
        }

        Type type = Nullable.GetUnderlyingType(path.Member.PropertyType) ?? path.Member.PropertyType;
        bool shown = type == typeof(double) || type == typeof(int) || type == typeof(bool) || type == typeof(string) || type.IsEnum
            || (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>) && type.GetGenericArguments()[0] is { } of && (of.IsEnum || of == typeof(string)));
        return shown && pointer is not ("/format" or "/formatVersion") ? new(value, pointer, path) : null;
    }

    /// <summary>What stands in the field: a number or text, or the key of a choice; empty when it is not given.</summary>
    public string TextOf(Case value) => _path.Of(value) is object now ? KeyFor(now) : "";

    /// <summary>What it is now in words, with its unit; empty when it is not given.</summary>
    public string WordsOf(Case value) => _path.Of(value) is object now ? WithUnit(TextFor(now)) : "";

    /// <summary>True when a choice is among those taken.</summary>
    public bool Holds(Case value, string key) => Taken(value).Contains(key);

    /// <summary>Reads what was typed, or the key of a choice.</summary>
    public FieldReading Read(string? typed)
    {
        string text = (typed ?? "").Trim();
        return Kind switch
        {
            FieldKind.Number => ReadNumber(text),
            FieldKind.Text => new(To(text, text), null),
            FieldKind.Choice => ReadChoice(text),
            _ => throw new InvalidOperationException($"{Pointer} takes several choices."),
        };
    }

    /// <summary>Takes one of several choices, or takes it back.</summary>
    /// <param name="key">The choice: for a list of texts, any text.</param>
    /// <param name="taken">Whether it is to be among those taken.</param>
    public CaseEdit Choose(string key, bool taken)
    {
        string words = Choices.FirstOrDefault(c => c.Key == key)?.Words ?? key;
        return new($"{Lower(Label)}: {words}{(taken ? "" : ", taken back")}", value =>
        {
            string[] keys = [.. Taken(value).Where(k => k != key), .. taken ? [key] : Array.Empty<string>()];
            return _path.With(value, ChoiceType!.IsEnum ? InOrder(keys) : keys.ToImmutableArray());
        });
    }

    private FieldReading ReadNumber(string text)
    {
        if (text.Length == 0)
        {
            return MayBeEmpty ? new(new($"{_subject}{Lower(Label)} left open", c => _path.With(c, null)), null)
                : Default is object usual ? new(To(usual, $"{DefaultText}, as usual"), null)
                : Wrong(FaultCodes.Missing, $"{Label} is needed.", "Type a number.");
        }

        string bare = Unit.Length > 0 && text.EndsWith(Unit, StringComparison.OrdinalIgnoreCase) ? text[..^Unit.Length] : text;
        return NumberText.Read(bare) is not double number ? Wrong(FaultCodes.Type, $"“{text}” is no number.", "Type digits; a comma or a point, and sums such as 180+25, will do.")
            : _type == typeof(int) && number != Math.Round(number) ? Wrong(FaultCodes.Type, $"“{text}” is no whole number.", "Type a whole number.")
            : number < _field.Min || number > _field.Max ? Wrong(FaultCodes.Range, $"{WithUnit(Say(number))} is {(number < _field.Min ? "too little" : "too much")}.", "Check the number and its unit.")
            : new(To(_type == typeof(int) ? (int)number : number, WithUnit(Say(number))), null);
    }

    private FieldReading ReadChoice(string key) =>
        key.Length == 0 && MayBeEmpty ? new(new($"{_subject}{Lower(Label)} not recorded", c => _path.With(c, null)), null)
        : Choices.FirstOrDefault(c => c.Key == key) is not FieldChoice choice ? Wrong(FaultCodes.Choice, $"“{key}” is not among the choices.", "Take one of them.")
        : new(To(_type == typeof(bool) ? key == Yes : Enum.Parse(_type, key), choice.Words), null);

    private CaseEdit To(object value, string words) => new($"{_subject}{Lower(Label)}{(IsNumber ? "" : ":")} {words}", c => _path.With(c, value));

    private FieldReading Wrong(string code, string message, string attempt) => new(null, new(Pointer, code, message,
        RangeText.Length > 0 ? $"{RangeText}." : Choices.Length > 0 ? string.Join(", ", Choices.Select(c => c.Words)) + "." : "A number.", attempt));

    private IEnumerable<string> Taken(Case value) => _path.Of(value) is IList list ? list.Cast<object>().Select(o => o.ToString()!) : [];

    // As the choices stand, so that the order of clicks leaves no trace in the file.
    private object InOrder(string[] keys)
    {
        Type type = ChoiceType!;
        Array chosen = Array.CreateInstance(type, keys.Length);
        int i = 0;
        foreach (Enum choice in Enum.GetValues(type).Cast<Enum>().Where(c => keys.Contains(c.ToString())))
        {
            chosen.SetValue(choice, i++);
        }

        return typeof(ImmutableArray).GetMethods().First(m => m.Name == nameof(ImmutableArray.Create) && m.GetParameters() is [{ ParameterType.IsArray: true }])
            .MakeGenericMethod(type).Invoke(null, [chosen])!;
    }

    private static string KeyFor(object value) => value switch
    {
        bool b => b ? Yes : No,
        double or int => NumberText.Write(Convert.ToDouble(value, CultureInfo.InvariantCulture)),
        _ => value.ToString()!,
    };

    private static string TextFor(object value) => value is Enum choice ? FieldNames.Choice(choice) : value is IList list ? string.Join(", ", list.Cast<object>().Select(TextFor)) : value is double number ? Say(number) : KeyFor(value);

    // With a true minus sign, as it reads in a sentence.
    private static string Say(double number) => NumberText.Write(number).Replace('-', '−');

    private string WithUnit(string text) => Unit switch
    {
        "" => text,
        "°" => $"{text}°",
        _ => $"{text} {Unit}",
    };

    // What the member belongs to, where its own name leaves that open.
    private static string Subject(Case value, string[] steps) => steps switch
    {
        [_, "fractures", string i, _] => Numbered("fracture", i, value.Fractures.Length),
        [_, "wounds", string i, _] => Numbered("wound", i, value.Wounds.Length),
        [_, "plannedIncisions", string i, _] => Numbered("incision", i, value.PlannedIncisions.Length),
        [_, "healing", "weeks", string i, not "week"] => $"week {NumberText.Write(value.Healing.Weeks[int.Parse(i, CultureInfo.InvariantCulture)].Week)}, ",
        _ => "",
    };

    private static string Numbered(string name, string index, int count) =>
        count > 1 ? $"{name} {(int.Parse(index, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture)}, " : $"{name}, ";

    // Abbreviations keep their capitals.
    private static string Lower(string label) => label.Length > 1 && char.IsUpper(label[1]) ? label : char.ToLowerInvariant(label[0]) + label[1..];
}
