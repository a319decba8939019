// What the yard asks, written into the job: boards as its stock, everything else by the key of the order's line.
import type { OrderLine, Plan } from "./plan";
import { type Job, type Value, valueAt, withValue } from "./record";

type Entry = Record<string, Value>;
const listAt = (job: Job, key: string): Entry[] => (valueAt(job, key) as Entry[] | undefined) ?? [];

/**
 * RETURNS the job with that price, in units of its currency, of one package of the line; `undefined` takes it out again.
 * A board's price makes the boards of its section the job's own: the others keep the price that they were planned with.
 */
export function withPrice(job: Job, { cuts }: Pick<Plan, "cuts">, line: OrderLine, price: number | undefined): Job {
  if (line.group === "stringers") {
    const at = listAt(job, "yard.ready_cut").findIndex((ready) => ready["name"] === line.key);
    return at < 0 || price === undefined ? job : withValue(job, `yard.ready_cut[${at}].price`, price);
  }
  if (line.group !== "lumber") {
    const rest = listAt(job, "yard.prices").filter((own) => own["item"] !== line.key);
    const prices = price === undefined ? rest : [...rest, { item: line.key, price }];
    return withValue(job, "yard.prices", prices.length > 0 ? prices : undefined);
  }
  const stock = listAt(job, "yard.stock");
  const others = stock.filter((own) => own["section"] !== line.key);
  if (price === undefined) return withValue(job, "yard.stock", others.length > 0 ? others : undefined);
  const boards: Entry[] = cuts.stock
    // In a currency that the demo yard does not speak, a board without a price of the job's own has none.
    .filter((board) => board.section === line.key && (line.unit_price > 0 || board.length === line.length))
    .map(({ section, length, price: cents, available }) => ({
      section,
      length: `${length} in`,
      price: length === line.length ? price : cents / 100,
      ...(available === null ? {} : { available }),
    }));
  return withValue(job, "yard.stock", [...others, ...boards]);
}

/** Whether the job gives the line's price itself. */
export const isOwnPrice = (job: Job, line: OrderLine): boolean =>
  line.group === "stringers" ||
  (line.group === "lumber" ? listAt(job, "yard.stock").some((own) => own["section"] === line.key) : listAt(job, "yard.prices").some((own) => own["item"] === line.key));
