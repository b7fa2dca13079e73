using Trimwright.Core;
using Trimwright.Core.Ledger;
using Trimwright.Core.Water;

namespace Trimwright.App.Sessions;

/// <summary>The three switches on the picture, as the address names them.</summary>
/// <param name="Stage">How far the build is.</param>
/// <param name="Rig">What hangs on it.</param>
/// <param name="Water">One of <see cref="WaterState.Named"/>.</param>
public sealed record Switches(Stage Stage, Rig Rig, string Water)
{
    public static readonly Switches InTheSea = new(Stage.Finished, Rig.Rigged, "ocean");

    public static readonly IReadOnlyList<(string Word, string Shown, Stage Stage)> Stages =
    [
        ("blank", "blank", Stage.Blank), ("dry-fit", "dry-fit", Stage.DryFit), ("glued", "glued", Stage.Glued),
        ("sealed", "sealed", Stage.Sealed), ("finished", "finished", Stage.Finished),
    ];

    public static readonly IReadOnlyList<(string Word, string Shown, Rig Rig)> Rigs =
        [("bare", "bare", Rig.Bare), ("standins", "stand-ins", Rig.StandIns), ("rigged", "rigged", Rig.Rigged)];

    public static readonly IReadOnlyList<(string Word, string Shown)> Waters =
        [("tap", "tap"), ("lake", "lake"), ("brackish", "brackish"), ("ocean", "sea"), ("reef", "reef")];

    public Circumstances Circumstances => new(Stage, Rig, WaterState.Named.First(w => w.Name == Water).Water);

    public string StageWord => Stages.First(s => s.Stage == Stage).Word;

    public string RigWord => Rigs.First(r => r.Rig == Rig).Word;

    /// <summary>From an address; a word that is missing or unknown means the sea, finished, rigged.</summary>
    public static Switches From(string? stage, string? rig, string? water) => new(
        Stages.Where(s => s.Word == stage).Select(s => (Stage?)s.Stage).FirstOrDefault() ?? InTheSea.Stage,
        Rigs.Where(r => r.Word == rig).Select(r => (Rig?)r.Rig).FirstOrDefault() ?? InTheSea.Rig,
        WaterState.Named.Any(w => w.Name == water) ? water! : InTheSea.Water);

    /// <summary>As the tail of an address; empty in the usual circumstances.</summary>
    public string Query => this == InTheSea ? "" : $"?stage={StageWord}&rig={RigWord}&water={Water}";
}
