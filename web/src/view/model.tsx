// The stair in three dimensions, from the engine's own model: touched, cut open, measured, built part by part.
import { useEffect, useRef, useState } from "preact/hooks";
import { engine } from "../engine/client";
import { lengthText } from "../job/tape";
import { say } from "../words";
import type { Measured, Scene, Shown, Side } from "./scene";

interface Props {
  job: string;
  part: string | undefined;
  step: number;
  built: Shown["built"];
  metric: boolean;
  label: string;
  onPart: (mark: string | undefined) => void;
}
const SIDES: Side[] = ["corner", "front", "side", "top"];

export function Model({ job, part, step, built, metric, label, onPart }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const touched = useRef(onPart);
  touched.current = onPart;
  const [scene, setScene] = useState<Scene>();
  const [none, setNone] = useState(false);
  const [section, setSection] = useState<number>();
  const [person, setPerson] = useState(false);
  const [measuring, setMeasuring] = useState(false);
  const [measured, setMeasured] = useState<Measured>();
  useEffect(() => {
    let made: Scene | undefined;
    let wanted = true;
    void import("./scene")
      .then((three) => {
        if (!wanted || !canvas.current) return;
        made = new three.Scene(canvas.current, { touched: (mark) => touched.current(mark), measured: setMeasured });
        setScene(made);
      })
      .catch(() => setNone(true));
    return () => {
      wanted = false;
      made?.close();
    };
  }, []);
  useEffect(() => {
    if (!scene || !box.current) return;
    const watch = new ResizeObserver(([entry]) => entry && scene.resize(entry.contentRect.width, entry.contentRect.height));
    watch.observe(box.current);
    return () => watch.disconnect();
  }, [scene]);
  useEffect(() => {
    if (!scene) return;
    let wanted = true;
    // The last good model stays.
    void engine.ask("model", job).then(({ file }) => (wanted && file ? scene.load(file) : undefined)).catch(() => {});
    return () => void (wanted = false);
  }, [scene, job]);
  useEffect(() => scene?.show({ part, step, built, section, person }), [scene, part, step, built, section, person]);

  if (none) return <p class="notice">{say("no 3-D")}</p>;
  const length = (inches: number) => lengthText(inches, metric);
  return (
    <div class="model">
      <div class="canvas" ref={box}>
        <canvas
          ref={canvas}
          tabIndex={0}
          role="img"
          aria-label={`${label}. ${say("turn")}`}
          onKeyDown={(event) => scene?.key(event.key) && event.preventDefault()}
        />
        <p class="measured" role="status">
          {measured && `${length(measured.straight)} · ${say("level out")} ${length(measured.out)} · ${say("across")} ${length(measured.across)} · ${say("plumb")} ${length(measured.up)}`}
          {measuring && !measured && say("touch two places")}
        </p>
      </div>
      <div class="row tools">
        {SIDES.map((side) => <button type="button" key={side} onClick={() => scene?.look(side)}>{say(side)}</button>)}
        <button type="button" aria-pressed={person} onClick={() => setPerson(!person)}>{say("person")}</button>
        <button type="button" aria-pressed={measuring} onClick={() => (scene?.measure(!measuring), setMeasuring(!measuring))}>{say("tape")}</button>
        <label>
          {say("cut open")}
          <input type="range" min="0" max="1" step="0.01" value={section ?? 1} onInput={(e) => setSection(Number(e.currentTarget.value) < 1 ? Number(e.currentTarget.value) : undefined)} />
        </label>
      </div>
    </div>
  );
}
