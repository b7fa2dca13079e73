using System.Text.Json;
using Trimwright.Core.Box;
using Trimwright.Core.Doubt;
using Trimwright.Core.Finish;
using Trimwright.Core.Ledger;
using Trimwright.Core.Sinking;
using Trimwright.Core.Telling;

namespace Trimwright.App.Answers;

/// <summary>The word of an answer for a member of an enum: what programs compare, so it stays when the member's name changes.</summary>
internal static class AnswerWords
{
    public static string Of(Enum value) => value switch
    {
        Stage stage => Words.Of(stage),
        Verdict verdict => Words.Of(verdict),
        Sat way => LogWords.Of(way),
        Instrument instrument => LogWords.Of(instrument),
        // As --rig has it.
        Rig.StandIns => "standins",
        Counted.Millimetres => "mm",
        Counted.Grams => "g",
        _ => JsonNamingPolicy.SnakeCaseLower.ConvertName(value.ToString()),
    };
}
