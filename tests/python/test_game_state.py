"""What the Laws of Chess say along a game, held against the rules library (PyPI `chess`) at every ply of open games."""

import os
import pickle
import random
from collections import Counter
from pathlib import Path

import chess
import pytest

import keysquare as ks

GAMES_OF_A_FILE = int(os.environ.get("KEYSQUARE_STATE_GAMES", "150"))
KNIGHTS_OUT_AND_BACK = "Nf3 Nf6 Ng1 Ng8 "


def open_games() -> list[Path]:
    root = Path(__file__).resolve().parents[2]
    folder = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or root / "../shared/data") / "pgn"
    files = sorted(folder.glob("*.pgn"))
    if not files:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    return files


class Oracle:
    """A game as the rules library plays it."""

    def __init__(self, game: ks.Game) -> None:
        self.board = chess.Board(game.start.fen, chess960=True)
        self.seen: Counter[tuple[object, ...]] = Counter()
        self.enter()

    def enter(self) -> None:
        board = self.board
        en_passant = board.ep_square if board.has_legal_en_passant() else None
        position = (board.board_fen(), board.turn, board.clean_castling_rights(), en_passant)
        self.seen[position] += 1
        self.occurrences = self.seen[position]

    def play(self, san: str) -> None:
        self.board.push(self.board.parse_san(san))
        self.enter()

    def may_claim_repetition(self) -> bool:
        """The library goes back through the game for it, so it is asked only where some position came twice."""
        return max(self.seen.values()) > 1 and self.board.can_claim_threefold_repetition()

    def agrees(self, state: ks.GameState) -> bool:
        board = self.board
        can_go_on = any(board.legal_moves)
        return (
            state.mover == ("white" if board.turn else "black")
            and state.occurrences == self.occurrences
            and state.quiet_plies == board.halfmove_clock
            and state.mover_is_mated == board.is_checkmate()
            and state.mover_is_stalemated == board.is_stalemate()
            and state.has_occurred_five_times == (self.occurrences > 4 and board.is_fivefold_repetition())
            and (state.is_quiet_for_75_moves and can_go_on) == board.is_seventyfive_moves()
            and state.is_dead == board.is_insufficient_material()
            and state.claimable_by_repetition == (self.may_claim_repetition() and can_go_on)
            and state.claimable_by_quiet_moves == board.can_claim_fifty_moves()
        )


def test_the_rules_library_says_the_same_of_every_ply_of_open_games() -> None:
    seen: Counter[str] = Counter()
    for path in open_games():
        games = list(ks.read_games(path))
        for game in games[:: max(1, len(games) // GAMES_OF_A_FILE)]:
            oracle, moves = Oracle(game), game.main_line
            states, positions = game.states(), game.positions()
            assert len(states) == len(game.main_steps) + 1
            for ply, state in enumerate(states):
                if ply > 0:
                    oracle.play(moves[ply - 1].san(positions[ply - 1]))
                assert oracle.agrees(state), (path.name, game.number, ply, state, oracle.board.fen())
                seen["plies"] += 1
                seen["repeated"] += state.occurrences > 1
                seen["claims"] += state.claimable_by_repetition
                seen["claims to be made by a move"] += state.claimable_by_repetition and state.occurrences < 3
                seen["over"] += state.is_over
            seen["games"] += 1
    print(dict(seen))
    assert min(seen["repeated"], seen["claims to be made by a move"], seen["over"]) > 10, seen


@pytest.mark.parametrize("seed", range(4))
def test_the_rules_library_says_the_same_of_shuffled_endings(seed: int) -> None:
    """Games of few men, played at random with many quiet moves: they reach 75 moves, five occurrences and dead draws."""
    chance = random.Random(seed)
    starts = ["4k3/8/8/8/8/8/4P3/R3K3 w Q - 60 60", "8/8/4k3/8/2b5/4K3/8/8 w - - 90 90", "4k3/8/8/3n4/8/8/3p4/R3K2R w KQ - 0 1"]
    seen: Counter[str] = Counter()
    for start in starts * 3:
        game = ks.Game(ks.Position(start))
        step = game.root
        for _ in range(200):
            moves = [move for move in step.position.moves() if step.position.piece_at(move.target) is None]
            if not moves:
                break
            back = [m for m in moves if step.parent and step.parent.move and m.target == step.parent.move.origin]
            step = step.add_move(chance.choice(back if back and chance.random() < 0.7 else moves))
        oracle = Oracle(game)
        positions = game.positions()
        for ply, state in enumerate(game.states()):
            if ply > 0:
                oracle.play(game.main_line[ply - 1].san(positions[ply - 1]))
            assert oracle.agrees(state), (start, ply, state, oracle.board.fen())
            seen["fivefold"] += state.has_occurred_five_times
            seen["seventy-five"] += state.is_quiet_for_75_moves
            seen["fifty"] += state.claimable_by_quiet_moves
            seen["dead"] += state.is_dead
    assert min(seen["fivefold"], seen["seventy-five"], seen["fifty"], seen["dead"]) > 0, seen


def test_a_state_says_itself_in_a_sentence() -> None:
    game = ks.Game()
    game.root.add_line(KNIGHTS_OUT_AND_BACK * 4)
    states = game.states()
    assert str(states[0]) == (
        "White is to move; the position has occurred for the first time, "
        "and 0 plies have gone by without a pawn move or capture."
    )
    assert str(states[7]) == "Black may claim a draw: after f6g8 a position will have occurred three times."
    assert [str(move) for move in states[7].repeating_moves] == ["f6g8"]
    assert str(states[8]) == "White may claim a draw: the position has occurred 3 times."
    assert str(states[16]) == "The game is drawn: the position has occurred 5 times."
    assert states[16].is_drawn and states[16].is_over and not states[8].is_over
    assert game.at_ply(8).state == states[8] and pickle.loads(pickle.dumps(states[8])) == states[8]


@pytest.mark.parametrize(
    ("fen", "moves", "sentence"),
    [
        ("rnbqkbnr/pppp1ppp/8/4p3/6P1/5P2/PPPPP2P/RNBQKBNR b KQkq g3 0 2", "Qh4#", "White is checkmated."),
        ("7k/8/8/6Q1/8/8/8/K7 w - - 0 1", "Qg6", "The game is drawn: Black is stalemated."),
        ("4k3/8/8/8/8/8/4p3/4K3 w - - 0 1", "Kxe2", "The game is drawn: neither side has the men to give mate."),
        (
            "4k3/8/8/8/8/4K3/8/R7 w - - 149 90",
            "Rb1",
            "The game is drawn: 150 plies have gone by without a pawn move or capture.",
        ),
        (
            "4k3/8/8/8/8/4K3/8/R7 w - - 99 90",
            "Rb1",
            "Black may claim a draw: 100 plies have gone by without a pawn move or capture.",
        ),
        (
            "4k3/8/8/8/8/4K3/8/R7 w - - 98 90",
            "Rb1",
            "Black may claim a draw: 99 plies have gone by without a pawn move or capture, and the next one can make "
            "them 100.",
        ),
    ],
)
def test_each_end_and_claim_has_its_sentence(fen: str, moves: str, sentence: str) -> None:
    game = ks.Game(ks.Position(fen))
    assert str(game.root.add_line(moves).state) == sentence
