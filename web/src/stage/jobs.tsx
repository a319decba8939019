// Whose stair, and where it goes: several jobs, files in and out, paper.
import { useState } from "preact/hooks";
import { archiveOf, packetOf, recordOf, saveFile, textOf } from "../job/packet";
import type { Problem } from "../job/plan";
import type { JobRecord } from "../job/record";
import type { Kept } from "../job/store";
import { unstyled } from "../view/drawing";
import { type Language, LANGUAGES, say } from "../words";

interface Props {
  jobs: Kept[];
  record: JobRecord;
  /** The job as it is planned. */
  job: string;
  language: Language;
  onLanguage: (language: Language) => void;
  onUnits: (units: string) => void;
  onNew: () => void;
  onOpen: (job: Kept) => void;
  onRead: (record: JobRecord) => void;
  onRemove: (id: string) => void;
}

export function Jobs({ jobs, record, job, language, onLanguage, onUnits, onNew, onOpen, onRead, onRemove }: Props) {
  const [problem, setProblem] = useState<Problem>();
  const [busy, setBusy] = useState(false);
  const [removing, setRemoving] = useState<string>();
  const metric = record.job.about.units === "metric";
  const { name } = record.job.about;
  const read = async (file: File | undefined) => {
    if (!file) return;
    const found = recordOf(file.name, new Uint8Array(await file.arrayBuffer()), crypto.randomUUID());
    if ("wrong" in found) setProblem(found);
    else onRead(found);
  };
  const withPacket = async (use: (files: Record<string, Uint8Array>) => void) => {
    setBusy(true);
    const files = await packetOf(job, metric).catch(() => undefined);
    setBusy(false);
    setProblem(files ? undefined : { place: "", wrong: say("old"), remedy: "" });
    if (files) use(files);
  };
  const print = () =>
    withPacket((files) => {
      const box = document.getElementById("sheets");
      if (!box) return;
      const sheets = Object.keys(files).filter((file) => file.startsWith("sheets/"));
      box.innerHTML = sheets.map((sheet) => unstyled(textOf(files[sheet]))).join("");
      globalThis.print();
    });
  return (
    <section class="jobs" aria-label={say("jobs")}>
      {problem && <p class="notice fail" role="alert">{problem.place && <b>{problem.place}: </b>}{problem.wrong}. {problem.remedy}</p>}
      <div class="row">
        <button type="button" onClick={onNew}>{say("new job")}</button>
        <label class="button">{say("open a file")}<input type="file" class="unseen" accept=".json,.toml,.zip" onChange={(e) => void read(e.currentTarget.files?.[0])} /></label>
        <button type="button" onClick={() => saveFile(`${name}.json`, "application/json", JSON.stringify(record, null, 1))}>{say("save a copy")}</button>
        <button type="button" disabled={busy} onClick={() => void withPacket((files) => saveFile(`${name}.zip`, "application/zip", archiveOf(files, record)))}>{say("save the packet")}</button>
        <button type="button" disabled={busy} onClick={() => void print()}>{say("print")}</button>
        <label>{say("language")} <select value={language} onChange={(e) => onLanguage(e.currentTarget.value as Language)}>{Object.entries(LANGUAGES).map(([key, words]) => <option key={key} value={key}>{words}</option>)}</select></label>
        <label>{say("units")} <select value={metric ? "metric" : "imperial"} onChange={(e) => onUnits(e.currentTarget.value)}><option value="imperial">{say("inches")}</option><option value="metric">mm</option></select></label>
      </div>
      <ul>
        {jobs.map((one) => (
          <li key={one.id} class="row">
            <button type="button" aria-pressed={one.id === record.id} onClick={() => onOpen(one)}>{one.name}</button>
            {removing === one.id ? (
              <>
                <button type="button" class="main" onClick={() => (onRemove(one.id), setRemoving(undefined))}>{say("remove for good")}<span class="unseen"> {one.name}</span></button>
                <button type="button" onClick={() => setRemoving(undefined)}>{say("cancel")}</button>
              </>
            ) : (
              <button type="button" onClick={() => setRemoving(one.id)}>{say("remove")}<span class="unseen"> {one.name}</span></button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
