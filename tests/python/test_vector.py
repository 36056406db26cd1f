"""The numeric vector: its schema, its table, and every number against an independent implementation."""

import gc
import pickle
import sys
import threading
import time
from collections.abc import Callable, Iterable, Iterator

import chess
import numpy as np
import pyarrow as pa
import pytest

import keysquare as ks
from truth.positions import COLLECTIONS, from_game, from_random_play, game_texts, open_data
from truth.vector import vector

CASTLED = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10"

INVENTED = [
    ks.Position().fen,
    CASTLED,
    "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2",  # en passant
    "8/8/8/8/r3K3/8/8/4k3 w - - 99 200",  # a check along a rank, with a flight square behind the king
    "1n5k/P7/8/8/8/8/8/K7 w - - 0 1",  # promotions with check, by step and by capture
    "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1",  # 218 legal moves (a known record)
    "3rr1k1/3rn3/8/8/8/8/3RQ3/3RB1K1 b - - 0 1",  # batteries along files, doubled and connected rooks
    "k7/8/8/8/8/1b6/P1P4p/B2Q3K w - - 0 1",
    "4k3/8/2b5/8/8/2B5/8/4K3 w - - 0 1",  # bishops of opposite colours
    "4k3/1P1P1p2/2p1p3/pP4Pp/P6P/2P1P3/1p1p1P2/6K1 b - - 5 50",
    "k7/8/8/8/8/8/8/K7 b - - 65535 65535",  # nothing but kings, and clocks beyond the type
]


def games() -> Iterator[str]:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    for name in COLLECTIONS:
        for seed, text in enumerate(game_texts(folder / "pgn" / name, 40)):
            yield from from_game(text, 4, seed)


def random_play() -> Iterator[str]:
    yield from from_random_play(150, seed=91)
    yield from from_random_play(50, seed=92, longest=12)


def chess960() -> Iterator[str]:
    return from_random_play(100, seed=93, chess960=True, longest=60)


def check_numbers(fens: list[str], *, chess960: bool = False, lenient: bool = False) -> None:
    table = ks.features([ks.Position(fen, lenient) for fen in fens])
    columns = [list(table[name]) for name in table.columns]
    wrong = []
    for row, fen in enumerate(fens):
        truth = vector(chess.Board(fen, chess960=chess960))
        wrong += [
            f"{name} is {column[row]}, not {truth(name)}: {fen}"
            for name, column in zip(table.columns, columns, strict=True)
            if column[row] != truth(name)
        ]
    assert not wrong, f"{len(wrong)} numbers are wrong:\n" + "\n".join(wrong[:20])


def test_every_number_of_invented_positions() -> None:
    check_numbers(INVENTED, lenient=True)


def test_every_number_of_positions_from_games() -> None:
    fens = list(games())
    assert len(fens) > 300
    check_numbers(fens)


@pytest.mark.parametrize("source", [random_play, chess960], ids=lambda source: source.__name__)
def test_every_number_of_random_play(source: Callable[[], Iterator[str]]) -> None:
    check_numbers(list(source()), chess960=source is chess960)


def test_no_column_is_the_same_everywhere() -> None:
    """Otherwise the comparison above would say nothing about it."""
    table = ks.features([*random_play(), *(ks.Position(fen, True) for fen in INVENTED)])
    assert [name for name in table.columns if len(set(table[name])) < 2] == []


def test_the_schema_names_and_explains_every_column() -> None:
    schema = ks.feature_schema()
    assert schema.version == 1
    assert 150 <= len(schema) == len(schema.names) == len(set(schema.names)) <= 260
    assert {column.type for column in schema} == {"int16"}
    assert {column.view for column in schema} == {"white", "black", "difference", "mover", "position"}
    assert all(column.definition.endswith(".") and column.unit for column in schema)
    assert schema.column("white_space").unit == "squares"
    assert schema[0].name == "white_pawns" and schema[-1] == schema.columns[-1] and len(schema[2:5]) == 3
    assert pickle.loads(pickle.dumps(schema)) == schema
    with pytest.raises(KeyError):
        schema.column("white_unicorns")


def test_yes_or_no_is_one_or_zero() -> None:
    table = ks.features([*random_play(), *INVENTED[:5]])
    for column in ks.feature_schema():
        if column.unit == "yes_or_no":
            assert set(table[column.name]) <= {0, 1}, column.name


def test_a_table_of_positions_and_fens() -> None:
    table = ks.features([ks.Position(), CASTLED])
    assert len(table) == 2 and table.columns == ks.feature_schema().names
    assert table.schema_version == ks.feature_schema().version
    assert list(table["legal_moves"]) == [20, len(ks.Position(CASTLED).moves())]
    assert dict(table).keys() == set(table.columns)
    assert repr(table) == f"<keysquare.FeatureTable, 2 rows, {len(table.columns)} columns>"
    with pytest.raises(KeyError, match="white_unicorns"):
        table["white_unicorns"]


def test_any_iterable_will_do() -> None:
    game = ks.Game()
    game.root.add_move("e4").add_move("e5")
    assert list(ks.features(game.positions())["white_to_move"]) == [1, 0, 1]
    assert list(ks.features(fen for fen in (CASTLED,))["move_number"]) == [10]


def test_an_empty_table() -> None:
    table = ks.features([])
    assert len(table) == 0 and list(table["men"]) == []
    assert table.to_numpy().shape == (0, len(table.columns))
    assert pa.table(table).num_rows == 0


def test_a_bad_fen_is_named_by_its_index() -> None:
    with pytest.raises(ks.InputError, match="^at index 2: a side has no king") as caught:
        ks.features([CASTLED, ks.Position(), "8/8/8/8/8/8/8/8 w - - 0 1"])
    assert caught.value.reason == "no_king" and str(caught.value) == caught.value.message


@pytest.mark.parametrize("source", [CASTLED, ks.Position(), ks.Game(), 3, None, [3], [CASTLED, None], [[CASTLED]]])
def test_what_is_no_list_of_positions_is_a_type_error(source: Iterable[str]) -> None:
    with pytest.raises(TypeError, match="position|Position"):
        ks.features(source)


def test_numpy_sees_the_table_itself() -> None:
    table = ks.features(INVENTED[:4])
    array = table.to_numpy()
    assert array.shape == (4, len(table.columns)) and array.dtype == np.int16
    assert np.shares_memory(array, np.asarray(table))
    assert not array.flags.writeable
    space = np.asarray(table["white_space"])
    assert np.shares_memory(space, array)
    assert (space == array[:, table.columns.index("white_space")]).all()
    kept = array.copy()
    del table
    gc.collect()
    assert (array == kept).all() and (space == kept[:, ks.feature_schema().names.index("white_space")]).all()


def test_without_numpy_the_table_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "numpy", None)
    table = ks.features([CASTLED])
    with pytest.raises(ImportError, match="numpy"):
        table.to_numpy()
    assert memoryview(table).shape == (1, len(table.columns))


def test_arrow_takes_the_table_without_copying() -> None:
    table = ks.features(INVENTED[:4])
    taken = pa.table(table)
    assert taken.column_names == list(table.columns) and taken.num_rows == 4
    assert {field.type for field in taken.schema} == {pa.int16()}
    assert not any(field.nullable for field in taken.schema)
    assert taken.schema.metadata == {b"keysquare.feature_schema_version": b"1"}
    assert taken.to_pydict() == {name: list(table[name]) for name in table.columns}
    batch = pa.record_batch(table)
    batch.validate(full=True)
    assert np.shares_memory(batch.column("men").to_numpy(), table.to_numpy())
    assert pa.schema(table) == taken.schema
    with pa.RecordBatchReader.from_stream(table) as reader:
        assert [len(batch) for batch in reader] == [4]


def test_what_arrow_took_outlives_the_table() -> None:
    column = pa.record_batch(ks.features([CASTLED] * 1000)).column("move_number")
    gc.collect()
    assert column.to_pylist() == [10] * 1000


def test_capsules_that_nobody_takes_are_freed() -> None:
    table = ks.features([CASTLED])
    before = sys.getrefcount(table)
    for _ in range(100):
        assert len(table.__arrow_c_array__()) == 2
        assert table.__arrow_c_stream__() is not None
        assert table.__arrow_c_schema__() is not None
    assert sys.getrefcount(table) == before


def test_tables_pickle() -> None:
    table = ks.features(INVENTED[:4])
    restored = pickle.loads(pickle.dumps(table))
    assert (restored.to_numpy() == table.to_numpy()).all()
    version, rows, numbers = table.__getstate__()
    for state in ((version + 1, rows, numbers), (version, rows + 1, numbers), (version, rows, numbers[:-1])):
        with pytest.raises(ValueError, match="version"):
            ks.FeatureTable.__new__(ks.FeatureTable).__setstate__(state)


def test_other_threads_run_meanwhile() -> None:
    positions = [ks.Position(CASTLED)] * 300_000
    worker = threading.Thread(target=ks.features, args=(positions,))
    worker.start()
    turns = 0
    while worker.is_alive():
        time.sleep(0.001)
        turns += 1
    assert turns > 20
