using Trimwright.Core.Finish;
using Trimwright.Core.Telling;

namespace Trimwright.Drawing.Sheets;

/// <summary>What is glued in which order, with amounts and places, in letters that can be read across the bench: nobody touches a screen while gluing.</summary>
internal static class GlueCard
{
    public const string Id = "glue-card";

    // Capitals of the sans stand 0.729 of its size: letters 6 mm high.
    private const double Letters = 6 / 0.729;
    private const double Closest = 1.14 * Letters;
    private const double Widest = 1.5 * Letters;
    private const double Indent = 9;

    // A name shorter than this tells nobody anything.
    private const double LeastName = 30;

    public static Sheet? Draw(Drafting d)
    {
        if (GlueUp.Of(d.Design, d.Options.Box, new BuildConditions()) is not { } glue) return null;
        GlueCardWords words = GlueCardWords.Of(glue, d.Notation);
        double width = d.Options.Room.Width, height = d.Options.Room.Height;
        int most = (int)(height / Closest);
        List<Action<Field, double>> lines = [.. Lines(words, width, 1)];
        // Many weights stand two abreast.
        if (lines.Count > most) lines = [.. Lines(words, width, 2)];
        return new Sheet(Id, "Glue card", $"Hang it where you glue. Places are of a weight's middle, from the nose and from the axis; times are for {d.Notation.Temperature(glue.TemperatureC)}.",
            [.. lines.Chunk(most).Select(part => Page(part, width, height))], Drawn: false);
    }

    private static Picture Page(Action<Field, double>[] lines, double width, double height)
    {
        var field = new Field(width, height);
        double pitch = Math.Min(height / lines.Length, Widest);
        for (int i = 0; i < lines.Length; i++) lines[i](field, (i + 0.5) * pitch + 0.36 * Letters);
        return field.Done("Glue card");
    }

    private static IEnumerable<Action<Field, double>> Lines(GlueCardWords words, double width, int abreast)
    {
        int number = 0;
        foreach (Action<Field, double> line in words.Before.SelectMany(Told)) yield return line;
        foreach (CardWeight[] row in words.Weights.Chunk(abreast)) yield return abreast == 1 ? Alone(row[0], words, width) : Beside(row, width);
        foreach (Action<Field, double> line in words.After.SelectMany(Told)) yield return line;
        foreach (string line in Field.Wrapped(words.Caution, width, Letters, Voice.Label))
            yield return (field, y) =>
            {
                field.Line(Ink.Cut, new PagePoint(0, y - Letters), new PagePoint(width, y - Letters));
                field.Say(line, new PagePoint(0, y), Anchor.Start, Letters);
            };

        // What begins with a space goes on with what is over it, under the same number.
        IEnumerable<Action<Field, double>> Told(string text)
        {
            string n = text[0] == ' ' ? "" : Frame.Number(number++);
            foreach (string line in Field.Wrapped(text, width - Indent, Letters, Voice.Label))
            {
                string first = n;
                n = "";
                yield return (field, y) =>
                {
                    if (first.Length > 0) field.Say(first, new PagePoint(0, y), Anchor.Start, Letters);
                    field.Say(line, new PagePoint(Indent, y), Anchor.Start, Letters);
                };
            }
        }
    }

    private static double Wide(string text) => Typefaces.WidthOf(text, Letters, Voice.Label);

    // Number in a ring as it stands on the glue faces; grams, and where, each under the other.
    private static Action<Field, double> Alone(CardWeight w, GlueCardWords all, double width)
    {
        const double gap = 7;
        double height = all.Weights.Max(o => Wide(o.Height)), nose = all.Weights.Max(o => Wide("at " + o.FromNose)), grams = all.Weights.Max(o => Wide(o.Weight));
        double name = width - 2 * Indent - 4 - grams - nose - height - 3 * gap;
        return (field, y) =>
        {
            Ring(field, Indent, y, w.Number);
            double x = 2 * Indent + 4;
            if (name >= LeastName)
            {
                field.Say(Table.Fit(w.Name, name, Letters), new PagePoint(x, y), Anchor.Start, Letters);
                x += name + gap;
            }
            field.Say(w.Weight, new PagePoint(x + grams, y), Anchor.End, Letters);
            field.Say("at " + w.FromNose, new PagePoint(x + grams + gap + nose, y), Anchor.End, Letters);
            field.Say(w.Height, new PagePoint(x + grams + 2 * gap + nose, y), Anchor.Start, Letters);
        };
    }

    private static Action<Field, double> Beside(CardWeight[] row, double width) => (field, y) =>
    {
        for (int i = 0; i < row.Length; i++)
        {
            double x = i * width / row.Length;
            Ring(field, x, y, row[i].Number);
            string text = $"{row[i].Weight} at {row[i].FromNose}, {row[i].Height}";
            double room = width / row.Length - Indent - 4;
            // Two numbers of one weight are not parted, and no figure is cut off: smaller, as the only line that may be.
            field.Say(text, new PagePoint(x + Indent + 4, y), Anchor.Start, Letters * Math.Min(1, room / Wide(text)));
        }
    };

    private static void Ring(Field field, double x, double y, string number)
    {
        field.Circle(Ink.Mark, new PagePoint(x + 4.4, y - 0.36 * Letters), 4.4);
        field.Say(number, new PagePoint(x + 4.4, y), Anchor.Middle, Letters * (number.Length > 1 ? 0.7 : 1));
    }
}
