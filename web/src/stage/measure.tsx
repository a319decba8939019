// Where the ground is: readings on the drawing, line by line.
import type { JobRecord, Value } from "../job/record";
import { valueAt } from "../job/record";
import { inputName } from "../view/schema";
import { say, type Word } from "../words";

interface Props {
  record: JobRecord;
  line: number;
  onLine: (line: number) => void;
  onInput: (key: string) => void;
  onValue: (key: string, value: Value | undefined) => void;
}
const LINES: Word[] = ["left", "middle", "right"];

export function Measure({ record, line, onLine, onInput, onValue }: Props) {
  const name = LINES[line - 1] ?? "middle";
  const key = `ground.${name}`;
  const readings = valueAt(record.job, key);
  const count = Array.isArray(readings) ? readings.length : 0;
  const lines = LINES.filter((l) => Array.isArray(valueAt(record.job, `ground.${l}`))).length;
  const add = () => {
    const all = Array.isArray(readings) ? readings : [];
    onValue(key, [...all, (all.at(-1) as Value | undefined) ?? { out: "2 ft", down: "3 ft" }]);
  };
  const take = () => onValue(count > 1 ? `${key}[${count - 1}]` : key, undefined);
  return (
    <>
      <p>{say("where to hold the tape")}</p>
      {record.open.length > 0 && (
        <div class="notice">
          <strong>{say("not measured yet")}</strong>
          <div class="row">
            {record.open.map((open) => (
              <button type="button" key={open} onClick={() => onInput(open)}>
                {open.startsWith("ground.") ? open.slice(7).replace(/\[(\d+)\]\./, (_, n) => ` ${Number(n) + 1} `) : inputName(open)}: {String(valueAt(record.job, open) ?? "")}
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
