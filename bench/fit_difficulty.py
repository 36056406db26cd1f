"""Predicts the ratings of open puzzles from the counts of `keysquare.difficulty`, and says how well, on puzzles not fitted.

usage: fit_difficulty.py [--json FILE] [--weights]

A ridge regression on the logarithms of all counts, with a fixed penalty and fixed folds: every puzzle is predicted by the
regression that was fitted to the nine tenths of the puzzles that it is not among. Twice: with the puzzle's solution given
as the line to be seen, and from the position alone. Prints Spearman's rank correlation of prediction and rating in each
tenth and over all of them. Status 1 when one of the two is below the bar, 77 when the open data is missing.

The puzzles are those of the lichess.org open database (CC0). The first move of the column `moves` leads to the position
that is to be solved.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
import sys
from dataclasses import dataclass
from pathlib import Path

import keysquare as ks
import numpy as np
import numpy.typing as npt

BAR = 0.5
FOLDS = 10
SEED = 20
PENALTY = 10.0  # mild, and not tuned: from 3 to 100 it changes the third digit

Numbers = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Puzzle:
    position: ks.Position
    solution: list[str]
    rating: int


@dataclass(frozen=True)
class Fit:
    """A ridge regression on standardised columns."""

    mean: Numbers
    scale: Numbers
    weights: Numbers
    level: float

    def predict(self, rows: Numbers) -> Numbers:
        predicted: Numbers = (rows - self.mean) / self.scale @ self.weights + self.level
        return predicted


@dataclass(frozen=True)
class Accuracy:
    """How predictions for puzzles that were not fitted compare with their ratings."""

    folds: list[float]
    """Spearman's rank correlation in each fold."""
    pooled: float
    """The same over all predictions."""
    error: float
    """The mean absolute error, in rating points."""


def read_puzzles(file: Path) -> list[Puzzle]:
    puzzles = []
    with file.open(newline="") as lines:
        for row in csv.DictReader(lines):
            first, *solution = row["moves"].split()
            puzzles.append(Puzzle(ks.Position(row["fen"]).after(first), solution, int(row["rating"])))
    return puzzles


def counts(puzzles: list[Puzzle], *, given: bool) -> Numbers:
    """A row for each puzzle: the logarithm of each count plus one, with the sign of the count."""
    found = [
        ks.difficulty(puzzle.position, puzzle.position.mover, puzzle.solution if given else None) for puzzle in puzzles
    ]
    rows = np.array([list(difficulty.numbers.values()) for difficulty in found], dtype=np.float64)
    logarithms: Numbers = np.sign(rows) * np.log1p(np.abs(rows))
    return logarithms


def fit(rows: Numbers, ratings: Numbers) -> Fit:
    mean, scale = rows.mean(axis=0), rows.std(axis=0)
    scale[scale == 0] = 1.0  # a count that never changes says nothing
    level = float(ratings.mean())
    standard = (rows - mean) / scale
    normal = standard.T @ standard + PENALTY * np.eye(rows.shape[1])
    return Fit(mean, scale, np.linalg.solve(normal, standard.T @ (ratings - level)), level)


def ranks(values: Numbers) -> Numbers:
    """The rank of each value; equal ones share the mean of theirs."""
    _, group, sizes = np.unique(values, return_inverse=True, return_counts=True)
    shared: Numbers = (np.cumsum(sizes) - (sizes - 1) / 2)[group]
    return shared


def spearman(a: Numbers, b: Numbers) -> float:
    """Spearman's rank correlation: the correlation of the ranks."""
    return float(np.corrcoef(ranks(a), ranks(b))[0, 1])


def cross_validate(rows: Numbers, ratings: Numbers) -> Accuracy:
    """Every row predicted by a regression that was fitted without the tenth that it is in."""
    order = np.random.default_rng(SEED).permutation(len(rows))
    predicted = np.empty(len(rows))
    folds = []
    for fold in np.array_split(order, FOLDS):
        others = np.setdiff1d(order, fold)
        predicted[fold] = fit(rows[others], ratings[others]).predict(rows[fold])
        folds.append(spearman(predicted[fold], ratings[fold]))
    return Accuracy(folds, spearman(predicted, ratings), float(np.abs(predicted - ratings).mean()))


def show(what: str, accuracy: Accuracy, spread: float) -> None:
    print(f"{what}: Spearman {accuracy.pooled:.3f} over all predictions for puzzles that were not fitted")
    print(f"  in each fold: {' '.join(f'{fold:.2f}' for fold in accuracy.folds)}")
    print(f"  mean absolute error {accuracy.error:.0f} rating points (always the mean rating: {spread:.0f})")


def show_weights(rows: Numbers, ratings: Numbers) -> None:
    """What a standard deviation more of each count changes, in rating points, by a regression on all puzzles."""
    weights = fit(rows, ratings).weights
    names = list(ks.difficulty_numbers())
    for at in np.argsort(-np.abs(weights)):
        alone = "" if rows[:, at].std() == 0 else f"{spearman(rows[:, at], ratings):+6.2f}"
        print(f"  {names[at]:<22} {weights[at]:+7.1f} {alone}")


def main() -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the figures there")
    parser.add_argument(
        "--weights", action="store_true", help="show what each count weighs, and its rank correlation with the rating"
    )
    arguments = parser.parse_args()
    file = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data") / "open-puzzles.csv"
    if not file.exists():
        print("skipped: no open-puzzles.csv; set KEYSQUARE_OPEN_DATA to the folder of the open data")
        return 77
    puzzles = read_puzzles(file)
    ratings = np.array([puzzle.rating for puzzle in puzzles], dtype=np.float64)
    spread = float(np.abs(ratings - ratings.mean()).mean())
    print(f"{len(puzzles)} puzzles, {len(ks.difficulty_numbers())} counts, {FOLDS} folds, bar {BAR}")
    figures: dict[str, dict[str, float | list[float]]] = {}
    reached = True
    for name, what, given in [
        ("solution_given", "With the solution given", True),
        ("position_alone", "From the position alone", False),
    ]:
        rows = counts(puzzles, given=given)
        accuracy = cross_validate(rows, ratings)
        show(what, accuracy, spread)
        if arguments.weights:
            show_weights(rows, ratings)
        reached = reached and accuracy.pooled >= BAR
        figures[name] = {"spearman": accuracy.pooled, "folds": accuracy.folds, "mean_absolute_error": accuracy.error}
    if arguments.json:
        data = {"puzzles": len(puzzles), "counts": len(ks.difficulty_numbers()), "seed": SEED, **figures}
        arguments.json.write_text(json.dumps(data, indent=2) + "\n")
    return 0 if reached else 1


if __name__ == "__main__":
    sys.exit(main())
