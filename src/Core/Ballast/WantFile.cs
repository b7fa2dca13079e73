using Trimwright.Core.Design;
using Trimwright.Core.Ledger;
using Trimwright.Core.Quantities;
using Trimwright.Core.Water;

namespace Trimwright.Core.Ballast;

/// <summary>
/// The want file, <c>NAME.want.json</c>, version 1, with the manners of <see cref="LureFile"/>: this reader is the only
/// validator, and <c>want.schema.json</c> accepts everything that it accepts.
/// </summary>
public static class WantFile
{
    public const int Version = 1;

    /// <summary>The key that holds the version, and by which a want is told from a lure.</summary>
    public const string VersionKey = "trimwright_want";

    private const double SteepestDeg = 89;

    /// <summary>Reads a want from UTF-8 JSON; lists every fault.</summary>
    public static Reading<Want> Read(ReadOnlySpan<byte> utf8)
    {
        var findings = new Findings();
        if (JsonParser.Parse(utf8, findings) is not { } tree) return new(null, [.. findings.Faults], []);
        if (tree.Member(VersionKey) is { Kind: JsonKind.Number } value && value.Number > Version)
            return new(null, [new Fault("newer-version", VersionKey, value.Shown, $"up to {Version}", "This want was written by a newer Trimwright; use that one.")], []);
        Want want = Read(new ObjectReader(tree, findings), findings);
        return new(findings.Faults.Count == 0 ? want : null, [.. findings.Faults], [.. findings.Told]);
    }

    /// <summary>Whether a file means to be a want.</summary>
    public static bool IsWant(ReadOnlySpan<byte> utf8) => JsonParser.Parse(utf8, new Findings())?.Member(VersionKey) is not null;

    private static Want Read(ObjectReader file, Findings findings)
    {
        file.Number(VersionKey, Version, Version);
        string does = file.Text("does", "floats, suspends or falls");
        Manner manner = file.Choice("does", Manner.Floats, ("floats", Manner.Floats), ("suspends", Manner.Suspends), ("falls", Manner.Falls));
        double? spare = file.NumberOrNone("spare_g", 0, 1000), nose = file.NumberOrNone("nose_out_mm", 0.5, 1000), seconds = file.NumberOrNone("seconds_per_metre", 0.3, 120);
        var want = new Want
        {
            Manner = manner,
            Trim = Units.FromDegrees(file.Number("trim_deg", -SteepestDeg, SteepestDeg, 0)),
            Spare = spare,
            NoseOut = nose,
            Rate = seconds is { } s ? 1 / s : 0,
            WeightWithin = file.Number("weight_within_g", 0.01, 20, 0.3),
            TrimWithin = Units.FromDegrees(file.Number("trim_within_deg", 0.1, 45, 3)),
            Circumstances = new Circumstances(
                file.Choice("stage", Stage.Finished, ("dry-fit", Stage.DryFit), ("glued", Stage.Glued), ("sealed", Stage.Sealed), ("finished", Stage.Finished)),
                file.Choice("rig", Rig.Rigged, ("bare", Rig.Bare), ("standins", Rig.StandIns), ("rigged", Rig.Rigged)),
                new WaterState(file.Number("salinity", 0, WaterState.SaltiestAllowed, WaterState.Ocean.Salinity),
                    file.Number("temperature_c", WaterState.ColdestAllowed, WaterState.WarmestAllowed, WaterState.Ocean.TemperatureC))),
        };
        file.Close();
        if (does.Length > 0) Fits(want, findings);
        return want;
    }

    private static void Fits(Want want, Findings findings)
    {
        bool floats = want.Manner == Manner.Floats;
        if (floats && want.Spare is null == want.NoseOut is null)
            findings.Add(want.Spare is null ? "missing" : "reference", "spare_g", want.Spare is null ? "neither spare_g nor nose_out_mm" : "both spare_g and nose_out_mm",
                "one of the two", "A floating lure is wanted with grams to spare, or with so much of its nose out.");
        if (!floats && (want.Spare is not null || want.NoseOut is not null))
            findings.Add("reference", want.Spare is not null ? "spare_g" : "nose_out_mm", "a number", "neither spare_g nor nose_out_mm", "Only a lure that floats has them; leave it out.");
        if (want.Manner == Manner.Falls && want.Rate == 0)
            findings.Add("missing", "seconds_per_metre", "nothing", "0.3 to 120", "Say how long a metre is to take.");
        if (want.Manner != Manner.Falls && want.Rate != 0)
            findings.Add("reference", "seconds_per_metre", "a number", "nothing", "Only a lure that falls has it; leave it out.");
    }
}
