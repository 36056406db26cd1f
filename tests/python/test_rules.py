"""The rules against an oracle: a general-purpose rules library, on 20,000 positions from random play and from games."""

import random
from collections.abc import Callable, Iterator

import chess
import keysquare as ks
import pytest

from truth.positions import COLLECTIONS, from_game, from_random_play, game_texts, open_data


def standard() -> Iterator[str]:
    return from_random_play(7000, seed=1)


def chess960() -> Iterator[str]:
    return from_random_play(5000, seed=2, chess960=True)


def openings960() -> Iterator[str]:
    """Short games, where castling is still to come."""
    return from_random_play(2000, seed=3, chess960=True, longest=20)


def games() -> Iterator[str]:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    for name in COLLECTIONS:
        for seed, text in enumerate(game_texts(folder / "pgn" / name, 250)):
            yield from from_game(text, 8, seed)


SOURCES = [standard, chess960, openings960, games]


def coordinate(board: chess.Board, move: chess.Move) -> str:
    """The move as we write it: castling is the king's step, but king and rook square where king or rook did not start
    on their usual files."""
    if not board.is_castling(move):
        return move.uci()
    rank = chess.square_rank(move.from_square)
    short = chess.square_file(move.to_square) > chess.square_file(move.from_square)
    rooks = chess.SquareSet(board.castling_rights & chess.BB_RANKS[rank])
    rook = max(rooks) if short else min(rooks)
    if chess.square_file(move.from_square) == 4 and chess.square_file(rook) in (0, 7):
        return chess.Move(move.from_square, chess.square(6 if short else 2, rank)).uci()
    return chess.Move(move.from_square, rook).uci()


def named(squares: chess.SquareSet) -> set[str]:
    return {chess.square_name(square) for square in squares}


def check_position(fen: str, is_chess960: bool) -> None:
    board = chess.Board(fen, chess960=is_chess960)
    position = ks.Position(fen)
    assert position.fen == fen
    assert position.mover == ("white" if board.turn else "black")
    assert position.in_check == board.is_check()
    assert set(position.checkers) == named(board.checkers())
    assert position.is_mated == board.is_checkmate()
    assert position.is_stalemated == board.is_stalemate()
    passed = position.passed()
    assert (passed is None) == board.is_check()
    for side, color in (("white", chess.WHITE), ("black", chess.BLACK)):
        pinned = {square for square in chess.SquareSet(board.occupied_co[color]) if board.is_pinned(color, square)}
        assert set(position.pinned_men(side)) == named(chess.SquareSet(pinned))
        for square in chess.SQUARES:
            attackers = position.attackers_of(chess.square_name(square), side)
            assert set(attackers) == named(board.attackers(color, square))
    legal = {coordinate(board, move): move for move in board.legal_moves}
    moves = {str(move): move for move in position.moves()}
    assert sorted(moves) == sorted(legal)
    assert len(position.moves()) == len(moves)
    for text, oracle in legal.items():
        san = board.san(oracle)
        assert moves[text].san(position) == san
        assert position.move(san) == moves[text] == position.move(text)
    if not legal:
        return
    # One move a position is played: each of them is checked by what the next positions of the sources look like.
    text = random.Random(fen).choice(sorted(legal))
    san = board.san(legal[text])
    board.push(legal[text])
    assert position.after(san).fen == position.after(text).fen == board.fen(en_passant="fen")


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.__name__)
def test_rules_agree_with_the_oracle(source: Callable[[], Iterator[str]]) -> None:
    count = 0
    for fen in source():
        count += 1
        try:
            check_position(fen, source is not standard and source is not games)
        except Exception as error:
            error.add_note(fen)
            raise
    assert count >= {"standard": 7000, "chess960": 5000, "openings960": 2000}.get(source.__name__, 4000)


def perft(board: chess.Board, depth: int) -> int:
    if depth == 1:
        return board.legal_moves.count()
    total = 0
    for move in board.legal_moves:
        board.push(move)
        total += perft(board, depth - 1)
        board.pop()
    return total


@pytest.mark.parametrize("is_chess960", [False, True])
def test_perft_agrees_with_the_oracle(is_chess960: bool) -> None:
    for fen in from_random_play(100, seed=4, chess960=is_chess960):
        assert ks.perft(ks.Position(fen), 2) == perft(chess.Board(fen, chess960=is_chess960), 2), fen


def test_moves_that_the_oracle_refuses_are_refused() -> None:
    """Every pair of squares that is no legal move."""
    for fen in from_random_play(25, seed=5):
        board = chess.Board(fen)
        position = ks.Position(fen)
        legal = {move.uci() for move in board.legal_moves}
        for origin in chess.SQUARE_NAMES:
            for target in chess.SQUARE_NAMES:
                text = origin + target
                # A castling may be written as king and rook square too, and a promotion needs its letter.
                if text in legal or text + "q" in legal:
                    continue
                if {coordinate(board, m) for m in board.legal_moves if board.is_castling(m)} and origin in ("e1", "e8"):
                    continue
                with pytest.raises(ks.InputError) as caught:
                    position.move(text)
                assert caught.value.reason in {"illegal_move", "no_such_piece", "king_left_in_check"}, text
