using Halfpin.Anatomy.Bones;
using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Members;
using Halfpin.Stability.Idealisation;

namespace Halfpin.Stability.Variants;

/// <summary>A limb's bone with its wall and its moduli varied. A workspace: what was made for the last ones is found again, as the same object.</summary>
internal sealed class VariedBones
{
    // A sampled study goes to and fro between two walls.
    private const int Kept = 2;

    private readonly Walled?[] _walls = new Walled?[Kept];
    private Limb? _limb;
    private BeamTheory _theory;
    private int _next;

    /// <summary>Takes a bone over whose flexibility others have tabulated.</summary>
    public void Share(Limb limb, BeamTheory theory, BoneFlexibility flexibility)
    {
        (_limb, _theory) = (limb, theory);
        _walls[0] = new(1, BoneShape.For(limb), flexibility);
    }

    /// <summary>Finds or makes a bone.</summary>
    /// <param name="limb">Whose it is.</param>
    /// <param name="theory">With or without shear.</param>
    /// <param name="wallShare">Its wall, of the model's.</param>
    /// <param name="moduliShare">Both moduli, of the model's.</param>
    public (BoneShape Shape, BoneFlexibility Flexibility) Of(Limb limb, BeamTheory theory, double wallShare, double moduliShare)
    {
        if (!ReferenceEquals(limb, _limb) || theory != _theory)
        {
            (_limb, _theory) = (limb, theory);
            Array.Clear(_walls);
        }

        Walled? walled = Array.Find(_walls, w => w?.WallShare == wallShare);
        if (walled is null)
        {
            BoneShape shape = BoneShape.For(limb, wallShare);
            _walls[_next++ % Kept] = walled = new(wallShare, shape, new(shape, theory));
        }

        return walled.With(moduliShare);
    }

    // A bone of one wall, with the moduli it was last asked for with.
    private sealed class Walled(double wallShare, BoneShape shape, BoneFlexibility flexibility)
    {
        private double _moduliShare = double.NaN;
        private (BoneShape Shape, BoneFlexibility Flexibility) _stiffened;

        public double WallShare => wallShare;

        public (BoneShape Shape, BoneFlexibility Flexibility) With(double moduliShare)
        {
            if (moduliShare == 1)
            {
                return (shape, flexibility);
            }

            if (moduliShare != _moduliShare)
            {
                (_moduliShare, _stiffened) = (moduliShare, (new RetissuedShape(shape, Stiffened(shape.Tissue, moduliShare)), flexibility.Stiffened(moduliShare)));
            }

            return _stiffened;
        }

        private static BoneTissue Stiffened(BoneTissue tissue, double share) =>
            tissue with { YoungsModulusMPa = share * tissue.YoungsModulusMPa, ShearModulusMPa = share * tissue.ShearModulusMPa };
    }
}
