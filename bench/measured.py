"""Writes the page of measured accuracy and speed from what the benchmarks wrote. No figure on it is written by hand.

usage: measured.py FOLDER PAGE      FOLDER: build/bench, where measured.sh has put results; what is missing is said on the page
"""

import datetime
import json
import os
import platform
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent

ACCURACY = "results/accuracy.json"
SPEED = "reference.json"
SIZE = "results/size.txt"
COMMIT = "results/commit.txt"


def output_of(*command: str) -> str:
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.strip()


def processor() -> str:
    try:
        found = re.search(r"^model name\s*: (.*)$", Path("/proc/cpuinfo").read_text(), re.MULTILINE)
    except OSError:
        found = None
    return found[1].strip() if found else platform.machine()


def number(value: Any) -> str:
    """As people read it: three digits that count."""
    if value is None:
        return ""
    if not isinstance(value, float | int) or isinstance(value, bool):
        return str(value)
    if float(value).is_integer() and abs(value) < 10_000_000:
        return f"{int(value):,}"
    for unit, size in ((" G", 1e9), (" M", 1e6), (" k", 1e4)):
        if abs(value) >= size:
            return f"{value / (1e3 if unit == ' k' else size):.3g}{unit}"
    return f"{value:.3g}"


def table(columns: Sequence[str], rows: Sequence[Sequence[Any]]) -> Iterator[str]:
    def cell(value: Any) -> str:
        return number(value).replace("|", "\\|")

    words = [bool(rows) and isinstance(rows[0][at], str) for at in range(len(columns))]
    yield "| " + " | ".join(columns) + " |"
    yield "|" + "|".join("---" if is_words else "--:" for is_words in words) + "|"
    for row in rows:
        yield "| " + " | ".join(map(cell, row)) + " |"
    yield ""


def accuracy(tables: dict[str, list[dict[str, Any]]]) -> Iterator[str]:
    for name, rows in tables.items():
        if rows:
            yield f"### {name.replace('_', ' ').capitalize()}"
            yield ""
            columns = list(rows[0])
            yield from table([column.replace("_", " ") for column in columns], [list(row.values()) for row in rows])


def speed(rows: list[dict[str, Any]]) -> Iterator[str]:
    measured = [row for row in rows if "error" not in row]
    ratios = [row for row in measured if row["ratio"]]
    yield "### Beside the same work in Python"
    yield ""
    yield "How many times as much is done in a second of the processor as on the Python rules library `chess`, both on this machine."
    yield ""
    yield from table(["work", "ratio"], [[f"`{row['name']}`", float(f"{row['ratio']:.2g}")] for row in ratios])
    yield "### Rates"
    yield ""
    yield from table(
        ["work", "items a second", "text, MB a second"],
        [[f"`{row['name']}`", row["items"], round(row["bytes"] / 1e6) if row["bytes"] else None] for row in measured],
    )
    for row in rows:
        if "error" in row:
            yield f"Not measured: `{row['name']}` ({row['error']})."
            yield ""


def page(folder: Path) -> Iterator[str]:
    yield "# Measured"
    yield ""
    yield "Written by `bench/measured.py` from what the programs gave (`bench/measured.sh` runs all); no figure is written by hand. What each one means stands in the program that gave it."
    yield ""
    yield from table(
        ["", ""],
        [
            ["date", datetime.date.today().isoformat()],
            ["commit", (folder / COMMIT).read_text().strip() if (folder / COMMIT).exists() else "not known"],
            ["processor", f"{processor()}, {os.cpu_count()} cores"],
            ["system", f"{platform.system()}, {platform.machine()}"],
            ["compiler", output_of("c++", "--version").splitlines()[0]],
            ["Python", platform.python_version()],
            ["other work when this was written", f"load {os.getloadavg()[1]:.1f} on {os.cpu_count()} cores"],
        ],
    )
    yield "The machine is a shared one: rates, and less so ratios, vary with what else it does; accuracy does not."
    yield ""
    yield "## Accuracy on open data"
    yield ""
    if (folder / ACCURACY).exists():
        yield "By `bench/accuracy`, on the collections that the README names."
        yield ""
        yield from accuracy(json.loads((folder / ACCURACY).read_text()))
    else:
        yield "Not measured in this run."
        yield ""
    yield "## Speed"
    yield ""
    if (folder / SPEED).exists():
        yield from speed(json.loads((folder / SPEED).read_text()))
    else:
        yield "Not measured in this run."
        yield ""
    yield "## What it costs to build with it"
    yield ""
    if (folder / SIZE).exists():
        yield "By `bench/size.sh`, as it prints it: seconds of the processor, and bytes."
        yield ""
        text = (folder / SIZE).read_text()
        yield "```text"
        yield text[text.index("compile, seconds") :].rstrip()
        yield "```"
    else:
        yield "Not measured in this run."


def main(folder: str, written: str) -> None:
    Path(written).write_text("\n".join(page(Path(folder))).rstrip() + "\n", encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("usage: measured.py FOLDER PAGE")
    main(sys.argv[1], sys.argv[2])
