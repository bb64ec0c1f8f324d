namespace Halfpin.Web.Api.Description;

/// <summary>The short case that the document shows as an example; invented.</summary>
internal static class ExampleBody
{
    public const string Json = """
        {
          "format": "halfpin-case", "formatVersion": 1, "title": "Invented example",
          "limb": { "bone": "tibia", "side": "left", "lengthMm": 352, "patientMassKg": 68, "boneModel": { "kind": "anatomical" } },
          "fractures": [ { "levelMm": 205, "gapMm": 3, "pattern": "oblique", "tiltDeg": 25, "tiltAzimuthDeg": -60 } ],
          "loading": { "allowedKg": 5 },
          "frames": [
            { "id": "near-far", "construct": { "kind": "single-rod", "placement": "near-far", "nearMm": 35, "farMm": 95,
              "azimuthDeg": 50, "standoffMm": 52, "pin": { "diameterMm": 5, "material": "steel" }, "rod": { "diameterMm": 11, "material": "carbon" } } }
          ]
        }
        """;
}
