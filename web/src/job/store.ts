// Jobs in this browser: each with its history, saved after every change.
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { type History, started } from "./history";
import { type JobRecord, migrated } from "./record";

export interface Kept {
  id: string;
  name: string;
  history: History<JobRecord>;
  saved: number;
}
interface Shelf extends DBSchema {
  jobs: { key: string; value: Kept };
  /** What could not be read, kept as it was. */
  unread: { key: number; value: unknown };
}

let opened: Promise<IDBPDatabase<Shelf>> | undefined;
const shelf = () =>
  (opened ??= openDB<Shelf>("pitchboard", 1, {
    upgrade(database) {
      database.createObjectStore("jobs", { keyPath: "id" });
      database.createObjectStore("unread", { autoIncrement: true });
    },
  }));

/** Other tabs of this browser are told of what was saved. */
const tabs = new BroadcastChannel("pitchboard");
/** Calls with the job's id whenever another tab has saved one. RETURNS how to end that. */
export function whenSavedElsewhere(tell: (id: string) => void): () => void {
  const hear = ({ data }: MessageEvent<string>) => tell(data);
  tabs.addEventListener("message", hear);
  return () => tabs.removeEventListener("message", hear);
}

export async function keep(history: History<JobRecord>): Promise<void> {
  const { id, job } = history.now;
  await (await shelf()).put("jobs", { id, name: job.about.name, history, saved: Date.now() });
  tabs.postMessage(id);
}

/** RETURNS every job that can be read, the newest first; what cannot is put aside, not lost. */
export async function kept(): Promise<Kept[]> {
  const database = await shelf();
  const out: Kept[] = [];
  for (const entry of await database.getAll("jobs")) {
    const now = migrated(entry?.history?.now);
    if (now) {
      const list = (states: unknown) => (Array.isArray(states) ? states.map(migrated).filter((r) => r !== undefined) : []);
      const { past, future } = entry.history;
      out.push({ id: now.id, name: now.job.about.name, saved: Number(entry.saved) || 0, history: { ...started(now), past: list(past), future: list(future) } });
    } else {
      await database.add("unread", entry);
      if (typeof entry?.id === "string") await database.delete("jobs", entry.id);
    }
  }
  return out.sort((a, b) => b.saved - a.saved);
}

export async function remove(id: string): Promise<void> {
  await (await shelf()).delete("jobs", id);
}
