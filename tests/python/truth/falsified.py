"""Makes true claims false: one thing is changed at a time."""

from __future__ import annotations

from collections.abc import Iterator

from .claim import BLACK, WHITE, Claim


def claim(theme: str, side: str, squares: str = "", pieces: str = "", line: str = "", **more: object) -> Claim:
    """A claim from short texts: squares "d5 e8", pieces "rd8 bd5", a line "d1d5"."""
    named = tuple((text[1:], text[0]) for text in pieces.split())
    return Claim(theme, side, squares=tuple(squares.split()), pieces=named, line=tuple(line.split()), **more)


SISTERS = {
    **{"guard_pinned": "outnumbered", "in_play": "at_home", "guards_man": "blocks_line", "stops_mate": "stops_promotion"},
    **{"locked": "pressured", "can_take_half_open_file": "on_open_file", "light": "dark", "dark": "light"},
    **{"the_exchange": "piece_up", "enough_compensation": "some_compensation"},
    **{"held_by_piece": "within_reach", "within_reach": "held_by_piece"},
    **{"guarded_by_pawn": "connected", "connected": "outside", "outside": "none"},
    **{"attacked_already": "attackable", "attackable": "attacked_already"},
    **{"fixed_by_pawn": "blocked_by_piece", "blocked_by_piece": "fixed_by_pawn"},
    **{"queenside": "kingside", "kingside": "queenside", "may_castle": "may_not_castle", "may_not_castle": "may_castle"},
    **{"on_open_file": "on_half_open_file", "on_half_open_file": "on_open_file", "on_diagonal": "on_open_file"},
    **{"no_luft": "none", "none": "no_luft"},
}
"""Another detail of the same theme, for details of the true claims."""


def falsified(claim: Claim) -> Iterator[tuple[str, Claim]]:
    """What is true, with one thing about it changed."""
    yield "side", claim.with_changes(side=BLACK if claim.side == WHITE else WHITE)
    yield "more squares", claim.with_changes(squares=("a1", *(s for s in claim.squares if s != "a1"), "h7"))
    if claim.squares:
        yield "fewer squares", claim.with_changes(squares=claim.squares[1:])
    if claim.pieces:
        (square, letter), *others = claim.pieces
        yield "letter", claim.with_changes(pieces=((square, "k" if letter != "k" else "q"), *others))
        yield "no piece there", claim.with_changes(pieces=(("a5" if square != "a5" else "h4", letter), *others))
        yield "fewer pieces", claim.with_changes(pieces=tuple(others))
    for name, value in claim.numbers.items():
        yield name, claim.with_changes(numbers={**claim.numbers, name: value + 1})
        yield f"no {name}", claim.with_changes(numbers={k: v for k, v in claim.numbers.items() if k != name})
    if claim.detail in SISTERS:
        yield "detail", claim.with_changes(detail=SISTERS[claim.detail])
    if claim.detail != "none":
        yield "no detail", claim.with_changes(detail="none")
    yield "theme", claim.with_changes(theme="zugzwang")
    if claim.line:
        yield "gain", claim.with_changes(gain=claim.gain + 1)
        yield "less gain", claim.with_changes(gain=claim.gain - 1)
        yield "pass", claim.with_changes(after_pass=not claim.after_pass)
        yield "mate", claim.with_changes(mate=not claim.mate)
        yield "mated", claim.with_changes(mated=not claim.mated)
        yield "illegal move", claim.with_changes(line=("a1h8", *claim.line[1:]))
        yield "illegal end", claim.with_changes(line=(*claim.line, "a1h8"))
        yield "illegal point", claim.with_changes(point=("a1h8",))
        yield "no line", claim.with_changes(line=())
        yield "no men there", claim.with_changes(removed="a5")
        yield "a king removed", claim.with_changes(removed="g8")
    else:
        yield "gain", claim.with_changes(gain=1)
        yield "mate", claim.with_changes(mate=True)
    if claim.removed:
        yield "nothing removed", claim.with_changes(removed=None)
    elif not claim.line:
        yield "a counterfactual without a line", claim.with_changes(removed=claim.pieces[0][0] if claim.pieces else "a7")
    if claim.point:
        yield "no point", claim.with_changes(point=())
        yield "shorter point", claim.with_changes(point=claim.point[:2])
