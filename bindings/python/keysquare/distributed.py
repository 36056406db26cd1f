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

from collections import deque
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from keysquare._scan import USUAL_COLUMNS, read_shard
from keysquare._row_filter import RowFilter, Where
from keysquare._shards import FileNames, Shard, shards
from keysquare._summary import Summary, sum_of
from keysquare._summary import summarise as summarise_here

if TYPE_CHECKING:
    import pyarrow as pa
    from dask.distributed import Client

SHARD_SIZE = 64 << 20
"""Bytes of a shard: some seconds of work, so that neither handing it out nor losing it costs much."""

IN_A_SUM = 16
"""Summaries that one task adds, so that no machine has to hold all of them."""


def summarise(
    client: Client,
    files: FileNames | Iterable[Shard],
    *,
    by: str | Iterable[str] = (),
    features: Iterable[str] | None = None,
    where: Where | None = None,
    every: int | range = 1,
    shard_size: int = SHARD_SIZE,
) -> Summary:
    """`keysquare.summarise` on the workers of a cluster. Equal to it, to the bit.

    Summaries are added on the workers too, so that only the last one comes here.

    Args:
        client: The cluster. One thread a worker is best; each task uses one.
        files: As for `keysquare.shards`, or shards.
        by, features, where, every: As for `keysquare.summarise`.
        shard_size: About so many bytes of a file in a task; a compressed file is one task.

    Raises:
        InputError: A file that can't be opened here (`cannot_open`).
        ValueError, TypeError: As `keysquare.summarise`, and ValueError when there is no shard.
    """
    wanted: dict[str, Any] = {
        "by": by if isinstance(by, str) else tuple(by),
        "features": None if features is None else tuple(features),
        "where": where,
        "every": every,
    }
    parts = client.map(_summary_of_shard, _shards(files, shard_size), pure=False, **wanted)
    if not parts:
        raise ValueError("there is no shard to read")
    while len(parts) > 1:
        groups = [parts[at : at + IN_A_SUM] for at in range(0, len(parts), IN_A_SUM)]
        parts = [client.submit(sum_of, group, pure=False) for group in groups]
    result: Summary = parts[0].result()
    return result


def scan(
    client: Client,
    files: FileNames | Iterable[Shard],
    *,
    features: Iterable[str] | None = None,
    columns: Iterable[str] = USUAL_COLUMNS,
    where: Where | None = None,
    every: int | range = 1,
    shard_size: int = SHARD_SIZE,
    ahead: int = 32,
) -> Iterator[pa.Table]:
    """`keysquare.scan` on the workers of a cluster: a pyarrow table for each shard, in order. Needs pyarrow.

    For results that don't fit here, have each worker write its own file instead: `client.map(write, shards(files))`, where
    `write` calls `read_shard(shard).write_parquet(...)`.

    Args:
        client: The cluster.
        files, features, columns, where, every: As for `keysquare.scan`; files may be shards.
        shard_size: About so many bytes of a file in a task.
        ahead: How many shards are worked on before the first of them was taken, which bounds the memory.

    Raises:
        InputError: A file that can't be opened here (`cannot_open`).
        ValueError, TypeError: As `keysquare.scan`, when the first table is asked for.
    """
    RowFilter.of(where, every)  # a slip should not come up on another machine
    wanted: dict[str, Any] = {
        "features": None if features is None else tuple(features),
        "columns": tuple(columns),
        "where": where,
        "every": every,
    }
    return _tables(client, deque(_shards(files, shard_size)), wanted, ahead)


def _tables(client: Client, waiting: deque[Shard], wanted: dict[str, Any], ahead: int) -> Iterator[pa.Table]:
    running: deque[Any] = deque()
    while waiting or running:
        while waiting and len(running) < max(ahead, 1):
            running.append(client.submit(_table_of_shard, waiting.popleft(), pure=False, **wanted))
        yield running.popleft().result()


def _shards(files: FileNames | Iterable[Shard], size: int) -> list[Shard]:
    if isinstance(files, Shard):
        return [files]
    if isinstance(files, Iterable) and not isinstance(files, str):
        items = list(files)
        if items and all(isinstance(item, Shard) for item in items):
            return items
        return shards(items, size)
    return shards(files, size)


def _summary_of_shard(shard: Shard, **wanted: Any) -> Summary:
    return summarise_here(shard, threads=1, progress=False, **wanted)


def _table_of_shard(shard: Shard, **wanted: Any) -> pa.Table:
    import pyarrow as pa

    return pa.table(read_shard(shard, **wanted))
