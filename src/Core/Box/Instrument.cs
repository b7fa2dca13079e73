namespace Trimwright.Core.Box;

/// <summary>What a lure is measured with, scales apart, which have a list of their own. The file's words, in small letters.</summary>
public enum Instrument
{
    Ruler,
    Calipers,
    Protractor,
    Thermometer,
    Watch,

    /// <summary>A loop of thread, or a knife edge.</summary>
    Thread,
    Needle,

    /// <summary>In a wire stirrup under the scale.</summary>
    Sinker,

    /// <summary>Tall enough to push a lure under.</summary>
    Jar,
    Tub,

    /// <summary>A metre and more, clear: a rain barrel, a pool, a pier.</summary>
    DeepWater,

    /// <summary>On thread in place of hooks, or taped on.</summary>
    Lead,
}
