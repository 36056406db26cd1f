"""Times `ks.profile` and `ks.select` on games of the open data, with one thread and with two, and copying of games.

usage: time_collections.py [--games 1000] [--json FILE]

Run it with the Python of build/venv after tests/run.sh; it needs rated-one-player.pgn in KEYSQUARE_OPEN_DATA.
"""

import argparse
import itertools
import json
import os
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import keysquare as ks

FILE = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data") / "pgn/rated-one-player.pgn"
PLAYER = "player-one"


def seconds(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--games", type=int, default=1000)
    parser.add_argument("--json", type=Path, help="write the numbers to a file")
    options = parser.parse_args()
    if not FILE.exists():
        print(f"{FILE} is missing: set KEYSQUARE_OPEN_DATA", file=sys.stderr)
        return 77
    games = list(itertools.islice(ks.read_games(FILE), options.games))
    plies = sum(len(game.main_line) for game in games)
    results: dict[str, float] = {"games": len(games), "plies": plies}
    for threads in (1, 2):
        spent = seconds(lambda: ks.profile(games, PLAYER, threads=threads, progress=False))
        results[f"profile_seconds_{threads}"] = spent
        print(f"profile of {len(games)} games, {threads} threads: {spent:.1f} s, {plies / spent:.0f} plies a second")
    for threads in (1, 2):
        spent = seconds(
            lambda: ks.select(games, themes=["mutual_guards:locked"], limit=10**9, threads=threads, progress=False)
        )
        results[f"select_seconds_{threads}"] = spent
        print(f"select in {len(games)} games, {threads} threads: {spent:.1f} s, {plies / spent:.0f} positions a second")
    with tempfile.TemporaryDirectory() as folder:
        spent = seconds(lambda: ks.write_games(ks.read_games(FILE), Path(folder) / "copy.pgn.zst"))
    size = FILE.stat().st_size
    results["copy_megabytes_per_second"] = size / 1e6 / spent
    print(f"copy of {size / 1e6:.0f} MB of games into a .zst file: {spent:.1f} s, {size / 1e6 / spent:.0f} MB a second")
    for work in ("profile", "select"):
        print(f"{work}: {results[f'{work}_seconds_1'] / results[f'{work}_seconds_2']:.2f} times as fast with two threads")
    if options.json:
        options.json.write_text(json.dumps(results, indent=1) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
