using System.Runtime.InteropServices;
using System.Text;
using Trimwright.App.Faults;
using Spectre.Console.Cli;
using Trimwright.App.Answers;
using Trimwright.App.Questions;
using Trimwright.Core.Design;
using Trimwright.Workshop;

namespace Trimwright.App.Commands;

/// <summary>Serves the page until it is stopped; the exit status.</summary>
/// <param name="port">0: any that is free.</param>
/// <param name="openBrowser">Open it at once, or only print its address.</param>
/// <param name="store">The store's file.</param>
internal delegate int Serve(int port, bool openBrowser, string store);

/// <summary>The command line: parses, runs, and turns what went wrong into an exit status and a sentence.</summary>
internal static class Shell
{
    /// <param name="args">As typed; none at all is <c>serve</c>.</param>
    /// <param name="serve">Serves the page until it is stopped.</param>
    public static int Run(string[] args, Serve serve)
    {
        if (args is [] or [("--port" or "--no-browser" or "--store"), ..]) args = ["serve", .. args];
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        bool json = args.Contains("--json");
        var settings = new Dictionary<string, Type>();
        var app = new CommandApp();
        app.Configure(config =>
        {
            config.SetApplicationName("trimwright");
            config.SetApplicationVersion(typeof(Shell).Assembly.GetName().Version!.ToString(3));
            config.PropagateExceptions();
            config.UseStrictParsing();
            config.AddDelegate<ServeSettings>("serve", (_, settings, _) => serve(settings.SoundPort, !settings.NoBrowser, Keep.FileOf(settings.Store)))
                .WithDescription("Opens the page; what trimwright does when nothing else is asked.");
            settings["serve"] = typeof(ServeSettings);
            Add<PredictCommand>("predict", "How a lure sits in the water, and what it weighs.");
            Add<PlanCommand>("plan", "Which weights from your box, and where, so that it sits or falls as wanted.");
            Add<SwapCommand>("swap", "Other hooks, water and leader, and what is left to do once it is glued.");
            Add<StrengthCommand>("strength", "What holds a fish, the weakest link first, and how far the hooks reach.");
            Add<CheckCommand>("check", "Is a lure, a box, a log or a want sound? Lists every fault.");
            Add<NewCommand>("new", "Begins a lure: one of the starters, as long as yours is to be, in your wood.");
            Add<BuildPlanCommand>("buildplan", "The steps from boards to fishing, with amounts, weights to expect and dates.");
            Add<SheetsCommand>("sheets", "True-size sheets for the bench: outlines, flats, glue faces, wire.");
            Add<ReadingsCommand>("readings", "What your readings say: the lure again, with its give or take.");
            Add<CopyCommand>("copy", "What weights are in a lure that can't be opened, and how to make the like.");
            Add<NextCommand>("next", "What is most worth measuring next.");
            Add<LearnCommand>("learn", "Your own habits, from finished builds: how you carve, glue, seal and coat.");
            Add<DemoCommand>("demo", "Writes the demo lures and the demo box into a folder.");
            config.AddBranch("store", store => StoreCommands.Add(store, settings));
            Add<NoticesCommand>("notices", "What Trimwright is built from, and under which licences.");

            void Add<T>(string name, string what)
                where T : class, ICommand
            {
                config.AddCommand<T>(name).WithDescription(what);
                settings[name] = CommandLine.SettingsOf<T>();
            }
        });
        try
        {
            new CommandLine(settings).Check(args);
            using var stop = new CancellationTokenSource();
            // The page has its own way to end.
            using PosixSignalRegistration? interrupt = args[0] == "serve" ? null : PosixSignalRegistration.Create(PosixSignal.SIGINT, signal =>
            {
                signal.Cancel = true;
                stop.Cancel();
            });
            return app.Run(Files.Spelt(args), stop.Token);
        }
        catch (Refusal refusal)
        {
            return Tell(refusal, json);
        }
        catch (CommandAppException)
        {
            // What CommandLine let through; its own words are a programmer's.
            return Tell(new Refusal(Exit.CommandLineWrong, "command-line", args[0], Paper.Plain(string.Join(' ', args[1..])),
                "the commands and options of trimwright --help", $"See trimwright {args[0]} --help."), json);
        }
        catch (OperationCanceledException)
        {
            return (int)Exit.Cancelled;
        }
        catch (Exception e)
        {
            return OwnFault(e, args, json);
        }
    }

    private static int Tell(Refusal refusal, bool json)
    {
        if (json) Paper.Print(RefusalJson.Of(refusal.Faults[0]));
        else
            foreach (Fault fault in refusal.Faults) Console.Error.WriteLine(Paper.Plain(fault.ToString()));
        return (int)refusal.Exit;
    }

    private static int OwnFault(Exception e, string[] args, bool json)
    {
        int named = Array.IndexOf(args, "--store") + 1;
        DataFolder folder = named > 0 && named < args.Length && !string.IsNullOrWhiteSpace(args[named]) ? DataFolder.Of(args[named]) : DataFolder.Usual;
        string? report = OurFault.Report(e, folder, DateTimeOffset.UtcNow);
        var fault = new Fault("own-fault", report ?? "", "a mistake in Trimwright itself", "none", "Please send this report with the file that caused it.");
        if (json) Paper.Print(RefusalJson.Of(fault));
        else foreach (string line in Paper.Said(OurFault.Said(report), Paper.Width)) Console.Error.WriteLine(line);
        return (int)Exit.OwnFault;
    }
}
