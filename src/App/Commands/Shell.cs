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
        var app = new CommandApp();
        app.Configure(config =>
        {
            config.SetApplicationName("trimwright");
            config.SetApplicationVersion(typeof(Shell).Assembly.GetName().Version!.ToString(3));
            config.PropagateExceptions();
            config.UseStrictParsing();
            config.AddDelegate<ServeSettings>("serve", (_, settings, _) => serve(settings.SoundPort, !settings.NoBrowser, Keep.FileOf(settings.Store))).WithDescription("Opens the page; what trimwright does when nothing else is asked.");
            config.AddCommand<PredictCommand>("predict").WithDescription("How a lure sits in the water, and what it weighs.");
            config.AddCommand<PlanCommand>("plan").WithDescription("Which weights from your box, and where, so that it sits or falls as wanted.");
            config.AddCommand<SwapCommand>("swap").WithDescription("Other hooks, water and leader, and what is left to do once it is glued.");
            config.AddCommand<StrengthCommand>("strength").WithDescription("What holds a fish, the weakest link first, and how far the hooks reach.");
            config.AddCommand<CheckCommand>("check").WithDescription("Is a lure, a box, a log or a want sound? Lists every fault.");
            config.AddCommand<BuildPlanCommand>("buildplan").WithDescription("The steps from boards to fishing, with amounts, weights to expect and dates.");
            config.AddCommand<SheetsCommand>("sheets").WithDescription("True-size sheets for the bench: outlines, flats, glue faces, wire.");
            config.AddCommand<ReadingsCommand>("readings").WithDescription("What your readings say: the lure again, with its give or take.");
            config.AddCommand<CopyCommand>("copy").WithDescription("What weights are in a lure that can't be opened, and how to make the like.");
            config.AddCommand<NextCommand>("next").WithDescription("What is most worth measuring next.");
            config.AddCommand<LearnCommand>("learn").WithDescription("Your own habits, from finished builds: how you carve, glue, seal and coat.");
            config.AddCommand<DemoCommand>("demo").WithDescription("Writes the demo lures and the demo box into a folder.");
            config.AddBranch("store", StoreCommands.Add);
            config.AddCommand<NoticesCommand>("notices").WithDescription("What Trimwright is built from, and under which licences.");
        });
        try
        {
            return app.Run(args);
        }
        catch (Refusal refusal)
        {
            return Tell(refusal, json);
        }
        catch (CommandAppException e)
        {
            string got = Paper.Plain(e.Message.Split('\n')[0].TrimEnd('.', '\r'));
            return Tell(new Refusal(Exit.CommandLineWrong, "command-line", string.Join(' ', args.Take(1)), got,
                "the commands and options of trimwright --help", "See trimwright --help."), json);
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
