// Lengths as a tape shows them: what the keypad writes, and how the page reads back what it wrote.

export interface Tape {
  feet: number;
  inches: number;
  sixteenths: number;
}

/** `{3, 11, 6}` is `3' 11 3/8"`. */
export function tapeText({ feet, inches, sixteenths }: Tape): string {
  let over = sixteenths;
  let under = 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const whole = [feet > 0 ? `${feet}'` : "", inches > 0 || (feet === 0 && over === 0) ? `${inches}` : "", over > 0 ? `${over}/${under}` : ""]
    .filter((part) => part !== "")
    .join(" ");
  return inches > 0 || over > 0 || feet === 0 ? `${whole}"` : whole;
}

/** Inches as a tape: to the nearest sixteenth. */
export function tapeOf(inches: number): Tape {
  const all = Math.round(inches * 16);
  return { feet: Math.floor(all / 192), inches: Math.floor((all % 192) / 16), sixteenths: all % 16 };
}
export const inchesText = (inches: number): string => {
  const { feet, inches: whole, sixteenths } = tapeOf(Math.abs(inches));
  return (inches < 0 ? "-" : "") + tapeText({ feet: 0, inches: whole + feet * 12, sixteenths });
};
export const lengthText = (inches: number, metric: boolean): string =>
  metric ? `${Math.round(inches * 25.4)} mm` : inchesText(inches);

/** A length that was typed, in the job's unit: as it stands where it is imperial, or where only the engine can read it. */
export function lengthIn(text: string, metric: boolean): string {
  const inches = metric ? inchesOf(text) : undefined;
  return inches === undefined ? text : lengthText(inches, true);
}
export const money = (cents: number, currency: string): string => `${currency} ${(cents / 100).toFixed(2)}`;

const NUMBER = String.raw`(\d+(?:\.\d+)?)`;
const FEET = new RegExp(`^\\s*(?:${NUMBER}\\s*(?:'|ft))?\\s*(?:${NUMBER}(?![\\d.]|\\s*/))?\\s*-?\\s*(?:(\\d+)\\s*/\\s*(\\d+))?\\s*(?:"|in)?\\s*$`);
/** RETURNS the text with the job's unit where it is a number alone: a fraction is of inches. */
export function withUnit(text: string, metric: boolean): string {
  if (metric && /^\s*\d+(\.\d+)?\s*$/.test(text)) return `${text.trim()} mm`;
  return /^[\d\s./]+$/.test(text) && text.trim() !== "" ? `${text.trim()} in` : text;
}
/** RETURNS the inches of a text that the page may write itself; nothing where only the engine can read it. */
export function inchesOf(typed: string, inMetric = false): number | undefined {
  const text = withUnit(typed, inMetric);
  const metric = new RegExp(`^\\s*${NUMBER}\\s*(mm|cm|m)\\s*$`).exec(text);
  if (metric) return (Number(metric[1]) / 25.4) * ({ mm: 1, cm: 10, m: 1000 }[metric[2] as "mm"] ?? 1);
  const m = FEET.exec(text);
  if (!m || (m[1] === undefined && m[2] === undefined && m[3] === undefined) || m[4] === "0") return undefined;
  return Number(m[1] ?? 0) * 12 + Number(m[2] ?? 0) + (m[3] === undefined ? 0 : Number(m[3]) / Number(m[4]));
}
