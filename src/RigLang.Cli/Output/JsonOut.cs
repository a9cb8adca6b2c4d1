using System.Text.Encodings.Web;
using System.Text.Json.Serialization.Metadata;
using System.Text.Json;

namespace RigLang.Cli.Output;

/// <summary>Writes a document to standard output: indented, names in any script as they are, one newline at the end.</summary>
internal static class JsonOut
{
    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        // Nothing here goes into a web page; control characters are still escaped.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>What is written to it goes out as it comes, see <see cref="Pass"/>.</summary>
    public static Utf8JsonWriter Begin(Host host)
    {
        host.Out.Flush();
        return new Utf8JsonWriter(host.Output, Options);
    }

    /// <summary>Hands over what has been written, when it is worth a call.</summary>
    public static void Pass(Utf8JsonWriter writer)
    {
        if (writer.BytesPending > WorthACall)
        {
            writer.Flush();
        }
    }

    public static void End(Utf8JsonWriter writer, Host host)
    {
        writer.Dispose();
        host.Out.WriteLine();
    }

    private const int WorthACall = 16_384;

    public static void Write<T>(Host host, T document, JsonTypeInfo<T> shape)
    {
        var writer = Begin(host);
        JsonSerializer.Serialize(writer, document, shape);
        End(writer, host);
    }
}
