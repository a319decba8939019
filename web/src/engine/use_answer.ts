import { useEffect, useState } from "preact/hooks";
import type { Problem } from "../job/plan";
import { say } from "../words";
import type { EngineClient, Found } from "./client";
import type { Call } from "./messages";

/**
 * Asks whenever the question is a new one, and takes the last one's answer alone; an empty question asks nothing.
 * `gone` is called when nobody waits for it any more. RETURNS whether the answer is still to come.
 */
export function useAnswer(
  client: EngineClient,
  call: Call,
  question: string,
  failed: (problems: Problem[]) => void,
  take: (found: Found) => void,
  gone: () => void = () => {},
): boolean {
  const [answered, setAnswered] = useState("");
  const open = question !== "" && question !== answered;
  useEffect(() => {
    if (!open) return;
    let wanted = true;
    client
      .ask(call, question)
      .then((found) => wanted && take(found))
      .catch(() => wanted && failed([{ place: "", wrong: say("broken"), remedy: "" }]))
      .finally(() => wanted && setAnswered(question));
    return () => {
      wanted = false;
      gone();
    };
  }, [question]);
  return open;
}
