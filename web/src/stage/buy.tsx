// What to order: tally, prices of one's own yard, and the list to hand over.
import type { OrderLine, Plan } from "../job/plan";
import { packetOf, saveFile, textOf } from "../job/packet";
import { isOwnPrice } from "../job/prices";
import type { Job } from "../job/record";
import { money } from "../job/tape";
import { say, term } from "../words";

interface Props {
  plan: Plan;
  /** The job as it is planned. */
  job: string;
  own: Job;
  metric: boolean;
  onPrice: (line: OrderLine) => void;
}
const orderText = ({ order }: Plan): string =>
  [...order.lines.map((l) => `${l.quantity} x ${l.item}`), `${say("total")} ${money(order.total, order.currency)}`].join("\n");

export function Buy({ plan, job, own, metric, onPrice }: Props) {
  const { order } = plan;
  const { name } = plan.job.about;
  const save = () => saveFile(`${name}.txt`, "text/plain", orderText(plan));
  const share = async () => {
    if (navigator.share) await navigator.share({ title: name, text: orderText(plan) }).catch(() => {});
    else save();
  };
  const table = async () => {
    const files = await packetOf(job, metric).catch(() => undefined);
    if (files) saveFile(`${name}.csv`, "text/csv", textOf(files["order.csv"]));
  };
  const groups = [...new Set(order.lines.map((l) => l.group))];
  return (
    <>
      <p class="big">{say("total")} {money(order.total, order.currency)}</p>
      <p class="quiet">{order.price_date} · {metric ? `${Math.round(order.weight * 0.45359237)} kg` : `${Math.round(order.weight)} lb`}. {say("prices")}</p>
      <div class="row">
        <button type="button" onClick={() => void share()}>{say("share")}</button>
        <button type="button" onClick={() => void table()}>{say("as csv")}</button>
        <button type="button" onClick={save}>{say("as text")}</button>
      </div>
      {groups.map((group) => (
        <table key={group}>
          <caption>{term(group)}</caption>
          <tbody>
            {order.lines.filter((l) => l.group === group).map((l) => (
              <tr key={l.item + l.use}>
                <td class="count">{l.quantity} ×</td>
                <td>{l.item}<br /><small>{l.use}{l.package && `, ${l.package}`}{l.note && `. ${l.note}`}</small></td>
                <td class="money">
                  {money(l.price, order.currency)}
                  <button type="button" onClick={() => onPrice(l)}>
                    <span class="unseen">{say("price of one")} {l.item} </span>
                    {(l.unit_price / 100).toFixed(2)} {isOwnPrice(own, l) ? say("set") : say("assumed")}
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      <ul>{order.notes.map((n) => <li key={n}>{n}</li>)}</ul>
    </>
  );
}
