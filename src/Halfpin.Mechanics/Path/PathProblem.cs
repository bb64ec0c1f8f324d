using Halfpin.Mechanics.Contact;
using Halfpin.Mechanics.Geometry;
using Halfpin.Mechanics.Solution;

namespace Halfpin.Mechanics.Path;

/// <summary>
/// The small problem behind a load path: component forces Q = hλ − Mp + DᵀF and site motion d = tλ + Dp + CF, with p the
/// dislocations and F the wrenches of the contacts on all sites, d and F six numbers a site. A workspace.
/// </summary>
internal sealed class PathProblem
{
    /// <summary>
    /// What counts as nothing in a quotient of stiffnesses: a mechanism of dislocations keeps less than this share of its components'
    /// own stiffness. Measured over some 12,000 random frames: mechanisms left 1e-18 to 1e-12, frames that hold 1e-11 and more, and about
    /// one in a hundred of the small quotients between, where the two cannot be told apart. Such a frame would move 1e11 times as far as
    /// its parts give, and is told to give way, perhaps a trifle early.
    /// </summary>
    public const double SingularShare = 1e-11;

    private readonly double[] _load = new double[Six.Count];
    private DislocationResponse _response = null!;

    public PathProblem(int components, int contacts, int sites)
    {
        (Components, Contacts, SiteFreedoms) = (components, contacts, Six.Count * sites);
        Capacity = new double[components];
        (Least, Most) = (new double[components], new double[components]);
        Drive = new double[components];
        DriveSize = new double[components];
        RootOwn = new double[components];
        Normal = new double[SiteFreedoms * contacts];
        SitePerLoad = new double[SiteFreedoms];
        GapMm = new double[contacts];
        ContactNPerMm = new double[contacts];
    }

    public int Components { get; }

    public int Contacts { get; }

    /// <summary>Six for each site.</summary>
    public int SiteFreedoms { get; }

    public double[] Capacity { get; }

    /// <summary>The stop of each component behind, 0 or less.</summary>
    public double[] Least { get; }

    /// <summary>The stop in front, 0 or more.</summary>
    public double[] Most { get; }

    /// <summary>h: component force per unit load factor, all else held; also the load's work per unit dislocation.</summary>
    public double[] Drive { get; }

    /// <summary>What <see cref="Drive"/> is the difference of.</summary>
    public double[] DriveSize { get; }

    /// <summary>Root of each component's own stiffness: brings dislocations of different kinds to one scale.</summary>
    public double[] RootOwn { get; }

    /// <summary>Opening of a contact per unit motion of the sites.</summary>
    public double[] Normal { get; }

    public double[] GapMm { get; }

    public double[] ContactNPerMm { get; }

    /// <summary>t: site motion per unit load factor.</summary>
    public double[] SitePerLoad { get; }

    /// <summary>End motion per unit load factor.</summary>
    public double[] EndPerLoad { get; } = new double[Six.Count];

    public ReadOnlySpan<double> Load => _load;

    public ReadOnlySpan<double> SiteCompliance => _response.SiteCompliance;

    public ReadOnlySpan<double> SiteToEnd => _response.SiteToEnd;

    public ReadOnlySpan<double> StiffnessRow(int component) => _response.Stiffness.AsSpan(component * Components, Components);

    public ReadOnlySpan<double> SiteOf(int component) => _response.SiteMotion.AsSpan(SiteFreedoms * component, SiteFreedoms);

    public ReadOnlySpan<double> EndOf(int component) => _response.EndMotion.AsSpan(Six.Count * component, Six.Count);

    public ReadOnlySpan<double> NormalOf(int contact) => Normal.AsSpan(SiteFreedoms * contact, SiteFreedoms);

    public void Set(DislocationResponse response, ReadOnlySpan<ContactPoint> contacts, in Wrench load)
    {
        _response = response;
        Six.Write(load, _load);
        Array.Clear(SitePerLoad);
        Array.Clear(EndPerLoad);
        Six.AddProduct(response.EndToSite, _load, SitePerLoad);
        Six.AddProduct(response.EndCompliance, _load, EndPerLoad);
        for (int i = 0; i < Components; i++)
        {
            YieldingComponent component = response.YieldingComponents[i];
            (Capacity[i], Least[i], Most[i]) = (component.Capacity, component.LeastMm, component.MostMm);
            RootOwn[i] = Math.Sqrt(response.Own[i]);
            Drive[i] = Six.Dot(_load, EndOf(i));
            Motion m = Six.Motion(EndOf(i));
            DriveSize[i] = (load.ForceN.Length * m.TranslationMm.Length) + (load.MomentNmm.Length * m.RotationRad.Length);
        }

        Array.Clear(Normal);
        for (int k = 0; k < contacts.Length; k++)
        {
            Vec3 n = contacts[k].Normal;
            Six.Write(new Wrench(n, contacts[k].OffsetMm.Cross(n)), Normal.AsSpan((SiteFreedoms * k) + (Six.Count * contacts[k].Site)));
            GapMm[k] = contacts[k].GapMm;
            ContactNPerMm[k] = contacts[k].StiffnessNPerMm;
        }
    }
}
