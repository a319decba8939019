#!/usr/bin/python3
"""Runs the commands that README.md shows, so that what it promises is true.

Every line of its ```sh blocks is run in turn from the repository's root. `script/test` is left to whoever calls this.
"""
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
LEFT_OUT = {"script/test"}


def commands(text: str) -> list[str]:
    blocks = re.findall(r"^```sh\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    lines = [line.split(" #")[0].strip() for block in blocks for line in block.splitlines()]
    return [line for line in lines if line]


def main() -> None:
    shown = commands((ROOT / "README.md").read_text(encoding="utf-8"))
    if not shown:
        sys.exit("README.md shows no command")
    for command in shown:
        if command in LEFT_OUT:
            continue
        print(f"$ {command}", flush=True)
        if subprocess.run(["bash", "-c", command], cwd=ROOT).returncode != 0:
            sys.exit(f"README.md: this command fails: {command}")


if __name__ == "__main__":
    main()
