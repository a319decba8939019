// How a rule or a check of strength stands: by word, shape and place before colour.
import type { Finding, StrengthCheck } from "../job/plan";
import { lengthText } from "../job/tape";
import { say, term } from "../words";

/** A rule or a check of strength, the same way told. */
export interface Judged {
  verdict: string;
  words: string;
  where: string;
  /** Demand over limit, where both are known. */
  share: number | undefined;
  /** How far the readings' own uncertainty reaches, in limits. */
  spread: number;
  detail: string;
  step: number;
}
/** The worst first; a verdict that is not listed comes before all. */
export const VERDICTS = ["fail", "too close", "not checked", "from memory", "pass"];
/** A verdict as a class of the style sheet. */
export const look = (verdict: string): string => verdict.replaceAll(" ", "-");

const figure = (value: number | null, unit: string, metric: boolean): string =>
  value === null ? "–" : unit === "in" ? lengthText(value, metric) : `${Math.round(value * 100) / 100} ${unit}`;
/** Demand over limit; of a least value the other way round. */
function shareOf(f: Finding): number | undefined {
  if (f.measured === null || f.limit === null) return undefined;
  const [over, under] = f.compare === "at_least" ? [f.limit, f.measured] : [f.measured, f.limit];
  return under === 0 ? (over === 0 ? 0 : undefined) : over / under;
}
export const ofRule = (f: Finding, metric: boolean): Judged => ({
  verdict: f.verdict,
  words: f.sentence,
  where: f.where,
  share: shareOf(f),
  spread: f.uncertainty && f.limit ? f.uncertainty / f.limit : 0,
  detail: `${f.clause}. ${f.measured === null && f.limit === null ? "" : `${say("measured")} ${figure(f.measured, f.unit, metric)}, ${say("needed")} ${figure(f.limit, f.unit, metric)}. `}${f.change}`,
  step: f.step,
});
export const ofStrength = (c: StrengthCheck): Judged => ({
  verdict: c.verdict,
  words: `${c.member}: ${c.what}.`,
  where: c.where,
  // Where nothing can be carried, any demand is beyond it.
  share: c.verdict === "not checked" ? undefined : c.capacity > 0 ? c.ratio : Infinity,
  spread: 0,
  detail: `${c.note && `${c.note} `}${c.verdict === "not checked" ? "" : `${c.demand.toFixed(0)} / ${c.capacity.toFixed(0)} ${c.unit}. `}${c.clause}.`,
  step: 0,
});
/** Sorted by verdict, then by what is nearest to its limit. */
const worstFirst = (list: Judged[]): Judged[] =>
  list.toSorted((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) || (b.share ?? 0) - (a.share ?? 0));

/** How far along to its limit: the limit stands at three quarters of the bar. */
function Bar({ verdict, share, spread }: Judged) {
  const LIMIT = 90;
  const end = share === undefined ? LIMIT : Math.min(118, Math.max(2, share * LIMIT));
  return (
    <svg class={`bar ${look(verdict)}`} viewBox="0 0 120 16" preserveAspectRatio="xMinYMid" aria-hidden="true">
      <line class="way" x1="0" x2="120" y1="8" y2="8" />
      <line class="value" x1="0" x2={end} y1="8" y2="8" />
      {spread > 0 && <line class="spread" x1={Math.max(0, end - spread * LIMIT)} x2={Math.min(120, end + spread * LIMIT)} y1="8" y2="8" />}
      <line class="limit" x1={LIMIT} x2={LIMIT} y1="0" y2="16" />
    </svg>
  );
}

export function Verdicts({ list, onStep }: { list: Judged[]; onStep: (step: number) => void }) {
  return (
    <ul class="checks">
      {worstFirst(list).map((judged, i) => (
        <li key={i} class={look(judged.verdict)}>
          <details>
            <summary>
              <b>{term(judged.verdict)}</b> {judged.words} <span class="quiet">{judged.where}</span>
              {judged.verdict !== "not checked" && <Bar {...judged} />}
            </summary>
            <p>{judged.detail}</p>
            {judged.step > 0 && <button type="button" onClick={() => onStep(judged.step)}>{say("step")} {judged.step}</button>}
          </details>
        </li>
      ))}
    </ul>
  );
}
