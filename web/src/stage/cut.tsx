// What to mark, cut and drill, readable at arm's length.
import { useMemo } from "preact/hooks";
import type { Hole, Plan } from "../job/plan";
import { lengthText } from "../job/tape";
import { say } from "../words";

/** One face of a part with its holes where they are drilled, the corner that they are counted from marked, at the left below. */
function DrillMap({ face, holes, length }: { face: string; holes: Hole[]; length: number }) {
  const margin = 1;
  const long = Math.max(length, ...holes.map((h) => h.along + margin));
  const wide = Math.max(...holes.map((h) => h.across + margin));
  return (
    <figure class="drill">
      <svg viewBox={`0 0 ${long} ${wide}`} aria-hidden="true">
        <rect width={long} height={wide} class="board" />
        <path d={`M0 ${wide}h1.5l-1.5-1.5z`} />
        {holes.map((h, i) => <circle key={i} cx={h.along} cy={wide - h.across} r={Math.max(0.25, h.diameter / 2)} class={h.kind} />)}
      </svg>
      <figcaption class="quiet">{face}; ◣ {holes[0]?.from}</figcaption>
    </figure>
  );
}

interface Props {
  plan: Plan;
  metric: boolean;
  step: number;
  part: string | undefined;
  onPart: (mark: string) => void;
}

export function Cut({ plan, metric, step, part, onPart }: Props) {
  const steps = useMemo(() => new Map(plan.frame.parts.map((p) => [p.mark, p.step])), [plan]);
  const longOf = useMemo(() => new Map(plan.frame.parts.map((p) => [p.mark, p.board_length ?? 0])), [plan]);
  const length = (inches: number) => lengthText(inches, metric);
  const longest = Math.max(1, ...plan.cuts.boards.map((b) => b.length));
  const lit = (mark: string) => mark === part || (step > 0 && steps.get(mark) === step);
  const Mark = ({ mark, words = "" }: { mark: string; words?: string }) => (
    <button type="button" class="mark-button" aria-pressed={mark === part} onClick={() => onPart(mark)}>{mark}{words}</button>
  );
  const drilled = [...new Set(plan.marks.holes.map((h) => h.part))]
    .filter((mark) => step === 0 || steps.get(mark) === step)
    .map((mark) => ({ mark, holes: plan.marks.holes.filter((h) => h.part === mark) }));
  return (
    <div class="shop">
      <h2>{say("stringers")}</h2>
      {plan.marks.stringers.map((card) => (
        <section key={card.mark}>
          <div class="row">{card.same.map((mark) => <Mark key={mark} mark={mark} />)}</div>
          <p>{say("marks along")}:</p>
          <ol class="along figures">{card.marks.map((mark, i) => <li key={i}>{length(mark)}</li>)}</ol>
          <dl>
            <div><dt>{say("tongue")}</dt><dd>{length(card.square_tongue)}</dd></div>
            <div><dt>{say("body")}</dt><dd>{length(card.square_body)}</dd></div>
            <div><dt>{say("step length")}</dt><dd>{length(card.step_length)}</dd></div>
            <div><dt>{say("drop")}</dt><dd>{length(card.drop)}</dd></div>
            <div><dt>{say("throat")}</dt><dd>{length(card.throat)}</dd></div>
            <div><dt>{say("plumb cut")}</dt><dd>{length(card.plumb_cut)}</dd></div>
          </dl>
        </section>
      ))}
      <h2>{say("boards")}</h2>
      <ul class="boards">
        {plan.cuts.boards.map((board, i) => (
          <li key={i}>
            <h3>{i + 1}. {board.section} × {length(board.length)}</h3>
            <svg viewBox={`0 0 ${longest} 12`} aria-hidden="true">
              <rect x="0" y="1" width={board.length} height="10" class="board" />
              {board.pieces.map((p) => (
                <rect key={p.mark} x={p.from} y="1" width={p.to - p.from} height="10" class={lit(p.mark) ? "piece lit" : "piece"} />
              ))}
            </svg>
            <div class="row figures">{board.pieces.map((p) => <Mark key={p.mark} mark={p.mark} words={` ${length(p.to - p.from)}`} />)}</div>
            <p class="quiet figures">{say("left over")} {length(board.left_over)}</p>
          </li>
        ))}
      </ul>
      <h2>{say("saw")}</h2>
      <ul class="saw">
        {plan.marks.saw.map((s, i) => (
          <li key={i}>
            <b class="big">{s.from_square.toFixed(1)}°</b> <Mark mark={s.mark} /> {s.cut}, {s.count} ×. {s.how}
          </li>
        ))}
      </ul>
      <h2>{say("holes")}</h2>
      {drilled.map(({ mark, holes }) => (
        <details key={mark} open={mark === part}>
          <summary class="figures">{mark}: {holes.length}</summary>
          {[...new Set(holes.map((h) => h.face))].map((face) => (
            <DrillMap key={face} face={face} holes={holes.filter((h) => h.face === face)} length={longOf.get(mark) ?? 0} />
          ))}
          <table>
            <thead><tr><th>{say("face")}</th><th>{say("along")}</th><th>{say("across")}</th><th>{say("drill")}</th></tr></thead>
            <tbody>
              {holes.map((h, i) => (
                <tr key={i}><td>{h.face}</td><td class="figures">{length(h.along)}</td><td class="figures">{length(h.across)}</td><td class="figures">{h.kind} {h.diameter.toFixed(3)} in, {length(h.depth)}</td></tr>
              ))}
            </tbody>
          </table>
        </details>
      ))}
    </div>
  );
}
