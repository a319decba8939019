// The page: one job, its plan and its seven stages round the same pole and drawing.
import { useEffect, useMemo, useState } from "preact/hooks";
import { engine, searcher } from "./engine/client";
import { useAnswer } from "./engine/use_answer";
import { changed, type History, redone, started, undone } from "./job/history";
import { type Choices, type Option, pickOf, type Plan, type Problem, problemsOf } from "./job/plan";
import { type Job, type JobRecord, migrated, newRecord, planned, type Value, valueAt, withValue } from "./job/record";
import { keep, type Kept, kept, remove } from "./job/store";
import { lengthText } from "./job/tape";
import { Check } from "./stage/check";
import { Choose, money } from "./stage/choose";
import { Inputs, Measure } from "./stage/measure";
import { Build, Buy, Cut, saveFile, SignOff } from "./stage/work";
import { Drawing, unstyled } from "./view/drawing";
import { Keypad } from "./view/keypad";
import { Pole } from "./view/pole";
import { type Input, inputsOf, readingInput } from "./view/schema";
import { type Language, LANGUAGES, say, setLanguage } from "./words";

const STAGES = ["measure", "choose", "check", "buy", "cut", "build", "sign off"] as const;
type Stage = (typeof STAGES)[number];
/** The groups of inputs that a stage asks for. */
const GROUPS: Record<Stage, string[]> = {
  measure: ["about", "deck", "ground", "pad", "room", "place"],
  choose: ["stair", "stringers", "rails", "choose"],
  check: ["place", "wood", "loads"],
  buy: ["yard"],
  cut: ["saw", "yard"],
  build: [],
  "sign off": [],
};

export function App() {
  const [history, setHistory] = useState<History<JobRecord>>();
  const [jobs, setJobs] = useState<Kept[]>([]);
  const [stage, setStage] = useState<Stage>("measure");
  const [line, setLine] = useState(2);
  const [step, setStep] = useState(0);
  const [edited, setEdited] = useState<string>();
  const [inputs, setInputs] = useState(new Map<string, Input>());
  const [plan, setPlan] = useState<Plan>();
  const [problems, setProblems] = useState<Problem[]>([]);
  const [choices, setChoices] = useState<Choices>();
  const [found, setFound] = useState<Problem[]>([]);
  const [listed, setListed] = useState(false);
  const [language, setTongue] = useState<Language>(() => (localStorage.getItem("language") === "es" ? "es" : "en"));
  setLanguage(language);

  const relist = async () => {
    const all = await kept().catch(() => []);
    setJobs(all);
    return all;
  };
  useEffect(() => {
    void engine.ask("schema", "").then(({ text }) => setInputs(inputsOf(text))).catch(() => {});
    void relist().then((all) => setHistory(all[0]?.history ?? started(newRecord(crypto.randomUUID(), say("new job")))));
  }, []);
  useEffect(() => {
    localStorage.setItem("language", language);
    document.documentElement.lang = language;
  }, [language]);
  useEffect(() => {
    if (history && (history.past.length > 0 || history.future.length > 0)) void keep(history).catch(() => {});
  }, [history]);

  const record = history?.now;
  const job = useMemo(() => (record ? JSON.stringify(planned(record)) : ""), [record]);
  const free = useMemo(() => (record ? JSON.stringify(record.job) : ""), [record]);
  const planning = useAnswer(engine, "plan", job, setProblems, ({ outcome, text }) => {
    if (outcome === "done") setPlan(JSON.parse(text) as Plan);
    setProblems(outcome === "done" ? [] : problemsOf(text));
  });
  const searching = useAnswer(
    searcher,
    "options",
    stage === "choose" ? free : "",
    setFound,
    ({ outcome, text }) => {
      setChoices(outcome === "bad input" ? undefined : (JSON.parse(text) as Choices));
      setFound(outcome === "done" ? [] : problemsOf(text));
    },
    () => searcher.drop(),
  );

  if (!history || !record) return <p role="status" class="busy">Pitchboard</p>;
  const change = (now: JobRecord) => setHistory(changed(history, now));
  const setValue = (key: string, value: Value | undefined) =>
    change({ ...record, job: withValue(record.job, key, value), open: record.open.filter((open) => open !== key) });
  const metric = record.job.about.units === "metric";
  const textAt = (key: string) => String(valueAt(record.job, key) ?? inputs.get(key)?.assumed ?? "");
  const input = edited === undefined ? undefined : (inputs.get(edited) ?? readingInput(edited));
  const begin = () => {
    setHistory(started(newRecord(crypto.randomUUID(), `${say("new job")} ${jobs.length + 1}`)));
    setListed(false);
    setStage("measure");
  };
  const list = () => {
    void relist();
    setListed(!listed);
  };
  const read = async (file: File | undefined) => {
    if (!file) return;
    const id = crypto.randomUUID();
    let data: unknown;
    try {
      data = JSON.parse(await file.text());
    } catch {
      return setProblems([{ place: file.name, wrong: "this file is not JSON", remedy: "save it from this page, or with `pitchboard plan --json`" }]);
    }
    const saved = migrated(data);
    const inner = (data as { job?: Job } | null)?.job ?? (data as Job);
    const now = saved ?? migrated({ id, job: inner });
    if (!now) return setProblems([{ place: file.name, wrong: "there is no job in this file", remedy: "a job has at least `about` with a `name`" }]);
    const history = started({ ...now, id });
    setHistory(history);
    void keep(history).catch(() => {});
    setListed(false);
  };
  const print = async () => {
    const { outcome, text } = await engine.ask("sheets", job, metric ? 1 : 0);
    if (outcome !== "done") return;
    const box = document.getElementById("sheets");
    if (!box) return;
    box.innerHTML = (JSON.parse(text) as { svg: string }[]).map(({ svg }) => unstyled(svg)).join("");
    globalThis.print();
  };
  const failing = plan ? [...plan.findings, ...plan.strength.checks].filter((c) => c.verdict === "fail").length + plan.frame.clashes.length : 0;
  const ready = plan && (
    stage === "check" ? <Check plan={plan} metric={metric} step={step} onStep={setStep} />
    : stage === "buy" ? <Buy plan={plan} />
    : stage === "cut" ? <Cut plan={plan} metric={metric} step={step} />
    : stage === "build" ? <Build plan={plan} step={step} />
    : stage === "sign off" ? <SignOff plan={plan} metric={metric} built={record.built} onBuilt={(built) => change({ ...record, built })} />
    : null
  );
  return (
    <>
      <header>
        <h1>{record.job.about.name}</h1>
        <div class="row">
          <button type="button" disabled={history.past.length === 0} onClick={() => setHistory(undone(history))}>{say("undo")}</button>
          <button type="button" disabled={history.future.length === 0} onClick={() => setHistory(redone(history))}>{say("redo")}</button>
          <button type="button" aria-expanded={listed} onClick={list}>{say("jobs")}</button>
        </div>
      </header>
      {listed && (
        <section class="jobs" aria-label={say("jobs")}>
          <div class="row">
            <button type="button" onClick={begin}>{say("new job")}</button>
            <button type="button" onClick={() => saveFile(`${record.job.about.name}.json`, "application/json", JSON.stringify(record, null, 1))}>{say("save a copy")}</button>
            <label class="button">{say("open a file")}<input type="file" class="unseen" accept=".json" onChange={(e) => void read(e.currentTarget.files?.[0])} /></label>
            <button type="button" onClick={() => void print()}>{say("print")}</button>
            <label>{say("language")} <select value={language} onChange={(e) => setTongue(e.currentTarget.value as Language)}>{Object.entries(LANGUAGES).map(([key, name]) => <option key={key} value={key}>{name}</option>)}</select></label>
            <label>{say("units")} <select value={metric ? "metric" : "imperial"} onChange={(e) => setValue("about.units", e.currentTarget.value)}><option value="imperial">inches</option><option value="metric">mm</option></select></label>
          </div>
          <ul>
            {jobs.map((one) => (
              <li key={one.id} class="row">
                <button type="button" onClick={() => (setHistory(one.history), setListed(false))}>{one.name}</button>
                <button type="button" onClick={() => void remove(one.id).then(relist)}>{say("remove")}<span class="unseen"> {one.name}</span></button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <div class="work">
        <Pole plan={plan} metric={metric} step={step} onStep={setStep} />
        <div class="view">
          <Drawing job={job} readings={stage === "measure" ? line : 0} open={record.open} step={step} label={`${say(stage)}: ${record.job.about.name}`} onInput={setEdited} onStep={(s) => setStep(s === step ? 0 : s)} />
          {plan && (
            <p class="figures summary">
              {plan.flight.risers} × {lengthText(plan.flight.unit_rise, metric)} · {money(plan.order.total, plan.order.currency)}
              {failing > 0 && <b class="fails"> · {failing} {say("fail")}</b>}
              {planning && ` · ${say("planning")} …`}
            </p>
          )}
        </div>
        <main tabIndex={0} aria-label={say(stage)}>
          {problems.length > 0 && (
            <div class="notice fail" role="alert">
              <strong>{say("old")}</strong>
              <ul>{problems.map((p) => <li key={p.place + p.wrong}>{p.place && <b>{p.place}: </b>}{p.wrong}. {p.remedy}</li>)}</ul>
              {record.pick && <button type="button" onClick={() => change({ ...record, pick: null })}>{say("let go")}</button>}
            </div>
          )}
          {stage === "measure" && <Measure record={record} line={line} onLine={setLine} onInput={setEdited} onValue={setValue} />}
          {stage === "choose" && <Choose choices={choices} problems={found} searching={searching} picked={record.pick?.words} metric={metric} onPick={(option: Option) => change({ ...record, pick: pickOf(option) })} onLetGo={() => change({ ...record, pick: null })} />}
          {ready}
          {GROUPS[stage].length > 0 && <Inputs record={record} inputs={inputs} groups={GROUPS[stage]} onInput={setEdited} />}
        </main>
      </div>
      <nav class="stages" aria-label={say("stages")}>
        {STAGES.map((name) => (
          <button type="button" key={name} aria-current={stage === name ? "page" : undefined} onClick={() => setStage(name)}>{say(name)}</button>
        ))}
      </nav>
      <div id="sheets" aria-hidden="true" />
      {input && edited !== undefined && (
        <Keypad
          key={edited}
          input={input}
          value={textAt(edited)}
          metric={metric}
          onSet={(value) => (setValue(edited, value), setEdited(undefined))}
          onCancel={() => setEdited(undefined)}
        />
      )}
    </>
  );
}
