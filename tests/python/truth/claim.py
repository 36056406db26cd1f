"""A finding as plain data: what the library said, without the library."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

WHITE, BLACK = "white", "black"


@dataclass(frozen=True)
class Claim:
    """One finding. Squares are text ("e4"), moves are coordinate text ("e2e4"), men are FEN letters."""

    theme: str
    side: str
    detail: str = "none"
    after_pass: bool = False
    mate: bool = False
    mated: bool = False
    removed: str | None = None
    gain: int = 0
    squares: tuple[str, ...] = ()
    pieces: tuple[tuple[str, str], ...] = ()
    line: tuple[str, ...] = ()
    point: tuple[str, ...] = ()
    numbers: dict[str, int] = field(default_factory=dict)

    def with_changes(self, **changes) -> Claim:
        return replace(self, **changes)
