/** What the server sends as rig/status: what was verified in a file, and whether `rig check` would pass. */
export interface RigStatus {
  uri: string;
  facts: number;
  errors: number;
  warnings: number;
  hints: number;
  passes: boolean;
  verified: string[];
}

/** In words, so that nobody has to tell colours apart. */
export function statusText(status: RigStatus): string {
  const found = [count(status.errors, "error"), count(status.warnings, "warning"), count(status.hints, "hint")].filter(part => part !== "");
  return status.passes
    ? ["rig: " + (count(status.facts, "fact") || "0 facts"), ...found].join(", ")
    : "rig: fails, " + found.join(", ");
}

/** What lies behind the number: one line for each kind of fact. */
export function statusDetails(status: RigStatus): string {
  const verified = status.verified.length > 0 ? ["Verified:", ...status.verified.map(line => "  " + line)] : ["Nothing to verify yet."];
  return verified.join("\n");
}

function count(n: number, noun: string): string {
  return n === 0 ? "" : n === 1 ? `1 ${noun}` : `${n} ${noun}s`;
}
