"""Scans and summaries on many machines, by Dask distributed (`pip install keysquare[distributed]`).

A shard is a task; what comes back does not depend on the number of workers, on the order in which they finish, or on
workers that die in the middle: Dask then gives their shards to others. The files must lie where every worker finds them
under the same name (a shared file system).

>>> from dask.distributed import Client                    # doctest: +SKIP
>>> from keysquare import distributed                      # doctest: +SKIP
>>> client = Client("scheduler:8786")                      # doctest: +SKIP
>>> summary = distributed.summarise(client, "games/*.pgn", by="phase")  # doctest: +SKIP
"""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import TYPE_CHECKING, Any

from keysquare._row_filter import Where, names_in
from keysquare._scan import USUAL_COLUMNS, read_shard
from keysquare._scan import scan as scan_here
from keysquare._shards import Shard, Source, shards
from keysquare._summary import Summary, sum_of
from keysquare._summary import summarise as summarise_here

if TYPE_CHECKING:
    import pyarrow as pa  # type: ignore[import-untyped]  # it has no type information of its own
    from dask.distributed import Client

SHARD_SIZE = 64 << 20
"""Bytes of a shard to sum up: some seconds of work, so that neither handing it out nor losing it costs much."""

TABLE_SHARD_SIZE = 4 << 20
"""Bytes of a shard to make a table of: with all columns the table is twenty times as large, sixty times where the
games have no comments."""

IN_A_SUM = 16
"""Summaries that one task adds, so that no machine has to hold all of them."""


def summarise(
    client: Client,
    files: Source,
    *,
    by: str | Iterable[str] = (),
    features: str | Iterable[str] | None = None,
    where: Where | None = None,
    every: int | range = 1,
    shard_size: int = SHARD_SIZE,
) -> Summary:
    """`keysquare.summarise` on the workers of a cluster. Equal to it, to the bit.

    Summaries are added on the workers too, so that only the last one comes here.

    Args:
        client: The cluster. One thread a worker is best; each task uses one.
        files, by, features, where, every: As for `keysquare.summarise`.
        shard_size: About so many bytes of a file in a task; a compressed file is one task.

    Raises:
        InputError: A file that can't be opened (`cannot_open`), here or on a worker.
        ValueError, TypeError: As `keysquare.summarise`, before anything is sent.

    Whatever ends it early, KeyboardInterrupt too, also takes back the tasks that no worker has begun.
    """
    from dask.delayed import delayed

    wanted: dict[str, Any] = {
        "by": tuple(names_in(by)),
        "features": None if features is None else tuple(names_in(features)),
        "where": where,
        "every": every,
    }
    nothing = summarise_here((), progress=False, **wanted)  # a slip should not come up on another machine
    # One graph, so that the scheduler lets go of each part when it is added, and adds as soon as it can. The wishes are
    # bound to the function, since Dask treats large arguments as tasks, which it names by the argument alone.
    part = delayed(partial(_summary_of_shard, wanted), pure=False, traverse=False)
    parts = [part(shard) for shard in _shards(files, shard_size)]
    if not parts:
        return nothing
    add = delayed(sum_of, pure=False, traverse=False)
    while len(parts) > 1:
        parts = [add(parts[at : at + IN_A_SUM]) for at in range(0, len(parts), IN_A_SUM)]
    whole = client.compute(parts[0])  # type: ignore[no-untyped-call]
    try:
        result: Summary = whole.result()
        return result
    finally:
        whole.release()


def scan(
    client: Client,
    files: Source,
    *,
    features: str | Iterable[str] | None = None,
    columns: str | Iterable[str] = USUAL_COLUMNS,
    where: Where | None = None,
    every: int | range = 1,
    shard_size: int = TABLE_SHARD_SIZE,
    ahead: int = 32,
) -> Iterator[pa.Table]:
    """`keysquare.scan` on the workers of a cluster: a pyarrow table for each shard, in order. Needs pyarrow.

    For results that don't fit here, have each worker write its own file instead: `client.map(write, shards(files))`, where
    `write` calls `read_shard(shard).write_parquet(...)`. What became of the games is not told here; `summarise` with
    `features=()` tells it.

    Args:
        client: The cluster.
        files, features, columns, where, every: As for `keysquare.scan`.
        shard_size: About so many bytes of a file in a task. A compressed file is one task, and one table.
        ahead: How many shards are worked on before the first of them was taken, which bounds the memory. Fewer than
            the cluster has threads leave some of them idle.

    Raises:
        InputError: A file that can't be opened (`cannot_open`), here or, with its table, on a worker.
        ValueError, TypeError: As `keysquare.scan`.
    """
    wanted: dict[str, Any] = {
        "features": None if features is None else tuple(names_in(features)),
        "columns": tuple(names_in(columns)),
        "where": where,
        "every": every,
    }
    scan_here((), progress=False, **wanted).close()  # a slip should not come up on another machine
    return _tables(client, deque(_shards(files, shard_size)), partial(_table_of_shard, wanted), max(ahead, 1))


def _tables(
    client: Client, waiting: deque[Shard], table_of: Callable[[Shard], pa.Table], ahead: int
) -> Iterator[pa.Table]:
    running: deque[Any] = deque()
    try:
        while waiting or running:
            while waiting and len(running) < ahead:
                running.append(client.submit(table_of, waiting.popleft(), pure=False))
            yield running[0].result()
            running.popleft()
    finally:
        for future in running:
            future.release()  # even if an exception keeps this frame


def _shards(files: Source, size: int) -> list[Shard]:
    items = [files] if isinstance(files, (str, os.PathLike, Shard)) else list(files)
    return [shard for item in items for shard in ([item] if isinstance(item, Shard) else shards([item], size))]


def _summary_of_shard(wanted: dict[str, Any], shard: Shard) -> Summary:
    return summarise_here(shard, threads=1, progress=False, **wanted)


def _table_of_shard(wanted: dict[str, Any], shard: Shard) -> pa.Table:
    import pyarrow as pa

    return pa.table(read_shard(shard, **wanted))
