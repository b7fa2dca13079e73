using Trimwright.Core.Carving;

namespace Trimwright.Drawing.Sheets;

/// <summary>Words that several sheets say alike.</summary>
internal static class SheetWords
{
    public static string Of(Cutter cutter) => cutter switch
    {
        Cutter.FlatBit => "flat bit",
        Cutter.RoundNose => "round nose",
        Cutter.Chisel => "chisel",
    };

    public static string Of(WhichHalf half) => half == WhichHalf.Left ? "left" : "right";
}
