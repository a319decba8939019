// Files in and out: the packet as the engine makes it, as one archive, and jobs from files of any of these kinds.
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { parse } from "smol-toml";
import { engine } from "../engine/client";
import type { Problem } from "./plan";
import { type Job, type JobRecord, migrated } from "./record";

type Files = Record<string, Uint8Array>;

/** The page's own copy of the job inside an archive: what was typed, picked and read as built. */
const RECORD = "record.json";

/** RETURNS the files of the engine's `packet`: a line of JSON with names and sizes, then one file after another. */
export function filesOf(packet: Uint8Array): Files {
  let at = packet.indexOf("\n".charCodeAt(0)) + 1;
  const sizes = JSON.parse(strFromU8(packet.subarray(0, at))) as Record<string, number>;
  const files: Files = {};
  for (const [name, size] of Object.entries(sizes)) {
    files[name] = packet.subarray(at, at + size);
    at += size;
  }
  return files;
}

/** RETURNS the packet's files, or nothing where the job cannot be planned. */
export async function packetOf(job: string, metric: boolean): Promise<Files | undefined> {
  const { file } = await engine.ask("packet", job, metric ? 1 : 0);
  return file && filesOf(new Uint8Array(file));
}
export const textOf = (file: Uint8Array | undefined): string => (file ? strFromU8(file) : "");

export const archiveOf = (files: Files, record: JobRecord): Uint8Array<ArrayBuffer> =>
  zipSync({ ...files, [RECORD]: strToU8(JSON.stringify(record, null, 1)) }) as Uint8Array<ArrayBuffer>;

/** RETURNS the record that a file holds under another `id`, or what is wrong with the file. */
export function recordOf(name: string, bytes: Uint8Array, id: string): JobRecord | Problem {
  try {
    let data: unknown;
    if (name.endsWith(".zip")) {
      const files = unzipSync(bytes, { filter: (file) => file.name === RECORD || file.name === "job.json" });
      data = JSON.parse(textOf(files[RECORD] ?? files["job.json"]));
    } else data = name.endsWith(".toml") ? JSON.parse(JSON.stringify(parse(strFromU8(bytes)))) : JSON.parse(strFromU8(bytes));
    const inner = (data as { job?: Job } | null)?.job ?? (data as Job);
    const found = migrated(data) ?? migrated({ id, job: inner });
    return found ? { ...found, id } : { place: name, wrong: "there is no job in this file", remedy: "a job has at least `about` with a `name`" };
  } catch (error) {
    return {
      place: name,
      wrong: `this file cannot be read (${error instanceof Error ? error.message.split("\n")[0] : String(error)})`,
      remedy: "open a job file (.toml, .json) or a packet (.zip)",
    };
  }
}

export function saveFile(name: string, type: string, content: BlobPart): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
