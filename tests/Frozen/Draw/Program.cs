using System.Globalization;
using System.Text;
using Trimwright.Core.Ledger;
using Trimwright.Core.Design;
using Trimwright.Frozen.Draw;
using Trimwright.Tests;

// The inputs of frozen answers, into a folder that is empty or not there: ROOT-OF-THE-COMMIT FOLDER.
const int Lures = 200;
string root = args[0], folder = args[1];
string In(string path)
{
    string whole = Path.Combine(folder, path);
    Directory.CreateDirectory(Path.GetDirectoryName(whole)!);
    return whole;
}

string demo = Path.Combine(root, "demo");
foreach (string file in Directory.GetFiles(demo, "*", SearchOption.AllDirectories)) File.Copy(file, In(Path.GetRelativePath(demo, file)));

var drawn = new StringBuilder();
for (int seed = 0; seed < Lures; seed++)
{
    Draw draw = RandomLures.Of(seed);
    string name = seed.ToString("000", CultureInfo.InvariantCulture);
    byte[] bytes = LureFile.Write(draw.Design);
    File.WriteAllBytes(In($"lures/random-{name}.lure.json"), bytes);
    (Stage stage, Rig rig) = (draw.Circumstances.Stage, draw.Circumstances.Rig);
    drawn.Append(CultureInfo.InvariantCulture, $"{name} {(stage == Stage.DryFit ? "dry-fit" : stage.ToString().ToLowerInvariant())} {rig.ToString().ToLowerInvariant()} {draw.Circumstances.Water.Salinity},{draw.Circumstances.Water.TemperatureC}\n");
    if (seed % 10 == 4) File.WriteAllBytes(In($"lures/random-{name}.log.json"), TubLogs.Of(LureFile.Read(bytes).Value!, seed));
}
File.WriteAllText(In("lures/drawn.txt"), drawn.ToString());

foreach ((string name, string text) in Texts.All(File.ReadAllText(Path.Combine(demo, "tidegate-185.lure.json")))) File.WriteAllText(In(name), text.ReplaceLineEndings("\n"));
KeptStore.Make(demo, In("kept/workshop.trimwright"), In("kept/export.json"));
