// What the yard asks, written into the job under the key of the order's line.
import type { OrderLine } from "./plan";
import { type Job, type Value, valueAt, withValue } from "./record";
import { inchesOf } from "./tape";

type Entry = Record<string, Value>;
const listAt = (job: Job, key: string): Entry[] => (valueAt(job, key) as Entry[] | undefined) ?? [];

/** Whether the entry of a list is the board that the line buys. */
const isBoard = (entry: Entry, key: string, line: OrderLine): boolean =>
  entry[key] === line.key && Math.abs((inchesOf(String(entry["length"] ?? "")) ?? 0) - line.length) < 0.01;

/** Where the job says what the line's item costs: the list, and the number of the entry in it. */
function entryOf(job: Job, line: OrderLine): { list: string; at: number } {
  const at = (list: string, is: (entry: Entry) => boolean) => ({ list, at: listAt(job, list).findIndex(is) });
  if (line.group === "stringers") return at("yard.ready_cut", (ready) => ready["name"] === line.key);
  if (line.group !== "lumber") return at("yard.prices", (own) => own["item"] === line.key);
  const stock = at("yard.stock", (own) => isBoard(own, "section", line));
  return stock.at >= 0 ? stock : at("yard.prices", (own) => isBoard(own, "item", line));
}

/** RETURNS the job with that price, in units of its currency, of one package of the line; `undefined` takes it out again. */
export function withPrice(job: Job, line: OrderLine, price: number | undefined): Job {
  const { list, at } = entryOf(job, line);
  if (price !== undefined && at >= 0) return withValue(job, `${list}[${at}].price`, price);
  // What the yard has stays on its list.
  if (list !== "yard.prices") return job;
  const rest = listAt(job, list).filter((_, i) => i !== at);
  const board = line.group === "lumber" ? { length: `${line.length} in` } : {};
  const prices = price === undefined ? rest : [...rest, { item: line.key, ...board, price }];
  return withValue(job, list, prices.length > 0 ? prices : undefined);
}

/** Whether the job gives the line's price itself. */
export const isOwnPrice = (job: Job, line: OrderLine): boolean => entryOf(job, line).at >= 0;
