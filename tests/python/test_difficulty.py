"""Difficulty against a program of our own, written from the definitions on the rules library `chess`; what Python shows; and
how well the counts predict the ratings of open puzzles."""

import json
import pickle
import random
import sys
from collections.abc import Iterator
from pathlib import Path

import chess
import numpy as np
import pytest

import keysquare as ks
from truth.difficulty import Choice, counts_of_line
from truth.positions import mixed_positions, open_data

sys.path.insert(0, str(Path(__file__).parents[2] / "bench"))
import fit_difficulty  # noqa: E402  (the program whose figures the README quotes)

BACK_RANK = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1"
MATING = ["Rxd5", "Rxd5", "Re8#"]
IN_CHECK = "4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1"


def boards(count: int, seed: int) -> Iterator[chess.Board]:
    return (chess.Board(fen) for fen in mixed_positions(count, seed))


def position_of(board: chess.Board) -> ks.Position:
    return ks.Position(board.fen(en_passant="fen"))


def turn_of(board: chess.Board, side: chess.Color) -> chess.Board | None:
    if board.turn == side:
        return board
    if board.is_check():
        return None
    board = board.copy(stack=False)
    board.push(chess.Move.null())
    return board


def moves_of(line: list[ks.Move]) -> list[chess.Move]:
    return [chess.Move.from_uci(str(move)) for move in line]


def random_line(board: chess.Board, dice: random.Random) -> list[str]:
    board = board.copy(stack=False)
    line: list[str] = []
    for _ in range(dice.randint(1, 9)):
        moves = list(board.legal_moves)
        if not moves:
            break
        move = dice.choice(moves)
        line.append(dice.choice([move.uci(), board.san(move)]))
        board.push(move)
    return line


def assert_counts(difficulty: ks.Difficulty, expected: dict[str, int], board: chess.Board) -> None:
    wrong = {name: (difficulty.numbers[name], count) for name, count in expected.items()}
    wrong = {name: both for name, both in wrong.items() if both[0] != both[1]}
    assert not wrong, f"{board.fen()} {difficulty.line_san}: {wrong} (ours, expected)"


# --- the counts ----------------------------------------------------------------------------------------------------------


def test_every_count_of_a_given_line() -> None:
    dice = random.Random(3)
    seen = dict.fromkeys(ks.difficulty_numbers(), 0)
    for board in boards(500, seed=30):
        side = dice.choice(chess.COLORS)
        turn = turn_of(board, side)
        if turn is None:
            continue
        line = random_line(turn, dice)
        if not line:
            continue
        found = ks.difficulty(position_of(board), chess.COLOR_NAMES[side], line)
        assert found.source == "given" and found.after_pass == (board.turn != side) and found.known
        assert_counts(found, counts_of_line(turn, moves_of(found.line)), board)
        assert found.moves == len(found.steps) == found.numbers["moves"]
        for name, count in found.numbers.items():
            seen[name] += count != 0
    on_the_line = ("recaptures", "given_up", "backward", "long", "deficit", "king_moves", "tempting", "forcing_replies")
    assert all(seen[name] > 10 for name in on_the_line), seen


def test_every_count_of_a_line_that_is_found() -> None:
    sources = dict.fromkeys(["none", "wins", "holds"], 0)
    for board in boards(300, seed=40):
        position = position_of(board)
        for side in chess.COLORS:
            turn = turn_of(board, side)
            found = ks.difficulty(position, chess.COLOR_NAMES[side])
            assert found.known == (turn is not None)
            if turn is None:
                assert not any(count for name, count in found.numbers.items() if name != "men")
                continue
            sources[found.source] += 1
            assert_counts(found, counts_of_line(turn, moves_of(found.line)), board)
            threats = ks.threats(position, chess.COLOR_NAMES[side])
            assert (found.source == "wins") == bool(threats) == (found.winning > 0)
            assert len(threats) <= found.winning and bool(threats) <= found.winning_most <= found.winning
            if threats:
                strongest = threats[0]
                assert found.line == strongest.line[: len(found.line)]
                assert found.mate == strongest.mate
                assert found.mate or found.gain == strongest.gain
            elif found.source == "holds":
                assert found.checked or found.at_stake > 0 or found.mate_at_stake
    assert all(count > 10 for count in sources.values()), sources


def test_a_line_is_cut_where_the_gain_is_there_for_good() -> None:
    cut = 0
    for board in boards(300, seed=45):
        position = position_of(board)
        for threat in ks.threats(position, position.mover)[:1]:
            if threat.mate:
                continue
            found = ks.difficulty(position, position.mover)
            gains = [counts_of_line(board, moves_of(threat.line[:plies]))["gain"] for plies in range(len(threat.line) + 1)]
            length = next(at for at in range(1, len(gains)) if gains[at] == gains[-1] == min(gains[at:]))
            assert len(found.line) == length, board.fen()
            cut += length < len(threat.line)
    assert cut > 5


def test_the_choice_by_an_exhaustive_search() -> None:
    dice = random.Random(5)
    compared = 0
    for board in boards(120, seed=50):
        side = board.turn if dice.random() < 0.7 else not board.turn
        turn = turn_of(board, side)
        if turn is None or not any(turn.legal_moves):
            continue
        line = [dice.choice(list(turn.legal_moves)).uci()] if dice.random() < 0.5 else None
        found = ks.difficulty(position_of(board), chess.COLOR_NAMES[side], line)
        choice = Choice(turn)
        assert_counts(found, choice.counts(), board)
        if found.line:
            compared += 1
            assert_counts(found, choice.compared(moves_of(found.line)[0]), board)
        if found.source == "holds":
            value = choice.value(moves_of(found.line)[0])
            assert value == max(choice.value(move) for move in choice.moves)
    assert compared > 50


# --- what Python shows ---------------------------------------------------------------------------------------------------


def test_both_sides() -> None:
    position = ks.Position(BACK_RANK)
    both = ks.difficulty(position)
    assert list(both) == ["white", "black"] and len(both) == 2
    assert both["white"] == ks.difficulty(position, "white")
    assert both["black"].after_pass and both["black"].side == ks.BLACK
    assert str(both) == f"{both['white']} {both['black']}"
    assert repr(both) == f"<keysquare.Difficulties: {both}>"
    assert json.loads(json.dumps(both.as_dict()))["white"]["line"] == [str(move) for move in both["white"].line]
    with pytest.raises(ks.InputError):
        both["green"]


def test_a_solution_is_looked_at() -> None:
    position = ks.Position(BACK_RANK)
    found = ks.difficulty(position, line=MATING)
    assert (found.moves, found.mate, found.deficit, found.source) == (2, True, 2, "given")
    assert [step.san for step in found.steps] == ["Rxd5", "Re8#"]
    first, second = found.steps
    assert first.gives_up and first.is_long and not first.is_quiet and first.man == "rook"
    assert second.position.fen == position.after("Rxd5").after("Rxd5").fen
    assert found == ks.difficulty(position, "white", found.line)
    assert pickle.loads(pickle.dumps(found)) == found
    assert repr(found) == f"<keysquare.Difficulty: {found}>" and "{" not in str(found)
    data = json.loads(json.dumps(found.as_dict()))
    assert data["line_san"] == "1.Rxd5 Rxd5 2.Re8#" and data["numbers"]["legal"] == 23 == found.legal
    assert list(found.numbers) == list(ks.difficulty_numbers())
    for name, count in found.numbers.items():
        if hasattr(found, name):
            assert int(getattr(found, name)) == count


def test_paragraphs_of_many_positions_are_complete() -> None:
    for board in boards(200, seed=60):
        text = str(ks.difficulty(position_of(board)))
        assert text.endswith(".") and "{" not in text and "  " not in text and " ." not in text


@pytest.mark.parametrize(
    ("fen", "side", "line", "reason", "step"),
    [
        (BACK_RANK, "white", ["Rxd5", "Rxd4"], "no_such_piece", 2),
        (BACK_RANK, "white", ["d1d6"], "illegal_move", 1),
        (BACK_RANK, "white", ["Rxd5", "Rxd5", "Rx"], "not_a_move", 3),
        (IN_CHECK, "black", ["Rxe1"], "pass_in_check", 1),
        ("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1", "white", ["Kf1", "Kf8", "Ke1", "Ke8"] * 8 + ["Kf1"], "line_too_long", 33),
    ],
)
def test_what_is_no_line_is_refused(fen: str, side: str, line: list[str], reason: str, step: int) -> None:
    with pytest.raises(ks.InputError) as caught:
        ks.difficulty(ks.Position(fen), side, line)
    assert (caught.value.reason, caught.value.step, caught.value.field) == (reason, step, "step")


def test_what_has_the_wrong_type_is_refused() -> None:
    position = ks.Position()
    for line in ("e4", 3, [3], [None], [b"e4"]):
        with pytest.raises(TypeError):
            ks.difficulty(position, line=line)  # type: ignore[call-overload]
    with pytest.raises(ks.InputError):
        ks.difficulty(position, "green")
    with pytest.raises(ValueError, match="least_gain"):
        ks.difficulty(position, least_gain=0)


# --- what the counts are worth -------------------------------------------------------------------------------------------


def test_ranks_and_their_correlation() -> None:
    assert list(fit_difficulty.ranks(np.array([30.0, 10.0, 20.0, 20.0]))) == [4.0, 1.0, 2.5, 2.5]
    rising = np.array([1.0, 2.0, 3.0, 4.0])
    assert fit_difficulty.spearman(rising, rising**3) == pytest.approx(1.0)
    assert fit_difficulty.spearman(rising, -rising) == pytest.approx(-1.0)
    assert fit_difficulty.spearman(rising, np.array([1.0, 3.0, 2.0, 4.0])) == pytest.approx(0.8)  # 1 - 6 * 2 / 60


@pytest.mark.parametrize("given", [True, False])
def test_the_counts_predict_the_ratings_of_puzzles_that_were_not_fitted(given: bool) -> None:
    folder = open_data()
    if folder is None or not (folder / "open-puzzles.csv").exists():
        pytest.skip("no open-puzzles.csv; set KEYSQUARE_OPEN_DATA to the folder of the open data")
    puzzles = fit_difficulty.read_puzzles(folder / "open-puzzles.csv")
    ratings = np.array([puzzle.rating for puzzle in puzzles], dtype=np.float64)
    rows = fit_difficulty.counts(puzzles, given=given)
    accuracy = fit_difficulty.cross_validate(rows, ratings)
    assert accuracy.pooled >= fit_difficulty.BAR and np.mean(accuracy.folds) >= fit_difficulty.BAR
    # Ratings that have nothing to do with the puzzles can't be predicted: nothing leaks into the folds.
    shuffled = np.random.default_rng(4).permutation(ratings)
    assert abs(fit_difficulty.cross_validate(rows, shuffled).pooled) < 0.1
