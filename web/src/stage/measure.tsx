// Where the ground is: readings on the drawing, line by line.
import { type JobRecord, valueAt, withValue } from "../job/record";
import { lengthIn } from "../job/tape";
import { titleOf } from "../view/schema";
import { say, type Word } from "../words";

interface Props {
  record: JobRecord;
  line: number;
  onLine: (line: number) => void;
  onInput: (key: string) => void;
  onRecord: (record: JobRecord) => void;
}
/** The lines that readings are taken on, as the job names them. */
export const LINES: Word[] = ["left", "middle", "right"];

export function Measure({ record, line, onLine, onInput, onRecord }: Props) {
  const name = LINES[line - 1] ?? "middle";
  const key = `ground.${name}`;
  const readings = valueAt(record.job, key);
  const count = Array.isArray(readings) ? readings.length : 0;
  const lines = LINES.filter((l) => Array.isArray(valueAt(record.job, `ground.${l}`))).length;
  const add = () => {
    const all = Array.isArray(readings) ? readings : [];
    // Until it is measured, it stands in where another line has one, or where this one ends.
    const others = LINES.map((l) => valueAt(record.job, `ground.${l}[${all.length}]`)).find((v) => v !== undefined);
    const open = ["out", "down"].map((field) => `${key}[${all.length}].${field}`);
    onRecord({ ...record, job: withValue(record.job, key, [...all, others ?? all.at(-1) ?? { out: "2 ft", down: "3 ft" }]), open: [...record.open, ...open] });
  };
  const take = () => {
    const gone = `${key}[${count - 1}]`;
    onRecord({ ...record, job: withValue(record.job, count > 1 ? gone : key, undefined), open: record.open.filter((one) => !one.startsWith(gone)) });
  };
  return (
    <>
      <p>{say("where to hold the tape")}</p>
      {record.open.length > 0 && (
        <div class="notice">
          <strong>{say("not measured yet")}</strong>
          <div class="row">
            {record.open.map((open) => (
              <button type="button" key={open} onClick={() => onInput(open)}>
                {titleOf({ key: open })}: {lengthIn(String(valueAt(record.job, open) ?? ""), record.job.about.units === "metric")}
              </button>
            ))}
          </div>
        </div>
      )}
      <fieldset class="row">
        <legend>{say("readings on")}</legend>
        {LINES.map((l, i) => (
          <button type="button" key={l} aria-pressed={line === i + 1} onClick={() => onLine(i + 1)}>{say(l)}</button>
        ))}
        <button type="button" onClick={add}>{say("add a reading")}</button>
        {count > 0 && (count > 1 || lines > 1) && <button type="button" onClick={take}>{say("take away the last")}</button>}
      </fieldset>
    </>
  );
}
