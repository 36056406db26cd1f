"""Writes the theme pages of this folder from themes.toml and from what the library says about its positions.

    python examples/handbook/themes/make_pages.py             write the pages, the diagrams and the index
    python examples/handbook/themes/make_pages.py --check     only compare; status 1 when a file would change
    python examples/handbook/themes/make_pages.py --measured accuracy.json
                                                              take over the figures of `bench/accuracy --json` first

It fails when an example lacks its finding, a near miss has it, or a near miss differs by more than one man. Needs the
package keysquare and Python 3.11.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import textwrap
import time
import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import keysquare as ks

FOLDER = Path(__file__).parent
TABLE = FOLDER / "themes.toml"
MEASURED = FOLDER / "measured_themes.json"
ROOT = "../../.."
SQUARE_SIZE = 36
WIDTH = 120

Entry = dict[str, Any]
Where = dict[str, Any]  # fen, side and what else a finding must have: man, detail

WITNESSES = {
    "capture": """The line begins with the capture, and `gain` is what it wins in pawns. After it both sides may go on with
        captures, promotions and checks inside the [bound](README.md#words), and in check with any move.""",
    "reply": """The line and its `gain` in pawns. Every legal reply to the first move is tried: none leaves the side with less,
        inside the [bound](README.md#words). Without a gain nothing is said to be won.""",
    "trapped": """Attackable: the line and its `gain` in pawns; every legal reply to the first move is tried. Attacked already:
        the line begins, after a pass, with the capture. `squares` are the ways out, each of which can be tried.""",
    "point": """The line and its `gain` in pawns, and a second line (`point`) that shows what happens when the man takes and
        fails its other duty.""",
    "removed": """A line that is legal with the man on `removed` taken off the board, and its `gain` there. Nobody can play it
        today; it shows what the man is for.""",
    "warning": """The line begins with the mistake (the least bad one, where there are several) and goes on with what punishes
        it. `gain` is zero or less for the side that is warned, or `mated` is set.""",
    "pair": """When locked, a line: the least bad move of the two, and what punishes it. Otherwise the moves that do not lose
        are counted, and `squares` says where they go.""",
    "mate": """The line ends in checkmate. All legal moves and all replies are tried, so this is exact. Where no mate is claimed
        there is no line, and `squares` holds what was counted.""",
    "count": "No line: nothing is said to be won. `squares` holds what was counted, so that anybody can count again.",
    "absence": """No line. `removed` is the square of the piece: take it off the board, count again, and `squares` are what is
        gone.""",
}

VERIFIERS = {
    "counted": "works every finding out again from the definition. Nothing may be wrong, nothing left out.",
    "searched": "checks every finding, its line, gain and meaning, and searches for those that were left out.",
    "claims": "checks every finding, its line, gain and meaning. Whether one was left out is not checked there.",
}


class Broken(Exception):
    """A page would say something that is not so."""


def paragraph(text: str, first: str = "", rest: str = "") -> str:
    return textwrap.fill(
        " ".join(text.split()),
        WIDTH,
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )


def item(text: str) -> str:
    return paragraph(text, "- ", "  ")


def words(theme: str) -> str:
    return theme.replace("_", " ")


def title(theme: str) -> str:
    return words(theme).capitalize()


# --- what the library says -------------------------------------------------------------------------------------------


def found(theme: str, where: Where, *, fen: str | None = None, by: Iterable[str] = ("man", "detail")) -> list[ks.Finding]:
    """The findings of the theme for the side, with what else is asked for, strongest first."""
    position = ks.Position(fen or where["fen"])
    findings = ks.findings(position, themes=[theme], side=where["side"])
    if "man" in by and "man" in where:
        findings = [one for one in findings if one.pieces and str(one.pieces[0].square) == where["man"]]
    if "detail" in by and "detail" in where:
        findings = [one for one in findings if one.detail == where["detail"]]
    return findings


def example_of(entry: Entry) -> ks.Finding:
    theme, example = entry["name"], entry["example"]
    findings = found(theme, example)
    if len(findings) != 1:
        every = [str(one) for one in ks.findings(ks.Position(example["fen"]), themes=[theme])]
        raise Broken(f"{theme}: the example has {len(findings)} such findings; of the theme: {every}")
    return findings[0]


def check_near_miss(entry: Entry) -> None:
    theme, example, miss = entry["name"], entry["example"], entry["near_miss"]
    kept = {"theme": (), "man": ("man",), "detail": ("detail",)}[miss.get("of", "theme")]
    for finding in found(theme, example, fen=miss["fen"], by=kept):
        raise Broken(f"{theme}: the near miss has it: {finding}")


def check_limit(entry: Entry) -> list[ks.Finding]:
    """What is claimed in the position of the limit."""
    theme, limit = entry["name"], entry["limit"]
    findings = found(theme, limit)
    if bool(findings) != limit["claimed"]:
        raise Broken(f"{theme}: the position of the limit has {[str(one) for one in findings]}")
    return findings


def men(fen: str) -> dict[str, str]:
    """Square to FEN letter."""
    placed = {}
    for rank, row in zip("87654321", fen.split()[0].split("/"), strict=True):
        file = 0
        for letter in row:
            if letter.isdigit():
                file += int(letter)
            else:
                placed["abcdefgh"[file] + rank] = letter
                file += 1
    return placed


def called(letter: str) -> str:
    kinds = {"k": "king", "q": "queen", "r": "rook", "b": "bishop", "n": "knight", "p": "pawn"}
    return f"{'white' if letter.isupper() else 'black'} {kinds[letter.lower()]}"


def difference(before: str, after: str) -> tuple[str, list[str]]:
    """In words, how the second position differs from the first, and the squares where something else stands."""
    old, new = men(before), men(after)
    gone = {square: letter for square, letter in old.items() if new.get(square) != letter}
    come = {square: letter for square, letter in new.items() if old.get(square) != letter}
    if len(gone) == 1 and len(come) == 1:
        (here, letter), (there, other) = *gone.items(), *come.items()
        if here == there:
            return f"with a {called(other)} instead of the {called(letter)} on {here}", [here]
        if letter == other:
            return f"with the {called(letter)} on {there} instead of {here}", [there]
    if len(gone) == 1 and not come:
        ((here, letter),) = gone.items()
        return f"without the {called(letter)} on {here}", [here]
    if len(come) == 1 and not gone:
        ((there, letter),) = come.items()
        return f"with a {called(letter)} more, on {there}", [there]
    raise Broken(f"not one man's difference: {before} and {after}: {gone} {come}")


# --- the parts of a page ---------------------------------------------------------------------------------------------


def pawns(gain: int) -> str:
    return f"{gain} pawn{'' if abs(gain) == 1 else 's'}"


def facts(finding: ks.Finding) -> Iterator[tuple[str, str]]:
    warned = finding.mated or (bool(finding.line) and finding.gain <= 0 and not finding.mate)
    yield ("a warning to" if warned else "good for"), str(finding.side).capitalize()
    if finding.detail:
        yield "detail", f"`{finding.detail}`"
    if finding.pieces:
        yield "pieces", ", ".join(f"{placed.piece.kind} {placed.square}" for placed in finding.pieces)
    if finding.squares:
        yield "squares", " ".join(map(str, finding.squares))
    if finding.numbers:
        yield "numbers", ", ".join(f"`{name}` {value}" for name, value in finding.numbers.items())
    if finding.removed:
        yield "taken off the board", str(finding.removed)
    after_pass = ", the mover passing" if finding.after_pass else ""
    if finding.line:
        yield "line" + after_pass, finding.line_san
        outcome = "mate" if finding.mate else "is mated" if finding.mated else ""
        if not outcome:
            yield "gain", pawns(finding.gain)
        else:
            yield "gain", outcome + (f", {pawns(finding.gain)} on the way" if finding.gain else "")
    if finding.point:
        yield "point" + after_pass, finding.point_san


def table(rows: Iterable[tuple[str, ...]], head: tuple[str, ...]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join(f"| {' | '.join(cells)} |" for cells in lines)


def picture(theme: str, which: str, alt: str) -> str:
    return f"![{alt}](diagrams/{theme}{which}.svg)"


def to_move(fen: str) -> str:
    return "White to move" if fen.split()[1] == "w" else "Black to move"


def example_part(entry: Entry, finding: ks.Finding) -> list[str]:
    theme, example = entry["name"], entry["example"]
    return [
        "## Example",
        picture(theme, "", f"Example of {words(theme)}, {to_move(example['fen'])}"),
        f"`{example['fen']}` ({example['source']})",
        paragraph(f"> {finding}", "", "> "),
        table(facts(finding), ("of the finding", "here")),
    ]


def near_miss_part(entry: Entry) -> list[str]:
    theme, example, miss = entry["name"], entry["example"], entry["near_miss"]
    changed, _ = difference(example["fen"], miss["fen"])
    of = miss.get("of", "theme")
    what = f"`{theme}`"
    if of == "detail":
        what += f" with the detail `{example['detail']}`"
    if of == "man":
        what += f" about {example['man']}"
    return [
        "## Near miss",
        picture(theme, "_not", f"Near miss of {words(theme)}, {to_move(miss['fen'])}"),
        f"`{miss['fen']}`",
        paragraph(
            f"The same {changed}. No {what} is claimed for {example['side'].capitalize()}. {miss['why']}"
        ),
    ]


def shown_in(entry: Entry, detail: str) -> str:
    """A position that shows the detail, where the entry names one."""
    if not (fen := entry.get("shown", {}).get(detail)):
        return ""
    if not any(one.detail == detail for one in ks.findings(ks.Position(fen), themes=[entry["name"]])):
        raise Broken(f"{entry['name']}: {detail} is not in {fen}")
    return f" (as in `{fen}`)"


def gives_part(entry: Entry) -> list[str]:
    lines = [f"pieces: {entry['pieces']}", f"squares: {entry['squares']}"]
    lines += [f"detail `{name}`: {text}{shown_in(entry, name)}" for name, text in entry.get("details", {}).items()]
    lines += [f"number `{name}`: {text}" for name, text in entry.get("numbers", {}).items()]
    return ["## What it gives", "\n".join(map(item, lines)), "## Witness", paragraph(WITNESSES[entry["witness"]])]


def outside_part(entry: Entry, measured: dict[str, Any]) -> list[str]:
    lines = [
        f"The [verifier](README.md#checks) {VERIFIERS[entry['verifier']]}",
        "The [mirrors](README.md#checks): seen from the other side, or left for right, the findings are the mirrored ones.",
    ]
    if "worked" in entry:
        lines.append(
            f"""[Worked positions]({ROOT}/tests/python/test_worked_positions.py), positive and negative ones
            (`{entry["worked"]}01` and so on), whose facts exhaustive scripts proved."""
        )
    if label := measured["themes"].get(entry["name"]):
        lines.append(
            f"""Labels of others: of {measured["puzzles"]} puzzles of the {measured["collection"]},
            {label["labelled"]} have the label of the theme. It is found somewhere on the solution of {label["recall"]} % of
            them; of the other puzzles it is claimed as winning something in {label["claims_with_gain"]} %
            (`bench/accuracy`, {measured["date"]}). {entry.get("label_note", "")}"""
        )
        if reasons := Counter(label["labels_not_followed"]):
            told = "; ".join(f"{reason} ({times})" for reason, times in reasons.most_common())
            lines.append(f"Labels that we do not follow, with the number of puzzles: {told}.")
    return ["## Checked against", "\n".join(map(item, lines))]


def limits_part(entry: Entry, claims: list[ks.Finding]) -> list[str]:
    theme, limit = entry["name"], entry["limit"]
    position = ks.Position(limit["fen"])
    verdict = f"`{theme}`" + (f" with `{limit['detail']}`" if "detail" in limit else "")
    verdict += f" about {limit['man']}" if "man" in limit else ""
    verdict += f" is {'' if limit['claimed'] else 'not '}claimed for {limit['side'].capitalize()}."
    parts = ["## Known limits", "\n".join(map(item, entry["limits"]))]
    parts += [
        picture(theme, "_limit", f"A limit of {words(theme)}, {to_move(limit['fen'])}"),
        f"`{limit['fen']}`",
        paragraph(f"Here {verdict} {limit['why']}"),
    ]
    said = [str(one) for one in claims]
    for other in limit.get("instead", ()):
        if other == "candidates":
            said += map(str, ks.candidates(position)[:1])
        else:
            said += [str(one) for one in ks.findings(position, themes=[other])]
    if not said and limit.get("instead"):
        raise Broken(f"{theme}: nothing is said instead")
    if said:
        parts += ["What is said:", "\n".join(map(item, said))]
    return parts


def python_part(entry: Entry) -> list[str]:
    theme, example = entry["name"], entry["example"]
    said = ks.findings(ks.Position(example["fen"]), themes=[theme], side=example["side"])
    lines = [
        "```python",
        ">>> import keysquare as ks",
        f'>>> position = ks.Position("{example["fen"]}")',
        f'>>> for finding in ks.findings(position, themes=["{theme}"], side="{example["side"]}"):',
        "...     print(finding)",
        *map(str, said),
        "",
        "```",
    ]
    related = ", ".join(f"[{words(other)}]({other}.md)" for other in entry["related"])
    return ["## In Python", "\n".join(lines), f"Related: {related}. [All themes](README.md)"]


def page(entry: Entry, measured: dict[str, Any]) -> str:
    finding = example_of(entry)
    check_near_miss(entry)
    claims = check_limit(entry)
    parts = [
        f"# {title(entry['name'])}",
        f"`{entry['name']}`: {entry['short']}. [{entry['group']}](README.md#{entry['group'].lower().replace(' ', '-')})",
        "## Definition",
        entry["definition"].strip(),
        *example_part(entry, finding),
        *near_miss_part(entry),
        *gives_part(entry),
        *outside_part(entry, measured),
        *limits_part(entry, claims),
        *python_part(entry),
    ]
    return "\n\n".join(parts) + "\n"


def diagrams(entry: Entry) -> Iterator[tuple[str, str]]:
    theme = entry["name"]
    example, miss, limit = (entry[key]["fen"] for key in ("example", "near_miss", "limit"))
    _, changed = difference(example, miss)
    finding = example_of(entry)

    def drawn(fen: str, which: str, **options: Any) -> tuple[str, str]:
        text = ks.diagram(ks.Position(fen), square_size=SQUARE_SIZE, title=f"{title(theme)}{which}", **options)
        return fen, str(text) + "\n"

    yield f"diagrams/{theme}.svg", drawn(example, "", findings=[finding])[1]
    yield f"diagrams/{theme}_not.svg", drawn(miss, ": near miss", marks=changed)[1]
    yield f"diagrams/{theme}_limit.svg", drawn(limit, ": a limit")[1]


# --- the index -------------------------------------------------------------------------------------------------------

INTRODUCTION = """
# Themes

One page for each theme that keysquare finds in a position: what it means, an example and a near miss, what a finding of it
holds, how it is proved and checked, and where it stops. Everything on these pages about a position was said by the library
when they were made ([make_pages.py](make_pages.py) from [themes.toml](themes.toml)); a test makes them again and compares.
"""

WORDS = """
## Words

- **Finding**: one statement about a position, with its theme, the side that it is good for, squares, pieces, numbers and,
  where something is won or lost, a line with its gain. `ks.findings(position)` gives all of them, the strongest first.
- **Gain**: in pawns, with 1, 3, 3, 5 and 9 for pawn, knight, bishop, rook and queen (a parameter: `values=`).
- **Threat**: a finding for the side that is not to move. Its line begins after a pass. While the mover is in check it can't
  pass, and such findings are not made.
- **Captures on a square** (`ks.exchange`): both sides take there in turn with legal moves, and either may stop.
- **Bound**: what follows is searched 12 plies deep with captures, promotions and, on the first three plies, checks; a side
  in check may make any move. `ks.resolve` is that search, and the bound is a parameter (`plies=`, `check_plies=`).
- **Wins against every reply**: after the first move every legal reply is tried, quiet ones too, and what is left inside the
  bound is at least the gain.
- **Loses**: a move loses when it leaves its side with less than its best move does, and with less than doing nothing would.
- **Line piece**: a rook, bishop or queen.
"""

CHECKS = f"""
## Checks

- The **verifier** ([tests/python/truth]({ROOT}/tests/python/truth)) is a program of its own, written from the definitions on
  the general-purpose rules library `chess`. Every test run holds all findings of thousands of positions from real games and
  from random play against it; themes that only count also with men put up at random.
- The **mirrors** ([test_symmetry.py]({ROOT}/tests/python/test_symmetry.py)): a position seen from the other side, or left for
  right, must give the mirrored findings.
- **Labels** of open puzzles: `bench/accuracy` walks their solutions and compares with what others called them. The figures
  are in [measured_themes.json](measured_themes.json).
- These **pages**: a test makes them again, plays every line with the library `chess`, and looks up whether a detail or a
  number is left unexplained ([test_theme_pages.py]({ROOT}/tests/python/test_theme_pages.py)).
"""


def index(entries: list[Entry]) -> str:
    parts = [INTRODUCTION.strip()]
    proofs = {"count": "squares, counts", "absence": "the board without it", "removed": "line without the man"}
    for group in dict.fromkeys(entry["group"] for entry in entries):
        rows = [
            (f"[{words(entry['name'])}]({entry['name']}.md)", entry["short"], proofs.get(entry["witness"], "line and gain"))
            for entry in entries
            if entry["group"] == group
        ]
        parts += [f"## {group}", table(rows, ("theme", "what it is", "proof"))]
    return "\n\n".join([*parts, WORDS.strip(), CHECKS.strip()]) + "\n"


# --- files -----------------------------------------------------------------------------------------------------------


def read_entries() -> list[Entry]:
    entries: list[Entry] = tomllib.loads(TABLE.read_text())["theme"]
    names = [entry["name"] for entry in entries]
    if sorted(names) != sorted(ks.themes):
        raise Broken(f"themes without a page or pages without a theme: {set(names) ^ set(ks.themes)}")
    for entry in entries:
        if unknown := set(entry["related"]) - set(names):
            raise Broken(f"{entry['name']}: no such related theme: {unknown}")
    return entries


def files() -> dict[str, str]:
    """Every generated file, by its name in this folder."""
    entries = read_entries()
    measured = json.loads(MEASURED.read_text())
    made = {"README.md": index(entries)}
    troubles = []
    for entry in entries:
        try:
            made[f"{entry['name']}.md"] = page(entry, measured)
            made.update(diagrams(entry))
        except Broken as trouble:
            troubles.append(str(trouble))
    if troubles:
        raise Broken("\n".join(troubles))
    return made


def snake_case(label: str) -> str:
    """ "discoveredAttack" as a theme is written."""
    return re.sub("[A-Z]", lambda letter: "_" + letter[0].lower(), label)


def take_over(accuracy: Path) -> None:
    """The figures of the themes from what `bench/accuracy --json` wrote."""
    report = json.loads(accuracy.read_text())
    rows = report["themes"]

    def reasons(theme: str) -> list[str]:
        return [row["reason"] for row in report["labels_not_followed"] if snake_case(row["label"]) == theme]

    measured = {
        "made_by": "bench/accuracy",
        "date": time.strftime("%B %Y"),
        "collection": "open database that the README names",
        "puzzles": rows[0]["labelled"] + rows[0]["others"],
        "themes": {
            row["theme"]: {
                "labelled": row["labelled"],
                "recall": round(row["recall"]),
                "claims_with_gain": round(row["claims_with_gain"]),
                "labels_not_followed": reasons(row["theme"]),
            }
            for row in rows
        },
    }
    MEASURED.write_text(json.dumps(measured, indent=2) + "\n")


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--check", action="store_true")
    options.add_argument("--measured", type=Path, metavar="FILE")
    chosen = options.parse_args()
    if chosen.measured:
        take_over(chosen.measured)
    try:
        made = files()
    except Broken as trouble:
        print(trouble, file=sys.stderr)
        return 1
    present = {str(path.relative_to(FOLDER)) for path in FOLDER.rglob("*") if path.suffix in (".md", ".svg")}
    changed = [name for name, text in made.items() if name not in present or (FOLDER / name).read_text() != text]
    left_over = sorted(present - set(made))
    if chosen.check:
        print("\n".join([f"would change: {name}" for name in changed] + [f"left over: {name}" for name in left_over]))
        return 1 if changed or left_over else 0
    for name in changed:
        (FOLDER / name).parent.mkdir(exist_ok=True)
        (FOLDER / name).write_text(made[name])
    for name in left_over:
        (FOLDER / name).unlink()
    print(f"{len(changed)} of {len(made)} files written, {len(left_over)} removed")
    return 0


if __name__ == "__main__":
    sys.exit(main())
