// Parts in the order they go on: a card for each kind, and a slider that puts the model together.
import { useMemo } from "preact/hooks";
import type { Plan } from "../job/plan";
import { say, term } from "../words";

interface Props {
  plan: Plan;
  step: number;
  /** How many parts are up, the one that goes on now among them; nothing: all, and none goes on. */
  up: number | undefined;
  onUp: (up: number | undefined) => void;
  onPart: (mark: string) => void;
}
/** The parts that are built, in the order they go on. */
export const builtParts = (plan: Plan) => plan.frame.parts.filter((part) => part.kind !== "there already");

export function Build({ plan, step, up, onUp, onPart }: Props) {
  const parts = useMemo(() => builtParts(plan), [plan]);
  const cards = useMemo(() => {
    const out: { kind: string; from: number; marks: string[]; steps: number[] }[] = [];
    for (const [i, part] of parts.entries()) {
      const last = out.at(-1);
      if (last?.kind === part.kind) last.marks.push(part.mark), last.steps.push(part.step);
      else out.push({ kind: part.kind, from: i, marks: [part.mark], steps: [part.step] });
    }
    return out;
  }, [parts]);
  const at = up ?? parts.length;
  const now = up === undefined ? undefined : parts[at - 1];
  return (
    <div class="shop">
      <p class="notice">{say("caution")}</p>
      <h2>{say("parts in order")}</h2>
      <div class="row">
        <button type="button" disabled={at <= 1} onClick={() => onUp(at - 1)}>{say("part before")}</button>
        <label class="slider">
          <span class="figures">{at} / {parts.length}{now && `: ${term(now.kind)} ${now.mark}`}</span>
          <input type="range" min="1" max={parts.length} value={at} onInput={(e) => onUp(Number(e.currentTarget.value))} />
        </label>
        <button type="button" disabled={at >= parts.length} onClick={() => onUp(at + 1)}>{say("next part")}</button>
        {up !== undefined && <button type="button" onClick={() => onUp(undefined)}>{say("whole stair")}</button>}
      </div>
      <ol class="cards">
        {cards.map((card) => {
          const current = now ? at > card.from && at <= card.from + card.marks.length : step > 0 && card.steps.includes(step);
          return (
            <li key={card.from} class={current ? "best" : ""}>
              <h3>{term(card.kind)}</h3>
              <div class="row figures">{card.marks.map((mark) => <button type="button" key={mark} class="mark-button" aria-pressed={mark === now?.mark} onClick={() => onPart(mark)}>{mark}</button>)}</div>
            </li>
          );
        })}
      </ol>
      <ul>{plan.frame.notes.map((n) => <li key={n}>{n}</li>)}</ul>
    </div>
  );
}
