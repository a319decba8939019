#!/usr/bin/python3
"""Checks that includes run one way: a stage knows only the stages before it, and the engine's public headers stay lean.

1. engine/<stage>/ includes engine headers only of its own stage and of stages before it in STAGES; never paper/, cli/ and the like.
2. A header of the engine brings in no streams, files, JSON, formatting, TOML or drawing library.
3. Every quoted include names a file that is there.
"""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
STAGES = ["base", "job", "measure", "shape", "frame", "strength", "rules", "cut", "buy", "choose", "build", "signoff", "draw", "plan"]
HEAVY = re.compile(r"iostream|fstream|sstream|ostream|istream|filesystem|locale|nlohmann/.*|fmt/.*|toml.*|cairo.*|CLI/.*")
INCLUDE = re.compile(r'^\s*#\s*include\s+(?:"([^"]+)"|<([^>]+)>)', re.MULTILINE)


def stage_of(path: str) -> str:
    parts = path.split("/")
    return parts[1] if len(parts) > 2 else "plan"


def includes(path: pathlib.Path) -> list[tuple[str, str]]:
    return INCLUDE.findall(path.read_text(encoding="utf-8"))


def faults() -> list[str]:
    found = []
    engine = sorted(p for p in (ROOT / "engine").rglob("*") if p.suffix in {".hpp", ".cpp"})
    if not engine:
        return ["engine/ holds no source"]
    for path in engine:
        name = path.relative_to(ROOT).as_posix()
        stage = stage_of(name)
        if stage not in STAGES:
            found.append(f"{name}: '{stage}' is no stage of the design")
            continue
        for own, system in includes(path):
            if system and path.suffix == ".hpp" and HEAVY.fullmatch(system):
                found.append(f"{name}: a header of the engine includes <{system}>")
            if not own or own.startswith("data/"):
                continue
            if not own.startswith("engine/"):
                found.append(f"{name}: includes {own}, which is not of the engine")
            elif not (ROOT / own).is_file():
                found.append(f"{name}: includes {own}, which is not there")
            elif stage_of(own) not in STAGES or STAGES.index(stage_of(own)) > STAGES.index(stage):
                found.append(f"{name}: '{stage}' includes {own}, which comes after it")
    return found


def main() -> None:
    found = faults()
    if found:
        sys.exit("\n".join(found))
    print("Includes run one way.")


if __name__ == "__main__":
    main()
