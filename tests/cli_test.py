#!/usr/bin/python3
"""The program from outside: what it prints, writes and returns. PITCHBOARD names the program to test."""
import csv
import json
import os
import pathlib
import re
import subprocess
import tempfile
import unittest
import urllib.error
import urllib.request

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = os.environ["PITCHBOARD"]
DEMO = ROOT / "examples" / "schoolhouse-side-door.toml"
SMALL = ROOT / "examples" / "low-farmhouse-step.toml"
PAPERS = {"plan.pdf", "calculation.pdf", "model.glb", "plan.json", "job.json", "order.csv", "cut-list.csv", "holes.csv", "checks.txt", "packet.json"}


def run(*arguments, **options):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True, timeout=300, **options)


def files_in(folder):
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def help_texts():
    texts = {"": run("--help").stdout}
    for command in ("plan", "options", "check", "batch", "fields", "packs", "serve"):
        texts[command] = run(command, "--help").stdout
    return texts


class CommandLine(unittest.TestCase):
    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.scratch = pathlib.Path(scratch.name)
        self.out = self.scratch / "out"

    def plan(self, job=DEMO, code=0, *more):
        done = run("plan", job, "-o", self.out, *more)
        self.assertEqual(done.returncode, code, done.stderr)
        return done

    def job_with(self, old, new):
        text = DEMO.read_text(encoding="utf-8")
        self.assertIn(old, text)
        path = self.scratch / "job.toml"
        path.write_text(text.replace(old, new), encoding="utf-8")
        return path

    # ------------------------------------------------------------------------------------------------------- papers

    def test_the_packet_holds_every_paper(self):
        self.plan()
        files = files_in(self.out)
        self.assertLessEqual(PAPERS, files.keys())
        sheets = [name for name in files if name.startswith("sheets/")]
        self.assertGreater(len(sheets), 3)
        calculation = [name for name in files if name.startswith("calculation/")]
        self.assertGreater(len(calculation), 3)
        self.assertEqual(files.keys() - PAPERS, set(sheets + calculation))
        for pdf in ("plan.pdf", "calculation.pdf"):
            self.assertTrue(files[pdf].startswith(b"%PDF"))

    def test_every_example_is_planned(self):
        examples = sorted((ROOT / "examples").glob("*.toml"))
        self.assertGreaterEqual(len(examples), 5)
        for example in examples:
            with self.subTest(example.name):
                self.plan(example)

    def test_equal_jobs_give_equal_bytes(self):
        self.plan()
        first = files_in(self.out)
        self.plan()
        self.assertEqual(first, files_in(self.out))

    def test_the_canonical_job_plans_the_same_stair(self):
        self.plan()
        before = files_in(self.out)["plan.json"]
        self.out.rename(self.scratch / "first")
        self.plan(self.scratch / "first" / "job.json")
        self.assertEqual(before, files_in(self.out)["plan.json"])

    def test_the_printed_plan_is_the_written_one_and_canonical(self):
        self.plan()
        printed = run("plan", DEMO, "--json").stdout
        self.assertEqual(printed, (self.out / "plan.json").read_text(encoding="utf-8"))
        plan = json.loads(printed)
        self.assertEqual(printed, json.dumps(plan, indent=1, sort_keys=True, ensure_ascii=False) + "\n")
        self.assertEqual(plan["flight"], {**plan["flight"], **plan["options"][0]})

    def test_the_lists_agree_with_the_plan(self):
        self.plan()
        plan = json.loads((self.out / "plan.json").read_text(encoding="utf-8"))
        rows = {}
        for name in ("order", "cut-list", "holes"):
            with (self.out / f"{name}.csv").open(encoding="utf-8", newline="") as file:
                rows[name] = list(csv.DictReader(file))
        self.assertEqual(len(rows["order"]), len(plan["order"]["lines"]))
        total = sum(round(float(row[f"price, {plan['order']['currency']}"]) * 100) for row in rows["order"])
        self.assertEqual(total, plan["order"]["total"])
        pieces = [piece["mark"] for board in plan["cuts"]["boards"] for piece in board["pieces"]]
        self.assertEqual([row["piece"] for row in rows["cut-list"]], pieces)
        self.assertEqual([row["part"] for row in rows["holes"]], [hole["part"] for hole in plan["marks"]["holes"]])

    def test_papers_never_call_a_stair_safe(self):
        self.plan()
        for name, content in files_in(self.out).items():
            if name.endswith((".svg", ".txt", ".csv")):
                self.assertNotRegex(content.decode().lower(), r"\b(is|are|stays?) safe\b|\bsafe stairs?\b", name)
        self.assertIn("building department", (self.out / "checks.txt").read_text(encoding="utf-8"))

    def test_metric_papers_speak_millimetres(self):
        done = self.plan(DEMO, 0, "--metric")
        self.assertIn(" mm", done.stdout)
        self.assertNotRegex(done.stdout, r"\d\"")
        self.assertEqual(json.loads((self.out / "job.json").read_text())["about"]["units"], "metric")

    def test_paper_size_follows_the_option(self):
        for paper, size in (("letter", "612 x 792"), ("a4", "595.* x 84[12]")):
            self.plan(DEMO, 0, "--paper", paper)
            info = subprocess.run(["pdfinfo", self.out / "plan.pdf"], capture_output=True, text=True, check=True).stdout
            self.assertRegex(info, r"Page size: +(" + size + ")|" + "Page size: +(" + " x ".join(reversed(size.split(" x "))) + ")")

    # ----------------------------------------------------------------------------------------------- what is there already

    def test_an_earlier_packet_is_replaced(self):
        self.plan()
        self.plan(ROOT / "examples" / "lake-cabin.toml")
        self.assertEqual(list(self.scratch.iterdir()), [self.out])

    def test_a_foreign_folder_is_left_alone(self):
        self.out.mkdir()
        (self.out / "letter.txt").write_text("mine")
        done = self.plan(DEMO, 1)
        self.assertIn("something other than a packet", done.stderr)
        self.assertEqual(files_in(self.out), {"letter.txt": b"mine"})
        self.assertEqual(list(self.scratch.iterdir()), [self.out])

    def test_a_file_that_someone_added_to_a_packet_is_kept(self):
        self.plan()
        (self.out / "sheets" / "notes.txt").write_text("mine")
        before = files_in(self.out)
        self.assertIn("notes.txt", self.plan(DEMO, 1).stderr)
        self.assertEqual(files_in(self.out), before)

    def test_a_paper_that_someone_changed_is_kept(self):
        self.plan()
        with (self.out / "order.csv").open("a") as file:
            file.write("extra\n")
        before = files_in(self.out)
        self.assertIn("order.csv", self.plan(DEMO, 1).stderr)
        self.assertEqual(files_in(self.out), before)

    def test_a_file_in_the_folders_place_is_kept(self):
        self.out.write_text("mine")
        self.plan(DEMO, 1)
        self.assertEqual(self.out.read_text(), "mine")

    # -------------------------------------------------------------------------------------------------------- bad input

    def test_bad_input_is_told_all_at_once_and_writes_nothing(self):
        job = self.job_with('width = "36 in"', 'width = "36"\nrisers = 400\nwidht = "3 ft"')
        done = self.plan(job, 2)
        for place in ("stair.width", "stair.risers", "stair.widht"):
            self.assertIn(place, done.stderr)
        self.assertEqual(done.stdout, "")
        self.assertFalse(self.out.exists())

    def test_an_unknown_code_pack_is_bad_input(self):
        done = self.plan(self.job_with('pack = "irc-2021"', 'pack = "irc-1899"'), 2)
        self.assertIn("place.pack", done.stderr)
        self.assertFalse(self.out.exists())

    def test_a_missing_job_file_is_bad_input(self):
        done = self.plan(self.scratch / "nowhere.toml", 2)
        self.assertIn("nowhere.toml", done.stderr)

    def test_an_impossible_job_says_what_collides_and_writes_nothing(self):
        done = self.plan(self.job_with('run_at_most = "8 ft"', 'run_at_most = "5 ft"'), 3)
        self.assertIn("room.run_at_most", done.stderr)
        self.assertEqual(done.stdout, "")
        self.assertFalse(self.out.exists())

    def test_an_impossible_job_is_told_as_json_too(self):
        job = self.job_with('run_at_most = "8 ft"', 'run_at_most = "5 ft"')
        done = run("plan", job, "--json")
        self.assertEqual(done.returncode, 3)
        told = json.loads(done.stdout)
        self.assertEqual(told["format"], "pitchboard no flight 1")
        self.assertIn("room.run_at_most", [limit["input"] for limit in told["collide"]])
        room = [c for way in told["ways"] for c in way["changes"] if c["input"] == "room.run_at_most"]
        self.assertEqual(room[0]["from"], 60)
        freed = self.job_with('run_at_most = "8 ft"', f'run_at_most = "{room[0]["to"]} in"')
        self.assertEqual(run("plan", freed, "--json").returncode, 0)

    def test_usage_errors_return_2(self):
        for arguments in ([], ["build"], ["plan"], ["plan", DEMO], ["plan", DEMO, "-o", self.out, "--paper", "a3"],
                          ["fields", "--schema", "--markdown"], ["options", DEMO, "--why", "0"],
                          ["options", DEMO, "--json", "--why", "1"], ["batch", "--jobs", "0"]):
            with self.subTest(arguments):
                self.assertEqual(run(*arguments).returncode, 2)

    def test_a_full_disk_is_not_success(self):
        with open("/dev/full", "w") as full:
            done = subprocess.run([PROGRAM, "packs"], stdout=full, stderr=subprocess.PIPE)
        self.assertEqual(done.returncode, 1)

    # ------------------------------------------------------------------------------------------------------ other commands

    def test_check_returns_4_exactly_when_something_fails(self):
        for example in sorted((ROOT / "examples").glob("*.toml")):
            with self.subTest(example.name):
                plan = json.loads(run("plan", example, "--json").stdout)
                fails = [f for f in plan["findings"] if f["verdict"] == "fail"]
                fails += plan["frame"]["clashes"] + plan["cuts"]["impossible"]
                fails += [c for c in plan["strength"]["checks"] if c["verdict"] == "fail"]
                done = run("check", example)
                self.assertEqual(done.returncode, 4 if fails else 0)
                for finding in plan["findings"]:
                    self.assertIn(finding["clause"], done.stdout)

    def test_a_broken_limit_fails_the_check(self):
        done = run("check", self.job_with('[rails]', '[rails]\nheight = "30 in"'))
        self.assertEqual(done.returncode, 4, done.stdout)
        self.assertRegex(done.stdout, r"(?m)^fail +irc")

    def test_packs_and_schema_are_readable(self):
        self.assertIn("irc-2021", run("packs").stdout)
        self.assertIn("properties", json.loads(run("fields", "--schema").stdout))
        self.assertIn("deck.board_thickness", run("fields").stdout)

    # ------------------------------------------------------------------------------------------------------------ options

    def small(self, *arguments):
        done = run("options", SMALL, *arguments)
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def test_options_are_a_table_of_the_search_with_pick_rule_and_rejected_kinds(self):
        found = json.loads(self.small("--json"))
        text = self.small()
        lines = text.splitlines()
        start = next(i for i, line in enumerate(lines) if line.startswith("no."))
        columns = lines[start].split()
        self.assertIn("open", columns)
        rows = lines[start + 1:start + 1 + len(found["options"])]
        for row, option in zip(rows, found["options"], strict=True):
            cells = re.split(r"  +", row.strip())
            self.assertEqual(cells[0], str(option["number"]))
            self.assertEqual(cells[1], f"{option['cost'] / 100:.2f}")
            self.assertEqual(float(cells[2]), round(option["hours"], 1))
            self.assertIn(option["weakest"], row)
            self.assertIn(option["stair"], row)
            self.assertRegex(row, rf" {option['open']} ")
            self.assertEqual("pick" in row, option["number"] == found["pick"])
        self.assertRegex(text, rf"(?m)^  pick +{found['pick']}: the least of the cost, USD 45.00 an hour")
        self.assertGreater(len(found["rejected"]), 0)
        for group in found["rejected"]:
            self.assertIn(group["fault"], text)
            self.assertGreater(len(group["families"]), 0)

    def test_a_search_as_json_has_the_keys_that_its_page_documents(self):
        page = (ROOT / "docs" / "choose.md").read_text(encoding="utf-8")
        found = json.loads(self.small("--json"))
        option = found["options"][0]
        for key in [*found, *found["searched"], *found["rule"], *option, *option["stringers"], *option["rails"]]:
            self.assertIn(f"`{key}`", page)

    def test_why_tells_what_is_open_what_if_and_how_to_keep_it(self):
        option = json.loads(self.small("--json"))["options"][1]
        text = self.small("--why", 2)
        for words in (option["stair"], option["why"], "Weakest checks", "What if", "one riser more"):
            self.assertIn(words, text)
        told = text.split("Too close to tell, or not checked")[1].split("What if")[0]
        self.assertEqual(len(re.findall(r"(?m)^  (not checked|too close) ", told)), option["open"])
        kept = text.split("write this into the job file")[1].strip().splitlines()
        plain = SMALL.read_text(encoding="utf-8")
        before = SMALL.read_bytes()
        # Dotted keys belong into their groups: TOML takes each table once.
        for line in kept:
            key, value = line.strip().split(" = ", 1)
            group, name = key.split(".")
            plain = re.sub(rf"(?m)^{name} = .*\n", "", plain)
            plain = plain.replace(f"[{group}]\n", f"[{group}]\n{name} = {value}\n")
        job = self.scratch / "job.toml"
        job.write_text(plain, encoding="utf-8")
        plan = json.loads(run("plan", job, "--json").stdout)
        self.assertEqual(plan["order"]["total"], option["cost"])
        self.assertEqual(SMALL.read_bytes(), before)

    def test_plan_and_check_take_an_option_of_the_search(self):
        option = json.loads(self.small("--json"))["options"][2]
        done = run("plan", SMALL, "--option", 3, "--json", "-o", self.out)
        plan = json.loads(done.stdout)
        self.assertEqual(plan["order"]["total"], option["cost"])
        for key in ("risers", "unit_rise", "going", "run"):
            self.assertEqual(plan["flight"][key], option[key])
        self.assertEqual(json.loads((self.out / "job.json").read_text())["stair"]["risers"], option["risers"])
        self.assertEqual(run("check", SMALL, "--option", 3).stdout, (self.out / "checks.txt").read_text())

    def test_an_option_that_is_not_there_is_bad_input(self):
        for arguments in (["options", SMALL, "--why", 400], ["plan", SMALL, "--option", 400, "-o", self.out],
                          ["check", SMALL, "--option", 400]):
            done = run(*arguments)
            self.assertEqual((done.returncode, done.stdout), (2, ""))
            self.assertIn("there is no option 400", done.stderr)
        self.assertFalse(self.out.exists())

    def test_the_plot_is_a_picture_by_the_end_of_its_name(self):
        self.small("-o", self.scratch / "plot.svg")
        self.small("-o", self.scratch / "plot.pdf")
        plot = (self.scratch / "plot.svg").read_text(encoding="utf-8")
        self.assertIn("<svg", plot)
        self.assertIn("cheapest", plot)
        self.assertTrue((self.scratch / "plot.pdf").read_bytes().startswith(b"%PDF"))
        job = self.scratch / "job.toml"
        job.write_bytes(SMALL.read_bytes())
        self.assertEqual(run("options", job, "-o", job).returncode, 2)
        self.assertEqual(job.read_bytes(), SMALL.read_bytes())
        self.assertEqual(run("options", SMALL, "-o", self.scratch / "nowhere" / "x" / "plot.svg").returncode, 0)

    def test_options_of_an_impossible_job_say_what_collides(self):
        job = self.scratch / "job.toml"
        job.write_text(SMALL.read_text(encoding="utf-8") + '\n[room]\nrun_at_most = "24 in"\n[choose]\nkeep = ["top"]\n')
        text = job.read_text(encoding="utf-8").replace("[stair]\n", "[stair]\nrisers = 5\n")
        job.write_text(text, encoding="utf-8")
        done = run("options", job)
        self.assertEqual((done.returncode, done.stdout), (3, ""), done.stderr)
        self.assertIn("room.run_at_most", done.stderr)

    def test_options_say_what_is_in_the_way_of_every_stair(self):
        job = self.scratch / "job.toml"
        text = SMALL.read_text(encoding="utf-8").replace('board = "2x12"', 'board = "2x10"')
        job.write_text(text + '\n[choose]\nkeep = ["stringers", "treads"]\n', encoding="utf-8")
        done = run("options", job, "--json")
        self.assertEqual(done.returncode, 3)
        found = json.loads(done.stdout)
        self.assertEqual((found["options"], found["no_flight"], found["measure_again"]), ([], None, []))
        told = found["in_the_way"]
        for in_the_way in told["kinds"]:
            self.assertIn(in_the_way["kind"], done.stderr)
            faults = " ".join(in_the_way["witness"]["faults"])
            others = [k["kind"] for k in told["kinds"] if k is not in_the_way]
            self.assertIn(in_the_way["kind"], faults)
            self.assertFalse([k for k in others if k in faults])
        self.assertIn(told["nearest"]["stair"], done.stderr)
        page = (ROOT / "docs" / "choose.md").read_text(encoding="utf-8")
        for key in [*told, *told["kinds"][0], *told["nearest"]]:
            self.assertIn(f"`{key}`", page)

    def test_options_and_check_name_the_reading_to_measure_again(self):
        # A landing that may not move an inch, in a pack's highest riser: 1/4 in more and nothing fits as it is.
        text = SMALL.read_text(encoding="utf-8")
        text = re.sub(r"(?s)middle = \[.*?\n\]", 'middle = [{ out = "6 in", down = "23 1/8 in" }, '
                      '{ out = "5 ft", down = "23 1/8 in" }]\ntolerance = "1/4 in"', text)
        job = self.scratch / "job.toml"
        job.write_text(text.replace("[stair]\n", '[stair]\nrisers = 3\n').replace(
            "[pad]\n", '[pad]\nraise_at_most = "0 in"\ndig_at_most = "0 in"\n'), encoding="utf-8")
        found = json.loads(run("options", job, "--json").stdout)
        doubt = found["measure_again"][0]
        self.assertEqual((doubt["upset"], doubt["off"]), ("does_not_fit", 0.25))
        self.assertIn(doubt["words"], run("options", job).stdout)
        self.assertRegex(run("check", job).stdout, r"(?m)^  again Measure ground\.middle\[\d\]\.down ")
        page = (ROOT / "docs" / "choose.md").read_text(encoding="utf-8")
        for key in doubt:
            self.assertIn(f"`{key}`", page)

    # -------------------------------------------------------------------------------------------------------------- batch

    def batch(self, lines, *arguments):
        done = run("batch", *arguments, input="".join(line + "\n" for line in lines))
        return done, [json.loads(line) for line in done.stdout.splitlines()]

    def test_batch_keeps_order_and_ids_and_goes_on_after_bad_lines(self):
        good = json.loads((self.packed(SMALL) / "job.json").read_text())
        bad = {**good, "id": "bad", "stair": {"width": "36", "riserz": 3}}
        lines = [json.dumps({**good, "id": {"site": 7}}), json.dumps(str(SMALL)), "", "{", json.dumps(bad), "[1]",
                 '"nowhere.toml"', "[" * 100000, json.dumps(good)]
        done, records = self.batch(lines, "--jobs", 3)
        self.assertEqual(done.returncode, 2)
        self.assertEqual([r["line"] for r in records], [1, 2, 4, 5, 6, 7, 8, 9])
        self.assertEqual([r["id"] for r in records], [{"site": 7}, None, None, "bad", None, None, None, None])
        self.assertEqual({p["place"] for p in records[3]["problems"]}, {"stair.width", "stair.riserz"})
        self.assertEqual([r["line"] for r in records if "problems" in r], [4, 5, 6, 7, 8])
        plan = json.loads((self.out / "plan.json").read_text())
        for record in (records[0], records[1], records[-1]):
            self.assertEqual(record["total"], plan["order"]["total"])
            self.assertEqual(record["flight"], {k: plan["flight"][k] for k in record["flight"]})
            for verdict, count in record["rules"].items():
                self.assertEqual(count, sum(f["applies"] and f["verdict"] == verdict for f in plan["findings"]), verdict)

    def packed(self, job):
        self.plan(job)
        return self.out

    def test_batch_output_does_not_depend_on_the_number_of_jobs_at_a_time(self):
        lines = [json.dumps(str(SMALL)), json.dumps(str(DEMO)), "{"] * 12
        one, four = (self.batch(lines, "--jobs", n)[0].stdout for n in (1, 4))
        self.assertEqual(one, four)
        self.assertEqual(len(one.splitlines()), len(lines))

    def test_batch_with_search_plans_the_pick(self):
        found = json.loads(self.small("--json"))
        done, (record,) = self.batch([json.dumps(str(SMALL))], "--search")
        self.assertEqual(done.returncode, 0)
        self.assertEqual(record["search"], found)
        self.assertEqual(record["total"], found["options"][found["pick"] - 1]["cost"])

    def test_batch_says_by_its_code_that_no_stair_fits_a_line(self):
        job = self.job_with('run_at_most = "8 ft"', 'run_at_most = "5 ft"')
        done, (record,) = self.batch([json.dumps(str(job))])
        self.assertEqual(done.returncode, 3)
        self.assertIn("room.run_at_most", [p["place"] for p in record["problems"]])
        self.assertEqual(run("batch", self.scratch / "nowhere").returncode, 2)
        self.assertEqual(self.batch([])[0].returncode, 0)

    # ------------------------------------------------------------------------------------------------------------- help

    # -------------------------------------------------------------------------------------------------------- serve

    def served(self):
        (self.scratch / "page").mkdir()
        (self.scratch / "page" / "index.html").write_text("<p>page</p>", encoding="utf-8")
        (self.scratch / "secret.txt").write_text("secret", encoding="utf-8")
        server = subprocess.Popen([PROGRAM, "serve", self.scratch / "page"], stdout=subprocess.PIPE, text=True)
        self.addCleanup(server.stdout.close)
        self.addCleanup(server.wait)
        self.addCleanup(server.terminate)
        return re.search(r"http://127\.0\.0\.1:\d+/", server.stdout.readline())[0]

    def code(self, address, **more):
        try:
            return urllib.request.urlopen(urllib.request.Request(address, **more), timeout=30).status
        except urllib.error.HTTPError as error:
            error.close()
            return error.code

    # SOURCE names and meanings of the headers: Content Security Policy level 3, Fetch, OWASP's list of security headers
    def test_serve_hands_out_the_page_under_strict_headers(self):
        with urllib.request.urlopen(self.served(), timeout=30) as answer:
            self.assertEqual(answer.read(), b"<p>page</p>")
            policy = answer.headers["Content-Security-Policy"]
            self.assertIn("default-src 'self'", policy)
            self.assertIn("frame-ancestors 'none'", policy)
            self.assertNotIn("unsafe-inline", policy)
            self.assertEqual(answer.headers["X-Content-Type-Options"], "nosniff")

    def test_serve_answers_its_own_host_alone_and_takes_nothing(self):
        address = self.served()
        self.assertEqual(self.code(address), 200)
        self.assertEqual(self.code(address, headers={"Host": "elsewhere.example"}), 403)
        self.assertEqual(self.code(address, data=b"x"), 405)
        self.assertEqual(self.code(address + "../secret.txt"), 404)
        self.assertEqual(self.code(address + "%2e%2e/secret.txt"), 404)
        self.assertEqual(self.code(address + "nothing"), 404)

    def test_serve_says_how_to_build_a_page_that_is_not_there(self):
        done = run("serve", self.scratch)
        self.assertEqual(done.returncode, 2)
        self.assertIn("script/page", done.stderr)

    def test_help_shows_examples_and_exit_codes(self):
        text = run("--help").stdout
        for words in ("Examples:", "Exit codes:", "  3  no stair fits"):
            self.assertIn(words, text)

    def test_man_page_and_completions_know_every_option_and_command(self):
        texts = help_texts()
        words = set(re.findall(r"--[a-z][a-z-]*", "".join(texts.values()))) | (texts.keys() - {""})
        self.assertGreater(len(words), 10)
        pages = list((ROOT / "cli" / "completions").iterdir()) + [ROOT / "docs" / "man" / "pitchboard.1"]
        self.assertEqual(len(pages), 4)
        for page in pages:
            text = page.read_text(encoding="utf-8").replace("\\-", "-")
            for word in sorted(words):
                plain = word[2:] if page.suffix == ".fish" and word.startswith("--") else word
                self.assertRegex(text, rf"(?<![\w-]){re.escape(plain)}(?![\w-])", f"{page.name}: {word}")

    def test_bash_completion_offers_commands_options_and_papers(self):
        script = ROOT / "cli" / "completions" / "pitchboard.bash"

        def offered(*words):
            line = f"""shopt -s extglob; source {script}; COMP_WORDS=(pitchboard {' '.join(words)} '')
                       COMP_CWORD={len(words) + 1}; _pitchboard pitchboard '' {words[-1] if words else 'pitchboard'}
                       printf '%s\\n' "${{COMPREPLY[@]}}" """
            return subprocess.run(["bash", "-c", line], capture_output=True, text=True, cwd=ROOT / "examples").stdout.split()

        self.assertIn("options", offered())
        self.assertIn("--schema", offered("fields"))
        self.assertEqual(offered("plan", "--paper"), ["letter", "a4"])
        self.assertIn(DEMO.name, offered("plan"))

    def test_man_page_has_no_warnings(self):
        done = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", ROOT / "docs" / "man" / "pitchboard.1"],
                              capture_output=True, text=True, env={**os.environ, "MANWIDTH": "80"})
        self.assertEqual((done.returncode, done.stderr), (0, ""))
        self.assertIn("EXIT STATUS", re.sub(".\x08", "", done.stdout))  # bold is overstruck

    def test_no_colour_outside_a_terminal(self):
        self.assertNotIn("\033", run("check", DEMO, env={**os.environ, "TERM": "xterm"}).stdout)

    def test_colour_on_a_terminal_unless_told_not_to(self):
        for extra, coloured in (({}, True), ({"NO_COLOR": "1"}, False)):
            environment = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | {"TERM": "xterm"} | extra
            done = subprocess.run(["script", "-qec", f"{PROGRAM} plan {DEMO} -o {self.out}", "/dev/null"], capture_output=True,
                                  stdin=subprocess.DEVNULL, env=environment)
            self.assertEqual(b"\033[" in done.stdout, coloured)


if __name__ == "__main__":
    unittest.main()
