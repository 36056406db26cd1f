"""Fits the weights that put candidate moves in order, and says how well they do on positions that were not fitted.

usage: fit_candidates.py [--rows] [--json FILE]

A conditional logit: of the moves of one position, the facts about a move (`keysquare.move_facts`) decide how likely it is
the right one. Fitted are the moves that were played in tournament games (one position from each of the first games), and
every other position of the strategic test suite (the graded moves by their points) and of the open puzzles (the first move
of the solution), weighted as the constants below say. Newton's method with a fixed penalty; nothing is random. The table in
`include/keysquare/thinking/fact_weights.hpp` is the fit on the even-numbered positions; `--rows` prints it. The figures
are those of the odd-numbered ones, and, with a second fit the other way round, of the even-numbered ones.

Data: Strategic Test Suite (D. Corbit and S. Natarajan, 2010 to 2012), lichess.org open puzzles (CC0), public tournament
games. Status 77 when it is missing.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
import re
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

import keysquare as ks
import numpy as np
import numpy.typing as npt

GAMES = 4000
WEIGHT_OF_A_GAME, WEIGHT_OF_A_GRADED_POSITION, WEIGHT_OF_A_PUZZLE = 0.1, 3.0, 1.0
POWER_OF_POINTS = 3  # a move with half of the points is right an eighth as often
PENALTY = 30.0
ONCE = ["wins", "costs", "threatens", "advances_pawn"]  # that there is any of it counts, too
ONLY_ONCE = ["threatens"]
MOST = 9  # larger amounts count like this one: `most_counted` in the header
GAP = 3000  # `widest_gap` there

Numbers = npt.NDArray[np.float64]
Places = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Problem:
    """A position, and the points of its right moves, in coordinate notation."""

    position: ks.Position
    points: dict[str, float]
    weight: float
    number: int


@dataclass(frozen=True)
class Choices:
    """Many moves: the columns of each, its points, the place of its position, and the weight of each position."""

    columns: Numbers
    points: Numbers
    place: Places
    weight: Numbers

    @property
    def starts(self) -> Places:
        return np.flatnonzero(np.diff(self.place, prepend=-1))

    def shares(self) -> Numbers:
        """How often each move is the right one."""
        wanted = (self.points / 10.0) ** POWER_OF_POINTS
        whole = np.add.reduceat(wanted, self.starts)
        shares: Numbers = wanted / np.where(whole == 0, 1.0, whole)[self.place]
        return shares


@dataclass(frozen=True)
class Accuracy:
    positions: int
    among: float
    """Share of positions with a right move among at most four candidates."""
    points: float
    """Mean points, of 10, of the best move among them."""
    first: float
    """Share of positions where the first candidate is right."""
    offered: float
    """Mean number of candidates."""


def column_names() -> list[tuple[str, str]]:
    facts = list(ks.fact_definitions())
    return [(fact, "each") for fact in facts if fact not in ONLY_ONCE] + [(fact, "once") for fact in ONCE]


def graded_positions(file: Path) -> Iterator[Problem]:
    for number, line in enumerate(file.read_text().splitlines()):
        position = ks.Position(" ".join(line.split()[:4]) + " 0 1")
        graded = re.search(r'c0 "([^"]*)"', line)
        assert graded
        points = {}
        for entry in graded[1].split(","):
            text, grade = entry.strip().rsplit("=", 1)
            points[str(position.move(text))] = float(grade)
        yield Problem(position, points, WEIGHT_OF_A_GRADED_POSITION, number)


def puzzles(file: Path) -> Iterator[Problem]:
    with file.open(newline="") as lines:
        for number, row in enumerate(csv.DictReader(lines)):
            first, solution, *_ = row["moves"].split()
            position = ks.Position(row["fen"]).after(first)
            yield Problem(position, {str(position.move(solution)): 10.0}, WEIGHT_OF_A_PUZZLE, number)


def moves_of_games(file: Path) -> Iterator[Problem]:
    for number, game in enumerate(islice(ks.read_games(file), GAMES)):
        ply = 14 + number * 37 % 70
        if ply < len(game.main_line):
            yield Problem(game.positions()[ply], {str(game.main_line[ply]): 10.0}, WEIGHT_OF_A_GAME, number)


def choices(problems: Iterable[Problem]) -> Choices:
    names = list(ks.fact_definitions())
    place_of = {name: at for at, name in enumerate(names)}
    rows, points, places, weights = [], [], [], []
    for problem in problems:
        moves = ks.move_facts(problem.position)
        kept = [move for move in moves if not move.loses] or moves
        for move in kept:
            row = np.zeros(len(names))
            for reason in move.facts:
                row[place_of[reason.fact]] = min(MOST, max(-MOST, reason.amount))
            rows.append(row)
            points.append(problem.points.get(str(move.move), 0.0))
            places.append(len(weights))
        weights.append(problem.weight)
    facts = np.array(rows)
    columns = [
        facts[:, place_of[fact]] if kind == "each" else (facts[:, place_of[fact]] != 0).astype(np.float64)
        for fact, kind in column_names()
    ]
    return Choices(np.stack(columns, axis=1), np.array(points), np.array(places), np.array(weights))


def joined(parts: Iterable[Choices]) -> Choices:
    columns, points, places, weights = [], [], [], []
    before = 0
    for part in parts:
        columns.append(part.columns)
        points.append(part.points)
        places.append(part.place + before)
        weights.append(part.weight)
        before += len(part.weight)
    return Choices(np.concatenate(columns), np.concatenate(points), np.concatenate(places), np.concatenate(weights))


def fit(data: Choices) -> Numbers:
    """The weight of each column, by Newton's method with steps that are halved until they help."""
    scale = data.columns.std(axis=0)
    scale[scale == 0] = 1.0
    columns, starts, place = data.columns / scale, data.starts, data.place
    wanted = data.shares() * data.weight[place]
    whole = np.add.reduceat(wanted, starts)

    def logarithms(weights: Numbers) -> Numbers:
        sums = columns @ weights
        most = np.maximum.reduceat(sums, starts)
        logs: Numbers = sums - (most + np.log(np.add.reduceat(np.exp(sums - most[place]), starts)))[place]
        return logs

    def loss(weights: Numbers) -> float:
        return float(-(wanted * logarithms(weights)).sum() + PENALTY * (weights @ weights) / 2)

    weights = np.zeros(columns.shape[1])
    for _ in range(50):
        likely = np.exp(logarithms(weights))
        expected = likely * whole[place]
        slope = columns.T @ (expected - wanted) + PENALTY * weights
        means = np.add.reduceat(likely[:, None] * columns, starts)
        bend = (columns * expected[:, None]).T @ columns - (means * whole[:, None]).T @ means
        step = np.linalg.solve(bend + PENALTY * np.eye(len(weights)), slope)
        here, share = loss(weights), 1.0
        while loss(weights - share * step) > here and share > 1e-6:
            share /= 2
        weights = weights - share * step
        if np.abs(step).max() < 1e-9:
            break
    fitted: Numbers = np.round(weights / scale * 1000)
    return fitted


def accuracy(data: Choices, weights: Numbers, gap: float, at_most: int = 4) -> Accuracy:
    sums = data.columns @ weights
    best, first, offered = [], [], []
    for moves in np.split(np.arange(len(sums)), data.starts[1:]):
        order = moves[np.argsort(-sums[moves], kind="stable")][:at_most]
        order = order[sums[order[0]] - sums[order] < gap]
        best.append(data.points[order].max())
        first.append(data.points[order[0]])
        offered.append(len(order))
    points = np.array(best)
    return Accuracy(
        len(points),
        float((points >= 10).mean()),
        float(points.mean()),
        float((np.array(first) >= 10).mean()),
        float(np.mean(offered)),
    )


def rows_of(weights: Numbers) -> list[str]:
    """The rows of the table in the header."""
    of = {column: int(weight) for column, weight in zip(column_names(), weights)}
    return [
        f"    FactWeight{{MoveFact::{fact}, {of.get((fact, 'once'), 0)}, {of.get((fact, 'each'), 0)}}},"
        for fact in ks.fact_definitions()
    ]


@dataclass(frozen=True)
class Halves:
    """Three collections; `graded` and `puzzles` by the last bit of the number of the position."""

    games: Choices
    graded: tuple[Choices, Choices]
    puzzles: tuple[Choices, Choices]

    def fitted(self, half: int) -> Numbers:
        return fit(joined([self.games, self.graded[half], self.puzzles[half]]))


def read(folder: Path) -> Halves:
    graded = list(graded_positions(folder / "epd" / "strategic-test-suite-a.epd"))
    solved = list(puzzles(folder / "open-puzzles.csv"))

    def half(problems: list[Problem], number: int) -> Choices:
        return choices(problem for problem in problems if problem.number % 2 == number)

    return Halves(
        choices(moves_of_games(folder / "pgn" / "masters.pgn")),
        (half(graded, 0), half(graded, 1)),
        (half(solved, 0), half(solved, 1)),
    )


def data_folder() -> Path:
    return Path(os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data")


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("--rows", action="store_true", help="print the rows of the table, too")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the figures there")
    arguments = parser.parse_args()
    if not (data_folder() / "pgn" / "masters.pgn").exists():
        print("skipped: no open data; set KEYSQUARE_OPEN_DATA to its folder")
        return 77
    halves = read(data_folder())
    figures = {}
    for half, name in [(0, "even"), (1, "odd")]:
        weights = halves.fitted(half)
        if half == 0 and arguments.rows:
            print("\n".join(rows_of(weights)))
        for what, data in [("graded", halves.graded[1 - half]), ("puzzles", halves.puzzles[1 - half])]:
            found = accuracy(data, weights, GAP)
            figures[f"{what}_fitted_on_{name}"] = found.__dict__
            print(
                f"{what}, fitted on the {name} half: right move among {found.offered:.1f} candidates in "
                f"{found.among:.1%} of {found.positions} positions left out, first in {found.first:.1%}, "
                f"{found.points:.2f} points"
            )
    if arguments.json:
        arguments.json.write_text(json.dumps(figures, indent=2) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
