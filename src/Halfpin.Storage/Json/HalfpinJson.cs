using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Halfpin.Domain.Cases;
using Halfpin.Domain.Frames;
using Halfpin.Domain.Modelling;
using Halfpin.Domain.Stocks;

namespace Halfpin.Storage.Json;

/// <summary>How the domain's values are written as JSON: the one place that knows.</summary>
public static class HalfpinJson
{
    /// <summary>Name of the member that tells which kind of value an object is.</summary>
    public const string Discriminator = "kind";

    /// <summary>Deepest nesting accepted.</summary>
    public const int MaxDepth = 32;

    private static readonly ImmutableDictionary<Type, (Type Type, string Kind)[]> _kinds = new Dictionary<Type, (Type, string)[]>
    {
        [typeof(BoneModel)] = [(typeof(AnatomicalBone), "anatomical"), (typeof(TubeBone), "tube")],
        [typeof(Construct)] = [(typeof(SingleRod), "single-rod"), (typeof(DoubleRod), "double-rod"), (typeof(TwoPlane), "two-plane")],
        [typeof(PinFixity)] = [(typeof(FoundationFixity), "foundation"), (typeof(FixedAtSurface), "fixedAtSurface")],
        [typeof(ClampModel)] = [(typeof(SpringClamp), "spring"), (typeof(RigidClamp), "rigid")],
        [typeof(StockItem)] = [(typeof(StockPin), "pin"), (typeof(StockRod), "rod"), (typeof(StockClamp), "clamp"), (typeof(StockTool), "tool")],
    }.ToImmutableDictionary();

    /// <summary>The options for reading and writing.</summary>
    public static JsonSerializerOptions Options { get; } = Create();

    private static JsonSerializerOptions Create()
    {
        JsonSerializerOptions options = new()
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Skip, // The schema reports unknown members, all of them.
            AllowOutOfOrderMetadataProperties = true,
            RespectNullableAnnotations = true,
            NumberHandling = JsonNumberHandling.Strict,
            WriteIndented = true,
            MaxDepth = MaxDepth,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, // Files are UTF-8 and never embedded in pages unescaped.
            Converters =
            {
                new JsonStringEnumConverter<PinPlacement>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false),
                new JsonStringEnumConverter<OpenFractureGrade>(namingPolicy: null, allowIntegerValues: false),
                new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false),
            },
            TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { AddKinds, LeaveNotes } },
        };
        options.MakeReadOnly();
        return options;
    }

    // Notes may be any JSON, so they are no member with a type: the reader takes them from the document.
    private static void LeaveNotes(JsonTypeInfo info)
    {
        if (info.Type == typeof(Case) && info.Properties.FirstOrDefault(p => p.Name == "notes") is JsonPropertyInfo notes)
        {
            info.Properties.Remove(notes);
        }
    }

    private static void AddKinds(JsonTypeInfo info)
    {
        if (_kinds.TryGetValue(info.Type, out (Type Type, string Kind)[]? kinds))
        {
            info.PolymorphismOptions = new() { TypeDiscriminatorPropertyName = Discriminator };
            foreach ((Type type, string kind) in kinds)
            {
                info.PolymorphismOptions.DerivedTypes.Add(new(type, kind));
            }
        }
    }
}
