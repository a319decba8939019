// Inputs as the engine's own records describe them.
export interface Input {
  key: string;
  description: string;
  kind: "length" | "number" | "yes or no" | "choice" | "text";
  choices: string[];
  range: string;
  unit: string;
  assumed: string | undefined;
}
interface Node {
  $ref?: string;
  type?: string;
  enum?: string[];
  description?: string;
  default?: unknown;
  properties?: Record<string, Node>;
  minimum?: number;
  maximum?: number;
  "x-range"?: string;
  "x-unit"?: string;
}

function inputOf(key: string, node: Node): Input | undefined {
  const kind = node.$ref?.endsWith("/length")
    ? "length"
    : node.enum
      ? "choice"
      : node.type === "number" || node.type === "integer"
        ? "number"
        : node.type === "boolean"
          ? "yes or no"
          : node.type === "string"
            ? "text"
            : undefined;
  if (!kind) return undefined;
  const range = node["x-range"] ?? (node.minimum === undefined ? "" : `${node.minimum} to ${node.maximum}`);
  const assumed = node.default === undefined ? undefined : String(node.default);
  return { key, description: node.description ?? "", kind, choices: node.enum ?? [], range, unit: node["x-unit"] ?? "", assumed };
}

/** Every single input outside lists, by its key. */
export function inputsOf(schemaText: string): Map<string, Input> {
  const out = new Map<string, Input>();
  const walk = (place: string, node: Node): void => {
    for (const [name, child] of Object.entries(node.properties ?? {})) {
      const key = place ? `${place}.${name}` : name;
      if (child.properties) walk(key, child);
      else {
        const input = inputOf(key, child);
        if (input) out.set(key, input);
      }
    }
  };
  walk("", JSON.parse(schemaText) as Node);
  return out;
}

/** A reading on a line is an input as well. */
export const readingInput = (key: string): Input => ({
  key,
  description: key.endsWith(".out") ? "Out from the deck edge, level." : "Down from the deck surface, plumb.",
  kind: "length",
  choices: [],
  range: "",
  unit: "",
  assumed: undefined,
});

/** `deck.board_thickness` as people say it. */
export const inputName = (key: string): string => (key.split(".").at(-1) ?? key).replaceAll("_", " ");
