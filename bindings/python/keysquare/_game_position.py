"""Positions of games: where each came up, and how to say so."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property

from keysquare import _core
from keysquare._core import Game, GameStep, Position
from keysquare._study_moves import players
from keysquare._words import ENGLISH, moves_in, words_in


class FeatureRow(Mapping[str, int]):
    """The numeric vector of one position: a mapping from the name of a column (`feature_schema`) to its number."""

    def __init__(self, position: Position) -> None:
        self._table = _core.features([position])

    def __getitem__(self, column: str) -> int:
        return int(self._table[column][0])

    def __iter__(self) -> Iterator[str]:
        return iter(self._table.columns)

    def __len__(self) -> int:
        return len(self._table.columns)

    def __repr__(self) -> str:
        return f"<keysquare.FeatureRow of {len(self)} columns>"


class GamePosition:
    """A position of a game's main line."""

    def __init__(self, game: Game, ply: int, position: Position) -> None:
        self.game = game
        """The game that it comes from."""
        self.ply = ply
        """How many plies of the game were played before it."""
        self.position = position
        """The position."""

    @cached_property
    def columns(self) -> FeatureRow:
        """The numbers of `features` by name, worked out when they are asked for."""
        return FeatureRow(self.position)

    @property
    def step(self) -> GameStep:
        """The step of the game that led to it, the root when no move was played."""
        return self.game.at_ply(self.ply)

    @property
    def white(self) -> str:
        """The player of the white men, "?" when it is not said."""
        return self.game.tags.get("White", "?")

    @property
    def black(self) -> str:
        """The player of the black men, "?" when it is not said."""
        return self.game.tags.get("Black", "?")

    @property
    def moved(self) -> str:
        """The move that led to it, as people write it: "23...Rc4"; empty for the start position."""
        return self.step.numbered or ""

    @property
    def played(self) -> str:
        """The move that was played in it, "24.h5"; empty at the end of the game."""
        following = self.step.next
        return following.numbered or "" if following else ""

    @property
    def title(self) -> str:
        """Where it comes from, in one line: "Vastin, Joren – Pellerow, Ines, 2026.09.24, after 23...Rc4"."""
        return self.title_in(ENGLISH)

    def title_in(self, language: str) -> str:
        """The title in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        tags = self.game.tags
        date = tags.get("Date", "")
        parts = [players(tags)]
        if date.strip("?."):
            parts.append(date)
        moved = words.where_in_report[0].format(move=moves_in(language, self.moved))
        parts.append(moved if self.moved else words.start_position)
        return ", ".join(parts)

    def __getstate__(self) -> dict[str, object]:
        return {name: value for name, value in vars(self).items() if name != "columns"}


def ratings(game: Game) -> tuple[int | None, int | None]:
    """White's and Black's rating by the tags, None where there is none."""
    tags = game.tags
    return _rating(tags.get("WhiteElo", "")), _rating(tags.get("BlackElo", ""))


def _rating(text: str) -> int | None:
    return int(text) if text.isascii() and text.isdigit() and int(text) > 0 else None
