// The `rig` command: what lives where.
//
//   Program.cs      this page, and the way in
//   RigCommand.cs   arguments to the right command, and the net under all of them
//   Host.cs         the console, the folder and the environment, so that tests can bring their own
//   Commands/       one file a command: check, explain, format, trace, channels, ground, hum, new, server; help, usage errors, notices
//   Output/         how findings and pages are shown: text, JSON, SARIF
//   Files/          everything that touches the disk: finding, reading, importing, writing
//
// This is the only project that touches disk and console. The language itself is RigLang; nothing here knows its rules.

using RigLang.Cli;

return RigCommand.Run(args, Host.OfThisProcess());
