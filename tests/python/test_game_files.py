"""Game files from Python: compressed ones, several in a row, writing, damage, and counts that add up.

The outside: Python's gzip and bz2 modules and the package zstandard pack and unpack the same files.
"""

import bz2
import gzip
import io
import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import zstandard

import keysquare as ks

SUFFIXES = [".gz", ".bz2", ".zst"]


def pack(text: bytes, suffix: str) -> bytes:
    packers: dict[str, Callable[[bytes], bytes]] = {
        ".gz": gzip.compress,
        ".bz2": bz2.compress,
        ".zst": zstandard.ZstdCompressor(write_checksum=True).compress,
    }
    return packers[suffix](text)


def unpack(data: bytes, suffix: str) -> bytes:
    if suffix == ".gz":
        return gzip.decompress(data)
    if suffix == ".bz2":
        return bz2.decompress(data)
    return zstandard.ZstdDecompressor().stream_reader(io.BytesIO(data), read_across_frames=True).read()


def club_games(count: int) -> list[ks.Game]:
    games = []
    for number in range(count):
        game = ks.Game()
        game.set_tag("Event", f"Lantern Chess Club, evening {number}")
        game.set_tag("White", "Vastin, Joren")
        game.root.add_line("e4 e5 Nf3 Nc6 Bb5 a6").add_comment(f"board {number * 7919 % 1000}")
        games.append(game)
    return games


@pytest.mark.parametrize("suffix", ["", *SUFFIXES])
def test_written_games_come_back(tmp_path: Path, suffix: str) -> None:
    games = club_games(300)
    path = tmp_path / f"club.pgn{suffix}"
    assert ks.write_games(iter(games), path) == 300
    assert list(tmp_path.iterdir()) == [path]
    reader = ks.read_games(path)
    assert list(reader) == games and reader.counts == ks.ReadingCounts(300, 0, 0)
    text = path.read_bytes() if not suffix else unpack(path.read_bytes(), suffix)
    assert text.decode() == "".join(game.pgn() for game in games)
    assert ks.write_games([], path) == 0 and list(ks.read_games(path)) == []


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_what_others_packed_is_read(tmp_path: Path, suffix: str) -> None:
    games = club_games(40)
    halves = ["".join(game.pgn() for game in half).encode() for half in (games[:20], games[20:])]
    path = tmp_path / "club.pgn"  # the first bytes tell, whatever the name
    path.write_bytes(pack(halves[0], suffix) + pack(b"", suffix) + pack(halves[1], suffix))
    assert list(ks.read_games(path)) == games
    assert list(ks.read_games(io.BytesIO(path.read_bytes()))) == games
    assert list(ks.read_games([path, path])) == games * 2


def test_skippable_frames_and_frames_without_a_size() -> None:
    games = club_games(20)
    text = "".join(game.pgn() for game in games).encode()
    streamed = zstandard.ZstdCompressor(write_content_size=False).compressobj()
    frame = streamed.compress(text) + streamed.flush()
    skippable = b"\x5e\x2a\x4d\x18" + (5).to_bytes(4, "little") + b"sizes"  # RFC 8878, 3.1.2
    assert list(ks.read_games(io.BytesIO(skippable + frame + skippable))) == games


def test_long_windows_are_refused_up_to_a_bound() -> None:
    text = "".join(game.pgn() for game in club_games(20)).encode()
    for log, reason in ((27, None), (28, "window_too_large")):
        parameters = zstandard.ZstdCompressionParameters(window_log=log, write_content_size=False)
        streamed = zstandard.ZstdCompressor(compression_params=parameters).compressobj()
        reader = ks.read_games(io.BytesIO(streamed.compress(text) + streamed.flush()))
        assert len(list(reader)) == (0 if reason else 20)
        assert [refused.reason for refused in reader.refused] == ([reason] if reason else [])


@pytest.mark.parametrize("suffix", SUFFIXES)
@pytest.mark.parametrize("on_error", ["skip", "keep", "raise"])
def test_a_file_that_breaks_off_is_told_and_the_counts_add_up(tmp_path: Path, suffix: str, on_error: str) -> None:
    whole = pack("".join(game.pgn() for game in club_games(2000)).encode(), suffix)
    path, other = tmp_path / f"cut.pgn{suffix}", tmp_path / "whole.pgn"
    ks.write_games(club_games(3), other)
    chance = random.Random(7)
    for size in [1, 2, 3, 5, 9, 17, len(whole) - 1, *(chance.randrange(len(whole)) for _ in range(20))]:
        path.write_bytes(whole[:size])
        reader = ks.read_games([other, path, other], on_error=on_error)  # type: ignore[arg-type]
        given, raised = [], []
        while True:
            try:
                given.append(next(reader))
            except ks.InputError as error:
                raised.append(error)
            except StopIteration:
                break
        assert reader.counts.read == len(given) >= 6 and reader.counts.refused == len(reader.refused)
        assert [game.file for game in given[:3] + given[-3:]] == [str(other)] * 6
        errors = [refused.error for refused in reader.refused] + [n for game in given for n in game.notices]
        assert len(errors) == 1 and errors[0].reason in ("truncated_file", "bad_compression")
        assert errors[0].file == str(path) and str(path) in str(errors[0])
        assert raised == [] or (on_error == "raise" and raised[0].args == errors[0].args)
        assert (on_error == "raise") == bool(raised)


@pytest.mark.parametrize("suffix", SUFFIXES)
def test_flipped_bytes_never_lose_a_game_in_silence(suffix: str) -> None:
    games = club_games(300)
    whole = pack("".join(game.pgn() for game in games).encode(), suffix)
    chance = random.Random(11)
    told = 0
    for _ in range(200):
        damaged = bytearray(whole)
        damaged[chance.randrange(len(whole))] ^= chance.randrange(1, 256)
        try:
            reader = ks.read_games(io.BytesIO(damaged))
            read = list(reader)
        except ks.InputError:
            told += 1
            continue
        told += bool(reader.refused)
        assert reader.refused or read == games
        assert reader.counts.read + reader.counts.refused == len(read) + len(reader.refused)
    assert told > 150


def test_errors_of_several_files_name_the_file_and_the_place_in_its_text(tmp_path: Path) -> None:
    text = b'\xef\xbb\xbf[Event "R\xfcckspiel"]\r\n\r\n1. e4 e5 1-0\r\n\r\n[Event "x"]\r\n\r\n1. e4 Ke4 *\r\n'
    paths = []
    for suffix in ["", *SUFFIXES]:
        paths.append(tmp_path / f"old.pgn{suffix}")
        paths[-1].write_bytes(pack(text, suffix) if suffix else text)
    reader = ks.read_games(tuple(paths))
    assert [(game.file, game.number, game.offset) for game in reader] == [(str(path), 1, 3) for path in paths]
    assert reader.counts == ks.ReadingCounts(4, 4, 0)
    for path, refused in zip(paths, reader.refused, strict=True):
        error = refused.error
        assert (error.file, error.game, error.line, error.column) == (str(path), 2, 7, 7)
        assert text[error.offset :].startswith(b"Ke4 *") and refused.number == 2
    assert ks.game_from_text(text[3:].decode("latin-1")).file == ""


def test_a_list_is_checked_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "a.pgn"
    ks.write_games(club_games(1), path)
    with pytest.raises(ks.InputError) as caught:
        ks.read_games([path, tmp_path / "missing.pgn"])
    assert caught.value.reason == "cannot_open" and caught.value.file.endswith("missing.pgn")
    assert list(ks.read_games([])) == []
    with pytest.raises(TypeError):
        ks.read_games([path, 3])  # type: ignore[list-item]
    reader = ks.read_games([path, tmp_path, path])  # a folder is there but can't be read
    assert len(list(reader)) == 2 and reader.counts == ks.ReadingCounts(2, 1, 0)
    assert (reader.refused[0].number, reader.refused[0].reason) == (0, "cannot_open")
    empty = tmp_path / "empty.pgn.gz"
    empty.write_bytes(b"")
    with pytest.raises(ks.InputError) as caught:
        ks.read_games(empty)
    assert caught.value.reason == "truncated_file"


def test_a_failed_writing_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "club.pgn.zst"
    ks.write_games(club_games(2), path)

    def breaking() -> Iterator[ks.Game]:
        yield from club_games(500)
        raise RuntimeError("the cellar is flooded")

    with pytest.raises(RuntimeError, match="flooded"):
        ks.write_games(breaking(), path)
    with pytest.raises(TypeError):
        ks.write_games([ks.Game(), "a game"], path)  # type: ignore[list-item]
    with pytest.raises(TypeError):
        ks.write_games(ks.Game(), path)  # type: ignore[arg-type]
    assert list(ks.read_games(path)) == club_games(2) and list(tmp_path.iterdir()) == [path]
    for place in (tmp_path, tmp_path / "missing" / "club.pgn"):
        with pytest.raises(ks.InputError) as caught:
            ks.write_games([], place)
        assert caught.value.reason == "cannot_write" and caught.value.file == str(place) and caught.value.token


def test_games_can_be_written_over_the_file_that_they_are_read_from(tmp_path: Path) -> None:
    path = tmp_path / "club.pgn.gz"
    ks.write_games(club_games(50), path)
    assert ks.write_games((game for game in ks.read_games(path) if game.number % 2), path) == 25
    assert list(ks.read_games(path)) == club_games(50)[::2]


FULL_DISK = """
import resource, signal, sys
import keysquare as ks
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
game = ks.Game()
game.root.add_line("e4 e5")
try:
    ks.write_games((game for _ in range(10_000)), sys.argv[1])
except ks.InputError as error:
    print(error.reason, "|", error.token)
"""


def test_a_disk_that_takes_no_more_is_a_clear_error(tmp_path: Path) -> None:
    if sys.platform == "win32":
        pytest.skip("file size limits are POSIX")
    for name in ("club.pgn", "club.pgn.bz2"):
        run = subprocess.run(
            [sys.executable, "-c", FULL_DISK, str(tmp_path / name)], capture_output=True, text=True, check=True
        )
        if name == "club.pgn":  # packed, the games fit
            assert run.stdout.startswith("cannot_write | ") and len(run.stdout) > 20
            assert list(tmp_path.iterdir()) == []
    assert [path.name for path in tmp_path.iterdir()] == ["club.pgn.bz2"]
