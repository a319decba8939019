// Stairs that nothing beats, and why the rest cannot be built.
import { type Choices, type Option, pickOf, type Problem } from "../job/plan";
import type { Pick } from "../job/record";
import { lengthText, money } from "../job/tape";
import { say, term } from "../words";

interface Props {
  choices: Choices | undefined;
  problems: Problem[];
  searching: boolean;
  picked: Pick | undefined;
  metric: boolean;
  onPick: (option: Option) => void;
  onLetGo: () => void;
}

/** Points that would cover one another stand beside one another: each where it belongs, or as little above as it takes. */
function spread<Point extends { x: number; y: number }>(points: Point[]): Point[] {
  const apart = 21;
  const out: Point[] = [];
  for (const point of points) {
    let { y } = point;
    while (out.some((other) => Math.hypot(other.x - point.x, other.y - y) < apart)) y -= 1;
    out.push({ ...point, y });
  }
  return out;
}

/** Cost against comfort: the cheaper, the further left; the nearer to 24 to 25 in, the lower. */
function Front({ choices, metric, onPick }: { choices: Choices; metric: boolean; onPick: (option: Option) => void }) {
  const costs = choices.options.map((o) => o.cost);
  const off = choices.options.map((o) => o.comfort_off);
  const least = Math.min(...costs);
  const room = Math.max(1, Math.max(...costs) - least);
  const most = Math.max(0.25, ...off);
  return (
    <svg class="front" viewBox="0 0 320 180" role="group" aria-label={`${say("cost")}, ${say("comfort")}`}>
      <path d="M36 10V150H312" class="axis" />
      <text x="174" y="174" class="middle">{say("cost")}</text>
      <text x="12" y="80" class="middle upwards">{say("comfort")}</text>
      <text x="52" y="164" class="middle">{(least / 100).toFixed(0)}</text>
      <text x="296" y="164" class="middle">{((least + room) / 100).toFixed(0)}</text>
      <text x="30" y="146" class="end">0</text>
      <text x="30" y="26" class="end">{lengthText(most, metric)}</text>
      {spread(choices.options.map((option) => ({ option, x: 52 + ((option.cost - least) / room) * 244, y: 142 - (option.comfort_off / most) * 120 }))).map(({ option, x, y }) => (
        <g key={option.number} class={option.number === choices.pick ? "point best" : "point"} onClick={() => onPick(option)}>
          <circle cx={x} cy={y} r="10" />
          <text x={x} y={y + 4} class="middle">{option.number}</text>
        </g>
      ))}
    </svg>
  );
}

export function Choose({ choices, problems, searching, picked, metric, onPick, onLetGo }: Props) {
  if (searching) return <p role="status" class="busy">{say("searching")} …</p>;
  if (!choices || choices.options.length === 0)
    return (
      <>
        <h2>{choices ? say("no stair") : say("cannot plan")}</h2>
        <ul>{problems.map((p) => <li key={p.place + p.wrong}>{p.wrong}. {p.remedy}</li>)}</ul>
      </>
    );
  // Its words change with the units, what it sets does not.
  const isPicked = (option: Option) => JSON.stringify(pickOf(option).sets) === JSON.stringify(picked?.sets);
  return (
    <>
      {picked && <button type="button" onClick={onLetGo}>{say("let go")}</button>}
      {choices.options.length > 2 && <Front choices={choices} metric={metric} onPick={onPick} />}
      <p class="marks">
        {[...new Set(choices.options.flatMap((o) => o.marks))].map((mark) => (
          <span key={mark}>{term(mark)}: {choices.options.filter((o) => o.marks.includes(mark)).map((o) => o.number).join(", ")}</span>
        ))}
      </p>
      <p>{choices.searched.stairs} {say("stairs searched")}.</p>
      <ul class="cards">
        {choices.options.map((option) => (
          <li key={option.number} class={option.number === choices.pick ? "best" : ""}>
            <h3>{option.number}. {option.stair}</h3>
            <p class="marks">{option.marks.map((mark) => <span key={mark}>{term(mark)}</span>)}</p>
            <dl>
              <div><dt>{say("cost")}</dt><dd>{money(option.cost, choices.currency)}</dd></div>
              <div><dt>{say("hours")}</dt><dd>{option.hours.toFixed(1)}</dd></div>
              <div><dt>{say("comfort")}</dt><dd>{lengthText(option.comfort_off, metric)}</dd></div>
              <div><dt>{say("strength")}</dt><dd>{Math.round(option.ratio * 100)} %</dd></div>
              <div><dt>{say("run")}</dt><dd>{lengthText(option.run, metric)}</dd></div>
              <div><dt>{say("lift")}</dt><dd>{lengthText(option.lift, metric)}</dd></div>
            </dl>
            <p>{option.why}. {say("weakest")}: {option.weakest}.</p>
            <button type="button" aria-pressed={isPicked(option)} onClick={() => onPick(option)}>
              {isPicked(option) ? say("taken") : say("take this one")}
            </button>
          </li>
        ))}
      </ul>
      {choices.measure_again.length > 0 && (
        <>
          <h3>{say("measure again")}</h3>
          <ul>{choices.measure_again.map((doubt) => <li key={doubt.words}>{doubt.words}</li>)}</ul>
        </>
      )}
      <h3>{say("rejected")}</h3>
      <ul>
        {choices.rejected.map((r) => (
          <li key={String(r.fault)}>
            <details><summary>{String(r.fault)} ({r.families.length})</summary><ul>{r.families.map((f) => <li key={f}>{f}</li>)}</ul></details>
          </li>
        ))}
      </ul>
    </>
  );
}
