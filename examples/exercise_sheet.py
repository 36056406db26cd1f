"""Writes a sheet of exercises from FENs and game files: diagrams to be solved with a pencil, the answers at the end.

usage: exercise_sheet.py SOURCE... [-o SHEET.html] [--per-page 6] [--at-most 24] [--least-gain 2]

A source is a .pgn file, or a text file with a FEN on each line ("#" begins a comment). Of a file of FENs every position
is taken in which the side to move can win something; of games those in which the player did not find it. The answer is
what the library can prove, with its line.
"""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

import keysquare as ks

APART = 6  # plies between two exercises of a game


def winning(position: ks.Position, least_gain: int) -> ks.Threat | None:
    """The most that the side to move can win."""
    found = ks.threats(position, side=position.mover, least_gain=least_gain)
    return found[0] if found else None


def from_fens(path: Path, least_gain: int) -> Iterator[tuple[ks.Threat, str]]:
    """The positions of a file in which something is to be won, with where they come from."""
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1):
        fen = line.partition("#")[0].strip()
        if not fen:
            continue
        try:
            position = ks.Position(fen)
        except ks.InputError as error:
            print(f"{path}, line {number}: {error}", file=sys.stderr)
            continue
        if threat := winning(position, least_gain):
            yield threat, ""
        else:
            print(f"{path}, line {number}: nothing to be won here", file=sys.stderr)


def from_games(path: Path, least_gain: int) -> Iterator[tuple[ks.Threat, str]]:
    """The moments of games at which something was to be won, and something else was played."""
    for game in ks.read_games(path):
        players = f"{game.tags.get('White', '?')} – {game.tags.get('Black', '?')}"
        last = -APART
        for step in game.steps:
            if not step.is_main_line or step.next is None or step.ply < last + APART:
                continue
            threat = winning(step.position, least_gain)
            if threat and not is_found(threat, step):
                last = step.ply
                yield threat, f"{players}. In the game {played(step)} was played."


def is_found(threat: ks.Threat, step: ks.GameStep) -> bool:
    """Whether the player went for the same man, or it only takes back what has just taken: everybody sees that."""
    aim = threat.line[0].target
    took = step.move is not None and step.move.target == aim and step.parent.position.piece_at(aim) is not None
    return took or step.next.move.target == aim


def played(step: ks.GameStep) -> str:
    """ "23...Rc4": the move that was played after a step."""
    position = step.position
    return f"{position.move_number}{'.' if position.mover == ks.WHITE else '...'}{step.next.san}"


def plain(text: str) -> str:
    """Text that Markdown shows as it stands."""
    return "".join(f"\\{sign}" if sign in r"\`*_[]<>&" else sign for sign in text)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("sources", nargs="+", type=Path, metavar="SOURCE", help="a .pgn file or a text file of FENs")
    parser.add_argument(
        "-o", "--output", type=Path, default=Path("exercises.html"), help="the sheet (default exercises.html)"
    )
    parser.add_argument("--title", default="Exercises of the Lantern Chess Club")
    parser.add_argument("--per-page", type=int, choices=(4, 6, 12), default=6, help="diagrams on a page (default 6)")
    parser.add_argument("--at-most", type=int, default=24, help="exercises on the sheet (default 24)")
    parser.add_argument("--least-gain", type=int, default=2, help="pawns that must be won, at least (default 2)")
    options = parser.parse_args()

    study = ks.Study(options.title, author="Hedda Wexmoor", bottom="mover")
    try:
        for source in options.sources:
            found = from_games if source.suffix == ".pgn" else from_fens
            for threat, origin in found(source, options.least_gain):
                if len(study) < options.at_most:
                    question = "Mate by force." if threat.mate else "Win material."
                    study.ask(threat.position, question, plain(origin), findings=[threat])
        sheet = study.exercises(options.per_page).save(options.output)
    except (OSError, ValueError) as error:
        print(error, file=sys.stderr)
        return 1
    print(f"{len(study)} exercises, sheet: {sheet}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
