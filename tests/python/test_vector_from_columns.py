"""The numeric vector of columns of FENs, Arrow's and numpy's: the same as of a list, and what is wrong is named alike.

The outside: pyarrow, polars, pandas and numpy as producers, and a producer written here from the Arrow specifications
("The Arrow C data interface", "The Arrow PyCapsule interface"), which counts what is released and can be made to lie.
"""

import ctypes
import doctest
import struct
import tracemalloc
from collections.abc import Callable
from typing import Any

import numpy as np
import pyarrow as pa
import pytest

import keysquare as ks
from truth.positions import from_random_play

START = ks.Position().fen
NO_KING = "8/8/8/8/8/8/8/8 w - - 0 1"
FENS = [START, "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10", *from_random_play(30, seed=95)]

TEXT_TYPES = [pa.string(), pa.large_string(), pa.string_view()]


def numbers(source: Any) -> list[list[int]]:
    return ks.features(source).to_numpy().tolist()


def same_as_the_list(source: Any, fens: list[str] = FENS) -> None:
    assert numbers(source) == numbers(fens)


def test_the_example_in_the_documentation() -> None:
    names = {"features": ks.features, "pyarrow": pa}
    example = doctest.DocTestParser().get_doctest(ks.features.__doc__ or "", names, "features", None, None)
    assert doctest.DocTestRunner().run(example) == (0, 2)


# ----------------------------------------------------------------------------------------------------------------------
# Arrow


@pytest.mark.parametrize("kind", TEXT_TYPES, ids=str)
def test_an_arrow_array(kind: pa.DataType) -> None:
    array = pa.array(FENS, kind)
    same_as_the_list(array)
    same_as_the_list(array[3:17], FENS[3:17])
    same_as_the_list(array[9:9], [])
    same_as_the_list(pa.array([], kind), [])


@pytest.mark.parametrize("kind", TEXT_TYPES, ids=str)
def test_a_chunked_arrow_array(kind: pa.DataType) -> None:
    chunks = [pa.array(FENS[:5], kind), pa.array([], kind), pa.array([START, *FENS[5:]], kind)[1:]]
    column = pa.chunked_array(chunks)
    same_as_the_list(column)
    same_as_the_list(column[3:9], FENS[3:9])
    same_as_the_list(pa.table({"fen": column})["fen"])
    same_as_the_list(pa.chunked_array([], kind), [])


def test_an_empty_array_need_not_have_a_type() -> None:
    assert len(ks.features(pa.array([]))) == len(ks.features(pa.chunked_array([pa.array([])]))) == 0


@pytest.mark.parametrize("kind", TEXT_TYPES, ids=str)
@pytest.mark.parametrize("is_chunked", [False, True])
def test_a_null_is_named_by_its_index(kind: pa.DataType, is_chunked: bool) -> None:
    texts = [*FENS[:12], None, START, None]
    for first in (0, 7):  # a slice shares the bits, from the middle of a byte on
        array = pa.array(texts, kind)[first:]
        source = pa.chunked_array([array[:2], array[2:]]) if is_chunked else array
        with pytest.raises(ks.InputError, match=f"^at index {12 - first}: a null stands where a FEN should$") as caught:
            ks.features(source)
        assert isinstance(caught.value, ValueError) and caught.value.reason == "missing_field"
    array = pa.array(texts, kind)
    same_as_the_list(array[5:12], FENS[5:12])
    same_as_the_list(array[13:14], [START])


def test_nothing_but_nulls() -> None:
    with pytest.raises(ks.InputError, match="^at index 0: a null"):
        ks.features(pa.array([None]))


def test_polars_series() -> None:
    polars = pytest.importorskip("polars")
    same_as_the_list(polars.Series(FENS))
    same_as_the_list(polars.concat([polars.Series(FENS[:5]), polars.Series(FENS[5:])], rechunk=False))
    same_as_the_list(polars.DataFrame({"fen": FENS})["fen"])
    same_as_the_list(polars.Series([]), [])
    same_as_the_list(polars.Series([ks.Position(fen) for fen in FENS], dtype=polars.Object))
    with pytest.raises(ks.InputError, match="^at index 1: a null"):
        ks.features(polars.Series([START, None]))


def test_pandas_series() -> None:
    pandas = pytest.importorskip("pandas")
    same_as_the_list(pandas.Series(FENS))
    same_as_the_list(pandas.Series(FENS, dtype=object))
    same_as_the_list(pandas.Series([ks.Position(fen) for fen in FENS]))
    same_as_the_list(pandas.Series([ks.Position(FENS[0]), *FENS[1:]], dtype=object))


# ----------------------------------------------------------------------------------------------------------------------
# numpy


@pytest.mark.parametrize("kind", ["U", "S"])
def test_a_numpy_array(kind: str) -> None:
    array = np.array(FENS, dtype=kind)
    same_as_the_list(array)
    same_as_the_list(array[3::4], FENS[3::4])
    same_as_the_list(array[::-1], FENS[::-1])
    same_as_the_list(np.broadcast_to(array[:1], 4), FENS[:1] * 4)
    same_as_the_list(np.array([], dtype=kind), [])
    same_as_the_list(np.array([START], dtype=kind), [START])  # no padding
    array.flags.writeable = False
    same_as_the_list(array)


@pytest.mark.parametrize("kind", ["U90", "S90"])
def test_a_field_of_a_record_array_is_not_aligned(kind: str) -> None:
    records = np.zeros(len(FENS), dtype=[("tag", "S1"), ("fen", kind)])
    records["fen"] = FENS
    same_as_the_list(records["fen"])


def test_other_arrays_are_gone_through_one_by_one() -> None:
    same_as_the_list(np.array([ks.Position(fen) for fen in FENS], dtype=object))
    same_as_the_list(np.array(FENS, dtype=object))
    same_as_the_list(np.array(FENS).astype(np.array(FENS).dtype.newbyteorder()))
    same_as_the_list(np.array(FENS, dtype=np.dtypes.StringDType()))


def test_what_a_masked_array_hides_is_not_read() -> None:
    same_as_the_list(np.ma.masked_array(FENS, mask=False))
    with pytest.raises(TypeError, match="^at index 1: "):
        ks.features(np.ma.masked_array(FENS[:2], mask=[False, True]))


@pytest.mark.parametrize("shape", [(), (1, 1), (1, 0)])
def test_an_array_has_one_dimension(shape: tuple[int, ...]) -> None:
    with pytest.raises(TypeError, match=f"one dimension, not with {len(shape)}"):
        ks.features(np.full(shape, START))


# ----------------------------------------------------------------------------------------------------------------------
# What is wrong

COLUMNS: list[Callable[[list[str]], Any]] = [
    *(lambda fens, kind=kind: pa.array(fens, kind) for kind in TEXT_TYPES),
    lambda fens: pa.chunked_array([fens[:1], fens[1:]]),
    lambda fens: np.array(fens),
]


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize(
    "wrong", [NO_KING, "", "x", "é", "♔", "\U0001f600" * 20, f"{START[:-1]}١", START + " \0" + "x", START[:30]]
)
def test_a_bad_fen_is_refused_as_in_a_list(column: Callable[[list[str]], Any], wrong: str) -> None:
    fens = [*FENS[:4], wrong, START]
    errors = []
    for source in (fens, column(fens)):
        with pytest.raises(ks.InputError, match="^at index 4: ") as caught:
            ks.features(source)
        error = caught.value
        errors.append((str(error), error.reason, error.field, error.line, error.column, error.token))
    assert errors[0] == errors[1]


def from_bytes(texts: list[bytes]) -> pa.Array:
    """Bytes that claim to be text."""
    return pa.Array.from_buffers(pa.string(), len(texts), pa.array(texts, pa.binary()).buffers())


@pytest.mark.parametrize("column", [from_bytes, np.array])
def test_bytes_that_are_no_utf8_are_a_bad_fen(column: Callable[[list[bytes]], Any]) -> None:
    with pytest.raises(ks.InputError, match="^at index 1: a character that is no piece letter") as caught:
        ks.features(column([START.encode(), b"\xff\xfe" + START.encode()]))
    assert caught.value.token.startswith("�")


def test_codes_that_are_no_text_are_a_bad_fen() -> None:
    codes = np.full(70, 0xFFFFFFFF, dtype=np.uint32)
    for array in (codes.view("U70"), np.array(["\ud800"])):
        with pytest.raises(ks.InputError, match="^at index 0: a character that is no piece letter"):
            ks.features(array)


@pytest.mark.parametrize(
    "source",
    [
        pa.array([3, 4]),
        pa.chunked_array([[3], [4]]),
        pa.array([START.encode()], pa.binary()),
        pa.array([START]).dictionary_encode(),
        pa.array([[START]]),
        pa.table({"fen": [START]}),
        pa.table({"fen": [START]}).to_reader(),
        pa.StringArray,
        np.array([3, 4]),
        np.array(["2026-01-01"], dtype="datetime64[D]"),
        START.encode(),
    ],
    ids=lambda source: f"{type(source).__name__} {getattr(source, 'type', '')}",
)
def test_what_holds_no_text_is_a_type_error(source: Any) -> None:
    with pytest.raises(TypeError, match="a Position or a FEN is wanted|an iterable of positions"):
        ks.features(source)


# ----------------------------------------------------------------------------------------------------------------------
# A producer of our own


class Schema(ctypes.Structure):
    _fields_ = [
        ("format", ctypes.c_char_p),
        ("name", ctypes.c_char_p),
        ("metadata", ctypes.c_char_p),
        ("flags", ctypes.c_int64),
        ("n_children", ctypes.c_int64),
        ("children", ctypes.c_void_p),
        ("dictionary", ctypes.c_void_p),
        ("release", ctypes.c_void_p),
        ("private_data", ctypes.c_void_p),
    ]


class Array(ctypes.Structure):
    _fields_ = [
        ("length", ctypes.c_int64),
        ("null_count", ctypes.c_int64),
        ("offset", ctypes.c_int64),
        ("n_buffers", ctypes.c_int64),
        ("n_children", ctypes.c_int64),
        ("buffers", ctypes.c_void_p),
        ("children", ctypes.c_void_p),
        ("dictionary", ctypes.c_void_p),
        ("release", ctypes.c_void_p),
        ("private_data", ctypes.c_void_p),
    ]


class Stream(ctypes.Structure):
    _fields_ = [
        ("get_schema", ctypes.c_void_p),
        ("get_next", ctypes.c_void_p),
        ("get_last_error", ctypes.c_void_p),
        ("release", ctypes.c_void_p),
        ("private_data", ctypes.c_void_p),
    ]


RELEASE = ctypes.CFUNCTYPE(None, ctypes.c_void_p)
GET = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p)
GET_ERROR = ctypes.CFUNCTYPE(ctypes.c_void_p, ctypes.c_void_p)

new_capsule = ctypes.pythonapi.PyCapsule_New
new_capsule.restype = ctypes.py_object
new_capsule.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p]


class Producer:
    """Hands out one array, or a stream of `batches` times the same array, and counts what is released."""

    def __init__(self, buffers: list[bytes | None], length: int, *, format: bytes = b"u", offset: int = 0) -> None:
        self.released: list[str] = []
        self.kept: list[object] = []
        self.batches = 2
        self.code = 0
        self.schema = Schema(format=format, name=b"", release=self.counted("schema", Schema))
        held = [None if buffer is None else ctypes.create_string_buffer(buffer, len(buffer)) for buffer in buffers]
        pointers = (ctypes.c_void_p * len(held))(*(None if one is None else ctypes.addressof(one) for one in held))
        self.kept += [held, pointers]
        self.array = Array(
            length=length,
            offset=offset,
            null_count=-1,
            n_buffers=len(buffers),
            buffers=ctypes.addressof(pointers),
            release=self.counted("array", Array),
        )

    def function(self, kind: Any, work: Callable[..., Any]) -> int:
        made = kind(work)
        self.kept.append(made)
        address = ctypes.cast(made, ctypes.c_void_p).value
        assert address is not None
        return address

    def counted(self, name: str, kind: Any) -> int:
        def release(address: int) -> None:
            self.released.append(name)
            kind.from_address(address).release = None

        return self.function(RELEASE, release)

    def arrays(self) -> tuple[object, object]:
        return (
            new_capsule(ctypes.addressof(self.schema), b"arrow_schema", None),
            new_capsule(ctypes.addressof(self.array), b"arrow_array", None),
        )

    def stream(self) -> object:
        def get_schema(_: int, out: int) -> int:
            ctypes.memmove(out, ctypes.addressof(self.schema), ctypes.sizeof(Schema))
            return 0

        def get_next(_: int, out: int) -> int:
            self.batches -= 1
            if self.batches < 0 and self.code:
                return self.code
            given = self.array if self.batches >= 0 else Array()
            ctypes.memmove(out, ctypes.addressof(given), ctypes.sizeof(Array))
            return 0

        why = ctypes.create_string_buffer(b"the sea is wide")
        self.kept.append(why)
        self.made = Stream(
            get_schema=self.function(GET, get_schema),
            get_next=self.function(GET, get_next),
            get_last_error=self.function(GET_ERROR, lambda _: ctypes.addressof(why)),
            release=self.counted("stream", Stream),
        )
        return new_capsule(ctypes.addressof(self.made), b"arrow_array_stream", None)


class AsArray:
    """Nothing but the interface, so that no item can be asked for one by one."""

    def __init__(self, producer: Any) -> None:
        self.producer = producer

    def __arrow_c_array__(self, requested_schema: object = None) -> tuple[object, object]:
        if isinstance(self.producer, Producer):
            return self.producer.arrays()
        return self.producer.__arrow_c_array__(requested_schema)  # type: ignore[no-any-return]


class AsStream:
    def __init__(self, producer: Any) -> None:
        self.producer = producer

    def __arrow_c_stream__(self, requested_schema: object = None) -> object:
        if isinstance(self.producer, Producer):
            return self.producer.stream()
        return self.producer.__arrow_c_stream__(requested_schema)


def plain(texts: list[bytes], **given: Any) -> Producer:
    ends = [0]
    for text in texts:
        ends.append(ends[-1] + len(text))
    return Producer([None, struct.pack(f"={len(ends)}i", *ends), b"".join(texts)], len(texts), **given)


def test_what_is_taken_is_released_once() -> None:
    producer = plain([START.encode()] * 3)
    same_as_the_list(AsArray(producer), [START] * 3)
    assert sorted(producer.released) == ["array", "schema"]
    with pytest.raises(ValueError, match="taken already"):
        ks.features(AsArray(producer))
    assert sorted(producer.released) == ["array", "schema"]


def test_what_a_stream_gives_is_released_once() -> None:
    producer = plain([START.encode()] * 3)
    same_as_the_list(AsStream(producer), [START] * 6)
    assert sorted(producer.released) == ["array", "array", "schema", "stream"]


@pytest.mark.parametrize("format", [b"u", b"i", b"+s", b"z"])
def test_what_is_refused_is_released_once(format: bytes) -> None:
    error = ks.InputError if format == b"u" else TypeError
    for text in (b"x", b"\xff", b""):
        producer = plain([START.encode(), text], format=format)
        with pytest.raises(error):
            ks.features(AsArray(producer))
        assert sorted(producer.released) == ["array", "schema"]
        producer = plain([START.encode(), text], format=format)
        with pytest.raises(error):
            ks.features(AsStream(producer))
        expected = ["array", "schema", "stream"] if format == b"u" else ["schema", "stream"]
        assert sorted(producer.released) == expected


@pytest.mark.parametrize(("code", "error"), [(5, RuntimeError), (12, MemoryError)])  # EIO, ENOMEM
def test_a_broken_stream_says_why_and_is_released_once(code: int, error: type[Exception]) -> None:
    producer = plain([START.encode()])
    producer.code = code
    with pytest.raises(error, match="the sea is wide" if error is RuntimeError else None):
        ks.features(AsStream(producer))
    assert sorted(producer.released) == ["array", "array", "schema", "stream"]


def test_capsules_must_be_what_their_names_say() -> None:
    class Strange:
        def __init__(self, answer: object) -> None:
            self.answer = answer

        def __arrow_c_array__(self, requested_schema: object = None) -> object:
            return self.answer

    producer = plain([START.encode()])
    schema, array = producer.arrays()
    for answer in (schema, (schema,), 3, [schema, array]):
        with pytest.raises(TypeError, match="two capsules"):
            ks.features(Strange(answer))
    for answer in ((array, schema), (3, 4), (producer.stream(), array)):
        with pytest.raises(ValueError, match="PyCapsule"):
            ks.features(Strange(answer))
    assert producer.released == []


def test_an_export_that_fails_is_heard_of() -> None:
    class Failing:
        def __arrow_c_stream__(self, requested_schema: object = None) -> object:
            raise LookupError("the sea is wide")

    with pytest.raises(LookupError, match="the sea is wide"):
        ks.features(Failing())


BYTES = START.encode()
LONG_VIEW = struct.pack("=i4sii", len(BYTES), BYTES[:4], 0, 0)
SIZES = struct.pack("=q", len(BYTES))

DAMAGED = {
    "offsets that go back": Producer([None, struct.pack("=3i", 0, len(BYTES), 2), BYTES], 2),
    "a negative offset": Producer([None, struct.pack("=2i", -4, 5), BYTES], 1),
    "a negative large offset": Producer([None, struct.pack("=2q", -4, 5), BYTES], 1, format=b"U"),
    "no offsets": Producer([None, None, BYTES], 1),
    "no text": Producer([None, struct.pack("=2i", 0, 5), None], 1),
    "too few buffers": Producer([None, struct.pack("=2i", 0, 5)], 1),
    "a negative length": Producer([None, struct.pack("=2i", 0, 5), BYTES], -1),
    "a place before the start": Producer([None, struct.pack("=2i", 0, 5), BYTES], 1, offset=-1),
    "a view of negative size": Producer([None, struct.pack("=4i", -1, 0, 0, 0), BYTES, SIZES], 1, format=b"vu"),
    "a view of a buffer too many": Producer(
        [None, struct.pack("=i4sii", len(BYTES), BYTES[:4], 1, 0), BYTES, SIZES], 1, format=b"vu"
    ),
    "a view before its buffer": Producer(
        [None, struct.pack("=i4sii", len(BYTES), BYTES[:4], 0, -1), BYTES, SIZES], 1, format=b"vu"
    ),
    "a view beyond its buffer": Producer(
        [None, struct.pack("=i4sii", len(BYTES), BYTES[:4], 0, 1), BYTES, SIZES], 1, format=b"vu"
    ),
    "a view of buffers without sizes": Producer([None, LONG_VIEW, BYTES, None], 1, format=b"vu"),
    "a view of no buffer": Producer([None, LONG_VIEW, None, SIZES], 1, format=b"vu"),
}


@pytest.mark.parametrize("damage", DAMAGED)
def test_a_damaged_array_is_refused(damage: str) -> None:
    producer = DAMAGED[damage]
    with pytest.raises(ValueError, match="damaged Arrow array"):
        ks.features(AsArray(producer))
    assert sorted(producer.released) == ["array", "schema"]


def test_the_same_producer_undamaged() -> None:
    """Otherwise the damage might not be what is refused."""
    same_as_the_list(AsArray(Producer([None, LONG_VIEW, BYTES, SIZES], 1, format=b"vu")), [START])
    same_as_the_list(AsArray(Producer([None, None, None], 0)), [])
    same_as_the_list(AsArray(plain([START.encode()])), [START])
    same_as_the_list(AsArray(Producer([b"\x02", struct.pack("=3i", 0, 0, len(BYTES)), BYTES], 1, offset=1)), [START])


# ----------------------------------------------------------------------------------------------------------------------
# No object for a position

PACKAGES: dict[str, Callable[[list[str]], Any]] = {
    "array": lambda fens: AsArray(pa.array(fens)),
    "view": lambda fens: AsArray(pa.array(fens, pa.string_view())),
    "stream": lambda fens: AsStream(pa.chunked_array([fens])),
    # a memoryview can't give out texts one by one
    "text": lambda fens: memoryview(np.array(fens)),  # type: ignore[arg-type]
    "bytes": lambda fens: memoryview(np.array(fens, dtype="S")),  # type: ignore[arg-type]
}


def peak_of(source: Any) -> int:
    """The most memory that Python objects take meanwhile, in bytes; the numbers themselves are no Python objects."""
    tracemalloc.start()
    try:
        ks.features(source)
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize("package", PACKAGES)
def test_no_object_is_made_for_a_position(package: str) -> None:
    few, many = (PACKAGES[package](FENS * times) for times in (1, 300))
    with pytest.raises((TypeError, NotImplementedError)):
        next(iter(few))
    peak_of(few)  # what is imported at the first call
    smallest = 16  # bytes of an object; what else differs between two calls is a few kilobytes
    assert peak_of(many) - peak_of(few) < smallest * 299 * len(FENS)
    assert len(ks.features(many)) == 300 * len(FENS)
