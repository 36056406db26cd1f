"""Positions, moves and the small values: what they say, how they compare, and how bad input is answered."""

import copy
import pickle
import threading
import time
from typing import Any

import pytest

import keysquare as ks

OPENING = "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2"
CASTLING = "r3k2r/8/8/8/8/8/8/R3K2R b KQq - 3 20"


# --- squares, sides, pieces ---


def test_a_square_is_a_text_that_knows_its_place() -> None:
    square = ks.Square("e4")
    assert square == "e4" and "e4" == square and square != "e5"
    assert {square: 1}["e4"] == 1 and hash(square) == hash("e4")
    assert (square.file, square.rank, square.is_light) == ("e", "4", True)
    assert not ks.Square("a1").is_light
    assert type(pickle.loads(pickle.dumps(square))) is ks.Square


def test_light_squares_are_half_of_the_board() -> None:
    squares = [ks.Square(file + rank) for file in "abcdefgh" for rank in "12345678"]
    assert sum(square.is_light for square in squares) == 32
    assert ks.Square("h1").is_light


def test_a_side_is_a_text() -> None:
    assert ks.WHITE == "white" and ks.BLACK == ks.Side("black")
    assert ks.WHITE.other == ks.BLACK and ks.BLACK.other == ks.WHITE
    assert type(pickle.loads(pickle.dumps(ks.BLACK))) is ks.Side


def test_a_piece_is_a_text() -> None:
    piece = ks.Position().piece_at("b8")
    assert piece == "black knight" and isinstance(piece, ks.Piece)
    assert (piece.side, piece.kind, piece.letter) == ("black", "knight", "n")
    assert ks.Piece("white king").letter == "K"
    assert type(pickle.loads(pickle.dumps(piece))) is ks.Piece


@pytest.mark.parametrize("text", ["", "e", "e9", "i4", "E4", "e44", "ab", "\ud800x"[:1] + "4"])
def test_what_is_no_square_is_refused(text: str) -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.Square(text)
    assert caught.value.reason == "not_a_square"


def test_both_ways_to_a_bad_square_or_side_say_the_same() -> None:
    for by_name, by_use in (
        (lambda: ks.Square("z9"), lambda: ks.Position().piece_at("z9")),
        (lambda: ks.Side("red"), lambda: ks.Position().pinned_men("red")),
        (lambda: ks.Square(""), lambda: ks.Position().piece_at("")),
    ):
        with pytest.raises(ks.InputError) as one:
            by_name()
        with pytest.raises(ks.InputError) as other:
            by_use()
        assert one.value.args == other.value.args
        assert str(one.value).startswith("not the name of a s")


@pytest.mark.parametrize("thing", [None, 4, b"e4", ["e4"], 4.0])
def test_what_is_no_text_is_a_type_error(thing: Any) -> None:
    position = ks.Position()
    for call in (ks.Square, ks.Side, ks.Piece, ks.Position, position.piece_at, position.move, position.after):
        with pytest.raises(TypeError):
            call(thing)


def test_a_piece_of_another_name_is_refused() -> None:
    for text in ("", "white", "white dragon", "red king", "white  king", "white king "):
        with pytest.raises(ValueError):
            ks.Piece(text)


# --- positions ---


def test_a_position_says_what_stands_in_its_fen() -> None:
    position = ks.Position(OPENING)
    assert position.fen == str(position) == OPENING
    assert (position.mover, position.waiter) == (ks.WHITE, ks.BLACK)
    assert isinstance(position.mover, ks.Side)
    assert position.en_passant == "c6"
    assert (position.halfmove_clock, position.move_number) == (0, 2)
    assert position.piece_at("c5") == "black pawn" and position.piece_at("e5") is None
    assert len(position.pieces) == 32 and position.pieces["e1"] == "white king"
    assert not (position.in_check or position.is_mated or position.is_stalemated)
    assert eval(repr(position), {"keysquare": ks}) == position


def test_the_start_position_is_the_usual_one() -> None:
    assert ks.Position() == ks.Position.start()
    assert ks.Position().fen == "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1"
    assert ks.Position().en_passant is None


def test_castling_rights_are_the_rooks_that_have_them() -> None:
    position = ks.Position(CASTLING)
    assert position.castling_rooks("white") == ["a1", "h1"]
    assert position.castling_rooks(ks.BLACK) == ["a8"]
    assert position.after("Kf8").castling_rooks("black") == []


def test_checks_pins_and_attackers() -> None:
    position = ks.Position("4r2k/8/8/8/1b6/2N5/4Q3/4K3 w - - 0 1")
    assert position.pinned_men("white") == ["e2", "c3"]
    assert position.attackers_of("c3", "black") == ["b4"]
    assert position.attackers_of("e4", "white") == ["e2", "c3"]
    assert not position.in_check
    checked = position.passed()
    assert checked is not None and checked.after("Rxe2+").in_check
    assert checked.after("Rxe2+").checkers == ["e2"]


def test_mate_and_stalemate() -> None:
    mate = ks.Position("R5k1/5ppp/8/8/8/8/8/6K1 b - - 0 1")
    assert mate.is_mated and not mate.is_stalemated and mate.moves() == []
    stalemate = ks.Position("k7/2Q5/1K6/8/8/8/8/8 b - - 0 1")
    assert stalemate.is_stalemated and not stalemate.is_mated and stalemate.moves() == []


def test_positions_compare_hash_and_pickle_by_content() -> None:
    position = ks.Position(OPENING)
    same = ks.Position(OPENING)
    later = ks.Position(OPENING.replace("0 2", "7 9"))
    assert position == same and hash(position) == hash(same) and len({position, same}) == 1
    assert position != later and position.key == later.key
    assert position != OPENING
    assert pickle.loads(pickle.dumps(position)) == position
    assert copy.deepcopy(position) == position


def test_positions_of_a_long_line_survive_pickling() -> None:
    position, number = ks.Position("bqnbrkrn/pppppppp/8/8/8/8/PPPPPPPP/BQNBRKRN w GEge - 0 1"), 0
    while (moves := position.moves()) and number < 200:
        restored = pickle.loads(pickle.dumps(position))
        assert restored == position and restored.key == position.key
        position, number = position.after(moves[(number * 7919) % len(moves)]), number + 1
    assert number > 20


def test_passing_is_not_possible_in_check() -> None:
    position = ks.Position(OPENING)
    passed = position.passed()
    assert passed is not None and passed.mover == "black" and passed.en_passant is None
    assert position.mover == "white"
    assert ks.Position("4k3/8/8/8/8/8/4r3/4K3 w - - 0 1").passed() is None


def test_a_man_can_be_thought_away_but_no_king() -> None:
    position = ks.Position("4r2k/8/8/8/8/8/4Q3/4K3 b - - 0 1")
    assert position.without("e8").piece_at("e8") is None
    assert position.without("a5") == position
    with pytest.raises(ks.InputError, match="king") as caught:
        position.without("e1")
    assert caught.value.reason == "no_king" and caught.value.token == "e1"
    with pytest.raises(ks.InputError) as caught:
        position.without("e2")
    assert caught.value.reason == "waiter_in_check"


@pytest.mark.parametrize(
    ("fen", "reason", "field", "column"),
    [
        ("", "missing_field", "placement", 1),
        ("8/8/8/8/8/8/8/8 w - - 0 1", "no_king", "placement", None),
        ("rnbqkbnr/ppppxppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "bad_piece_letter", "placement", 14),
        ("rnbqkbnr/pppppppp/9/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "bad_piece_letter", "placement", 19),
        ("4k3/8/8/8/8/8/8/4K3 x - - 0 1", "bad_mover", "mover", 21),
        ("4k3/8/8/8/8/8/8/4K3 w Z - 0 1", "bad_castling", "castling", 23),
        ("4k3/8/8/8/8/8/8/4K3 w - e9 0 1", "bad_en_passant", "en_passant", 25),
        ("4k3/8/8/8/8/8/8/4K3 w - - x 1", "bad_number", "halfmove_clock", 27),
        ("4k3/8/8/8/8/8/4R3/4K3 w - - 0 1", "waiter_in_check", "placement", None),
    ],
)
def test_a_bad_fen_is_answered_with_reason_and_place(fen: str, reason: str, field: str, column: int | None) -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.Position(fen)
    error = caught.value
    assert isinstance(error, ValueError)
    assert error.reason == reason
    if column is not None:
        assert (error.field, error.line, error.column) == (field, 1, column)
    assert str(error) == error.message and reason not in str(error)


def test_errors_pickle() -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.Position("4k3/8/8/8/8/8/8/4K3 x - - 0 1")
    error = caught.value
    restored = pickle.loads(pickle.dumps(error))
    assert restored.args == error.args and str(restored) == str(error)
    assert (restored.reason, restored.field, restored.column) == ("bad_mover", "mover", 21)
    assert restored.token == "x"


def test_lenient_reading_takes_composed_positions_but_never_without_kings() -> None:
    crowded = "QQQQQQQ1/8/8/8/8/8/PPPPPPPP/4K2k w - - 0 1"
    with pytest.raises(ks.InputError) as caught:
        ks.Position(crowded)
    assert caught.value.reason == "too_many_promoted"
    position = ks.Position(crowded, lenient=True)
    assert pickle.loads(pickle.dumps(position)) == position
    with pytest.raises(ks.InputError):
        ks.Position("8/8/8/8/8/8/8/4K3 w - - 0 1", lenient=True)


# --- moves ---


def test_moves_are_read_in_either_notation() -> None:
    position = ks.Position()
    move = position.move("Nf3")
    assert str(move) == "g1f3" and move == position.move("g1f3") and move in position.moves()
    assert (move.origin, move.target, move.promotion, move.castles, move.is_null) == ("g1", "f3", None, False, False)
    assert move.san(position) == "Nf3"
    assert position.after("Nf3") == position.after("g1f3") == position.after(move)
    assert position.fen == ks.Position().fen


def test_promotion_and_castling() -> None:
    position = ks.Position("4k3/P7/8/8/8/8/8/R3K2R w KQ - 0 1")
    promotion = position.move("a7a8n")
    assert promotion.promotion == "knight" and promotion.san(position) == "a8=N"
    castling = position.move("O-O")
    assert castling.castles and str(castling) == "e1g1" and castling.target == "g1"


def test_moves_compare_hash_and_pickle() -> None:
    moves = ks.Position().moves()
    assert len(moves) == len(set(moves)) == 20
    assert [pickle.loads(pickle.dumps(move)) for move in moves] == moves
    assert moves[0] != str(moves[0])
    with pytest.raises(TypeError):
        ks.Move()


@pytest.mark.parametrize(
    ("fen", "move", "reason"),
    [
        (OPENING, "hello", "not_a_move"),
        (OPENING, "Nd4", "no_such_piece"),
        (OPENING, "e2e4", "no_such_piece"),
        (OPENING, "O-O", "illegal_move"),
        ("4k3/P7/8/8/8/8/8/4K3 w - - 0 1", "a8", "missing_promotion"),
        ("4k3/8/8/8/8/8/8/R3K2R w - - 0 1", "R1", "not_a_move"),
        ("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", "Nd2", "ambiguous_move"),
        ("4r2k/8/8/8/8/8/4B3/4K3 w - - 0 1", "Bd3", "king_left_in_check"),
    ],
)
def test_a_refused_move_says_why(fen: str, move: str, reason: str) -> None:
    position = ks.Position(fen)
    for call in (position.after, position.move):
        with pytest.raises(ks.InputError) as caught:
            call(move)
        assert caught.value.reason == reason


def test_a_move_of_another_position_is_refused() -> None:
    move = ks.Position().move("e4")
    later = ks.Position().after("e4")
    for call in (later.after, lambda one: one.san(later)):
        with pytest.raises(ks.InputError) as caught:
            call(move)
        assert caught.value.reason == "illegal_move" and caught.value.token == "e2e4"


# --- calculations ---


def test_perft() -> None:
    assert [ks.perft(ks.Position(), depth) for depth in range(5)] == [1, 20, 400, 8902, 197281]
    with pytest.raises(ValueError, match="depth"):
        ks.perft(ks.Position(), -1)


def test_exchange_counts_every_capture() -> None:
    position = ks.Position("4k3/8/2n5/4p3/8/3N4/8/4K3 w - - 0 1")
    outcome = ks.exchange(position, "e5")
    assert outcome == ks.Outcome(gain=0, mate=False, mated=False, complete=True, line=[])
    free = ks.exchange(position.without("c6"), "e5")
    assert free.gain == 1 and [str(move) for move in free.line] == ["d3e5"]
    assert ks.exchange(position, "e5", values={"pawn": 4}).gain == 1
    assert pickle.loads(pickle.dumps(free)) == free


def test_resolve_finds_a_forced_mate_and_says_when_it_gave_up() -> None:
    position = ks.Position("6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1")
    outcome = ks.resolve(position)
    assert outcome.mate and outcome.complete and outcome.line == [position.move("Ra8#")]
    assert not ks.resolve(position, check_plies=0).mate
    assert not ks.resolve(position, nodes=1).complete


@pytest.mark.parametrize(
    "arguments",
    [{"plies": -1}, {"plies": 32}, {"check_plies": -1}, {"nodes": 0}, {"values": {"king": 4}}, {"values": {"pawn": -1}}],
)
def test_parameters_outside_their_range_are_value_errors(arguments: dict[str, Any]) -> None:
    with pytest.raises(ValueError) as caught:
        ks.resolve(ks.Position(), **arguments)
    assert not isinstance(caught.value, ks.InputError)


def test_long_calculations_let_other_threads_run() -> None:
    worker = threading.Thread(target=ks.perft, args=(ks.Position(), 6))
    worker.start()
    turns = 0
    while worker.is_alive():
        time.sleep(0.001)
        turns += 1
    assert turns > 20
