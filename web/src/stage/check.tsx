import type { Finding, Plan, StrengthCheck } from "../job/plan";
import { lengthText } from "../job/tape";
import { say } from "../words";

const RANK = ["fail", "too close", "not checked", "from memory", "pass"];
const rank = (verdict: string): number => (RANK.indexOf(verdict) + RANK.length + 1) % (RANK.length + 1);
/** A verdict as a class of the style sheet. */
export const look = (verdict: string): string => verdict.replaceAll(" ", "-");

/** How far along to its limit: the limit stands at three quarters of the bar. */
function Bar({ verdict, share, spread }: { verdict: string; share: number | undefined; spread: number }) {
  const LIMIT = 90;
  const end = share === undefined ? LIMIT : Math.min(118, Math.max(2, share * LIMIT));
  return (
    <svg class={`bar ${look(verdict)}`} viewBox="0 0 120 16" aria-hidden="true">
      <line class="way" x1="0" x2="120" y1="8" y2="8" />
      <line class="value" x1="0" x2={end} y1="8" y2="8" />
      {spread > 0 && <line class="spread" x1={Math.max(0, end - spread * LIMIT)} x2={Math.min(120, end + spread * LIMIT)} y1="8" y2="8" />}
      <line class="limit" x1={LIMIT} x2={LIMIT} y1="0" y2="16" />
    </svg>
  );
}

const figure = (value: number | null, unit: string, metric: boolean): string =>
  value === null ? "–" : unit === "in" ? lengthText(value, metric) : `${Math.round(value * 100) / 100} ${unit}`;
/** Demand over limit; of a least value the other way round. */
function shareOf(f: Finding): number | undefined {
  if (f.measured === null || f.limit === null) return undefined;
  const [over, under] = f.compare === "at_least" ? [f.limit, f.measured] : [f.measured, f.limit];
  return under === 0 ? (over === 0 ? 0 : undefined) : over / under;
}

export function Check({ plan, metric, step, onStep }: { plan: Plan; metric: boolean; step: number; onStep: (step: number) => void }) {
  const rules = plan.findings.filter((f) => f.applies && (step === 0 || f.step === step || f.step === 0)).sort((a, b) => rank(a.verdict) - rank(b.verdict));
  const strength = plan.strength.checks.toSorted((a: StrengthCheck, b: StrengthCheck) => rank(a.verdict) - rank(b.verdict) || b.ratio - a.ratio);
  return (
    <>
      <h2>{say("rule")}</h2>
      <p class="quiet">{say("worst")}</p>
      <ul class="checks">
        {rules.map((f, i) => (
          <li key={i} class={look(f.verdict)}>
            <details>
              <summary>
                <b>{f.verdict}</b> {f.sentence} <span class="quiet">{f.where}</span>
                <Bar verdict={f.verdict} share={shareOf(f)} spread={f.uncertainty && f.limit ? f.uncertainty / f.limit : 0} />
              </summary>
              <p>
                {f.clause}. {say("measured")} {figure(f.measured, f.unit, metric)}, {say("needed")} {figure(f.limit, f.unit, metric)}. {f.change}
              </p>
              {f.step > 0 && <button type="button" onClick={() => onStep(f.step)}>{say("step")} {f.step}</button>}
            </details>
          </li>
        ))}
      </ul>
      <h2>{say("strength checks")}</h2>
      <ul class="checks">
        {strength.map((c, i) => (
          <li key={i} class={look(c.verdict)}>
            <details>
              <summary>
                <b>{c.verdict}</b> {c.where}: {c.what}
                <Bar verdict={c.verdict} share={c.verdict === "not checked" ? undefined : c.ratio} spread={0} />
              </summary>
              <p>{c.clause}. {c.demand.toFixed(0)} / {c.capacity.toFixed(0)} {c.unit}. {c.note}</p>
            </details>
          </li>
        ))}
      </ul>
      {plan.frame.clashes.length > 0 && <ul>{plan.frame.clashes.map((c) => <li key={c.note}>{c.first}, {c.second}: {c.note}</li>)}</ul>}
    </>
  );
}
