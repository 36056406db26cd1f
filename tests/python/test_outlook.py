"""The outlook: what Python shows, and the independent verifier.

By default the verifier looks at a sample; `KEYSQUARE_OUTLOOK_POSITIONS` says how many positions it takes.
"""

import io
import json
import os
import pickle
from collections.abc import Iterator

import chess
import chess.pgn
import pytest

import keysquare as ks
from truth.positions import game_texts, mixed_positions, open_data
from truth.thinking_outlook import OutlookVerifier

POSITIONS = int(os.environ.get("KEYSQUARE_OUTLOOK_POSITIONS") or 60)

# Our own positions.
MIDDLEGAME = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10"
WALLS = "3rk3/8/1p1p1p1p/pPpPpPpP/P1P1P1P1/2K5/8/3R4 b - - 0 1"
NOTHING_TO_DO = "8/3k4/1p1p1p1p/pPpPpPpP/P1P1P1P1/2K5/8/8 b - - 0 1"
IN_CHECK = "4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1"
EXCHANGE_UP = "r5k1/5pp1/p2pp2p/1p1b4/8/1PR1P3/P4PPP/R5K1 b - - 0 26"


def test_one_side_has_nothing_to_do() -> None:
    found = ks.outlook(ks.Position(WALLS))
    white, black = found["white"], found["black"]
    assert white.no_plan and white.after_pass and not white.useful and len(white.merely_safe) == 14
    assert [useful.san for useful in black.useful] == ["Rd7", "Kd7", "Ke7", "Kf7"]
    assert not black.no_plan and not found.equilibrium
    assert "White can only wait" in str(found)


def test_equilibrium() -> None:
    found = ks.outlook(ks.Position(NOTHING_TO_DO))
    assert found.equilibrium and all(side.no_plan for side in found.values())


def test_best_squares_are_routes() -> None:
    position = ks.Position(MIDDLEGAME)
    for side in ks.outlook(position).values():
        assert side.best_squares
        for best in side.best_squares:
            routes = ks.route(position, best.piece.square, best.square)
            assert routes.moves == len(best.route) <= 2 and best.route == routes[0]


def test_without_a_turn() -> None:
    found = ks.outlook(ks.Position(IN_CHECK))
    assert not found["black"].known and found["white"].in_check
    assert str(found) == "White stands in check and has 3 legal moves. Black has no turn, as White stands in check."


def test_what_objects_do() -> None:
    found = ks.outlook(ks.Position(MIDDLEGAME))
    assert list(found) == ["white", "black"] and len(found) == 2
    assert pickle.loads(pickle.dumps(found)) == found
    data = json.loads(json.dumps(found.as_dict()))
    assert data["white"]["legal"] == 37 and data["equilibrium"] is False
    assert len(data["white"]["useful"]) == len(found["white"].useful)
    assert repr(found) == f"<keysquare.Outlook: {found}>"
    assert repr(found["white"]) == f"<keysquare.SideOutlook: {found['white']}>"
    for side in found.values():
        assert side._repr_svg_().startswith("<svg")
        assert side._repr_svg_() in found._repr_html_()
    assert str(found) in found._repr_html_()
    with pytest.raises(ks.InputError):
        found["green"]


def test_the_exchange_ledger_has_threats_and_useful_moves() -> None:
    position = ks.Position(EXCHANGE_UP)
    ledger = ks.exchange_context(position)
    assert ledger is not None
    found = ks.outlook(position)
    for name, page in ledger.pages.items():
        assert page.useful_moves == found[name].useful and page.useful_moves
        assert page.threats == found[name].threats == ks.threats(position, name)
    assert str(ledger).startswith("White is the exchange up; Black has something for it: a pawn.")
    assert f"Black has {len(found['black'].useful)} useful moves and no threat" in str(ledger)


def test_yardsticks_are_counted_facts() -> None:
    definitions = ks.fact_definitions()
    for fact, least in ks.yardsticks().items():
        assert fact in definitions and least > 0


def test_the_verifier_finds_nothing() -> None:
    lies = [lie for fen in mixed_positions(POSITIONS, seed=51) for lie in OutlookVerifier(fen).violations()]
    assert not lies, f"{len(lies)}:\n" + "\n".join(lies[:20])


def test_the_verifier_finds_lies() -> None:
    def with_another(fen: str, other: str) -> list[str]:
        verifier = OutlookVerifier(fen)
        verifier.found = ks.outlook(ks.Position(other))
        return list(verifier.violations())

    # Another man on the board is enough for both sides.
    assert len(with_another(MIDDLEGAME, MIDDLEGAME.replace("P4/2N2N2", "P4/2N1PN2"))) == 2
    assert with_another(WALLS, WALLS) == []
    assert with_another(WALLS, NOTHING_TO_DO)
    assert with_another(NOTHING_TO_DO, WALLS)


def turns_of(game: chess.pgn.Game) -> Iterator[tuple[chess.Board, chess.Move]]:
    """Every position of the main line and the move that was played in it."""
    board = game.board()
    for move in game.mainline_moves():
        yield board.copy(stack=False), move
        board.push(move)


def test_players_prefer_useful_moves() -> None:
    """That the definition makes sense: of the quiet safe moves, masters choose the useful ones more often than chance
    would have it; chance is the share of useful moves among the quiet safe ones of the same position."""
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    chosen, expected, looked_at = 0, 0.0, 0
    for seed, text in enumerate(game_texts(folder / "pgn" / "masters.pgn", 400)):
        game = chess.pgn.read_game(io.StringIO(text))
        assert game is not None
        for board, move in list(turns_of(game))[12 + seed % 9 :: 9]:
            side = ks.outlook(ks.Position(board.fen(en_passant="fen")))[chess.COLOR_NAMES[board.turn]]
            if board.is_check() or any(reason.fact == "meets_threat" for one in side.useful for reason in one.reasons):
                continue
            captures = {capture.uci() for capture in board.legal_moves if board.is_capture(capture)}
            useful = {str(one.move) for one in side.useful if one.won is None} - captures
            quiet = useful | ({str(safe) for safe in side.merely_safe} - captures)
            if move.uci() not in quiet:
                continue
            looked_at += 1
            chosen += move.uci() in useful
            expected += len(useful) / len(quiet)
    assert looked_at > 1000
    assert chosen > 1.5 * expected, (chosen, expected, looked_at)
