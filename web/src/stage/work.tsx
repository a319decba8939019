// The stages after the checks: buy, cut, build, sign off.
import { useMemo } from "preact/hooks";
import type { OrderLine, Plan } from "../job/plan";
import { inchesOf, lengthText } from "../job/tape";
import { say } from "../words";
import { look } from "./check";
import { money } from "./choose";

const cell = (text: string | number): string => (/[",\n]/.test(String(text)) ? `"${String(text).replaceAll('"', '""')}"` : String(text));
export const orderCsv = (lines: OrderLine[], currency: string): string =>
  ["group,item,use,quantity,unit price,price,currency", ...lines.map((l) => [l.group, l.item, l.use, l.quantity, (l.unit_price / 100).toFixed(2), (l.price / 100).toFixed(2), currency].map(cell).join(","))].join("\r\n");
export const orderText = (plan: Plan): string =>
  plan.order.lines.map((l) => `${l.quantity} x ${l.item}`).join("\n") + `\n${say("total")} ${money(plan.order.total, plan.order.currency)}`;

export function saveFile(name: string, type: string, content: BlobPart): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

export function Buy({ plan }: { plan: Plan }) {
  const { order } = plan;
  const name = plan.job.about.name;
  const share = async () => {
    const text = orderText(plan);
    if (navigator.share) await navigator.share({ title: name, text }).catch(() => {});
    else saveFile(`${name}.txt`, "text/plain", text);
  };
  return (
    <>
      <p class="big">{say("total")} {money(order.total, order.currency)}</p>
      <p class="quiet">{order.price_date} · {Math.round(order.weight)} lb</p>
      <div class="row">
        <button type="button" onClick={share}>{say("share")}</button>
        <button type="button" onClick={() => saveFile(`${name}.csv`, "text/csv", orderCsv(order.lines, order.currency))}>{say("as csv")}</button>
        <button type="button" onClick={() => saveFile(`${name}.txt`, "text/plain", orderText(plan))}>{say("as text")}</button>
      </div>
      <table>
        <tbody>
          {order.lines.map((l, i) => (
            <tr key={i}>
              <td class="count">{l.quantity} ×</td>
              <td>{l.item}<br /><small>{l.use}{l.note && `. ${l.note}`}</small></td>
              <td class="money">{money(l.price, order.currency)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ul>{order.notes.map((n) => <li key={n}>{n}</li>)}</ul>
    </>
  );
}

export function Cut({ plan, metric, step }: { plan: Plan; metric: boolean; step: number }) {
  const steps = useMemo(() => new Map(plan.frame.parts.map((p) => [p.mark, p.step])), [plan]);
  const length = (inches: number) => lengthText(inches, metric);
  const longest = Math.max(1, ...plan.cuts.boards.map((b) => b.length));
  return (
    <div class="shop">
      <h2>{say("stringers")}</h2>
      {plan.marks.stringers.map((card) => (
        <section key={card.mark}>
          <h3>{card.same.join(", ")}</h3>
          <p>{say("marks along")}: <b class="figures">{card.marks.map(length).join("   ")}</b></p>
          <p>{length(card.square_tongue)} × {length(card.square_body)}, {length(card.step_length)}; drop {length(card.drop)}, throat {length(card.throat)}</p>
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
                <rect key={p.mark} x={p.from} y="1" width={p.to - p.from} height="10" class={step > 0 && steps.get(p.mark) === step ? "piece lit" : "piece"} />
              ))}
            </svg>
            <p class="figures">
              {board.pieces.map((p) => `${p.mark} ${length(p.to - p.from)}`).join(" · ")} · {say("left over")} {length(board.left_over)}
            </p>
          </li>
        ))}
      </ul>
      <h2>{say("saw")}</h2>
      <ul>{plan.marks.saw.map((s, i) => <li key={i}><b>{s.from_square.toFixed(1)}°</b> {s.mark}: {s.cut}, {s.count} ×. {s.how}</li>)}</ul>
      <h2>{say("holes")}</h2>
      <table>
        <tbody>
          {plan.marks.holes.filter((h) => step === 0 || steps.get(h.part) === step).map((h, i) => (
            <tr key={i}><td>{h.part}</td><td>{h.face}</td><td class="figures">{length(h.along)} / {length(h.across)}</td><td>{h.kind} {h.diameter.toFixed(3)} in, {length(h.depth)}</td></tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export function Build({ plan, step }: { plan: Plan; step: number }) {
  const groups = useMemo(() => {
    const out: { use: string; marks: string[]; steps: number[] }[] = [];
    for (const part of plan.frame.parts) {
      if (part.kind === "there already") continue;
      const last = out.at(-1);
      if (last && last.use === part.kind) last.marks.push(part.mark), last.steps.push(part.step);
      else out.push({ use: part.kind, marks: [part.mark], steps: [part.step] });
    }
    return out;
  }, [plan]);
  return (
    <div class="shop">
      <p class="notice">{say("caution")}</p>
      <h2>{say("parts in order")}</h2>
      <ol class="cards">
        {groups.map((g, i) => (
          <li key={i} class={step > 0 && g.steps.includes(step) ? "best" : ""}><h3>{g.use}</h3><p class="figures">{g.marks.join(" ")}</p></li>
        ))}
      </ol>
      <ul>{plan.frame.notes.map((n) => <li key={n}>{n}</li>)}</ul>
    </div>
  );
}

export function SignOff({ plan, metric, built, onBuilt }: { plan: Plan; metric: boolean; built: string[]; onBuilt: (built: string[]) => void }) {
  const rule = plan.findings.find((f) => f.quantity === "riser_variation" && f.applies);
  const read = built.map((text) => inchesOf(text ?? "")).filter((v) => v !== undefined);
  const spread = read.length > 1 ? Math.max(...read) - Math.min(...read) : undefined;
  const verdict = spread === undefined || read.length < plan.flight.risers || rule?.limit == null ? "not checked" : spread > rule.limit ? "fail" : "pass";
  return (
    <>
      <h2>{say("as built")}</h2>
      <table>
        <thead><tr><th>{say("step")}</th><th>{say("riser planned")}</th><th>{say("riser read")}</th></tr></thead>
        <tbody>
          {Array.from({ length: plan.flight.risers }, (_, i) => (
            <tr key={i}>
              <td>{i + 1}</td>
              <td class="figures">{lengthText(plan.flight.unit_rise, metric)}</td>
              <td>
                <input
                  aria-label={`${say("riser read")} ${i + 1}`}
                  value={built[i] ?? ""}
                  aria-invalid={(built[i] ?? "") !== "" && inchesOf(built[i] ?? "") === undefined}
                  onChange={(e) => onBuilt(Array.from({ length: plan.flight.risers }, (_, n) => (n === i ? e.currentTarget.value : (built[n] ?? ""))))}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class={`verdict ${look(verdict)}`}>
        <b>{verdict}</b> {say("spread")} {spread === undefined ? "–" : lengthText(spread, metric)}, {say("needed")} {rule?.limit == null ? "–" : lengthText(rule.limit, metric)} ({rule?.clause})
      </p>
      <p>{say("who")}</p>
    </>
  );
}
