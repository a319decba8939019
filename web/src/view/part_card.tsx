// One part: what it is, what it is cut from, what goes through it, and how it stands.
import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../job/plan";
import { lengthText } from "../job/tape";
import { say, term } from "../words";
import { ofStrength, Verdicts } from "./verdict";

interface Props {
  plan: Plan;
  mark: string;
  metric: boolean;
  onStep: (step: number) => void;
  onClose: () => void;
}
const counted = (words: string[]): [string, number][] => [...words.reduce((all, word) => all.set(word, (all.get(word) ?? 0) + 1), new Map<string, number>())];
/** Whether words like "S1, S3" or "S2 foot" speak of the part. */
const speaksOf = (words: string, mark: string): boolean => words.split(/[^\w]+/).includes(mark);

export function PartCard({ plan, mark, metric, onStep, onClose }: Props) {
  const part = plan.frame.parts.find((p) => p.mark === mark);
  const card = useRef<HTMLElement>(null);
  useEffect(() => card.current?.scrollIntoView({ block: "start" }), [mark]);
  if (!part) return null;
  const length = (inches: number) => lengthText(inches, metric);
  const board = plan.cuts.boards.findIndex((b) => b.pieces.some((p) => p.mark === mark));
  const piece = plan.cuts.boards[board]?.pieces.find((p) => p.mark === mark);
  const alike = plan.marks.stringers.find((card) => card.same.includes(mark))?.mark ?? mark;
  const saw = plan.marks.saw.filter((s) => s.mark === alike);
  const joints = plan.frame.fasteners.filter((f) => f.joins.includes(mark));
  const holes = plan.marks.holes.filter((h) => h.part === mark);
  const itemOf = (key: string) => plan.order.lines.find((line) => line.key === key)?.item ?? key;
  const checks = plan.strength.checks.filter((c) => speaksOf(c.where, mark));
  return (
    <section ref={card} class="part notice" aria-label={`${term(part.kind)} ${mark}`}>
      <div class="row between">
        <h2>{term(part.kind)} {mark}</h2>
        <button type="button" onClick={onClose}>{say("close")}</button>
      </div>
      <p class="figures">
        {part.use}. {part.section.nominal}
        {part.board_length !== undefined && ` × ${length(part.board_length)}`}
        {part.species && ` · ${part.species} ${part.grade}`}
      </p>
      {part.step > 0 && <button type="button" onClick={() => onStep(part.step)}>{say("step")} {part.step}</button>}
      {piece && <p class="figures">{say("board")} {board + 1}: {length(piece.from)} – {length(piece.to)}</p>}
      {saw.map((s) => <p key={s.cut} class="figures">{s.cut}: {s.from_square.toFixed(1)}° {s.how}</p>)}
      {joints.length > 0 && (
        <>
          <h3>{say("fasteners")}</h3>
          <ul>{counted(joints.map((f) => `${itemOf(f.item)}: ${f.joins.filter((m) => m !== mark).join(", ")}`)).map(([words, count]) => <li key={words} class="figures">{count} × {words}</li>)}</ul>
        </>
      )}
      {holes.length > 0 && (
        <>
          <h3>{say("holes")}</h3>
          <ul>{counted(holes.map((h) => `${h.kind} ${h.diameter.toFixed(3)} in, ${h.face}`)).map(([words, count]) => <li key={words} class="figures">{count} × {words}</li>)}</ul>
        </>
      )}
      {checks.length > 0 && (
        <>
          <h3>{say("strength checks")}</h3>
          <Verdicts list={checks.map(ofStrength)} onStep={onStep} />
        </>
      )}
    </section>
  );
}
