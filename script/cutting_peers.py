#!/usr/bin/python3
"""The same sections cut by general solvers on an arc-flow model, with 20 s for each: proven, gap and CPU seconds.

    script/cutting_peers.py INSTANCES.json    instances as `cutting_bench --write` makes them, with the engine's own times

Solvers that are not installed are left out. Positions on a board are rounded up to those from which a board's end can be reached
exactly (raster points), which keeps the models small.
SOURCE J. Valerio de Carvalho, "Exact solution of bin-packing problems using column generation and branch-and-bound" (1999).
"""

import bisect
import json
import math
import re
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

LIMIT_S = 20


def sums(sizes, counts, most):
    """Every total of pieces up to `most`."""
    reached = {0}
    for size, count in zip(sizes, counts):
        fresh = reached
        for _ in range(count):
            fresh = {at + size for at in fresh if at + size <= most} - reached
            if not fresh:
                break
            reached = reached | fresh
    return reached


def arc_flow(instance):
    """(nodes, arcs (from, to, kind or None)) with piece arcs longest first, loss arcs along the nodes."""
    unit = math.gcd(*instance["sizes"])
    sizes, counts = [size // unit for size in instance["sizes"]], instance["counts"]
    ends = sorted({capacity // unit for capacity, _, limit in instance["boards"] if limit > 0})
    totals = sums(sizes, counts, ends[-1])
    raster = sorted({end - total for end in ends for total in totals if total <= end})
    arcs, nodes = set(), {0}
    for kind, size in sorted(enumerate(sizes), key=lambda pair: -pair[1]):
        front = set(nodes)
        for _ in range(counts[kind]):
            reached = set()
            for at in front:
                index = bisect.bisect_left(raster, at + size)
                if index < len(raster) and at + size <= ends[-1]:
                    arcs.add((at, raster[index], kind))
                    reached.add(raster[index])
            front = reached - nodes
            nodes |= reached
            if not front:
                break
    nodes = sorted(nodes | set(ends))
    arcs = sorted(arcs) + [(a, b, None) for a, b in zip(nodes, nodes[1:])]
    return unit, nodes, arcs


def lp_text(instance):
    """The model in the LP format that all of the solvers read; z: boards, x: arcs."""
    unit, nodes, arcs = arc_flow(instance)
    boards = [board for board in instance["boards"] if board[2] > 0]
    flow = {node: [] for node in nodes}
    cover = [[] for _ in instance["sizes"]]
    for number, (start, end, kind) in enumerate(arcs):
        flow[start].append(f"- x{number}")
        flow[end].append(f"+ x{number}")
        if kind is not None:
            cover[kind].append(f"+ x{number}")
    for number, (capacity, _, _) in enumerate(boards):
        flow[0].append(f"+ z{number}")
        flow[capacity // unit].append(f"- z{number}")
    lines = ["Minimize", " cost: " + " ".join(f"+ {price} z{i}" for i, (_, price, _) in enumerate(boards)), "Subject To"]
    lines += [f" f{node}: " + "\n  ".join(terms) + " = 0" for node, terms in flow.items()]
    lines += [f" c{kind}: " + "\n  ".join(terms) + f" >= {instance['counts'][kind]}" for kind, terms in enumerate(cover)]
    lines += ["Bounds"] + [f" z{i} <= {limit}" for i, (_, _, limit) in enumerate(boards)]
    names = [f"x{i}" for i in range(len(arcs))] + [f"z{i}" for i in range(len(boards))]
    return "\n".join(lines + ["General"] + [" " + name for name in names] + ["End", ""])


def highs(instance_path):
    """Runs in a process of its own; building the model is not counted."""
    import numpy
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_matrix

    instance = json.loads(Path(instance_path).read_text(encoding="utf-8"))
    unit, nodes, arcs = arc_flow(instance)
    boards = [board for board in instance["boards"] if board[2] > 0]
    row_of = {node: row for row, node in enumerate(nodes)}
    entries = []
    for column, (start, end, kind) in enumerate(arcs):
        entries += [(row_of[start], column, -1), (row_of[end], column, 1)]
        if kind is not None:
            entries.append((len(nodes) + kind, column, 1))
    for i, (capacity, _, _) in enumerate(boards):
        entries += [(row_of[0], len(arcs) + i, 1), (row_of[capacity // unit], len(arcs) + i, -1)]
    rows, columns, values = zip(*entries)
    width, height = len(arcs) + len(boards), len(nodes) + len(instance["sizes"])
    matrix = coo_matrix((values, (rows, columns)), shape=(height, width)).tocsr()
    low = numpy.array([0] * len(nodes) + instance["counts"])
    high = numpy.array([0] * len(nodes) + [numpy.inf] * len(instance["counts"]))
    start = time.process_time()
    answer = milp(
        numpy.array([0] * len(arcs) + [price for _, price, _ in boards]),
        constraints=LinearConstraint(matrix, low, high),
        bounds=Bounds(0, numpy.array([numpy.inf] * len(arcs) + [limit for _, _, limit in boards])),
        integrality=numpy.ones(width),
        options={"time_limit": LIMIT_S, "mip_rel_gap": 0},
    )
    seconds = time.process_time() - start
    print(json.dumps([answer.status == 0, None if answer.x is None else round(answer.fun), seconds]))


def run(command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    try:
        text = subprocess.run(command, capture_output=True, text=True, check=False, timeout=3 * LIMIT_S).stdout
    except subprocess.TimeoutExpired:  # not every solver keeps its limit
        text = ""
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return text, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def solve_highs(instance, folder):
    path = folder / "instance.json"
    path.write_text(json.dumps(instance), encoding="utf-8")
    text, seconds = run([sys.executable, __file__, "--highs", str(path)])
    return json.loads(text) if text else (False, None, seconds)


def solve_cbc(instance, folder):
    model, answer = folder / "model.lp", folder / "answer.txt"
    model.write_text(lp_text(instance), encoding="utf-8")
    _, seconds = run(["cbc", str(model), "-ratioGap", "0", "-sec", str(LIMIT_S), "-timeMode", "cpu", "-solve", "-solu", str(answer)])
    if not answer.exists():
        return False, None, seconds
    head = answer.read_text(encoding="utf-8").splitlines()[0]
    found = re.search(r"objective value\s+([\d.e+]+)", head)
    return head.startswith("Optimal"), round(float(found[1])) if found and "Infeasible" not in head else None, seconds


def solve_glpk(instance, folder):
    model, answer = folder / "model.lp", folder / "answer.txt"
    model.write_text(lp_text(instance), encoding="utf-8")
    _, seconds = run(["glpsol", "--lp", str(model), "--tmlim", str(LIMIT_S), "-o", str(answer)])
    if not answer.exists():
        return False, None, seconds
    text = answer.read_text(encoding="utf-8")
    found = re.search(r"Objective:\s+cost = ([\d.e+]+)", text)
    status = re.search(r"Status:\s+(.+)", text)[1]
    return status == "INTEGER OPTIMAL", round(float(found[1])) if found and "INTEGER" in status and float(found[1]) > 0 else None, seconds


def main():
    if sys.argv[1] == "--highs":
        return highs(sys.argv[2])
    instances = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    own = statistics.median(instance["ms"] for instance in instances) / 1e3
    proven = sum(instance["cost"] == instance["bound"] for instance in instances)
    print(f"{'':12} {'proven':>9} {'mean gap %':>11} {'median s':>9} {'times as long':>14}")
    print(f"{'this engine':12} {proven:5}/{len(instances):<3} {'':>11} {own:9.4f}")
    solvers = {"HiGHS": (solve_highs, sys.executable), "CBC": (solve_cbc, "cbc"), "GLPK": (solve_glpk, "glpsol")}
    for name, (solve, program) in solvers.items():
        if not shutil.which(program):
            print(f"{name:12} not installed")
            continue
        times, gaps, proofs = [], [], 0
        for instance in instances:
            with tempfile.TemporaryDirectory() as folder:
                is_proven, cost, seconds = solve(instance, Path(folder))
                times.append(seconds)
                proofs += is_proven
                if cost is not None:
                    gaps.append(100 * (cost - instance["cost"]) / instance["cost"])
                if is_proven and cost != instance["cost"]:
                    sys.exit(f"{instance['name']}: {name} proves {cost}, the engine {instance['cost']}")
        gap = f"{statistics.mean(gaps):11.2f}" if gaps else f"{'none found':>11}"
        print(f"{name:12} {proofs:5}/{len(instances):<3} {gap} {statistics.median(times):9.2f} {statistics.median(times) / own:14.0f}", flush=True)
    return None


main()
