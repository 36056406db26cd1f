"""Scans and summaries of game files on Apache Spark, with nothing but `shards`, `read_shard`, `summarise` and `+`.

usage: on_spark.py GAMES.pgn... -o ROWS

Writes a row for each position to the folder ROWS, as Parquet, and prints what White scored by the phase of the game.
Needs pyspark and pyarrow here, and keysquare and pyarrow on every machine; the files must lie where each of them finds
them under the same name. `spark-submit` says where the cluster is.
"""

import argparse
from collections.abc import Iterator
from operator import add
from typing import Any

import pyarrow as pa
from pyspark.sql import DataFrame, SparkSession
from pyspark.sql.pandas.types import from_arrow_schema

import keysquare as ks


def scan(spark: SparkSession, files: str | list[str], size: int = 4 << 20, **wanted: Any) -> DataFrame:
    """The rows of `keysquare.scan(files, **wanted)` as a data frame with a partition for each shard, in order."""
    cut = ks.shards(files, size)
    if not cut:
        raise ValueError("no files are named")

    def rows(batches: Iterator[pa.RecordBatch]) -> Iterator[pa.RecordBatch]:
        for batch in batches:
            for shard in batch.to_pylist():
                yield from map(pa.record_batch, ks.read_shard(ks.Shard(**shard), **wanted))

    named = spark.sparkContext.parallelize([shard.parts for shard in cut], len(cut))
    frame = spark.createDataFrame(named, "file string, begin long, end long")
    return frame.mapInArrow(rows, from_arrow_schema(pa.schema(ks.read_shard(cut[0], **wanted))))


def summarise(spark: SparkSession, files: str | list[str], size: int = 64 << 20, **wanted: Any) -> ks.Summary:
    """`keysquare.summarise(files, **wanted)`, equal to the bit: summaries are added on the machines that made them."""
    cut = ks.shards(files, size)
    parts = spark.sparkContext.parallelize(cut, len(cut)).map(
        lambda shard: ks.summarise(shard, threads=1, progress=False, **wanted)
    )
    return parts.treeReduce(add)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("games", nargs="+")
    parser.add_argument("-o", "--output", required=True)
    given = parser.parse_args()
    spark = SparkSession.builder.appName("positions of games").getOrCreate()
    scan(spark, given.games).write.parquet(given.output)
    print(summarise(spark, given.games, by="phase"))
    spark.stop()


if __name__ == "__main__":
    main()
