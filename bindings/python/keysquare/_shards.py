"""Shards: parts of game files that can be read anywhere, and how files are named."""

from __future__ import annotations

import glob
import os
import stat
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Union

from keysquare import _core

FileNames = Union[str, "os.PathLike[str]", Iterable[Union[str, "os.PathLike[str]"]]]
"""A path, a pattern such as "games/*.pgn", or an iterable of these."""


@dataclass(frozen=True)
class Shard:
    """The games of a file that begin in a range of its bytes. Pickles, and can be read wherever the file can.

    Where just it is cut follows from the text alone, so that the shards of a file give all of its games, each of them
    once, whoever reads them.
    """

    file: str
    """The name of the file."""
    begin: int = 0
    """The first byte."""
    end: int | None = None
    """The byte after the last one; None for the end of the file."""

    def __post_init__(self) -> None:
        if self.begin < 0 or (self.end is not None and self.end < self.begin):
            raise ValueError("a shard begins at byte 0 or later, and ends after it begins")

    @property
    def parts(self) -> tuple[str, int, int | None]:
        """File, begin and end."""
        return self.file, self.begin, self.end


Source = Union[FileNames, Shard, Iterable[Shard]]


def shards(files: FileNames, size: int = 64 << 20) -> list[Shard]:
    """Shards that cover the files, in the order of the files and in them.

    Args:
        files: A path, a pattern such as "games/*.pgn" (its files in the order of their names), or an iterable of these.
        size: About so many bytes in a shard. A compressed file is one shard, as it can't be entered in the middle.

    Raises:
        InputError: A file that can't be opened (`cannot_open`), or a pattern that no file fits.
        ValueError: A size below 1.

    >>> import tempfile, pathlib
    >>> folder = pathlib.Path(tempfile.mkdtemp())
    >>> _ = (folder / "a.pgn").write_text('[White "Ines Pellerow"]\\n\\n1. e4 e5 *\\n\\n' * 100)
    >>> [(shard.begin, shard.end) for shard in shards(folder / "a.pgn", size=2000)]
    [(0, 2000), (2000, None)]
    """
    if size < 1:
        raise ValueError("a shard has at least one byte")
    return [Shard(*parts) for parts in _core.shards(_paths(files), size)]


def shard_parts(source: Source) -> list[tuple[str, int, int | None]]:
    """Of files or of shards, which may stand together in one iterable.

    Raises InputError for what can't be opened: a shard may have come to a machine that lacks its file.
    """
    if isinstance(source, (str, os.PathLike)):
        source = [source]
    if isinstance(source, Shard):
        source = [source]
    parts: list[tuple[str, int, int | None]] = []
    for item in source:
        if isinstance(item, Shard):
            parts.append(item.parts)
        else:
            parts += [(os.fspath(path), 0, None) for path in _paths(item)]
    for file in dict.fromkeys(part[0] for part in parts):
        _check_opens(file)
    return parts


def _paths(files: FileNames) -> list[str]:
    """The files that are named, in order."""
    if isinstance(files, (str, os.PathLike)):
        files = [files]
    paths: list[str] = []
    for item in files:
        if not isinstance(item, (str, os.PathLike)):
            raise TypeError(f"paths of files and patterns are wanted, not {type(item).__name__}")
        name = os.fspath(item)
        found = sorted(glob.glob(name, recursive=True)) if glob.has_magic(name) and not os.path.exists(name) else []
        paths += found or [name]
    return paths


def _check_opens(path: str) -> None:
    """Raises InputError if it does not: a slip in a list should not come up after an hour."""
    if os.path.exists(path) and stat.S_ISFIFO(os.stat(path).st_mode):
        raise ValueError(f"{path} is a pipe, which can't be opened again and again; read_games reads it")
    _core.read_games([path]).close()
