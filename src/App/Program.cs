using Trimwright.App.Commands;
using Trimwright.App.Pages;

return Shell.Run(args, PageHost.Serve);
