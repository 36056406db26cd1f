"""Symmetry: the same position seen in a mirror gives the same findings, mirrored."""

from collections import Counter
from collections.abc import Callable, Iterator

import chess
import pytest

from truth.adapter import claims_about
from truth.claim import BLACK, WHITE, Claim
from truth.foundation import MOST_PIECES
from truth.positions import COLLECTIONS, from_game, from_random_play, game_texts, open_data

Mirror = Callable[[str], str]


def across(square: str) -> str:
    """The a-file becomes the h-file."""
    return chess.square_name(chess.parse_square(square) ^ 7)


def along(square: str) -> str:
    """The first rank becomes the eighth."""
    return chess.square_name(chess.square_mirror(chess.parse_square(square)))


def left_and_right(fen: str) -> tuple[str, str]:
    """The position and its mirror image, both without castling rights (they have no mirror image)."""
    board = chess.Board(fen)
    board.castling_rights = chess.BB_EMPTY
    image = board.transform(chess.flip_horizontal)
    image.ep_square = None if board.ep_square is None else board.ep_square ^ 7
    return board.fen(en_passant="fen"), image.fen(en_passant="fen")


def colours_flipped(fen: str) -> tuple[str, str]:
    board = chess.Board(fen)
    return fen, board.mirror().fen(en_passant="fen")


OTHER_COLOUR = {"light": "dark", "dark": "light"}
"""A mirror turns light squares into dark ones."""
OTHER_WING = {"queenside": "kingside", "kingside": "queenside"}
"""The mirror that swaps left and right swaps the wings too."""


CHOSEN = {
    "fork": {"detail": "none", "pieces": (), "squares": (), "numbers": {}},
    "double_attack": {"pieces": (), "squares": ()},
    "skewer": {"pieces": (), "squares": ()},
    "trapped_piece": {"squares": (), "numbers": {}},
    "discovered_attack": {"detail": "none"},
    "back_rank": {"after_pass": False, "mate": False, "gain": 0},
}
"""What hangs on the move that is shown, of several that win the same: whom it attacks, how it starts and where it goes.
The mate of `back_rank` is that of one line."""


READ_OFF_THE_LINE = {"promotion_threat", "intermediate_move", "removable_guard"}
"""Not compared: claimed only where the line that is shown, one of equals, has the promotion, the capture or the failed
duty in it."""


def without_the_choice(claim: Claim) -> Claim:
    """The claim without what depends on which of equal moves is shown."""
    if claim.theme in ("hanging", "poisoned", "trapped_piece"):
        claim = claim.with_changes(pieces=claim.pieces[:1])  # the man alone, without its taker
    if claim.detail in ("absolute_next", "relative_next"):
        return claim.with_changes(detail="none", pieces=(), squares=())  # one of several pins that can be made
    return claim.with_changes(**CHOSEN.get(claim.theme, {}))


def essence(claim: Claim, mirror: Mirror | None = None, flip: bool = False) -> tuple:
    """What must be the same on both sides of the mirror. Of equally good lines the first is taken, and which one is the
    first depends on the order of squares: so lines, the taker, and the material on the way to a mate are left out."""
    claim = without_the_choice(claim)
    pieces = claim.pieces
    if len(pieces) == MOST_PIECES:
        pieces = ()  # there may be more of them, and the first in square order are named
    side = {WHITE: BLACK, BLACK: WHITE}[claim.side] if flip else claim.side
    renamed = (OTHER_COLOUR if mirror else {}) | (OTHER_WING if mirror is across else {})
    detail = renamed.get(claim.detail, claim.detail)
    mirror = mirror or str
    return (
        *(claim.theme, detail, side, claim.after_pass, claim.mate, claim.mated),
        None if claim.mate or claim.mated else claim.gain,
        mirror(claim.removed) if claim.removed else None,
        frozenset(map(mirror, claim.squares)),
        frozenset((mirror(square), letter.swapcase() if flip else letter) for square, letter in pieces),
        frozenset(claim.numbers.items()),
    )


def positions() -> Iterator[str]:
    yield from from_random_play(300, seed=11)
    folder = open_data()
    if folder is not None:  # random play alone shows every theme that can be mirrored wrongly, games show more of them
        for name in COLLECTIONS:
            for seed, text in enumerate(game_texts(folder / "pgn" / name, 100)):
                yield from from_game(text, 2, seed)


@pytest.mark.parametrize(
    ("images", "mirror", "flip"), [(left_and_right, across, False), (colours_flipped, along, True)]
)
def test_the_mirrored_position_has_the_mirrored_findings(
    images: Callable[[str], tuple[str, str]], mirror: Mirror, flip: bool
) -> None:
    wrong = []
    seen: Counter[str] = Counter()
    for fen in positions():
        original, image = images(fen)
        claims = claims_about(original)
        seen.update(claim.theme for claim in claims)
        here = Counter(essence(claim, mirror, flip) for claim in claims if claim.theme not in READ_OFF_THE_LINE)
        there = Counter(essence(claim) for claim in claims_about(image) if claim.theme not in READ_OFF_THE_LINE)
        if here != there:
            wrong.append(f"{original}\n  only here {list((here - there))}\n  only there {list((there - here))}")
    assert not wrong, f"{len(wrong)} positions:\n" + "\n".join(wrong[:10])
    assert len(seen) >= 15, seen
