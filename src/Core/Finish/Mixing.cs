using Trimwright.Core.Box;

namespace Trimwright.Core.Finish;

/// <summary>What a mix is measured with: the marks of the maker's syringes, the digits of the maker's scales.</summary>
public static class Mixing
{
    // Marks of a syringe of 10 ml; from memory.
    private const double UsualSyringeStep = 0.2;

    // The digit of a scale for resin where no box names one; from memory.
    private const double UsualDigit = 0.1;

    // An empty mixing cup; from memory.
    private const double Cup = 10;

    /// <summary>The mark that syringes are read by, ml; <paramref name="box"/> null: the usual one.</summary>
    public static double SyringeStepMl(MakersBox? box) => box?.SyringeStepMl ?? UsualSyringeStep;

    /// <summary>The digit of the scale that a mix of so many grams is weighed on, g, its cup with it.</summary>
    public static double ResinDigitG(double grams, MakersBox? box) => Weighing.ScaleFor(grams + Cup, box)?.ResolutionG ?? UsualDigit;
}
