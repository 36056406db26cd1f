"""Every counted fact about every move, with the squares that people are told about, against a program of our own that is written from the definitions."""

from collections.abc import Iterator

import chess
import pytest

import keysquare as ks
from truth.move_facts import MoveFactsOf
from truth.positions import from_game, from_random_play, from_random_setup, game_texts, open_data
from truth.thinking_candidates import SEARCHED

INVENTED = [
    "r3k2r/pppq1ppp/2np1n2/2b1p1B1/2B1P1b1/2NP1N2/PPPQ1PPP/R3K2R w KQkq - 0 8",  # castling on both wings
    "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2",  # en passant
    "1n5k/P7/8/1p6/8/p7/8/K7 w - - 0 1",  # promotions, with a check and with an attack on pawns
]


def games() -> Iterator[str]:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    for seed, text in enumerate(game_texts(folder / "pgn" / "masters.pgn", 150)):
        yield from from_game(text, 1, seed)


def check(fens: list[str], *, chess960: bool = False) -> None:
    seen: set[str] = set()
    wrong = []
    for fen in fens:
        board = chess.Board(fen, chess960=chess960)
        truth = MoveFactsOf(board)
        for one in ks.move_facts(ks.Position(fen)):
            said = {reason.fact: reason.amount for reason in one.facts if reason.fact not in SEARCHED}
            amounts, squares = truth.counted(board.parse_uci(str(one.move)))
            seen |= amounts.keys()
            shown = {reason.fact: {chess.parse_square(square) for square in reason.squares} for reason in one.facts}
            wrong += [
                f"{fact} shows {sorted(shown[fact])}: {one.move} in {fen}"
                for fact in amounts.keys() & squares.keys() & shown.keys()
                if shown[fact] != squares[fact]
            ]
            wrong += [
                f"{fact} is {said.get(fact, 0)}, not {amounts.get(fact, 0)}: {one.move} in {fen}"
                for fact in sorted(said.keys() | amounts.keys())
                if said.get(fact, 0) != amounts.get(fact, 0)
            ]
    assert not wrong, f"{len(wrong)} amounts or squares are wrong:\n" + "\n".join(wrong[:20])
    if len(fens) >= 100:
        assert seen == ks.fact_definitions().keys() - set(SEARCHED)


def test_invented_positions() -> None:
    check(INVENTED)


def test_positions_from_games() -> None:
    check(list(games()))


def test_random_play_and_setups() -> None:
    check([*from_random_play(60, seed=301), *from_random_setup(60, seed=302)])


def test_chess960() -> None:
    check(list(from_random_play(40, seed=303, chess960=True, longest=40)), chess960=True)
