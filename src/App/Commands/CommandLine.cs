using System.Collections.Immutable;
using System.ComponentModel;
using System.Globalization;
using System.Reflection;
using Spectre.Console.Cli;
using Trimwright.App.Faults;

namespace Trimwright.App.Commands;

/// <summary>
/// What was typed, held against what the commands take, before anything is run: what can't be understood is said in a sentence of
/// ours, with the word that was most likely meant.
/// </summary>
/// <param name="commands">Settings of each command, by its words.</param>
internal sealed class CommandLine(IReadOnlyDictionary<string, Type> commands)
{
    private static readonly string[] Help = ["-h", "--help", "-v", "--version"];

    /// <summary>The settings of a command.</summary>
    public static Type SettingsOf<T>()
        where T : ICommand
    {
        Type type = typeof(T);
        while (!type.IsGenericType) type = type.BaseType!;
        return type.GetGenericArguments()[0];
    }

    /// <summary>Refuses what no command takes.</summary>
    /// <param name="args">As typed.</param>
    public void Check(string[] args)
    {
        foreach (string arg in args)
            if (Help.Contains(arg)) return;
        (string command, int words) = CommandOf(args);
        new OfCommand(command, commands[command]).Check(args[words..]);
    }

    private (string Command, int Words) CommandOf(string[] args)
    {
        if (args.Length > 1 && commands.ContainsKey($"{args[0]} {args[1]}")) return ($"{args[0]} {args[1]}", 2);
        if (commands.ContainsKey(args[0])) return (args[0], 1);
        string[] under = [.. commands.Keys.Where(c => c.Contains(' ')).Select(c => c.Split(' ')[0]).Distinct()];
        if (under.Contains(args[0]))
        {
            string[] own = [.. commands.Keys.Where(c => c.StartsWith(args[0] + " ", StringComparison.Ordinal)).Select(c => c.Split(' ')[1])];
            string got = args.Length > 1 ? $"\"{args[1]}\"" : "nothing after it";
            throw Refuse(args[0], got, string.Join(", ", own), args.Length > 1 ? Options.Meant(own, args[1]) : null, $"Write for example: trimwright {args[0]} {own[0]}.");
        }
        string next = File.Exists(args[0]) ? $"To look into a file, say what for: trimwright predict {args[0]}." : "See trimwright --help.";
        throw Refuse(args[0], "a word that is no command", "the commands of trimwright --help", Options.Meant([.. commands.Keys.Where(c => !c.Contains(' ')), .. under], args[0]), next);
    }

    private static Refusal Refuse(string where, string got, string allowed, string? meant, string next) =>
        new(Exit.CommandLineWrong, "command-line", Paper.Plain(where), Paper.Plain(got), allowed, meant ?? next);

    private sealed class OfCommand(string command, Type settings)
    {
        private sealed record Option(string Name, string? Value, bool IsRequired, bool IsMany, Type Of, string What);

        private readonly ImmutableArray<Option> options =
        [
            .. from property in settings.GetProperties()
               let option = property.GetCustomAttribute<CommandOptionAttribute>()
               where option is not null
               select new Option("--" + option.LongNames[0], option.ValueName, option.IsRequired, property.PropertyType.IsArray,
                   Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType, WhatOf(property)),
        ];

        private readonly ImmutableArray<(string Name, bool IsRequired, string What)> arguments =
        [
            .. from property in settings.GetProperties()
               let argument = property.GetCustomAttribute<CommandArgumentAttribute>()
               where argument is not null
               orderby argument.Position
               select (argument.ValueName, argument.IsRequired, WhatOf(property)),
        ];

        // As a part of a sentence.
        private static string WhatOf(PropertyInfo property) =>
            property.GetCustomAttribute<DescriptionAttribute>()?.Description.TrimEnd('.') is not { Length: > 1 } what ? ""
            : char.IsUpper(what[1]) || char.IsPunctuation(what[1]) ? what : char.ToLowerInvariant(what[0]) + what[1..];

        public void Check(string[] typed)
        {
            var seen = new HashSet<string>();
            int filled = 0;
            for (int i = 0; i < typed.Length; i++)
            {
                if (!typed[i].StartsWith('-') || typed[i] == "-")
                {
                    if (filled++ < arguments.Length) continue;
                    string room = arguments.Length == 0 ? "options alone" : string.Join(' ', arguments.Select(a => a.Name));
                    throw Refuse(command, $"\"{typed[i]}\" besides", room, null, "A name with a blank in it stands between quotes. " + See);
                }
                string[] parts = typed[i].Split(['=', ':'], 2);
                Option option = options.FirstOrDefault(o => o.Name == parts[0]) ?? throw Unknown(parts[0]);
                if (!seen.Add(option.Name) && !option.IsMany) throw Refuse(option.Name, "it twice", "it once", null, "Leave one of the two out.");
                if (option.Value is null)
                {
                    if (parts.Length > 1) throw Refuse(option.Name, $"\"{parts[1]}\" with it", "the option alone", null, "Leave out what follows it.");
                    continue;
                }
                string? value = parts.Length > 1 ? parts[1] : ++i < typed.Length && !IsOption(typed[i]) ? typed[i] : null;
                if (value is null) throw Refuse(option.Name, "nothing after it", $"{option.Value}: {option.What}", null, $"Write {option.Name} {option.Value}.");
                Number(option, value);
            }
            if (filled < arguments.Count(a => a.IsRequired))
            {
                var (name, _, what) = arguments[filled];
                throw Refuse(command, $"no {name}", what, null, $"Write for example: trimwright {command} {name}.");
            }
            if (options.FirstOrDefault(o => o.IsRequired && !seen.Contains(o.Name)) is { } missing)
                throw Refuse(command, $"no {missing.Name}", $"{missing.Value}: {missing.What}", null, $"Add {missing.Name} {missing.Value}.");
        }

        private string See => $"See trimwright {command} --help.";

        // What looks like one but is none of this command's is a value: a name may begin with a dash.
        private bool IsOption(string typed) => options.Any(o => o.Name == typed.Split(['=', ':'], 2)[0]);

        private Refusal Unknown(string typed)
        {
            string[] names = [.. options.Select(o => o.Name)];
            string allowed = names.Length == 0 ? "no option" : string.Join(", ", names);
            return Refuse(command, $"\"{typed}\"", allowed, Options.Meant(names, typed), See);
        }

        private static void Number(Option option, string value)
        {
            if (option.Of == typeof(double) && Options.Number(value) is null) throw Refuse(option.Name, $"\"{value}\"", "a number with a dot", null, Capital(option.What) + ".");
            if (option.Of != typeof(int) && option.Of != typeof(long)) return;
            if (long.TryParse(value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number) && (option.Of == typeof(long) || number == (int)number)) return;
            throw Refuse(option.Name, $"\"{value}\"", "a whole number", null, Capital(option.What) + ".");
        }

        private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
    }
}
