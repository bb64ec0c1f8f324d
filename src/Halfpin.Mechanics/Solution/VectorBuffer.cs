using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Halfpin.Mechanics.Solution;

/// <summary>Doubles whose rows of eight start on 64-byte boundaries: a row is then one cache line and one vector access.</summary>
internal sealed class VectorBuffer
{
    private const int Line = 64;
    private readonly double[] _array;
    private readonly int _offset;

    public VectorBuffer(int length)
    {
        Length = length;

        // Pinned, so that the boundary found once stays where it is.
        _array = GC.AllocateArray<double>(length + (Line / sizeof(double)), pinned: true);
        long address = Marshal.UnsafeAddrOfPinnedArrayElement(_array, 0);
        _offset = (int)((Line - (address % Line)) % Line / sizeof(double));
    }

    public int Length { get; }

    public Span<double> Span => _array.AsSpan(_offset, Length);

    public ref double Origin => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_array), _offset);

    public ref double this[int index] => ref _array[_offset + index];
}
