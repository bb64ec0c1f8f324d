using System.ComponentModel;
using System.Diagnostics;

namespace Halfpin.TestKit.CrossProgram;

/// <summary>A program of others that is installed on this machine, and runs of it in a folder of their own.</summary>
public static class ExternalProgram
{
    // A deck of some hundred beams takes milliseconds, expanded solids some seconds; a hung program shall not hang the tests.
    private static readonly TimeSpan _patience = TimeSpan.FromSeconds(60);

    /// <summary>The full path of a program on the search path, or null when it is not installed.</summary>
    public static string? Find(string name) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
        .SelectMany(folder => new[] { Path.Combine(folder, name), Path.Combine(folder, name + ".exe") })
        .FirstOrDefault(File.Exists);

    /// <summary>Writes files into a new folder, runs commands there one after the other, and reads what they left.</summary>
    /// <typeparam name="T">What is read.</typeparam>
    /// <param name="commands">Each a program's name on the search path and its arguments.</param>
    /// <param name="files">Contents by file name.</param>
    /// <param name="read">Reads the result from the folder; the folder is gone afterwards.</param>
    /// <exception cref="ExternalProgramException">A program is not installed, ended with an error, ran too long, or left no result.</exception>
    public static T Run<T>(string[][] commands, IReadOnlyDictionary<string, string> files, Func<string, T> read)
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("halfpin-deck-");
        try
        {
            foreach ((string file, string content) in files)
            {
                File.WriteAllText(Path.Combine(folder.FullName, file), content);
            }

            string said = string.Join('\n', commands.Select(c => Run(c[0], c[1..], folder.FullName)).ToArray());
            try
            {
                return read(folder.FullName);
            }
            catch (Exception e) when (e is IOException or FormatException)
            {
                throw new ExternalProgramException($"{commands[^1][0]} left no readable result. It said:\n{Tail(said)}", e);
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Run(string name, string[] arguments, string folder)
    {
        string program = Find(name) ?? throw new ExternalProgramException($"The program {name} is not on the search path.");
        ProcessStartInfo start = new(program, arguments)
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // Point decimals and a fixed number of threads, whatever the machine is set to.
        start.Environment["LC_ALL"] = "C";
        start.Environment["OMP_NUM_THREADS"] = "1";
        start.Environment["TERM"] = "dumb";
        using Process process = Start(start);
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(_patience))
        {
            process.Kill(entireProcessTree: true);
            throw new ExternalProgramException($"{program} did not end within {_patience.TotalSeconds:0} s.");
        }

        string said = output.GetAwaiter().GetResult() + error.GetAwaiter().GetResult();
        return process.ExitCode == 0 ? said : throw new ExternalProgramException($"{program} ended with code {process.ExitCode}. It said:\n{Tail(said)}");
    }

    private static Process Start(ProcessStartInfo start)
    {
        try
        {
            return Process.Start(start)!;
        }
        catch (Win32Exception e)
        {
            throw new ExternalProgramException($"{start.FileName} could not be started: {e.Message}", e);
        }
    }

    private static string Tail(string text)
    {
        const int Kept = 2000;
        return text.Length <= Kept ? text : text[^Kept..];
    }
}

/// <summary>A program of others could not be run to a result.</summary>
public sealed class ExternalProgramException : Exception
{
    /// <summary>An exception with a plain message.</summary>
    public ExternalProgramException(string message)
        : base(message)
    {
    }

    /// <summary>An exception with a plain message and its cause.</summary>
    public ExternalProgramException(string message, Exception cause)
        : base(message, cause)
    {
    }

    /// <summary>An exception without a message.</summary>
    public ExternalProgramException()
    {
    }
}
