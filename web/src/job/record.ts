// One job as the page keeps it: what was typed, the stair that was picked, what was read as built.
import type { PitchboardJob } from "./job.generated";

export type Job = PitchboardJob;
export type Value = string | number | boolean | null | Value[] | { [key: string]: Value };

/** What an option of the search sets in the job, key by key. */
export type Pick = { words: string; sets: Record<string, Value> };

export interface JobRecord {
  version: 1;
  id: string;
  job: Job;
  /** Keys of readings that stand in the job but were not measured yet. */
  open: string[];
  pick: Pick | null;
  /** Heights of the risers as built, the lowest first, as typed. */
  built: string[];
}

/** A job to start from: a porch of three feet, until it is measured. */
export function newRecord(id: string, name: string): JobRecord {
  return {
    version: 1,
    id,
    job: {
      about: { name },
      ground: {
        method: "long level",
        middle: [
          { out: "2 ft", down: "3 ft" },
          { out: "7 ft", down: "3 ft 2 in" },
        ],
      },
      stair: { width: "36 in" },
    },
    open: ["ground.middle[0].out", "ground.middle[0].down", "ground.middle[1].out", "ground.middle[1].down", "stair.width"],
    pick: null,
    built: [],
  };
}

const steps = (key: string): (string | number)[] =>
  [...key.matchAll(/[^.[\]]+|\[(\d+)\]/g)].map((m) => (m[1] === undefined ? m[0] : Number(m[1])));

/** The value at a key like `ground.middle[1].down`, if the job has it. */
export function valueAt(job: Job, key: string): Value | undefined {
  let at: unknown = job;
  for (const step of steps(key)) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string | number, unknown>)[step];
  }
  return at as Value | undefined;
}

/** A value as its user typed it. */
export const valueText = (value: Value): string => (Array.isArray(value) ? value.join(", ") : String(value));

/** A copy of the job with that value; `undefined` takes the key, or the entry of a list, away. */
export function withValue(job: Job, key: string, value: Value | undefined): Job {
  const copy = structuredClone(job);
  const way = steps(key);
  const last = way.pop();
  if (last === undefined) return job;
  let at = copy as unknown as Record<string | number, unknown>;
  for (const step of way) {
    if (typeof at[step] !== "object" || at[step] === null) at[step] = {};
    at = at[step] as Record<string | number, unknown>;
  }
  if (value !== undefined) at[last] = value;
  else if (Array.isArray(at)) at.splice(Number(last), 1);
  else delete at[last];
  return copy;
}

/** The job with the picked stair written into it. */
export function planned(record: JobRecord): Job {
  let job = record.job;
  for (const [key, value] of Object.entries(record.pick?.sets ?? {})) job = withValue(job, key, value === null ? undefined : value);
  return job;
}

/** RETURNS the record that stored data of any age hold, or nothing where they are none. */
export function migrated(data: unknown): JobRecord | undefined {
  if (typeof data !== "object" || data === null) return undefined;
  const { id, job } = data as Partial<JobRecord>;
  if (typeof id !== "string" || typeof job !== "object" || job === null || typeof job.about?.name !== "string") return undefined;
  const list = (value: unknown) => (Array.isArray(value) ? value.filter((v): v is string => typeof v === "string") : []);
  const { open, pick, built } = data as Partial<JobRecord>;
  return { version: 1, id, job, open: list(open), pick: pick ?? null, built: list(built) };
}
