"""Work for tests/leaks.sh, under valgrind: something of every binding file, right and wrong calls alike, several times.

A leak of one call shows as several blocks; what the module allocates once, when it is imported, shows by its stack.
"""

import gc
import io
import pickle
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import keysquare as ks
from keysquare import _core

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples/data/club.pgn"
ROUNDS = 3

POSITION = ks.Position("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1")
GAME = ks.game_from_text("1. e4 {a} e5 (1... c5 2. Nf3) 2. Nf3 f6 3. Nxe5 fxe5 4. Qh5+ Ke7 5. Qxe5+ Kf7 1-0")
FEW = 400  # nodes of a search, so that valgrind comes to an end


def refused(work: Callable[[], object], *errors: type[Exception]) -> None:
    try:
        work()
    except errors or (ValueError,):
        return
    raise AssertionError("nothing was raised")


def copied(item: object) -> None:
    """Survives a pickle, and says what it is."""
    assert pickle.loads(pickle.dumps(item)) == item
    str(item), repr(item)


def calculations() -> None:
    ks.exchange(POSITION, "d5", values={"pawn": 2})
    ks.resolve(POSITION, nodes=FEW)
    ks.perft(POSITION, 2)
    refused(lambda: ks.exchange(POSITION, "z9"))
    refused(lambda: ks.resolve(POSITION, values={"king": 1}))


def candidates() -> None:
    for one in ks.candidates(POSITION, nodes=FEW):
        str(one)
    ks.move_facts(POSITION, nodes=FEW)
    ks.fact_definitions()


def diagrams() -> None:
    ks.diagram(POSITION, ks.findings(POSITION, nodes=FEW)[:2], marks=["e4"], arrows=[("e2", "e4")])
    refused(lambda: ks.diagram(POSITION, marks=[ks.Mark("e4", "no such style")]))
    refused(lambda: ks.diagram(POSITION, arrows=[("e4", "e4")]))


def difficulty() -> None:
    str(ks.difficulty(POSITION, nodes=FEW))
    str(ks.difficulty(POSITION, "white", ["Rxd5"], nodes=FEW))
    ks.difficulty_numbers()


def errors() -> None:
    refused(lambda: ks.Position("x"))
    refused(lambda: ks.findings(POSITION, side="green"))
    refused(lambda: ks.findings(POSITION, plies=-1))
    refused(lambda: ks.findings(None), TypeError)  # type: ignore[arg-type]
    refused(lambda: POSITION.move("Ka5"))


def feature_table() -> None:
    table = ks.features([POSITION, POSITION.fen])
    assert bytes(memoryview(pickle.loads(pickle.dumps(table)))) == bytes(memoryview(table))
    str(table)
    refused(lambda: table["none"], KeyError)
    table.__arrow_c_array__()
    ks.feature_schema()


def features() -> None:
    ks.mobility(POSITION, "d1", nodes=FEW)
    ks.square_control(POSITION)
    ks.colour_complex(POSITION), ks.guardian(POSITION, "white", "light")
    ks.exchange_context(POSITION)
    refused(lambda: ks.mobility(POSITION, "e5"))


def findings() -> None:
    for finding in ks.findings(POSITION, nodes=FEW):
        copied(finding)
        finding.as_dict(), finding.line, finding.pieces, finding._repr_html_(), hash(finding)
    refused(lambda: ks.findings(POSITION, ["no such theme"]))


def game_reader() -> None:
    for source in (CLUB, [CLUB, CLUB], io.BytesIO(CLUB.read_bytes()), io.StringIO("1. e5 *\n\n1. e4 *\n")):
        with ks.read_games(source) as reader:
            next(reader, None), reader.counts, reader.refused
    list(ks.read_games(io.StringIO("1. e5 *\n\n1. e4 e5 2. Ke3 *\n"), on_error="keep"))
    refused(lambda: list(ks.read_games(io.StringIO("1. e5 *"), on_error="raise")))
    refused(lambda: list(ks.read_games(ROOT / "no such file")))

    class Broken:
        def read(self, size: int) -> bytes:
            raise LookupError

    refused(lambda: list(ks.read_games(Broken())), LookupError)


def game_report() -> None:
    report = ks.game_report(GAME, nodes=FEW)
    str(report), report._repr_html_(), report.timeline
    ks.move_events(GAME, nodes=FEW)
    refused(lambda: ks.theme_noun("no such theme"))


def game_writer() -> None:
    with tempfile.TemporaryDirectory() as folder:
        for suffix in ("", ".gz", ".bz2", ".zst"):
            path = Path(folder) / f"games.pgn{suffix}"
            ks.write_games([GAME, GAME], path)
            assert len(list(ks.read_games(path))) == 2
        refused(lambda: ks.write_games([GAME, 3], path), TypeError)  # type: ignore[list-item]
    refused(lambda: ks.write_games([GAME], path))


def games() -> None:
    game = ks.game_from_text(GAME.pgn())
    copied(game)
    game.positions(), game.states(), game.steps, game.tags, game._repr_html_()
    step = game.at_ply(2).add_move("Nc3")
    step.set_comment("b")
    step.add_nag(1)
    step.set_command("clk", "0:01:00")
    assert step.seconds_left == 60 and step.parent is not None
    refused(lambda: step.add_move("Ka5"))
    refused(lambda: game.at_ply(99), IndexError)
    refused(lambda: ks.game_from_text("1. e5"))


def json() -> None:
    ks.findings_json(POSITION, nodes=FEW, language="de")
    ks.threats_json(POSITION, nodes=FEW)
    ks.candidates_json(POSITION, nodes=FEW)
    ks.outlook_json(POSITION, nodes=FEW)
    ks.game_report_json(GAME, nodes=FEW)
    refused(lambda: ks.candidates_json(POSITION, at_most=0))


def moves() -> None:
    for move in POSITION.moves():
        copied(move)
        move.san(POSITION), move.origin, move.target, move.promotion


def outlook() -> None:
    str(ks.outlook(POSITION, nodes=FEW))
    ks.yardsticks()


def plans() -> None:
    str(ks.check_plan(POSITION, ["Rd2", "Red1"], nodes=FEW))
    str(ks.route(POSITION, "d1", "a7", nodes=FEW))
    refused(lambda: ks.check_plan(POSITION, ["Ka5"]))


def position() -> None:
    copied(POSITION)
    POSITION.pieces, POSITION.passed(), POSITION.without("d5"), POSITION.after("Rxd5"), hash(POSITION)
    POSITION.attackers_of("d5", "white"), POSITION.pinned_men("black"), POSITION.castling_rooks("white")
    refused(lambda: POSITION.without("g1"))


def position_source() -> None:
    fens = [POSITION.fen] * 3
    ks.features(iter(fens))
    for wrong in ([3], "x", 3):
        refused(lambda: ks.features(wrong), TypeError)  # type: ignore[arg-type]
    refused(lambda: ks.features([*fens, "x"]))
    try:
        import numpy as np
        import pyarrow as pa  # type: ignore[import-untyped]
    except ImportError:
        return
    for column in (np.array(fens), np.array(fens, "S"), pa.array(fens), pa.chunked_array([fens])):
        ks.features(column)
    for bad in (pa.array([*fens, None]), pa.array(["x"]), np.array(["x"])):
        refused(lambda: ks.features(bad))
    refused(lambda: ks.features(pa.array([3])), TypeError)


def scan() -> None:
    for batch in ks.scan(CLUB, features=["legal_moves", "no_plan"], every=20, progress=False):
        batch["legal_moves"], batch.__arrow_c_array__()
        refused(lambda: batch["none"], KeyError)
    early = ks.scan([CLUB] * 20, progress=False)
    next(early)
    early.close()
    unread = ks.scan(CLUB, progress=False).__arrow_c_stream__()
    del unread
    ks.scan_columns(), _core.shards([str(CLUB)], 1000)
    refused(lambda: ks.scan(CLUB, features=["none"], progress=False))


def summary() -> None:
    whole = ks.summarise(CLUB, by="phase", features=["legal_moves"], progress=False)
    copied(whole)
    whole.table(), whole + whole, whole["middlegame"]["legal_moves"].mean


def theme_scan() -> None:
    _core.plies_with_themes(GAME, ["fork"], "mover", 1)
    refused(lambda: _core.plies_with_themes(GAME, ["none"]))


def threats() -> None:
    for threat in ks.threats(POSITION, nodes=FEW):
        copied(threat)
        threat.as_dict(), threat._repr_html_()
        str(ks.parries(POSITION, threat, nodes=FEW))
    ks.answers(POSITION, "Rxd5", nodes=FEW)


FILES = {
    function.__name__: function
    for function in (
        *(calculations, candidates, diagrams, difficulty, errors, feature_table, features, findings, game_reader),
        *(game_report, game_writer, games, json, moves, outlook, plans, position, position_source, scan, summary),
        *(theme_scan, threats),
    )
}


def leaks_objects(work: Callable[[], None]) -> bool:
    """Whether each call leaves an object behind, so that every one of many sets of calls takes a block for each call or
    more. Python warms up for dozens of sets, as its lists of freed objects fill; one set that takes less shows it."""
    calls = ROUNDS * 4
    before = None
    for _ in range(100):
        for _ in range(calls):
            work()
        gc.collect()
        blocks = sys.getallocatedblocks()
        if before is not None and blocks - before < calls:
            return False
        before = blocks
    return True


if __name__ == "__main__":
    counting = "--count" in sys.argv
    leaking = []
    for name in [given for given in sys.argv[1:] if given != "--count"] or FILES:
        if counting:
            leaking += [name] if leaks_objects(FILES[name]) else []
        else:
            for _ in range(ROUNDS):
                FILES[name]()
        print(name, "leaks objects" if name in leaking else "", flush=True)
    sys.exit(bool(leaking))
