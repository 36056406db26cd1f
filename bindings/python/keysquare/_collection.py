"""Collections of games: files and games in memory gone through alike, on several threads, with a progress bar."""

from __future__ import annotations

import glob
import os
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar, Union

from keysquare import _core
from keysquare._bar import Bar
from keysquare._core import Game

Files = Union[str, "os.PathLike[str]", Iterable[Union[str, "os.PathLike[str]", Game]]]
"""A path, a pattern such as "games/*.pgn", or an iterable of paths, patterns and games."""

AHEAD = 16
"""Games that are read before the first of them is done. A constant, so that counts don't depend on the threads."""

_T = TypeVar("_T")


@dataclass
class ReadSoFar:
    """How many games were read and refused."""

    read: int = 0
    refused: int = 0


@dataclass(frozen=True)
class Collection:
    """Games that can be gone through again and again. Files are read anew each time and need memory for one game."""

    sources: tuple[Path | Game, ...]
    counts: ReadSoFar = field(default_factory=ReadSoFar)
    """Of the latest time through."""

    @classmethod
    def of(cls, files: Files) -> Collection:
        """Raises InputError (`cannot_open`) where a name or a pattern fits no file, TypeError for what is no file."""
        if isinstance(files, (str, os.PathLike)):
            files = [files]
        sources: list[Path | Game] = []
        for item in files:
            sources += [item] if isinstance(item, Game) else _paths(os.fspath(item))
        return cls(tuple(sources))

    def __iter__(self) -> Iterator[Game]:
        self.counts.read = self.counts.refused = 0
        for source in self.sources:
            if isinstance(source, Game):
                self.counts.read += 1
                yield source
                continue
            refused = self.counts.refused
            with _core.read_games(source) as reader:
                for game in reader:
                    self.counts.read += 1
                    self.counts.refused = refused + reader.counts.refused
                    yield game
                self.counts.refused = refused + reader.counts.refused

    def bytes(self) -> int | None:
        """How long the files are together; None when they are not all plain text on disc."""
        paths = [source for source in self.sources if isinstance(source, Path)]
        if len(paths) < len(self.sources) or any(path.suffix != ".pgn" for path in paths):
            return None
        return sum(path.stat().st_size for path in paths)


def _paths(name: str) -> list[Path | Game]:
    """A pattern stands for the files that it fits, in the order of their names. A file may be called like a pattern."""
    if os.path.exists(name) or not glob.has_magic(name):
        _core.read_games(name).close()  # says at once what is wrong with it
        return [Path(name)]
    names = sorted(glob.glob(name, recursive=True))
    if not names:
        _core.read_games(name)  # there is no such file, and its error says so
    return [Path(each) for each in names]


class Progress:
    """A bar on stderr that follows the games of a collection: by bytes where it can, otherwise by games."""

    def __init__(self, collection: Collection, what: str, shown: bool) -> None:
        self._bytes = collection.bytes() is not None
        self._last = -1
        total = collection.bytes() if self._bytes else None
        if not self._bytes and all(isinstance(source, Game) for source in collection.sources):
            total = len(collection.sources)
        self._bar = Bar(shown, what, "B" if self._bytes else " games", total, scaled=self._bytes)

    def game(self, game: Game) -> None:
        """Says that the game was worked on."""
        if not self._bytes:
            self._bar.advance()
            return
        if game.offset < self._last:  # the next file
            self._last = -1
        self._bar.advance(max(game.offset - max(self._last, 0), 0))
        self._last = game.offset

    def end(self) -> None:
        """Says that all games were worked on."""
        self._bar.fill()

    def note(self, text: str) -> None:
        """Shows a few words beside the bar."""
        self._bar.note(text)

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *_: object) -> None:
        self._bar.close()


def in_order(games: Iterable[Game], work: Callable[[Game], _T], threads: int) -> Generator[tuple[Game, _T], None, None]:
    """Each game with what `work` makes of it, in the order of the games, a few games ahead on several threads.

    `work` should let go of the GIL. When the caller stops early or is interrupted, only what has begun is finished.
    """
    if threads < 1:
        raise ValueError("at least one thread is needed")
    ahead: deque[tuple[Game, Future[_T]]] = deque()
    pool = ThreadPoolExecutor(threads, thread_name_prefix="keysquare")
    try:
        for game in games:
            ahead.append((game, pool.submit(work, game)))
            if len(ahead) > AHEAD:
                first, done = ahead.popleft()
                yield first, done.result()
        while ahead:
            first, done = ahead.popleft()
            yield first, done.result()
    finally:
        pool.shutdown(wait=True, cancel_futures=True)
