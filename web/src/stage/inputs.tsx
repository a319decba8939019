// Every input that no drawing shows, with what is assumed where it is left alone.
import { useState } from "preact/hooks";
import { type JobRecord, type Value, valueAt, valueText } from "../job/record";
import { type Input, inputName, type List, type Schema, startOf } from "../view/schema";
import { say, term } from "../words";

interface Props {
  record: JobRecord;
  schema: Schema;
  groups: string[];
  onInput: (key: string) => void;
  onValue: (key: string, value: Value | undefined) => void;
}
const groupOf = (key: string): string => key.split(".")[0] ?? "";

function One({ record, input, name, onInput }: { record: JobRecord; input: Input; name: string; onInput: (key: string) => void }) {
  const own = valueAt(record.job, input.key);
  return (
    <button type="button" onClick={() => onInput(input.key)}>
      <span>{name}</span>
      <strong>{own !== undefined ? valueText(own) : (input.assumed ?? "–")}</strong>
      <small>{own !== undefined ? say("set") : say("assumed")}. {term(input.description)}</small>
    </button>
  );
}

function Entries({ record, list, onInput, onValue }: Omit<Props, "schema" | "groups"> & { list: List }) {
  const value = valueAt(record.job, list.key);
  const entries = Array.isArray(value) ? value : [];
  const name = inputName(list.key);
  return (
    <fieldset>
      <legend>{term(groupOf(list.key))}: {name}</legend>
      <p class="quiet">{term(list.description)}</p>
      {entries.map((_, i) => (
        <details key={i} class="entry">
          <summary class="figures">{i + 1}. {list.fields.map((f) => valueAt(record.job, f.key.replace("[]", `[${i}]`))).filter((v) => v !== undefined).map(valueText).join(" · ")}</summary>
          <ul class="inputs">
            {list.fields.map((field) => {
              const key = field.key.replace("[]", `[${i}]`);
              return <li key={key}><One record={record} input={{ ...field, key }} name={inputName(key)} onInput={onInput} /></li>;
            })}
          </ul>
          <button type="button" onClick={() => onValue(entries.length > 1 ? `${list.key}[${i}]` : list.key, undefined)}>{say("remove")} {name} {i + 1}</button>
        </details>
      ))}
      <button type="button" onClick={() => onValue(list.key, [...entries, startOf(list, entries.length + 1)])}>{say("add one")}<span class="unseen"> {name}</span></button>
    </fieldset>
  );
}

export function Inputs({ record, schema, groups, onInput, onValue }: Props) {
  const [open, setOpen] = useState(false);
  const wanted = (key: string) => groups.includes(groupOf(key)) && !key.includes("[");
  return (
    <details open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{say("more inputs")}</summary>
      {open && (
        <>
          <ul class="inputs">
            {[...schema.inputs.values()].filter((input) => wanted(input.key)).map((input) => (
              <li key={input.key}><One record={record} input={input} name={`${term(groupOf(input.key))}: ${inputName(input.key)}`} onInput={onInput} /></li>
            ))}
          </ul>
          {/* The ground's own lists are typed on the drawing. */}
          {schema.lists.filter((list) => wanted(list.key) && groupOf(list.key) !== "ground").map((list) => (
            <Entries key={list.key} record={record} list={list} onInput={onInput} onValue={onValue} />
          ))}
        </>
      )}
    </details>
  );
}
