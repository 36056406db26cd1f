"""Under what circumstances each move of a game was made: phase, colour, opponent, time left."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from keysquare import _core
from keysquare._core import Game, Position
from keysquare._game_position import ratings

UNKNOWN = "unknown"
OPENING_MOVES = 10
ENDGAME_PIECES = 13
"""Points of pieces, the pawns not counted."""
RATING_BAND = 200


class Circumstances(NamedTuple):
    """Of one move. Each is a text, and groups of moves are told apart by them."""

    phase: str
    """ "opening": a move with a number up to 10; "endgame": later, and both sides are without queens or have pieces
    worth at most 13 pawns each; otherwise "middlegame". (Common practice, no source.)"""
    colour: str
    """ "white" or "black"."""
    opponent: str
    """The rating of the other player in bands of 200 points, "1200-1399"; "unknown" without one."""
    time_left: str
    """What the clock showed when the move was begun, as a share of the time at the start: "more than half", "a tenth to
    half" or "under a tenth"; "unknown" without clock times, or where time is added after some moves."""


SPLITS = {
    "phase": ("opening", "middlegame", "endgame"),
    "colour": ("white", "black"),
    "opponent": (),  # as many bands as there are
    "time_left": ("more than half", "a tenth to half", "under a tenth", UNKNOWN),
}
"""The circumstances by name, with their values in the order in which they are shown."""


def circumstances(game: Game) -> list[Circumstances]:
    """Of each move of the main line."""
    positions = game.positions()[:-1]
    bands = dict(zip(("black", "white"), map(_band, ratings(game))))  # by who meets the player
    return [
        Circumstances(phase, position.mover, bands[position.mover], time)
        for position, phase, time in zip(positions, _phases(positions), _times_left(game, positions))
    ]


def _band(rating: int | None) -> str:
    if rating is None:
        return UNKNOWN
    low = rating - rating % RATING_BAND
    return f"{low}-{low + RATING_BAND - 1}"


def _phases(positions: list[Position]) -> Iterator[str]:
    table = _core.features(positions)
    queens = [table["white_queens"], table["black_queens"]]
    sides = [(table[f"{side}_material"], table[f"{side}_pawns"]) for side in ("white", "black")]
    for at, position in enumerate(positions):
        pieces = [material[at] - pawns[at] for material, pawns in sides]
        if position.move_number <= OPENING_MOVES:
            yield "opening"
        elif not any(count[at] for count in queens) or max(pieces) <= ENDGAME_PIECES:
            yield "endgame"
        else:
            yield "middlegame"


def _times_left(game: Game, positions: list[Position]) -> Iterator[str]:
    at_start = _seconds_at_start(game.tags.get("TimeControl", ""))
    clocks: dict[str, float | None] = {"white": at_start, "black": at_start}
    for position, step in zip(positions, game.main_steps):
        yield _share(clocks[position.mover], at_start)
        clocks[position.mover] = step.seconds_left


def _share(left: float | None, at_start: float | None) -> str:
    if left is None or at_start is None:
        return UNKNOWN
    if left > at_start / 2:
        return "more than half"
    return "a tenth to half" if left * 10 >= at_start else "under a tenth"


def _seconds_at_start(control: str) -> float | None:
    """Of "5400" and "5400+30" (PGN standard, 9.6.1); other controls give new time on the way."""
    seconds = control.partition("+")[0]
    return float(seconds) if seconds.isascii() and seconds.isdigit() and int(seconds) > 0 else None
