using System.Runtime.CompilerServices;
using Halfpin.Mechanics.Contact;

namespace Halfpin.Stability.Movement;

/// <summary>A number for each limited slide, held in place so that loads cost no allocation.</summary>
[InlineArray(SiteEquilibrium.MaxStiffSlides)]
internal struct PerSlide
{
    private double _first;
}
