using System.Collections;
using System.Reflection;
using System.Text;
using Trimwright.Core;
using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Shape;
using Trimwright.Core.Water;

namespace Trimwright.Tests.Design;

/// <summary>
/// What must hold of any bytes at all: they are read and predicted with finite numbers everywhere and a weight above
/// zero at every stage, or refused with faults that say kind, got, allowed and next; never an exception, never for ever, and never with
/// much more room than the file itself takes.
/// </summary>
internal static class Examiner
{
    private static readonly Circumstances[] Asked =
    [
        new(Stage.Finished, Rig.Rigged, WaterState.Ocean) { Mesh = MeshSize.Coarse },
        new(Stage.Glued, Rig.StandIns, WaterState.Tap) { Mesh = MeshSize.Coarse },
        new(Stage.Finished, Rig.Bare, WaterState.Lake) { Mesh = MeshSize.Coarse },
    ];

    /// <summary>What became of one file.</summary>
    public sealed record Outcome(bool Accepted, string? Complaint, double Room, IReadOnlyList<Fault> Faults);

    // Bytes that reading may take for one of the file's, and for the geometry of any. What makes something of each value takes fifty for one.
    private const double MostRoom = 12, RoomAnyway = 8_000_000;

    /// <summary>Examines a file on a thread of its own, so that a loop without end is a finding like any other.</summary>
    public static Outcome Examine(byte[] file, int salt = 0, MeshSize? mesh = null)
    {
        Outcome? outcome = null;
        var thread = new Thread(() => outcome = Look(file, salt, mesh), 16 << 20) { IsBackground = true };
        thread.Start();
        return thread.Join(Patience.ForAHang) && outcome is not null ? outcome : new(true, $"not done after {Patience.ForAHang}", 0, []);
    }

    private static Outcome Look(byte[] file, int salt, MeshSize? mesh)
    {
        double room = 0;
        try
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            Reading<LureDesign> reading = LureFile.Read(file);
            room = GC.GetAllocatedBytesForCurrentThread() - before;
            string? complaint = Faulty(reading);
            if (room > MostRoom * file.Length + RoomAnyway) complaint ??= $"took {room} bytes to read";
            if (complaint is null && reading.Value is { } design)
            {
                Circumstances asked = Asked[salt % Asked.Length];
                complaint = Predicted(design, mesh is { } m ? asked with { Mesh = m } : asked);
                complaint ??= Stages(design);
            }
            return new(reading.IsSound, complaint, room, reading.Faults);
        }
        catch (Exception e)
        {
            return new(false, e.ToString(), room, []);
        }
    }

    private static string? Faulty(Reading<LureDesign> reading)
    {
        if (reading.IsSound != reading.Faults.IsEmpty) return "neither sound nor faulty";
        foreach (Fault f in reading.Faults)
        {
            if (f.Kind.Length == 0 || f.Got.Length == 0 || f.Allowed.Length == 0 || f.Next.Length == 0) return $"a fault that lacks something: {f}";
            if (f.Path.Length > 600 || f.Got.Length > 600 || f.Allowed.Length > 600) return $"a fault that goes on and on: {f}";
            if (f.ToString().Any(char.IsControl)) return $"a fault with control characters: {f.Path}";
        }
        return null;
    }

    private static string? Predicted(LureDesign design, Circumstances asked)
    {
        Prediction prediction = Prediction.Of(design, asked);
        if (!(prediction.Ledger.Weight > 0)) return $"weighs {prediction.Ledger.Weight} g";
        if (!(prediction.Body.Volume > 0)) return $"takes {prediction.Body.Volume} mm³ of water";
        return NotFinite(prediction, "prediction");
    }

    private static string? Stages(LureDesign design)
    {
        foreach (Stage stage in Enum.GetValues<Stage>())
        {
            WeightLedger ledger = Bookkeeper.Of(design, stage, Rig.Bare, 1e-3, MeshSize.Coarse);
            if (!(ledger.Weight > 0) || !(ledger.Volume > 0)) return $"{stage}: weighs {ledger.Weight} g and takes {ledger.Volume} mm³ of water";
        }
        return null;
    }

    /// <summary>The first number anywhere in a result that is not finite; a barrier may be infinite, by definition.</summary>
    public static string? NotFinite(object? value, string path)
    {
        switch (value)
        {
            case null or string or bool or int or Enum or Delegate:
                return null;
            case double number:
                bool barrier = path.EndsWith(".Barrier", StringComparison.Ordinal) && double.IsPositiveInfinity(number);
                return double.IsFinite(number) || barrier ? null : $"{path} = {number}";
            case double[] numbers:
                int at = Array.FindIndex(numbers, n => !double.IsFinite(n));
                return at < 0 ? null : $"{path}[{at}] = {numbers[at]}";
            case int[]:
                return null;
            case IEnumerable list:
                int i = 0;
                foreach (object? item in list)
                    if (NotFinite(item, $"{path}[{i++}]") is { } found) return found;
                return null;
        }
        if (value.GetType().Namespace?.StartsWith("Trimwright", StringComparison.Ordinal) != true) return null;
        foreach (PropertyInfo property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance))
            if (property.GetIndexParameters().Length == 0 && property.PropertyType != value.GetType()
                && NotFinite(property.GetValue(value), $"{path}.{property.Name}") is { } found)
                return found;
        return null;
    }

    public static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
