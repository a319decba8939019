// The page: one job, its plan and its seven stages round the same pole and drawing.
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { engine, searcher } from "./engine/client";
import { useAnswer } from "./engine/use_answer";
import { changed, type History, redone, started, undone } from "./job/history";
import { type Choices, type Option, type OrderLine, pickOf, type Plan, type Problem, problemsOf } from "./job/plan";
import { withPrice } from "./job/prices";
import { type JobRecord, newRecord, planned, type Value, valueAt, valueText, withValue } from "./job/record";
import { keep, type Kept, kept, remove, whenSavedElsewhere } from "./job/store";
import { lengthText, money } from "./job/tape";
import { Build, builtParts } from "./stage/build";
import { Buy } from "./stage/buy";
import { Check } from "./stage/check";
import { Choose } from "./stage/choose";
import { Cut } from "./stage/cut";
import { Inputs } from "./stage/inputs";
import { Jobs } from "./stage/jobs";
import { LINES, Measure } from "./stage/measure";
import { SignOff } from "./stage/sign_off";
import { keepPage } from "./update";
import { Drawing } from "./view/drawing";
import { Keypad } from "./view/keypad";
import { Model } from "./view/model";
import { PartCard } from "./view/part_card";
import { Pole } from "./view/pole";
import { type Input, inputAt, type Schema, schemaOf } from "./view/schema";
import { type Language, say, setLanguage } from "./words";

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

/** The line of readings to show first: 1 to 3, left, middle, right. */
const lineOf = ({ job }: JobRecord): number => [2, 1, 3].find((line) => valueAt(job, `ground.${LINES[line - 1]}`) !== undefined) ?? 2;

const withInput = (record: JobRecord, key: string, value: Value | undefined): JobRecord => ({ ...record, job: withValue(record.job, key, value), open: record.open.filter((one) => one !== key) });

/** An input that is being set. */
interface Asked {
  input: Input;
  value: string;
  /** RETURNS that record with that value. */
  put: (record: JobRecord, value: Value | undefined) => JobRecord;
}

export function App() {
  const [history, setHistory] = useState<History<JobRecord>>();
  const [jobs, setJobs] = useState<Kept[]>([]);
  const [stage, setStage] = useState<Stage>("measure");
  const [line, setLine] = useState(2);
  const [step, setStep] = useState(0);
  const [part, setPart] = useState<string>();
  const [solid, setSolid] = useState(false);
  const [up, setUp] = useState<number>();
  const [asked, setAsked] = useState<Asked>();
  const [schema, setSchema] = useState<Schema>({ inputs: new Map(), lists: [] });
  const [plan, setPlan] = useState<Plan>();
  const [problems, setProblems] = useState<Problem[]>([]);
  const [choices, setChoices] = useState<Choices>();
  const [found, setFound] = useState<Problem[]>([]);
  const [listed, setListed] = useState(false);
  const [language, setTongue] = useState<Language>(() => (localStorage.getItem("language") === "es" ? "es" : "en"));
  const [newer, setNewer] = useState<() => void>();
  /** What the browser's memory holds already. */
  const stored = useRef<History<JobRecord>>(undefined);
  setLanguage(language);

  const relist = async () => {
    const all = await kept().catch(() => []);
    setJobs(all);
    return all;
  };
  const open = (found: History<JobRecord>) => {
    stored.current = found;
    setHistory(found);
  };
  useEffect(() => {
    void engine.ask("schema", "").then(({ text }) => setSchema(schemaOf(text))).catch(() => {});
    void relist().then((all) => {
      const first = all[0]?.history ?? started(newRecord(crypto.randomUUID(), say("new job")));
      open(first);
      setLine(lineOf(first.now));
    });
  }, []);
  // Keeping the page for later must not hold up the first plan.
  const answered = plan !== undefined || problems.length > 0;
  useEffect(() => void (answered && keepPage((change) => setNewer(() => change))), [answered]);
  useEffect(() => {
    localStorage.setItem("language", language);
    document.documentElement.lang = language;
  }, [language]);
  useEffect(() => {
    if (history && history !== stored.current) void keep(history).catch(() => {});
  }, [history]);
  const id = history?.now.id;
  useEffect(
    () =>
      whenSavedElsewhere(async (saved) => {
        const found = saved === id && (await relist()).find((one) => one.id === saved);
        if (found) open(found.history);
      }),
    [id],
  );

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

  const built = useMemo(() => {
    if (!plan || up === undefined) return undefined;
    const marks = builtParts(plan).map((p) => p.mark);
    return { later: new Set(marks.slice(up)), now: marks[up - 1] ?? "" };
  }, [plan, up]);

  if (!history || !record) return <p role="status" class="busy">Pitchboard</p>;
  const change = (now: JobRecord) => setHistory(changed(history, now));
  const setValue = (key: string, value: Value | undefined) => change(withInput(record, key, value));
  const metric = record.job.about.units === "metric";
  const ask = (key: string) => {
    const input = inputAt(schema, key);
    if (!input) return;
    const value = valueAt(record.job, key);
    setAsked({ input, value: value === undefined ? (input.assumed ?? "") : valueText(value), put: (to, typed) => withInput(to, key, typed) });
  };
  const askPrice = (line: OrderLine) => {
    if (!plan) return;
    const input: Input = { key: "price", title: line.item, description: line.use, kind: "number", choices: [], range: "", unit: plan.order.currency, assumed: line.group === "stringers" ? undefined : say("demo price") };
    setAsked({ input, value: (line.unit_price / 100).toFixed(2), put: (to, price) => ({ ...to, job: withPrice(to.job, line, price === undefined ? undefined : Number(price)) }) });
  };
  /** Takes a value, unless the engine finds fault with just that one: then it is told where it was typed. */
  const take = async (value: Value | undefined) => {
    if (!asked) return undefined;
    const next = asked.put(record, value);
    const found = await engine.ask("problems", JSON.stringify(planned(next))).catch(() => undefined);
    const fault = found?.outcome === "bad input" ? problemsOf(found.text).find(({ place }) => place === asked.input.key) : undefined;
    if (fault) return `${fault.wrong}. ${fault.remedy}`;
    change(next);
    setAsked(undefined);
    return undefined;
  };
  const select = (mark: string | undefined) => setPart(mark === part ? undefined : mark);
  const turn = (to: Stage) => {
    setStage(to);
    setPart(undefined);
    for (const box of document.querySelectorAll(".work, main")) box.scrollTop = 0;
  };
  /** Another job: what was looked at of the last one is let go. */
  const turnTo = (to: History<JobRecord>, saved: boolean) => {
    if (saved) open(to);
    else setHistory(to);
    setListed(false);
    setChoices(undefined);
    setPart(undefined);
    setUp(undefined);
    setStep(0);
    setLine(lineOf(to.now));
    setSolid(false);
  };
  const list = () => {
    void relist();
    setListed(!listed);
  };
  const failing = plan ? [...plan.findings, ...plan.strength.checks].filter((c) => c.verdict === "fail").length + plan.frame.clashes.length : 0;
  const ready = plan && (
    stage === "check" ? <Check plan={plan} metric={metric} step={step} onStep={setStep} />
    : stage === "buy" ? <Buy plan={plan} job={job} own={record.job} metric={metric} onPrice={askPrice} />
    : stage === "cut" ? <Cut plan={plan} metric={metric} step={step} part={part} onPart={select} />
    : stage === "build" ? <Build plan={plan} step={step} up={up} onUp={(to) => (setUp(to), setSolid(true))} onPart={select} />
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
      {newer && <p class="notice row between" role="status">{say("newer page")} <button type="button" onClick={newer}>{say("change to it")}</button></p>}
      {listed && (
        <Jobs
          jobs={jobs}
          record={record}
          job={job}
          language={language}
          onLanguage={setTongue}
          onUnits={(units) => setValue("about.units", units)}
          onNew={() => (turnTo(started(newRecord(crypto.randomUUID(), `${say("new job")} ${jobs.length + 1}`)), false), setStage("measure"))}
          onOpen={(one) => turnTo(one.history, true)}
          onRead={(found) => turnTo(started(found), false)}
          onRemove={(one) => void remove(one).then(relist)}
        />
      )}
      <div class="work">
        <Pole plan={plan} metric={metric} step={step} onStep={setStep} />
        <div class="view">
          <div class="row shapes">
            <button type="button" aria-pressed={!solid} onClick={() => setSolid(false)}>{say("drawing")}</button>
            <button type="button" aria-pressed={solid} onClick={() => setSolid(true)}>{say("model")}</button>
          </div>
          {solid ? (
            <Model job={job} part={part} step={step} built={stage === "build" ? built : undefined} metric={metric} label={record.job.about.name} onPart={setPart} />
          ) : (
            <Drawing job={job} readings={stage === "measure" ? line : 0} open={record.open} step={step} part={part} label={`${say(stage)}: ${record.job.about.name}`} onInput={ask} onPart={select} />
          )}
          {plan && (
            <p class="figures summary">
              {[`${plan.flight.risers} × ${lengthText(plan.flight.unit_rise, metric)}`, money(plan.order.total, plan.order.currency)].map((words, i) => (
                <span key={words} class="new">{i > 0 && " · "}{words}</span>
              ))}
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
          {plan && part && <PartCard plan={plan} mark={part} metric={metric} onStep={setStep} onClose={() => setPart(undefined)} />}
          {stage === "measure" && <Measure record={record} line={line} onLine={setLine} onInput={ask} onRecord={change} />}
          {stage === "choose" && <Choose choices={choices} problems={found} searching={searching} picked={record.pick ?? undefined} metric={metric} onPick={(option: Option) => change({ ...record, pick: pickOf(option) })} onLetGo={() => change({ ...record, pick: null })} />}
          {ready}
          {GROUPS[stage].length > 0 && <Inputs record={record} schema={schema} groups={GROUPS[stage]} onInput={ask} onValue={setValue} />}
        </main>
      </div>
      <nav class="stages" aria-label={say("stages")}>
        {STAGES.map((name) => (
          <button type="button" key={name} aria-current={stage === name ? "page" : undefined} onClick={() => turn(name)}>{say(name)}</button>
        ))}
      </nav>
      <div id="sheets" aria-hidden="true" />
      {asked && (
        <Keypad
          key={asked.input.key}
          input={asked.input}
          value={asked.value}
          metric={metric}
          onSet={take}
          onCancel={() => setAsked(undefined)}
        />
      )}
    </>
  );
}
