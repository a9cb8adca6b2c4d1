using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Cli.Commands;
using RigLang.Cli.Output;
using RigLang.Findings;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class SarifReportTests : IDisposable
{
    /// <summary>What OASIS SARIF 2.1.0 requires of the objects in use, from memory of the standard: not its published schema.</summary>
    private static readonly JsonSchema Standard = JsonSchema.FromText(
        """
        {
          "$schema": "https://json-schema.org/draft/2020-12/schema",
          "type": "object", "required": ["version", "runs"], "additionalProperties": false,
          "properties": {
            "$schema": { "type": "string", "format": "uri" },
            "version": { "const": "2.1.0" },
            "runs": { "type": "array", "items": { "$ref": "#/$defs/run" } }
          },
          "$defs": {
            "run": {
              "type": "object", "required": ["tool"], "additionalProperties": false,
              "properties": {
                "tool": {
                  "type": "object", "required": ["driver"], "additionalProperties": false,
                  "properties": { "driver": { "$ref": "#/$defs/driver" } }
                },
                "invocations": { "type": "array", "items": { "$ref": "#/$defs/invocation" } },
                "columnKind": { "enum": ["utf16CodeUnits", "unicodeCodePoints"] },
                "newlineSequences": { "type": "array", "minItems": 1, "uniqueItems": true, "items": { "type": "string" } },
                "results": { "type": "array", "items": { "$ref": "#/$defs/result" } }
              }
            },
            "driver": {
              "type": "object", "required": ["name"], "additionalProperties": false,
              "properties": {
                "name": { "type": "string" },
                "version": { "type": "string" },
                "semanticVersion": { "type": "string" },
                "rules": { "type": "array", "uniqueItems": true, "items": { "$ref": "#/$defs/rule" } }
              }
            },
            "rule": {
              "type": "object", "required": ["id"], "additionalProperties": false,
              "properties": {
                "id": { "type": "string" },
                "shortDescription": { "$ref": "#/$defs/text" },
                "fullDescription": { "$ref": "#/$defs/text" },
                "help": { "$ref": "#/$defs/text" },
                "defaultConfiguration": {
                  "type": "object", "additionalProperties": false, "properties": { "level": { "$ref": "#/$defs/level" } }
                }
              }
            },
            "invocation": {
              "type": "object", "required": ["executionSuccessful"], "additionalProperties": false,
              "properties": {
                "executionSuccessful": { "type": "boolean" },
                "toolExecutionNotifications": {
                  "type": "array",
                  "items": {
                    "type": "object", "required": ["message"], "additionalProperties": false,
                    "properties": {
                      "level": { "$ref": "#/$defs/level" },
                      "message": { "$ref": "#/$defs/text" },
                      "locations": { "type": "array", "items": { "$ref": "#/$defs/location" } }
                    }
                  }
                }
              }
            },
            "result": {
              "type": "object", "required": ["message"], "additionalProperties": false,
              "properties": {
                "ruleId": { "type": "string" },
                "ruleIndex": { "type": "integer", "minimum": -1 },
                "level": { "$ref": "#/$defs/level" },
                "message": { "$ref": "#/$defs/text" },
                "locations": { "type": "array", "items": { "$ref": "#/$defs/location" } },
                "relatedLocations": { "type": "array", "uniqueItems": true, "items": { "$ref": "#/$defs/location" } },
                "fixes": {
                  "type": "array", "uniqueItems": true,
                  "items": {
                    "type": "object", "required": ["artifactChanges"], "additionalProperties": false,
                    "properties": {
                      "description": { "$ref": "#/$defs/text" },
                      "artifactChanges": {
                        "type": "array", "minItems": 1,
                        "items": {
                          "type": "object", "required": ["artifactLocation", "replacements"], "additionalProperties": false,
                          "properties": {
                            "artifactLocation": { "$ref": "#/$defs/artifact" },
                            "replacements": {
                              "type": "array", "minItems": 1,
                              "items": {
                                "type": "object", "required": ["deletedRegion"], "additionalProperties": false,
                                "properties": {
                                  "deletedRegion": { "$ref": "#/$defs/region" },
                                  "insertedContent": {
                                    "type": "object", "additionalProperties": false, "properties": { "text": { "type": "string" } }
                                  }
                                }
                              }
                            }
                          }
                        }
                      }
                    }
                  }
                }
              }
            },
            "level": { "enum": ["none", "note", "warning", "error"] },
            "text": {
              "type": "object", "required": ["text"], "additionalProperties": false, "properties": { "text": { "type": "string" } }
            },
            "location": {
              "type": "object", "additionalProperties": false,
              "properties": {
                "id": { "type": "integer", "minimum": -1 },
                "message": { "$ref": "#/$defs/text" },
                "physicalLocation": {
                  "type": "object", "required": ["artifactLocation"], "additionalProperties": false,
                  "properties": { "artifactLocation": { "$ref": "#/$defs/artifact" }, "region": { "$ref": "#/$defs/region" } }
                }
              }
            },
            "artifact": {
              "type": "object", "required": ["uri"], "additionalProperties": false,
              "properties": { "uri": { "type": "string", "pattern": "^[A-Za-z0-9._~!$&'()*+,;=:@/%-]+$" } }
            },
            "region": {
              "type": "object", "additionalProperties": false,
              "properties": {
                "startLine": { "type": "integer", "minimum": 1 },
                "startColumn": { "type": "integer", "minimum": 1 },
                "endLine": { "type": "integer", "minimum": 1 },
                "endColumn": { "type": "integer", "minimum": 1 },
                "charOffset": { "type": "integer", "minimum": 0 },
                "charLength": { "type": "integer", "minimum": 0 }
              }
            }
          }
        }
        """);

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private JsonNode Run(string[] named, Compile compile)
    {
        var text = _stage.With(host => CheckCommand.Run(new(named, CheckFormat.Sarif), host, compile)).Out;
        var node = JsonNode.Parse(text)!;
        Assert.Equal("", Standard.Refusals(node));
        return Assert.Single(node["runs"]!.AsArray())!;
    }

    [Fact]
    public void A_finding_becomes_a_result_with_its_rule_region_related_places_and_fixes()
    {
        _stage.Put("my trio.rig", "gear\n plug {\n");
        var run = Run(["my trio.rig"], (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", what: "A { is open: [here](http://tern.example).") with
        {
            Related = [new(MadeUp.Place(root, "gear"), "described here")],
            Fixes = [new("turn it", true, [new(root, new(0, 4), "lead")])],
        }));
        var result = Assert.Single(run["results"]!.AsArray())!;
        var rule = run["tool"]!["driver"]!["rules"]![(int)result["ruleIndex"]!]!;
        Assert.Equal("plug-upside-down", (string?)result["ruleId"]);
        Assert.Equal("plug-upside-down", (string?)rule["id"]);
        Assert.Equal("A plug sits upside down", (string?)rule["shortDescription"]!["text"]);
        Assert.Equal("Nothing is heard.", (string?)rule["fullDescription"]!["text"]);
        Assert.Equal("A {{ is open: \\[here\\](http://tern.example).\nNothing is heard.\nTurn it round.", (string?)result["message"]!["text"]);
        Assert.Equal(
            """{"artifactLocation":{"uri":"my%20trio.rig"},"region":{"startLine":2,"startColumn":2,"endLine":2,"endColumn":6,"charOffset":6,"charLength":4}}""",
            result["locations"]![0]!["physicalLocation"]!.ToJsonString());
        Assert.Equal("described here", (string?)result["relatedLocations"]![0]!["message"]!["text"]);
        Assert.Equal("lead", (string?)result["fixes"]![0]!["artifactChanges"]![0]!["replacements"]![0]!["insertedContent"]!["text"]);
        Assert.Equal("utf16CodeUnits", (string?)run["columnKind"]);
        Assert.True((bool)run["invocations"]![0]!["executionSuccessful"]!);
    }

    [Theory]
    [InlineData(Severity.Error, "error")]
    [InlineData(Severity.Warning, "warning")]
    [InlineData(Severity.Hint, "note")]
    public void Severities_become_levels(Severity severity, string level)
    {
        _stage.Put("trio.rig", "plug");
        var run = Run(["trio.rig"], (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", severity)));
        Assert.Equal(level, (string?)run["results"]![0]!["level"]);
    }

    [Fact]
    public void Every_check_there_is_has_its_rule()
    {
        _stage.Put("trio.rig", "");
        var run = Run(["trio.rig"], (root, _) => MadeUp.Rig(root));
        Assert.Equal(
            RigLang.Checks.CheckList.All.Select(c => c.Name),
            run["tool"]!["driver"]!["rules"]!.AsArray().Select(r => (string)r!["id"]!));
    }

    [Fact]
    public void A_file_that_could_not_be_checked_is_a_notification_of_an_unsuccessful_run()
    {
        var run = Run(["nowhere.rig"], (root, _) => MadeUp.Rig(root));
        var invocation = run["invocations"]![0]!;
        Assert.False((bool)invocation["executionSuccessful"]!);
        Assert.Equal("nowhere.rig: there is no such file", (string?)invocation["toolExecutionNotifications"]![0]!["message"]!["text"]);
    }

    [Theory]
    [InlineData("songs/trio.rig", "songs/trio.rig")]
    [InlineData("../trio.rig", "../trio.rig")]
    [InlineData("spring run/100%.rig", "spring%20run/100%25.rig")]
    [InlineData("a:b#c?.rig", "a%3Ab%23c%3F.rig")]
    [InlineData("低音.rig", "%E4%BD%8E%E9%9F%B3.rig")]
    [InlineData("/rigs/me/a b.rig", "file:///rigs/me/a%20b.rig")]
    [InlineData("C:/me/a b.rig", "file:///C:/me/a%20b.rig")]
    [InlineData("<stdin>", "%3Cstdin%3E")]
    public void Paths_become_URIs(string path, string uri) => Assert.Equal(uri, SarifReport.UriOf(path));
}
