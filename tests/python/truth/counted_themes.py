"""How themes are checked that count, and claim nothing about moves: everything that the position demands is worked out.

A theme module writes, for each of its themes, a method `_every_<theme>` that yields all findings of the theme which the
position demands. A claim is true when it is one of them, and a demanded one that is not claimed is an omission.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

import chess

from .claim import BLACK, WHITE, Claim
from .foundation import MOST_PIECES, Foundation, require

NAMES = {chess.WHITE: WHITE, chess.BLACK: BLACK}


def texts(squares: Iterable[chess.Square]) -> str:
    return " ".join(map(chess.square_name, sorted(squares)))


class CountedThemes(Foundation):
    def __init__(self, *args, **options) -> None:
        super().__init__(*args, **options)
        self._every: dict[str, list[Claim]] = {}

    @classmethod
    @cache
    def counted_themes(cls) -> frozenset[str]:
        """The themes of which the verifier knows all findings that a position demands."""
        return frozenset(name.removeprefix("_every_") for name in dir(cls) if name.startswith("_every_"))

    def every(self, theme: str) -> list[Claim]:
        """All findings of a counted theme that the position demands."""
        if theme not in self._every:
            self._every[theme] = list(getattr(self, f"_every_{theme}")())
        return self._every[theme]

    def told(
        self,
        theme: str,
        side: chess.Color,
        detail: str = "none",
        *,
        on: Iterable[chess.Square] = (),
        men: Iterable[Iterable[chess.Square]] = (),
        **numbers: int,
    ) -> Claim:
        """A finding. `on` are its squares, and `men` are groups, named in this order and each group from a1 to h8, as many as fit."""
        in_order = [man for group in men for man in sorted(group)]
        pieces = [(chess.square_name(man), self.board.piece_at(man).symbol()) for man in in_order]
        return Claim(
            theme,
            NAMES[side],
            detail,
            squares=tuple(map(chess.square_name, sorted(on))),
            pieces=tuple(pieces[:MOST_PIECES]),
            numbers=numbers,
        )

    def check_counted(self, claim: Claim) -> None:
        """The claim is one of those that the position demands."""
        every = self.every(claim.theme)
        if claim not in every:
            require(every, f"the position shows no {claim.theme}")
            require(False, f"what the position shows: {'; '.join(map(str, every))}")

    def omissions(self, claims: Iterable[Claim]) -> list[str]:
        """What the position demands and the claims leave out, and what they say more than once."""
        return self.counted_omissions(claims)

    def counted_omissions(self, claims: Iterable[Claim]) -> list[str]:
        """The same for the counted themes alone."""
        said: dict[str, list[Claim]] = {}
        for claim in claims:
            said.setdefault(claim.theme, []).append(claim)
        return [
            text
            for theme in sorted(self.counted_themes())
            for text in self._differences(said.get(theme, []), self.every(theme))
        ]

    @staticmethod
    def _differences(said: list[Claim], every: list[Claim]) -> Iterator[str]:
        yield from (f"left out: {claim}" for claim in every if claim not in said)
        yield from (f"said twice: {claim}" for at, claim in enumerate(said) if claim in said[:at])
