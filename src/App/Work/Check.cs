using Trimwright.Core.Design;

namespace Trimwright.App.Work;

/// <summary>What a maker asks with <c>check</c>: is this file sound?</summary>
internal static class Check
{
    public static Reading<LureDesign> Run(string file) => LureFile.Read(Files.Load(file));
}
