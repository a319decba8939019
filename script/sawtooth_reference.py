#!/usr/bin/env python3
"""Solves the test stringers with CalculiX on the engine's own meshes and prints tests/tables/strength_sawtooth.csv.

    script/sawtooth_reference.py build/release/bench/sawtooth_dump > tests/tables/strength_sawtooth.csv
    script/sawtooth_reference.py --times build/release/bench    the engine's time, ccx's and gmsh's with ccx, in one run

Loads and supports are integrated here anew, the own weight is CalculiX's; the stress is its own, averaged at nodes.
"""

import copy
import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

# steps, rise, going, depth, kicker, prop's middle or 0
CASES = [(7, 7.25, 10, 11.25, 0, 0), (3, 7.25, 10, 11.25, 0, 0), (10, 7.25, 10, 11.25, 0, 0), (5, 7.25, 10, 9.25, 0, 0),
         (6, 7, 10.25, 11.25, 1, 0), (12, 7.25, 10, 11.25, 0, 62), (14, 7, 10.25, 11.25, 1, 71)]
BESIDE_PROP = 1.0  # what is left out on either side of a prop, by its seat's length
GAUSS = [(-math.sqrt(0.6), 5 / 9), (0.0, 8 / 9), (math.sqrt(0.6), 5 / 9)]


class Model:
    def __init__(self, text):
        rows = {}
        for line in text.splitlines():
            word, *cells = line.split()
            rows.setdefault(word, []).append([float(c) for c in cells])
        self.wood, self.plate = rows["wood"][0], rows["plate"][0]
        self.bays, self.props = rows["bay"], rows.get("prop", [])
        self.corners, self.nodes = rows["corner"], rows["node"]
        self.elements = [[int(i) for i in e] for e in rows["element"]]
        self.loads, self.supports = rows["load"], rows["support"]

    def lower_edge(self):
        """Its left and its right end; the outline runs clockwise."""
        edges = [(q, p) for p, q in zip(self.corners, self.corners[1:] + self.corners[:1]) if q[0] < p[0]]
        return max(edges, key=lambda e: math.dist(*e))

    def result(self):
        """The engine's figures in the order of read_lower_edge."""
        return [v for bay in self.bays for v in bay[2:]] + [v for prop in self.props for v in prop[1:]]

    def outline_edges(self):
        """(end, middle, end) of every element side that no other element shares."""
        uses = {}
        for e in self.elements:
            for i in range(3):
                uses.setdefault(e[3 + i], []).append((e[i], e[3 + i], e[(i + 1) % 3]))
        return [sides[0] for sides in uses.values() if len(sides) == 1]

    def on(self, x0, y0, x1, y1):
        length = math.hypot(x1 - x0, y1 - y0)

        def near(node):
            dx, dy = self.nodes[node][0] - x0, self.nodes[node][1] - y0
            along = (dx * (x1 - x0) + dy * (y1 - y0)) / length
            return abs(dx * (y1 - y0) - dy * (x1 - x0)) / length < 1e-4 and -1e-4 < along < length + 1e-4

        return [edge for edge in self.outline_edges() if near(edge[0]) and near(edge[2])]

    def shares(self, x0, y0, x1, y1):
        """Each node's part of an even load on the stretch: its shape function's mean."""
        length, out = math.hypot(x1 - x0, y1 - y0), {}
        for edge in self.on(x0, y0, x1, y1):
            (ax, ay), (mx, my), (bx, by) = (self.nodes[i] for i in edge)
            for z, weight in GAUSS:
                slope = (z - 0.5, -2 * z, z + 0.5)
                dx = slope[0] * ax + slope[1] * mx + slope[2] * bx
                dy = slope[0] * ay + slope[1] * my + slope[2] * by
                for node, value in zip(edge, (z * (z - 1) / 2, 1 - z * z, z * (z + 1) / 2)):
                    out[node] = out.get(node, 0.0) + value * weight * math.hypot(dx, dy) / length
        return out


def deck(model):
    e_l, e_t, g_lt, nu, grain_x, grain_y = model.wood
    thickness, weight = model.plate
    lines = ["*NODE, NSET=ALL"]
    lines += [f"{i + 1}, {x:.12g}, {y:.12g}, 0" for i, (x, y) in enumerate(model.nodes)]
    lines += ["*ELEMENT, TYPE=CPS6, ELSET=PLATE"]
    lines += [", ".join(str(n) for n in [i + 1, *[k + 1 for k in e]]) for i, e in enumerate(model.elements)]
    lines += ["*ORIENTATION, NAME=GRAIN", f"{grain_x:.12g}, {grain_y:.12g}, 0, {-grain_y:.12g}, {grain_x:.12g}, 0"]
    lines += ["*MATERIAL, NAME=WOOD", "*ELASTIC, TYPE=ENGINEERING CONSTANTS",
              f"{e_l}, {e_t}, {e_t}, {nu}, 0, 0, {g_lt}, {g_lt},", f"{g_lt}", "*DENSITY", f"{weight:.12g}"]
    lines += ["*SOLID SECTION, ELSET=PLATE, MATERIAL=WOOD, ORIENTATION=GRAIN", f"{thickness}"]
    for x0, y0, x1, y1, nx, ny in model.supports:
        terms = [(n, axis, s * d) for n, s in model.shares(x0, y0, x1, y1).items()
                 for axis, d in ((1, nx), (2, ny)) if d]
        terms.sort(key=lambda t: -abs(t[2]))
        lines += ["*EQUATION", str(len(terms))] + [f"{n + 1}, {axis}, {v:.12g}" for n, axis, v in terms]
    lines += ["*STEP", "*STATIC", "*DLOAD", "PLATE, GRAV, 1, 0, -1, 0", "*CLOAD"]
    forces = {}
    for x0, y0, x1, y1, down in model.loads:
        for n, share in model.shares(x0, y0, x1, y1).items():
            forces[n] = forces.get(n, 0.0) - share * down
    lines += [f"{n + 1}, 2, {f:.12g}" for n, f in sorted(forces.items())]
    lines += ["*NODE FILE, OUTPUT=2D", "U", "*EL FILE", "S", "*NODE PRINT, NSET=ALL", "RF", "*END STEP", ""]
    return "\n".join(lines)


def run_ccx(folder, text):
    """Displacements, stresses and upright forces at nodes, and the seconds that ccx took."""
    (folder / "plate.inp").write_text(text)
    start = time.perf_counter()
    subprocess.run(["ccx", "plate"], cwd=folder, check=True, stdout=subprocess.DEVNULL,
                   env=os.environ | {"OMP_NUM_THREADS": "1"})
    seconds = time.perf_counter() - start
    fields, field = {}, None
    for line in (folder / "plate.frd").read_text().splitlines():
        if line.startswith(" -4"):
            field = fields.setdefault(line.split()[1], {})
        elif line.startswith(" -1") and field is not None:
            field[int(line[3:13]) - 1] = [float(v) for v in re.findall(r".{12}", line[13:])]
        elif line.startswith(" -3"):
            field = None
    rows = [line.split() for line in (folder / "plate.dat").read_text().splitlines() if re.match(r" +\d+ ", line)]
    forces = {int(row[0]) - 1: float(row[2]) for row in rows}
    return fields["DISP"], fields["STRESS"], forces, seconds


def read_lower_edge(model, moved, stress, forces):
    """Of each bay: down and square to the lower edge half way between the supports, and the greatest tension along it;
    of each prop: its force and the greatest pressure along the lower edge beside it."""
    left, right = model.lower_edge()
    length = math.dist(left, right)
    tx, ty = (right[0] - left[0]) / length, (right[1] - left[1]) / length

    def share(x):
        return (x - left[0]) / (right[0] - left[0])

    held = [(s[0] + s[2]) / 2 for s in model.supports]
    props = sorted((middle, abs(s[2] - s[0]), sum(forces[n] for n in model.shares(*s[:4])))
                   for middle, s in zip(held, model.supports)
                   if 0 < share(middle) < 1 and abs((s[1] + s[3]) / 2 - left[1] - (middle - left[0]) * ty / tx) < 1e-3)
    places = [min(held), *(p[0] for p in props), max(held)]
    bays = [[None, None, 0.0] for _ in places[1:]]
    halves = [(p + q) / 2 for p, q in zip(places, places[1:])]
    beside = [[force, 0.0] for _, _, force in props]
    for a, m, b in model.on(*left, *right):
        if model.nodes[a][0] > model.nodes[b][0]:
            a, b = b, a
        for bay, half in zip(bays, halves):
            if model.nodes[a][0] <= half < model.nodes[b][0]:
                z = 2 * (half - model.nodes[a][0]) / (model.nodes[b][0] - model.nodes[a][0]) - 1
                shape = (z * (z - 1) / 2, 1 - z * z, z * (z + 1) / 2)
                x, y = (sum(s * moved[n][i] for s, n in zip(shape, (a, m, b))) for i in (0, 1))
                bay[:2] = -y, ty * x - tx * y
        for n in (a, m, b):
            x = model.nodes[n][0]
            sxx, syy, _, sxy = stress[n][:4]
            along = tx * tx * sxx + ty * ty * syy + 2 * tx * ty * sxy
            if not 0.125 <= share(x) <= 0.875 or any(abs(x - p[0]) < p[1] * (0.5 + BESIDE_PROP) for p in props):
                continue
            for i, bay in enumerate(bays):
                if places[i] <= x <= places[i + 1]:
                    bay[2] = max(bay[2], along)
            for i, prop in enumerate(beside):
                if halves[i] < x < halves[i + 1]:
                    prop[1] = min(prop[1], along)
    return [v for bay in bays for v in bay] + [v for prop in beside for v in prop]


def load_case(dump, case):
    return Model(subprocess.run([dump, *map(str, case)], check=True, capture_output=True, text=True).stdout)


def table(dump):
    print("steps,rise,going,depth,kicker,prop,nodes,mid_down,mid_normal,bottom_stress,upper_mid_down,upper_mid_normal,"
          "upper_bottom_stress,prop_reaction,prop_bottom_stress,source")
    version = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout.split()[-1]
    for case in CASES:
        model = load_case(dump, case)
        with tempfile.TemporaryDirectory() as folder:
            moved, stress, forces, _ = run_ccx(Path(folder), deck(model))
        values = read_lower_edge(model, moved, stress, forces)
        cells = [f"{v:.6g}" for v in values] + [""] * (8 - len(values))
        print(*case, len(model.nodes), *cells,
              f"CalculiX {version} CPS6 on the engine's mesh: script/sawtooth_reference.py", sep=",")
        print(case, "engine / ccx:", *(f"{a / b:.5f}" for a, b in zip(model.result(), values)), file=sys.stderr)


def gmsh_mesh(folder, model, largest, at_corner):
    """The same stringer meshed by gmsh, as fine at re-entrant corners as asked for; RETURNS it and gmsh's seconds."""
    corners = model.corners
    turns_in = []
    for i, here in enumerate(corners):
        before, after = corners[i - 1], corners[(i + 1) % len(corners)]
        turn = (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (after[0] - here[0])
        if turn > 0:  # the outline runs clockwise
            turns_in.append(i + 1)
    lines = [f"Point({i + 1}) = {{{x:.12g}, {y:.12g}, 0}};" for i, (x, y) in enumerate(corners)]
    lines += [f"Line({i + 1}) = {{{i + 1}, {(i + 1) % len(corners) + 1}}};" for i in range(len(corners))]
    lines += [f"Curve Loop(1) = {{1:{len(corners)}}};", "Plane Surface(1) = {1};", "Physical Surface(1) = {1};",
              "Field[1] = Distance;", f"Field[1].PointsList = {{{', '.join(map(str, turns_in))}}};",
              "Field[2] = Threshold;", "Field[2].InField = 1;", f"Field[2].SizeMin = {at_corner};",
              f"Field[2].SizeMax = {largest};", "Field[2].DistMin = 0;", "Field[2].DistMax = 3;",
              "Background Field = 2;", "Mesh.MeshSizeExtendFromBoundary = 0;", "Mesh.MeshSizeFromPoints = 0;",
              "Mesh.ElementOrder = 2;", "Mesh.MshFileVersion = 2.2;", ""]
    (folder / "plate.geo").write_text("\n".join(lines))
    start = time.perf_counter()
    subprocess.run(["gmsh", "-2", "-nt", "1", "-v", "0", "plate.geo", "-o", "plate.msh"], cwd=folder, check=True)
    seconds = time.perf_counter() - start
    text = (folder / "plate.msh").read_text()
    place, nodes, elements = {}, [], []
    for line in re.search(r"\$Nodes\n\d+\n(.*?)\$EndNodes", text, re.S)[1].splitlines():
        number, x, y, _ = line.split()
        place[number] = len(nodes)
        nodes.append([float(x), float(y)])
    for line in re.search(r"\$Elements\n\d+\n(.*?)\$EndElements", text, re.S)[1].splitlines():
        _, kind, tags, *rest = line.split()
        if kind == "9":  # triangle of six nodes
            e = [place[n] for n in rest[int(tags):]]
            (ax, ay), (bx, by), (cx, cy) = (nodes[i] for i in e[:3])
            flipped = (bx - ax) * (cy - ay) < (by - ay) * (cx - ax)
            elements.append([e[0], e[2], e[1], e[5], e[4], e[3]] if flipped else e)
    other = copy.copy(model)
    other.nodes, other.elements = nodes, elements
    return other, seconds


def times(folder):
    bench = subprocess.run([folder / "strength_bench", "--benchmark_format=json", "--benchmark_min_time=1"], check=True,
                           stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True).stdout
    ours = {b["name"]: b["real_time"] for b in json.loads(bench)["benchmarks"]}
    model = load_case(folder / "sawtooth_dump", CASES[0])
    print(f"engine: mesh {ours['sawtooth_mesh']:.2f} ms, solve {ours['sawtooth_solve']:.2f} ms, both "
          f"{ours['sawtooth']:.2f} ms; {len(model.nodes)} nodes, {model.bays[0][2]:.5f} in, {model.bays[0][4]:.1f} psi")
    if not (shutil.which("ccx") and shutil.which("gmsh")):
        print("gmsh or ccx is not installed: nothing to compare with")
        return
    with tempfile.TemporaryDirectory() as place:
        *_, seconds = run_ccx(Path(place), deck(model))
        print(f"ccx on the same mesh: {seconds * 1e3:.0f} ms, {seconds * 1e3 / ours['sawtooth']:.0f} times the engine")
        for largest, at_corner in [(2, 0.02), (1, 0.02), (1, 0.005)]:
            other, meshing = gmsh_mesh(Path(place), model, largest, at_corner)
            moved, stress, forces, seconds = run_ccx(Path(place), deck(other))
            down, _, greatest = read_lower_edge(other, moved, stress, forces)
            print(f"gmsh {largest} in to {at_corner} in, and ccx: {(meshing + seconds) * 1e3:.0f} ms, "
                  f"{(meshing + seconds) * 1e3 / ours['sawtooth']:.0f} times the engine; {len(other.nodes)} nodes, "
                  f"{down:.5f} in, {greatest:.1f} psi")


if __name__ == "__main__":
    if sys.argv[1] == "--times":
        times(Path(sys.argv[2]))
    else:
        table(sys.argv[1])
