"""Times `ks.scan` on a large file and measures its memory: all static columns, with one thread and with several.

usage: time_scan.py [--gigabytes 5] [--threads 1 2] [--every 1] [--compress] [--folder FOLDER] [--json FILE]

The file is made of the tournament games of KEYSQUARE_OPEN_DATA, again and again, and removed at the end. Each scan runs in
a process of its own, whose peak of memory is what the system says it was.
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import keysquare as ks

SOURCE = Path(os.environ.get("KEYSQUARE_OPEN_DATA") or "../shared/data") / "pgn/masters.pgn"

ONE_SCAN = """
import json, resource, sys, time
import keysquare as ks
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
begun = time.perf_counter()
scan = ks.scan(sys.argv[1], threads=int(sys.argv[2]), every=int(sys.argv[3]), progress=False)
rows = sum(len(batch) for batch in scan)
spent = time.perf_counter() - begun
used = resource.getrusage(resource.RUSAGE_SELF)
print(json.dumps({"positions": rows, "games": scan.counts.games, "refused": scan.counts.refused, "seconds": spent,
                  "processor_seconds": used.ru_utime + used.ru_stime, "peak_mb": used.ru_maxrss / 1024,
                  "peak_before_mb": before / 1024}))
"""


def made_file(path: Path, gigabytes: float) -> None:
    text = SOURCE.read_bytes()
    with path.open("wb") as file:
        while file.tell() < gigabytes * 1e9:
            file.write(text)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--gigabytes", type=float, default=5)
    parser.add_argument("--threads", type=int, nargs="+", default=[1, 2])
    parser.add_argument("--every", type=int, default=1, help="every so many plies")
    parser.add_argument("--compress", action="store_true", help="a .zst file of one frame")
    parser.add_argument("--folder", type=Path, help="where there is room for the file")
    parser.add_argument("--json", type=Path, help="write the numbers to a file")
    options = parser.parse_args()
    if not SOURCE.exists():
        print(f"{SOURCE} is missing: set KEYSQUARE_OPEN_DATA", file=sys.stderr)
        return 77
    results = []
    with tempfile.TemporaryDirectory(dir=options.folder) as folder:
        path = Path(folder) / "games.pgn"
        made_file(path, options.gigabytes)
        size = path.stat().st_size
        if options.compress:
            begun = time.perf_counter()
            subprocess.run(["zstd", "-q", "--rm", str(path)], check=True)
            path = path.with_suffix(".pgn.zst")
            print(f"compressed to {path.stat().st_size / 1e9:.2f} GB in {time.perf_counter() - begun:.0f} s")
        for threads in options.threads:
            done = subprocess.run(
                [sys.executable, "-c", ONE_SCAN, str(path), str(threads), str(options.every)],
                check=True,
                capture_output=True,
                text=True,
            )
            result = {"threads": threads, "bytes": size, **json.loads(done.stdout)}
            results.append(result)
            print(
                f"{threads} threads: {size / 1e9:.2f} GB, {result['games']:,} games, {result['positions']:,} positions in "
                f"{result['seconds']:.1f} s: {result['positions'] / result['seconds']:,.0f} a second, "
                f"{size / 1e6 / result['seconds']:.0f} MB/s; peak of memory {result['peak_mb']:.0f} MB "
                f"({result['peak_before_mb']:.0f} MB before the scan); processor time {result['processor_seconds']:.1f} s"
            )
    for result in results[1:]:
        ratio = results[0]["seconds"] / result["seconds"]
        print(f"{result['threads']} threads are {ratio:.2f} times as fast as {results[0]['threads']}")
    print(f"schema version {ks.feature_schema().version}, {len(ks.feature_schema())} columns of the vector")
    if options.json:
        options.json.write_text(json.dumps(results, indent=1) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
