// What the page reads of the engine's answers: `plan --json` and `options --json`, inches and cents.
import type { Job, Pick, Value } from "./record";

export type Verdict = "pass" | "fail" | "too close" | "not checked" | "from memory" | string;
export interface Finding {
  clause: string;
  sentence: string;
  verdict: Verdict;
  measured: number | null;
  limit: number | null;
  compare: string;
  margin: number | null;
  uncertainty: number | null;
  unit: string;
  where: string;
  step: number;
  change: string;
  applies: boolean;
  quantity: string;
}
export interface StrengthCheck {
  member: string;
  what: string;
  where: string;
  clause: string;
  verdict: Verdict;
  demand: number;
  capacity: number;
  ratio: number;
  unit: string;
  note: string;
}
export interface Part {
  mark: string;
  kind: string;
  use: string;
  step: number;
  section: { nominal: string; thickness: number; width: number };
  species: string;
  grade: string;
  board_length?: number;
}
export interface Fastener {
  mark: string;
  item: string;
  joins: string[];
}
export interface Flight {
  risers: number;
  unit_rise: number;
  going: number;
  run: number;
  total_rise: number;
  nosing: number;
  landing_lift: number;
  nosings: [number, number][];
  landing: { z: number; natural: { uncertainty: number; beyond_readings: boolean } };
}
export interface Board {
  section: string;
  length: number;
  offcut: boolean;
  left_over: number;
  pieces: { mark: string; from: number; to: number }[];
}
export interface StringerCard {
  mark: string;
  same: string[];
  marks: number[];
  step_length: number;
  square_body: number;
  square_tongue: number;
  plumb_cut: number;
  first_riser_cut: number;
  foot_cut: number;
  drop: number;
  throat: number;
}
export interface Hole {
  part: string;
  mark: string;
  face: string;
  /** Where `along` and `across` count from, in words. */
  from: string;
  along: number;
  across: number;
  diameter: number;
  depth: number;
  kind: string;
}
export interface OrderLine {
  group: string;
  item: string;
  /** Of the engine's row; of boards, their section. */
  key: string;
  /** Of one board. */
  length: number;
  use: string;
  package: string;
  quantity: number;
  unit_price: number;
  price: number;
  note: string;
}
export interface Plan {
  job: Job;
  flight: Flight;
  findings: Finding[];
  frame: { parts: Part[]; fasteners: Fastener[]; notes: string[]; clashes: { first: string; second: string; note: string }[] };
  strength: { checks: StrengthCheck[]; notes: string[] };
  cuts: { boards: Board[] };
  marks: { stringers: StringerCard[]; saw: { mark: string; cut: string; how: string; from_square: number; count: number; beyond_saw: boolean }[]; holes: Hole[] };
  order: { lines: OrderLine[]; currency: string; total: number; weight: number; price_date: string; notes: string[] };
  site: { assumptions: string[] };
}

export interface Option {
  number: number;
  stair: string;
  why: string;
  marks: string[];
  cost: number;
  hours: number;
  comfort_off: number;
  ratio: number;
  weakest: string;
  lift: number;
  open: number;
  risers: number;
  unit_rise: number;
  going: number;
  run: number;
  top: string;
  treads: string;
  riser_boards: string;
  stringers: { kind: string; board: string; ready_cut: string | null; count: number; bearing_share: number; mid_supports: number | null };
  rails: { foot_posts: string; hold_downs: boolean; post_bolt: string };
}
export interface Choices {
  currency: string;
  pick: number | null;
  options: Option[];
  rejected: { families: string[]; reason?: string; fault?: string; [key: string]: unknown }[];
  measure_again: { input: string; words: string }[];
  searched: { stairs: number; checked: number; priced: number };
  no_flight: unknown;
  in_the_way: unknown;
}
export interface Problem {
  place: string;
  wrong: string;
  remedy: string;
}

/** The job's inputs that make it that option. */
export function pickOf(option: Option): Pick {
  const { stringers, rails } = option;
  const sets: Record<string, Value> = {
    "stair.risers": option.risers,
    "stair.going": `${option.going} in`,
    "stair.top": option.top,
    "stair.treads": option.treads,
    "stair.riser_boards": option.riser_boards,
    "stringers.kind": stringers.kind,
    "stringers.board": stringers.board,
    "stringers.bearing_share": stringers.bearing_share,
    "stringers.mid_supports": stringers.mid_supports,
    "stringers.count": stringers.kind === "solid" ? null : stringers.count,
    "rails.foot_posts": rails.foot_posts,
    "rails.hold_downs": rails.hold_downs,
    "rails.post_bolt": rails.post_bolt,
  };
  return { words: option.stair, sets };
}

/** Problems in whatever form an answer tells them: what is wrong, or the limits that collide and what would do. */
export function problemsOf(text: string): Problem[] {
  const found: Problem[] = [];
  const read = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(read);
    else if (typeof value === "object" && value !== null) {
      const v = value as Record<string, unknown>;
      if (typeof v["wrong"] === "string") found.push({ place: String(v["place"] ?? ""), wrong: v["wrong"], remedy: String(v["remedy"] ?? "") });
      else if (typeof v["words"] === "string") found.push({ place: String(v["input"] ?? ""), wrong: v["words"], remedy: "" });
      else Object.values(v).forEach(read);
    }
  };
  try {
    read(JSON.parse(text));
  } catch {
    found.push({ place: "", wrong: text, remedy: "" });
  }
  return found;
}
