// What was built, riser by riser, against the limit.
import type { Plan } from "../job/plan";
import { inchesOf, lengthText } from "../job/tape";
import { look } from "../view/verdict";
import { say, term } from "../words";

export function SignOff({ plan, metric, built, onBuilt }: { plan: Plan; metric: boolean; built: string[]; onBuilt: (built: string[]) => void }) {
  const rule = plan.findings.find((f) => f.quantity === "riser_variation" && f.applies);
  const read = built.map((text) => inchesOf(text ?? "", metric)).filter((v) => v !== undefined);
  const spread = read.length > 1 ? Math.max(...read) - Math.min(...read) : undefined;
  const verdict = spread === undefined || read.length < plan.flight.risers || rule?.limit == null ? "not checked" : spread > rule.limit ? "fail" : "pass";
  const sum = read.reduce((all, one) => all + one, 0);
  const off = (inches: number | undefined, wanted: number) => (inches === undefined ? "–" : lengthText(inches - wanted, metric));
  return (
    <>
      <h2>{say("as built")}</h2>
      <table class="built">
        <thead><tr><th>{say("step")}</th><th>{say("riser planned")}</th><th>{say("riser read")}</th><th>{say("read less planned")}</th></tr></thead>
        <tbody>
          {Array.from({ length: plan.flight.risers }, (_, i) => (
            <tr key={i}>
              <td>{i + 1}</td>
              <td class="figures">{lengthText(plan.flight.unit_rise, metric)}</td>
              <td>
                <input
                  aria-label={`${say("riser read")} ${i + 1}`}
                  value={built[i] ?? ""}
                  aria-invalid={(built[i] ?? "") !== "" && inchesOf(built[i] ?? "", metric) === undefined}
                  onChange={(e) => onBuilt(Array.from({ length: plan.flight.risers }, (_, n) => (n === i ? e.currentTarget.value : (built[n] ?? ""))))}
                />
              </td>
              <td class="figures">{off(inchesOf(built[i] ?? "", metric), plan.flight.unit_rise)}</td>
            </tr>
          ))}
          <tr>
            <th>{say("all risers")}</th>
            <td class="figures">{lengthText(plan.flight.total_rise, metric)}</td>
            <td class="figures">{read.length < plan.flight.risers ? "–" : lengthText(sum, metric)}</td>
            <td class="figures">{off(read.length < plan.flight.risers ? undefined : sum, plan.flight.total_rise)}</td>
          </tr>
        </tbody>
      </table>
      <p class={`verdict ${look(verdict)}`}>
        <b>{term(verdict)}</b> {say("spread")} {spread === undefined ? "–" : lengthText(spread, metric)}, {say("needed")} {rule?.limit == null ? "–" : lengthText(rule.limit, metric)} ({rule?.clause})
      </p>
      <p>{say("who")}</p>
    </>
  );
}
