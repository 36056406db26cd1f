"""scan: the positions of game files as a table, batch after batch."""

from __future__ import annotations

import itertools
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from types import TracebackType
from typing import IO, Any

from keysquare import _core
from keysquare._bar import Bar
from keysquare._core import RowBatch
from keysquare._new_file import write_new_file
from keysquare._results import ScanCounts, ScanProgress
from keysquare._row_filter import RowFilter, Where, names_in, thread_count
from keysquare._shards import Shard, Source, shard_parts

USUAL_COLUMNS = (
    "file",
    "game_offset",
    "ply",
    "mover",
    "move_played",
    "result",
    "white_rating",
    "black_rating",
    "clock",
    "evaluation",
)
"""What comes along of the game when nothing else is said."""


BATCHES_IN_A_GROUP = 16
"""Of rows in a Parquet file."""


class ScanBar:
    """A bar on stderr that follows a scan by the bytes of its files."""

    def __init__(self, shown: bool) -> None:
        self._bar = Bar(shown, "positions", "B")

    def show(self, progress: ScanProgress) -> None:
        """Shows how far it is."""
        self._bar.note(f"{progress.positions:,} of {progress.games:,} games")
        self._bar.reach(progress.bytes, progress.of_bytes)

    def close(self) -> None:
        """Leaves the last state on the screen."""
        self._bar.close()


class Scan(Iterator[RowBatch]):
    """The batches of a scan, one after another. Made by `scan` and `read_shard`.

    Also an Arrow stream (`pyarrow.table(scan)`, `polars.DataFrame(scan)`, DuckDB), and a context manager that ends it.
    The rows are given once, by whichever way. Whoever stops early should close it: until then threads wait with some
    batches, and a process that was forked from this one can't end by itself.

    An interruption (Ctrl-C) comes as KeyboardInterrupt; where another library draws the rows, as an error of that library
    that says "interrupted" (OSError from pyarrow), since an Arrow stream can't pass an exception on.
    """

    def __init__(
        self, source: Source, columns: list[str], wanted: RowFilter, threads: int, progress: bool
    ) -> None:
        if not columns:
            raise ValueError("a scan needs at least one column")
        self._columns = tuple(columns)
        self._is_over = False
        self._scan = _core._Scan(
            shard_parts(source), columns, wanted.tags, wanted.ratings, wanted.plies, thread_count(threads)
        )
        self._bar = ScanBar(progress)

    @property
    def columns(self) -> tuple[str, ...]:
        """The names of the columns."""
        return self._columns

    @property
    def counts(self) -> ScanCounts:
        """What became of the games in the parts of the files that were given whole so far; of all of them at the end."""
        return self._scan.counts

    @property
    def progress(self) -> ScanProgress:
        """How far it is: a little ahead of the batches given."""
        return self._scan.progress

    def close(self) -> None:
        """Ends it: the threads are gone when this returns, within the time that one position takes (or one game, with
        columns that say what moves missed, allowed or overlooked)."""
        self._is_over = True
        self._scan.stop()
        self._bar.close()

    def write_parquet(self, path: str | os.PathLike[str], **options: object) -> ScanCounts:
        """Writes the rest of the rows to a Parquet file, in memory that hardly grows with it: with all columns by some
        30 kB, which the file's directory takes, for each 130,000 rows.

        Until it is complete it has another name in the same folder, so that nothing half-written is ever found under
        the name. Options go to `pyarrow.parquet.ParquetWriter` (compression, for example). Needs pyarrow; raises
        ImportError without it, OSError when the file can't be written.
        """
        import pyarrow as pa  # type: ignore[import-untyped]  # it has no type information of its own
        from pyarrow import parquet

        self._require_rows()
        with self:
            target = Path(path).resolve()
            if target.is_dir():
                raise IsADirectoryError(f"{target} is a folder")

            def write(file: IO[bytes]) -> None:
                with parquet.ParquetWriter(file, pa.schema(self), **options) as writer:
                    for table in self._tables():
                        writer.write_table(table)

            write_new_file(target, write)
        return self.counts

    def _tables(self) -> Iterator[Any]:
        """Batches put together, as Parquet takes each table for a group of rows, which costs room and memory."""
        import pyarrow as pa

        batches = map(pa.record_batch, self)
        while held := list(itertools.islice(batches, BATCHES_IN_A_GROUP)):
            yield pa.Table.from_batches(held)

    def _require_rows(self) -> None:
        if self._is_over:
            raise ValueError("this scan has given its rows, or was closed; make another one")

    def __next__(self) -> RowBatch:
        try:
            while (batch := self._scan.next()) is None:
                self._tick()
        except StopIteration:
            self._tick()
            self.close()
            raise
        except RuntimeError:  # it is in use in another thread, which goes on
            raise
        except BaseException:
            self.close()
            raise
        self._tick()
        return batch

    def _end(self) -> None:
        self._is_over = True

    def _tick(self) -> None:
        self._bar.show(self._scan.progress)

    def __enter__(self) -> Scan:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def __arrow_c_schema__(self) -> object:
        """The Arrow schema as a capsule."""
        return self._scan.schema()

    def __arrow_c_stream__(self, requested_schema: object | None = None) -> object:
        """The rest of the batches as a capsule. Another schema is never made. Raises ValueError when no rows are left."""
        self._require_rows()
        return self._scan.arrow_stream(self._tick, self._end)

    def __repr__(self) -> str:
        progress = self.progress
        return f"<keysquare.Scan: {progress.positions} positions of {progress.games} games, {len(self._columns)} columns>"


def scan(
    files: Source,
    *,
    features: str | Iterable[str] | None = None,
    columns: str | Iterable[str] = USUAL_COLUMNS,
    where: Where | None = None,
    every: int | range = 1,
    threads: int = 0,
    progress: bool = True,
) -> Scan:
    """The positions of game files as rows: what is known of the game, and the features that are asked for.

    Rows come in the order of the files, of the games in them, and of the plies, in batches of up to 8,192. They do not
    depend on the number of threads. Reading, replaying and computing run in C++ without the GIL, in memory that does not
    grow with the files (about 30 MB a thread with all columns).

    Args:
        files: A path, a pattern such as "games/*.pgn", a `Shard`, or an iterable of these. PGN, plain or compressed.
        features: Names of columns of the numeric vector (`feature_schema`) and of columns with search
            (`scan_columns`: "hanging_gain", "safe_moves", "overlooks", ...). None: the whole numeric vector.
        columns: Names of columns that come before them: what is known of the game (`scan_columns`), and tags by their
            names in PGN ("ECO", "TimeControl").
        where: Conditions on the tags; games that do not meet them are gone over without being replayed. "rating",
            "white_rating", "black_rating": the least and greatest, None for no bound; "rating" asks for both players. The
            name of a tag: a text, a list or set of texts, or a tuple of the first and the last text in the order of
            their bytes; games without the tag or the rating never meet it: {"rating": (1000, 1400), "Result": ["1-0", "0-1"], "Date": ("2025", None)}.
        every: 1 for every ply, 10 for plies 0, 10, 20, ..., or a range of plies. Ply 0 is the start position.
        threads: How many threads work at once; 0 for as many as there are cores.
        progress: Whether a bar on stderr shows how far it is.

    Raises:
        InputError: A file that can't be opened (`cannot_open`).
        ValueError, TypeError: An unknown or doubled column, or a condition that is none.

    A game that can't be read costs no other: `Scan.counts` says how many were refused and why. A broken game may end
    elsewhere when `where` has it gone over than when it is replayed.

    >>> rows = scan("examples/data/club.pgn", features=["legal_moves", "threats"], every=range(20, 41, 10), progress=False)
    >>> batch = next(rows)
    >>> batch["ply"][:3], batch["legal_moves"][:3], batch["threats"][:3]
    ([20, 30, 40], [40, 45, 49], [0, 6, 0])
    """
    wanted = [*names_in(columns), *(_core.feature_schema().names if features is None else names_in(features))]
    return Scan(files, wanted, RowFilter.of(where, every), threads, progress)


def read_shard(
    shard: Shard,
    *,
    features: str | Iterable[str] | None = None,
    columns: str | Iterable[str] = USUAL_COLUMNS,
    where: Where | None = None,
    every: int | range = 1,
    threads: int = 1,
) -> Scan:
    """The rows of one shard, as `scan` gives them: what a worker of a cluster calls.

    >>> from keysquare import shards
    >>> sum(len(batch) for shard in shards("examples/data/club.pgn", 1000) for batch in read_shard(shard))
    290
    """
    if not isinstance(shard, Shard):
        raise TypeError(f"a Shard is wanted, not {type(shard).__name__}")
    return scan(
        shard, features=features, columns=columns, where=where, every=every, threads=threads, progress=False
    )
