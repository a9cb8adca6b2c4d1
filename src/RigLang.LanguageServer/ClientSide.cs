using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using StreamJsonRpc;

namespace RigLang.LanguageServer;

/// <summary>
/// What the server says to its client without being asked. Parameters are handed over as JSON that our own serializers wrote: the library
/// would look at the objects at run time, which a native program cannot.
/// </summary>
internal sealed class ClientSide(JsonRpc rpc)
{
    public Task NotifyAsync<T>(string method, T parameters, JsonTypeInfo<T> shape)
    {
        var (values, types) = Named(parameters, shape);
        return rpc.NotifyWithParameterObjectAsync(method, values, types);
    }

    /// <summary>The client's answer; nothing when it refuses, or has none.</summary>
    public async Task<JsonElement?> AskAsync<T>(string method, T parameters, JsonTypeInfo<T> shape)
    {
        var (values, types) = Named(parameters, shape);
        try
        {
            return await rpc.InvokeWithParameterObjectAsync<JsonElement?>(method, values, types, CancellationToken.None).ConfigureAwait(true);
        }
        catch (RemoteRpcException)
        {
            return null;
        }
    }

    private static (Dictionary<string, object?> Values, Dictionary<string, Type> Types) Named<T>(T parameters, JsonTypeInfo<T> shape)
    {
        var values = new Dictionary<string, object?>(StringComparer.Ordinal);
        var types = new Dictionary<string, Type>(StringComparer.Ordinal);
        foreach (var property in JsonSerializer.SerializeToElement(parameters, shape).EnumerateObject())
        {
            values[property.Name] = property.Value;
            types[property.Name] = typeof(JsonElement);
        }
        return (values, types);
    }
}
