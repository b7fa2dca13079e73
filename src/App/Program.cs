using Trimwright.App.Commands;

return Shell.Run(args);
