// What the page and the engine's worker say to one another.

export type Call = "problems" | "plan" | "options" | "side" | "packet" | "model" | "schema";
/** One of the engine's calls: its job and its numbers. */
export interface Question {
  id: number;
  call: Call;
  job: string;
  numbers: number[];
}
/** What the engine found: an answer, what is wrong with the job, or what is in the way of every stair. */
export type Outcome = "done" | "bad input" | "impossible";
export interface Answer {
  id: number;
  outcome: Outcome | "broken";
  text: string;
  /** The file, where the call answers one that is no text. */
  file?: ArrayBuffer;
}
