// Rules and strength together: what fails is seen first, what passes last, and nothing counts that was not checked.
import type { Plan } from "../job/plan";
import { say, term } from "../words";
import { look, ofRule, ofStrength, VERDICTS, Verdicts } from "../view/verdict";

export function Check({ plan, metric, step, onStep }: { plan: Plan; metric: boolean; step: number; onStep: (step: number) => void }) {
  const rules = plan.findings.filter((f) => f.applies && (step === 0 || f.step === step || f.step === 0));
  const all = [...rules.map((f) => ofRule(f, metric)), ...plan.strength.checks.map(ofStrength)];
  const groups = [...new Set([...all.map((j) => j.verdict).filter((v) => !VERDICTS.includes(v)), ...VERDICTS])]
    .map((verdict) => ({ verdict, list: all.filter((j) => j.verdict === verdict) }))
    .filter(({ list }) => list.length > 0);
  return (
    <>
      <h2>{say("rules and strength")}</h2>
      {plan.frame.clashes.length > 0 && <ul>{plan.frame.clashes.map((c) => <li key={c.note}><b>{say("clash")}</b> {c.first}, {c.second}: {c.note}</li>)}</ul>}
      {groups.map(({ verdict, list }) => (
        <details key={verdict} open={verdict === "fail" || verdict === "too close"} class="group">
          <summary><h3 class={`verdict ${look(verdict)}`}><b>{term(verdict)}</b> {list.length}</h3></summary>
          <Verdicts list={list} onStep={onStep} />
        </details>
      ))}
      <p class="quiet">{say("who")}</p>
    </>
  );
}
