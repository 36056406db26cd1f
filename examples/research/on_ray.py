"""Scans and summaries of game files on Ray, with nothing but `shards`, `read_shard`, `summarise` and `+`.

usage: on_ray.py GAMES.pgn... -o ROWS.parquet

Writes a row for each position to ROWS.parquet and prints what White scored by the phase of the game. Needs ray and pyarrow
here and keysquare on every machine, too; the files must lie where each of them finds them under the same name. The
variable RAY_ADDRESS says where the cluster is; without it the cores of this machine are used.
"""

import argparse
from collections import deque
from collections.abc import Iterator
from functools import reduce
from itertools import chain, islice
from operator import add
from typing import Any

import pyarrow as pa
import ray
from pyarrow import parquet

import keysquare as ks


@ray.remote
def table_of(shard: ks.Shard, wanted: dict[str, Any]) -> pa.Table:
    return pa.table(ks.read_shard(shard, **wanted))


@ray.remote
def summary_of(shard: ks.Shard, wanted: dict[str, Any]) -> ks.Summary:
    return ks.summarise(shard, threads=1, progress=False, **wanted)


@ray.remote
def sum_of(*summaries: ks.Summary) -> ks.Summary:
    return reduce(add, summaries)


def scan(files: str | list[str], size: int = 4 << 20, ahead: int = 32, **wanted: Any) -> Iterator[pa.Table]:
    """The rows of `keysquare.scan(files, **wanted)`: a table for each shard, in order. Up to `ahead` are made at a time."""
    waiting = iter(ks.shards(files, size))
    running = deque(table_of.remote(shard, wanted) for shard in islice(waiting, ahead))
    while running:
        yield ray.get(running.popleft())
        running.extend(table_of.remote(shard, wanted) for shard in islice(waiting, 1))


def summarise(files: str | list[str], size: int = 64 << 20, **wanted: Any) -> ks.Summary:
    """`keysquare.summarise(files, **wanted)`, equal to the bit: summaries are added on the machines of the cluster."""
    parts = [summary_of.remote(shard, wanted) for shard in ks.shards(files, size)]
    if not parts:
        raise ValueError("no files are named")
    while len(parts) > 1:
        parts = [sum_of.remote(*parts[at : at + 16]) for at in range(0, len(parts), 16)]
    return ray.get(parts[0])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("games", nargs="+")
    parser.add_argument("-o", "--output", required=True)
    given = parser.parse_args()
    ray.init()
    tables = scan(given.games)
    first = next(tables)
    with parquet.ParquetWriter(given.output, first.schema) as writer:
        for table in chain([first], tables):
            writer.write_table(table)
    print(summarise(given.games, by="phase"))
    ray.shutdown()


if __name__ == "__main__":
    main()
