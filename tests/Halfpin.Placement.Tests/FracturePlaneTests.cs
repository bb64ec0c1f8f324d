using Halfpin.Domain.Cases;
using Halfpin.Mechanics.Geometry;
using Xunit;

namespace Halfpin.Placement.Tests;

public class FracturePlaneTests
{
    // By hand: a plane tilted 25° toward azimuth 0 lies 30·tan 25° = 13.989 mm lower 30 mm in front of the axis.
    [Fact]
    public void DistalMm_pointInFrontOfATiltedPlane_countsAlongTheAxis()
    {
        Fracture fracture = new() { LevelMm = 205, GapMm = 3, Pattern = FracturePattern.Oblique, TiltDeg = 25, TiltAzimuthDeg = 0 };

        Assert.Equal(211 - 205 - 13.989, FracturePlane.DistalMm(fracture, new Vec3(30, 7, -211)), 0.001);
    }
}
