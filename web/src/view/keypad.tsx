// Sets one input: a length by keys for gloved thumbs, feet, inches and sixteenths as a tape shows them, or in words.
import { useEffect, useRef, useState } from "preact/hooks";
import { inchesOf, lengthIn, tapeOf, tapeText, withUnit } from "../job/tape";
import { say, term } from "../words";
import { type Input, titleOf } from "./schema";

interface Props {
  input: Input;
  value: string;
  metric: boolean;
  /** RETURNS what is wrong with the value, if it was not taken. */
  onSet: (value: string | number | boolean | string[] | undefined) => Promise<string | undefined>;
  onCancel: () => void;
}

/** Ticks of a tape: the longer, the rounder the fraction. */
const tickHeight = (n: number): number => (n === 0 ? 40 : n % 8 === 0 ? 34 : n % 4 === 0 ? 26 : n % 2 === 0 ? 18 : 11);
const fraction = (n: number): string => (n === 0 ? "0" : tapeText({ feet: 0, inches: 0, sixteenths: n }).slice(0, -1));

function TapeKeys({ value, onChange }: { value: string; onChange: (text: string) => void }) {
  const tape = tapeOf(inchesOf(value) ?? 0);
  const put = (part: Partial<typeof tape>) => onChange(tapeText({ ...tape, ...part }));
  const keys = (name: "feet" | "inches", count: number) => (
    <fieldset class="keys">
      <legend>{say(name)}</legend>
      {Array.from({ length: count }, (_, n) => (
        <button type="button" key={n} aria-pressed={tape[name] === n} onClick={() => put({ [name]: n })}>
          {n}
        </button>
      ))}
    </fieldset>
  );
  return (
    <>
      {keys("feet", 12)}
      {keys("inches", 12)}
      <fieldset class="ticks">
        <legend>{say("sixteenths")}</legend>
        {Array.from({ length: 16 }, (_, n) => (
          <button type="button" key={n} aria-pressed={tape.sixteenths === n} aria-label={`${fraction(n)} in`} onClick={() => put({ sixteenths: n })}>
            <svg width="24" height="44" viewBox="0 0 24 44" aria-hidden="true">
              <line x1="12" x2="12" y1="0" y2={tickHeight(n)} stroke="currentColor" stroke-width="3" />
            </svg>
          </button>
        ))}
      </fieldset>
    </>
  );
}

export function Keypad({ input, value, metric, onSet, onCancel }: Props) {
  const inUnits = (words: string) => lengthIn(words, metric && input.kind === "length");
  const [text, setText] = useState(() => inUnits(value));
  const [wrong, setWrong] = useState<string>();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  const put = (to: Parameters<Props["onSet"]>[0]) => void onSet(to).then(setWrong);
  const finish = (event: Event) => {
    event.preventDefault();
    if (input.kind === "number") put(Number.isFinite(Number(text)) && text !== "" ? Number(text) : text);
    else if (input.kind === "yes or no") put(text === "true");
    else if (input.kind === "texts") put(text.split(",").map((one) => one.trim()).filter((one) => one !== ""));
    else put(input.kind === "length" ? withUnit(text, metric) : text);
  };
  const choices = input.kind === "yes or no" ? ["true", "false"] : input.choices;
  return (
    <dialog ref={dialog} class="keypad" aria-labelledby="keypad-name" onCancel={(e) => (e.preventDefault(), onCancel())}>
      <form onSubmit={finish}>
        <h2 id="keypad-name">{titleOf(input)}</h2>
        <p>
          {term(input.description)} {input.range && <span class="quiet">{input.range.split(" to ").map(inUnits).join(" – ")} {input.unit}</span>}
        </p>
        {choices.length > 0 ? (
          <fieldset class="choices">
            <legend class="unseen">{titleOf(input)}</legend>
            {choices.map((choice) => (
              <label key={choice}>
                <input type="radio" name="choice" checked={text === choice} onChange={() => setText(choice)} />
                {term(choice === "true" ? "yes" : choice === "false" ? "no" : choice)}
              </label>
            ))}
          </fieldset>
        ) : (
          <>
            <label class="typed">
              {input.kind === "length" ? say("or type") : input.unit || say("value")}
              <input value={text} autofocus aria-invalid={wrong !== undefined} inputMode={(metric && input.kind === "length") || input.kind === "number" ? "decimal" : "text"} onInput={(e) => setText(e.currentTarget.value)} />
            </label>
            {input.kind === "length" && !metric && <TapeKeys value={text} onChange={setText} />}
          </>
        )}
        {wrong && <p class="notice fail" role="alert">{wrong}</p>}
        <div class="row">
          <button type="submit" class="main">{say("set it")}</button>
          {input.assumed !== undefined && (
            <button type="button" onClick={() => put(undefined)}>{say("as assumed")}: {term(inUnits(input.assumed))}</button>
          )}
          <button type="button" onClick={onCancel}>{say("cancel")}</button>
        </div>
      </form>
    </dialog>
  );
}
