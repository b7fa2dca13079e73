using Trimwright.App.Commands;
using Trimwright.App.Gate;
using Trimwright.App.Pages;

return Shell.Run(args, (port, openBrowser, store) => PageHost.Serve<Root>(new ServeRequest(port, openBrowser, store)));
