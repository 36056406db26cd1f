"""The examples for Spark and Ray, run on as many processes as this machine has cores, held against one process.

Each runs in a Python of its own, as its user would start it. Skipped where the package (or Java, for Spark) is missing.
"""

import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
RESEARCH = ROOT / "examples/research"
DATA = ROOT / "examples/data"

HERE = """
import pickle, sys
import pyarrow as pa
import keysquare as ks

FILES = sys.argv[1:]
SUM = dict(by=["phase", "white_rating_band"], features=["threats", "safe_moves"], where={"rating": (1200, None)}, every=3)
ROWS = dict(features=["threats", "hanging_gain"], columns=["file", "game_offset", "ply", "ECO", "move_played"], every=2)
summary = ks.summarise(FILES, progress=False, **SUM)
rows = pa.table(ks.scan(FILES, progress=False, **ROWS))
assert summary.counts.games > 30 and len(rows) > 3000
"""

ON_SPARK = """
import on_spark
from pyspark.sql import SparkSession

spark = SparkSession.builder.master("local[2]").config("spark.ui.enabled", "false").getOrCreate()
found = on_spark.summarise(spark, FILES, 20_000, **SUM)
assert found == summary and pickle.dumps(found) == pickle.dumps(summary)
table = on_spark.scan(spark, FILES, 40_000, **ROWS).toArrow()
assert table.schema.names == rows.schema.names and table.to_pylist() == rows.to_pylist()
spark.stop()
print("equal")
"""

ON_RAY = """
import on_ray, ray

ray.init(num_cpus=2, include_dashboard=False)
found = on_ray.summarise(FILES, 5_000, **SUM)
assert found == summary and pickle.dumps(found) == pickle.dumps(summary)
for ahead in (1, 32):
    assert pa.concat_tables(on_ray.scan(FILES, 20_000, ahead, **ROWS)).equals(rows)
ray.shutdown()
print("equal")
"""


def need(package: str) -> None:
    if importlib.util.find_spec(package) is None:
        pytest.skip(f"{package} is not installed (pip install {package})")
    if package == "pyspark" and shutil.which("java") is None:
        pytest.skip("Spark needs Java, which is not installed")


def run(*arguments: str | Path) -> str:
    environment = {
        **os.environ,
        "PYTHONPATH": os.pathsep.join([str(RESEARCH), *filter(None, [os.environ.get("PYTHONPATH")])]),
        "PYSPARK_PYTHON": sys.executable,
        "SPARK_LOCAL_IP": "127.0.0.1",
        "RAY_USAGE_STATS_ENABLED": "0",
    }
    done = subprocess.run([sys.executable, *map(str, arguments)], env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-5000:]
    return done.stdout


@pytest.mark.parametrize(("package", "program"), [("pyspark", ON_SPARK), ("ray", ON_RAY)])
def test_results_are_those_of_one_process(package: str, program: str) -> None:
    need(package)
    assert run("-c", HERE + program, DATA / "season.pgn", DATA / "club.pgn").endswith("equal\n")


@pytest.mark.parametrize(("package", "name"), [("pyspark", "on_spark.py"), ("ray", "on_ray.py")])
def test_the_example_as_a_program(package: str, name: str, tmp_path: Path) -> None:
    need(package)
    import pyarrow.parquet

    import keysquare as ks

    club = DATA / "club.pgn"
    printed = run(RESEARCH / name, club, "-o", tmp_path / "rows")
    assert str(ks.summarise(club, by="phase", progress=False)) in printed
    assert pyarrow.parquet.read_table(tmp_path / "rows").to_pylist() == pyarrow.table(
        ks.scan(club, progress=False)
    ).to_pylist()
