#!/usr/bin/python3
"""Turns the tables in data/ into constexpr C++ tables, and refuses a table with a fault.

Usage: embed_data.py OUT_DIR FILE.toml...

Every file starts with an [emit] table: `header` (the C++ header that declares the row type), `row` (that type), `table` (name of
the table) and `columns` (the type's members in their order). The rows follow as [[row]]. A row may leave columns out: they keep
the type's default. Every row needs a `source`, its own or the file's `default_source`: a published one, or the words
'common practice, no source', 'from memory' or 'invented'.
"""
import json
import pathlib
import sys
import tomllib


def literal(value) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    return repr(value)


def faults_of(rows, columns):
    for number, row in enumerate(rows, 1):
        for key in row:
            if key not in columns:
                yield f"row {number}: unknown column '{key}'"
        if "source" in columns and not row.get("source", "").strip():
            yield f"row {number}: no source"


def table_text(path: pathlib.Path) -> str:
    with path.open("rb") as file:
        data = tomllib.load(file)
    emit, rows = data["emit"], data.get("row", [])
    default_source = data.get("default_source")
    if default_source:
        for row in rows:
            row.setdefault("source", default_source)
    faults = list(faults_of(rows, emit["columns"]))
    if not rows:
        faults.append("the table is empty")
    if faults:
        sys.exit("\n".join(f"{path}: {fault}" for fault in faults))
    lines = [f"// Made from {path.name} by script/embed_data.py.", "#pragma once", f'#include "{emit["header"]}"',
             "namespace pitchboard {", f"inline constexpr {emit['row']} {emit['table']}[] = {{"]
    for row in rows:
        members = ", ".join(f".{c} = {literal(row[c])}" for c in emit["columns"] if c in row)
        lines.append(f"    {{{members}}},")
    lines += ["};", "}  // namespace pitchboard", ""]
    return "\n".join(lines)


def main() -> None:
    out = pathlib.Path(sys.argv[1])
    out.mkdir(parents=True, exist_ok=True)
    for name in sys.argv[2:]:
        path = pathlib.Path(name)
        target = out / (path.stem.replace("-", "_") + ".hpp")
        text = table_text(path)
        if not target.exists() or target.read_text() != text:
            target.write_text(text)


main()
