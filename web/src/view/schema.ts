// Inputs as the engine's own records describe them.
import { term } from "../words";

export interface Input {
  key: string;
  /** What it is called, where its key does not say so. */
  title?: string;
  description: string;
  kind: "length" | "number" | "yes or no" | "choice" | "text" | "texts";
  choices: string[];
  range: string;
  unit: string;
  assumed: string | undefined;
  /** What a text of its form may begin as. */
  start?: string | undefined;
}
/** Things of one kind, each with the same inputs: `yard.stock`. */
export interface List {
  key: string;
  description: string;
  /** Of one entry, keyed `yard.stock[].length`. */
  fields: Input[];
  /** Keys of the fields that an entry has to have. */
  required: Set<string>;
}
export interface Schema {
  inputs: Map<string, Input>;
  lists: List[];
}
interface Node {
  $ref?: string;
  type?: string;
  enum?: string[];
  description?: string;
  default?: unknown;
  properties?: Record<string, Node>;
  items?: Node;
  required?: string[];
  minimum?: number;
  maximum?: number;
  "x-range"?: string;
  "x-unit"?: string;
  "x-form"?: string;
}

/** One of each kind of name that the engine knows. */
const STARTS: Record<string, string> = { section: "2x6", item: "screw-10x3", species: "southern-pine" };

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
            : node.type === "array"
              ? "texts"
              : undefined;
  if (!kind) return undefined;
  const range = node["x-range"] ?? (node.minimum === undefined ? "" : `${node.minimum} to ${node.maximum}`);
  const assumed = node.default === undefined ? undefined : String(node.default);
  const start = STARTS[node["x-form"] ?? ""];
  return { key, description: node.description ?? "", kind, choices: node.enum ?? [], range, unit: node["x-unit"] ?? "", assumed, start };
}

/** RETURNS every input by its key, those of a list's entries as `yard.stock[].length`, and the lists. */
export function schemaOf(schemaText: string): Schema {
  const inputs = new Map<string, Input>();
  const lists: List[] = [];
  const walk = (place: string, node: Node): Input[] =>
    Object.entries(node.properties ?? {}).flatMap(([name, child]) => {
      const key = place ? `${place}.${name}` : name;
      if (child.properties) return walk(key, child);
      if (child.items?.properties) {
        const required = new Set((child.items.required ?? []).map((field) => `${key}[].${field}`));
        lists.push({ key, description: child.description ?? "", fields: walk(`${key}[]`, child.items), required });
        return [];
      }
      const input = inputOf(key, child);
      if (input) inputs.set(key, input);
      return input ? [input] : [];
    });
  walk("", JSON.parse(schemaText) as Node);
  return { inputs, lists };
}

/** The input at a key with numbers in it, `ground.middle[1].down`. */
export function inputAt(schema: Schema, key: string): Input | undefined {
  const input = schema.inputs.get(key.replace(/\[\d+\]/g, "[]"));
  return input && { ...input, key };
}

/** An entry to start from: names and choices alone. Lengths, counts and prices are for its user to give. */
export function startOf(list: List, number: number): Record<string, string> {
  const named = list.fields.filter((f) => list.required.has(f.key) && f.kind === "text");
  return Object.fromEntries(named.map((f) => [f.key.split(".").at(-1) ?? "", f.start ?? `${inputName(list.key)} ${number}`]));
}

/** `ground.middle[1].down` as "middle 2: down". */
export function titleOf(input: { key: string; title?: string }): string {
  const [list, field] = input.key.replace(/^ground\./, "").split(/\]\./);
  const [name, number] = list?.split("[") ?? [];
  return input.title ?? (field && name ? `${term(inputName(name))} ${Number(number) + 1}: ${term(inputName(field))}` : inputName(input.key));
}

/** `deck.board_thickness` as people say it. */
export const inputName = (key: string): string => (key.split(".").at(-1) ?? key).replaceAll("_", " ").replace(/\[\d*\]/g, "");
