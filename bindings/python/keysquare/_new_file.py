"""Files that are there as a whole or not at all, whatever goes wrong meanwhile, Ctrl-C included."""

from __future__ import annotations

import os
import secrets
import signal
import stat
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType
from typing import IO


@contextmanager
def uninterrupted() -> Iterator[None]:
    """Holds SIGINT back until the block is left. For short work alone."""
    handler = signal.getsignal(signal.SIGINT)
    # Python runs handlers in the main thread and nowhere else; what is no function of Python has nothing to say there.
    if threading.current_thread() is not threading.main_thread() or not callable(handler):
        yield
        return
    waiting: list[tuple[int, FrameType | None]] = []
    signal.signal(signal.SIGINT, lambda number, frame: waiting.append((number, frame)))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, handler)
        if waiting:
            handler(*waiting[0])


@contextmanager
def new_file(target: Path) -> Iterator[IO[bytes]]:
    """A file that grows under another name in the same folder and takes the target's when the block is left without an
    exception; otherwise it goes. Who may read and write it stays as it was with the file that it replaces."""
    draft: IO[bytes] | None = None
    try:
        with uninterrupted():
            draft = open(target.parent / f".{target.name}.{secrets.token_hex(4)}", "xb")
        yield draft
        with uninterrupted():
            draft.close()
            keep_mode(target, Path(draft.name))
            os.replace(draft.name, target)
            draft = None
    finally:
        if draft:
            with uninterrupted(), suppress(OSError):
                os.unlink(draft.name)
                draft.close()  # what it still holds may not find room


def keep_mode(target: Path, draft: Path) -> None:
    """Gives the draft the permissions of the file that it will replace, if there is one."""
    if target.exists():
        os.chmod(draft, stat.S_IMODE(target.stat().st_mode))
