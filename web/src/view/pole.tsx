// The story pole: a mark at every tread, true to proportion, the ground at its foot and the deck at its head.
import type { Plan } from "../job/plan";
import { lengthText } from "../job/tape";
import { say } from "../words";

interface Props {
  plan: Plan | undefined;
  metric: boolean;
  step: number;
  onStep: (step: number) => void;
}

export function Pole({ plan, metric, step, onStep }: Props) {
  if (!plan) return <nav class="pole" aria-label={say("story pole")} />;
  const { flight, findings } = plan;
  const foot = flight.landing.z;
  const failing = new Set(findings.filter((f) => f.verdict === "fail" && f.step > 0).map((f) => f.step));
  const marks = Array.from({ length: flight.risers }, (_, i) => {
    const height = flight.unit_rise * (i + 1);
    return { number: i + 1, height, y: 100 - (height / -foot) * 100 };
  });
  return (
    <nav class="pole" aria-label={say("story pole")}>
      <svg viewBox="0 0 40 100" preserveAspectRatio="none" aria-hidden="true">
        <rect class="stick" x="24" y="0" width="10" height="100" />
        {marks.map(({ number, y }) => (
          <line key={number} class={failing.has(number) ? "mark fails" : "mark"} x1="12" x2="34" y1={y} y2={y} />
        ))}
      </svg>
      <ol>
        {marks.toReversed().map(({ number, height }) => (
          <li key={number}>
            <button type="button" aria-pressed={step === number} class={failing.has(number) ? "fails" : ""} onClick={() => onStep(step === number ? 0 : number)}>
              <span class="unseen">{say("step")} {number}, </span>
              {lengthText(height, metric)}
              {failing.has(number) && <span class="unseen"> fails</span>}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
