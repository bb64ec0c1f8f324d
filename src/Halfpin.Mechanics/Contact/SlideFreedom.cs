namespace Halfpin.Mechanics.Contact;

/// <summary>A motion of the frame that meets no resistance, as the sites see it.</summary>
/// <param name="SiteMotion">
/// Relative motion of the faces per unit of the slide: ux, uy, uz (mm), rx, ry, rz (rad), site after site.
/// </param>
/// <param name="Drive">Work that the applied loads do per unit of the slide, N·mm per unit.</param>
public readonly record struct SlideFreedom(double[] SiteMotion, double Drive);
