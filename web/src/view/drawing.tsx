// The engine's own side view, to scale: figures that are inputs can be touched, parts belong to their steps.
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { engine } from "../engine/client";

interface Props {
  job: string;
  /** 0: the stair's dimensions; 1 to 3: the readings on the left, middle or right line. */
  readings: number;
  open: string[];
  step: number;
  /** Mark of the part that is selected. */
  part: string | undefined;
  label: string;
  onInput: (key: string) => void;
  onPart: (mark: string) => void;
}
/** Print sizes are points on paper; a screen is read from further off. */
const PIXELS_PER_POINT = 1.6;
/** Reach of a thumb round a figure. */
const REACH = 26;

/** A sheet without its own style: strict rules of content allow none but the page's. */
export const unstyled = (svg: string): string => svg.replace(/<style>.*?<\/style>/s, "");

export function Drawing({ job, readings, open, step, part, label, onInput, onPart }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  const [svg, setSvg] = useState("");
  useEffect(() => {
    if (!box.current) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setSize({ width: Math.round(entry.contentRect.width), height: Math.round(entry.contentRect.height) });
    });
    watch.observe(box.current);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    if (size.width < 40 || size.height < 40) return;
    let wanted = true;
    void engine
      .ask("side", job, size.width / PIXELS_PER_POINT, size.height / PIXELS_PER_POINT, readings)
      // The last good drawing stays.
      .then(({ outcome, text }) => wanted && outcome === "done" && setSvg(unstyled(text)))
      .catch(() => {});
    return () => void (wanted = false);
  }, [job, readings, size]);
  useLayoutEffect(() => {
    // On paper it is one picture, here a group of things to touch.
    box.current?.querySelector("svg")?.setAttribute("role", "presentation");
    for (const text of box.current?.querySelectorAll<SVGTextElement>("text[data-input]") ?? []) {
      const key = text.dataset["input"] ?? "";
      text.setAttribute("role", "button");
      text.setAttribute("tabindex", "0");
      text.setAttribute("aria-label", `${key.replace(/^ground\./, "").replaceAll("_", " ")}: ${text.textContent}`);
      text.classList.toggle("open-reading", open.includes(key));
    }
    for (const { classList, dataset } of box.current?.querySelectorAll<SVGGElement>("g[data-part]") ?? [])
      classList.toggle("lit", (step > 0 && dataset["step"] === String(step)) || dataset["part"] === part);
  }, [svg, open, step, part]);

  const touched = (event: MouseEvent) => {
    let best: { key: string; far: number } | undefined;
    for (const text of box.current?.querySelectorAll<SVGTextElement>("text[data-input]") ?? []) {
      const r = text.getBoundingClientRect();
      const dx = Math.max(r.left - event.clientX, 0, event.clientX - r.right);
      const dy = Math.max(r.top - event.clientY, 0, event.clientY - r.bottom);
      const far = Math.hypot(dx, dy);
      if (far < REACH && (!best || far < best.far)) best = { key: text.dataset["input"] ?? "", far };
    }
    if (best) return onInput(best.key);
    const mark = (event.target as Element).closest<SVGGElement>("g[data-part]")?.dataset["part"];
    if (mark) onPart(mark);
  };
  const typed = (event: KeyboardEvent) => {
    const key = (event.target as SVGElement).dataset?.["input"];
    if (key && (event.key === "Enter" || event.key === " ")) {
      event.preventDefault();
      onInput(key);
    }
  };
  return (
    <div class="drawing" ref={box} role="group" aria-label={label} onClick={touched} onKeyDown={typed} dangerouslySetInnerHTML={{ __html: svg }} />
  );
}
