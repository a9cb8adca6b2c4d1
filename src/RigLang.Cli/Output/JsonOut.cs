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

    public static void Write<T>(Host host, T document, JsonTypeInfo<T> shape)
    {
        host.Out.Flush();
        using (var writer = new Utf8JsonWriter(host.Output, Options))
        {
            JsonSerializer.Serialize(writer, document, shape);
        }
        host.Out.WriteLine();
    }
}
