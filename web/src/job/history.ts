// Undo and redo: every state of a record, one after another.

export interface History<State> {
  past: State[];
  now: State;
  future: State[];
}
/** As many steps back as anyone goes. */
const KEPT = 100;

export const started = <State>(now: State): History<State> => ({ past: [], now, future: [] });
export const changed = <State>(h: History<State>, now: State): History<State> => ({
  past: [...h.past, h.now].slice(-KEPT),
  now,
  future: [],
});
export function undone<State>(h: History<State>): History<State> {
  const now = h.past.at(-1);
  return now === undefined ? h : { past: h.past.slice(0, -1), now, future: [h.now, ...h.future] };
}
export function redone<State>(h: History<State>): History<State> {
  const [now, ...future] = h.future;
  return now === undefined ? h : { past: [...h.past, h.now], now, future };
}
