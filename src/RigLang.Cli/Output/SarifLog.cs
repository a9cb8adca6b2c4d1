using System.Text.Json.Serialization;

namespace RigLang.Cli.Output;

// The parts of OASIS SARIF 2.1.0 that `rig check --format sarif` uses, property for property. Section numbers are
// those of the standard (sarif-v2.1.0), from memory.

// The sarifLog (3.13) and run (3.14) objects are written by SarifReport piece by piece.

internal sealed record SarifTool(SarifDriver Driver);

/// <summary>3.19 toolComponent object.</summary>
internal sealed record SarifDriver(string Name, string Version, string SemanticVersion, List<SarifRule> Rules);

/// <summary>3.49 reportingDescriptor object.</summary>
internal sealed record SarifRule(
    string Id,
    SarifMessage ShortDescription,
    SarifMessage FullDescription,
    SarifMessage Help,
    SarifConfiguration DefaultConfiguration);

internal sealed record SarifConfiguration(string Level);

/// <summary>3.11 message object, and 3.12 multiformatMessageString object where a rule describes itself.</summary>
internal sealed record SarifMessage(string Text);

/// <summary>3.20 invocation object.</summary>
internal sealed record SarifInvocation(bool ExecutionSuccessful, List<SarifNotification> ToolExecutionNotifications);

/// <summary>3.58 notification object.</summary>
internal sealed record SarifNotification(string Level, SarifMessage Message, List<SarifLocation> Locations);

/// <summary>3.27 result object.</summary>
internal sealed record SarifResult(
    string RuleId,
    int RuleIndex,
    string Level,
    SarifMessage Message,
    List<SarifLocation> Locations,
    List<SarifLocation>? RelatedLocations,
    List<SarifFix>? Fixes,
    List<SarifSuppression>? Suppressions);

/// <summary>3.35 suppression object: the finding is accepted in the source.</summary>
internal sealed record SarifSuppression(string Kind, string Justification);

/// <summary>3.28 location object.</summary>
internal sealed record SarifLocation(SarifPhysicalLocation PhysicalLocation, int? Id = null, SarifMessage? Message = null);

/// <summary>3.29 physicalLocation object.</summary>
internal sealed record SarifPhysicalLocation(SarifArtifactLocation ArtifactLocation, SarifRegion? Region = null);

internal sealed record SarifArtifactLocation(string Uri);

/// <summary>3.30 region object. Lines and columns from 1, the end column just past the last; offsets from 0.</summary>
internal sealed record SarifRegion(
    int StartLine, int StartColumn, int EndLine, int EndColumn, int CharOffset, int CharLength);

/// <summary>3.55 fix object.</summary>
internal sealed record SarifFix(SarifMessage Description, List<SarifArtifactChange> ArtifactChanges);

internal sealed record SarifArtifactChange(SarifArtifactLocation ArtifactLocation, List<SarifReplacement> Replacements);

internal sealed record SarifReplacement(SarifRegion DeletedRegion, SarifContent InsertedContent);

internal sealed record SarifContent(string Text);

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(SarifResult))]
[JsonSerializable(typeof(SarifTool))]
[JsonSerializable(typeof(SarifInvocation))]
internal sealed partial class SarifContext : JsonSerializerContext;
