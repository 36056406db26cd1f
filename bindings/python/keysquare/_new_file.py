"""Files that are there as a whole or not at all, whatever goes wrong meanwhile, Ctrl-C included."""

from __future__ import annotations

import os
import secrets
import signal
import stat
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
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


def write_new_file(target: Path, write: Callable[[IO[bytes]], None]) -> None:
    """Lets `write` fill a file that grows under another name in the same folder and takes the target's when all is
    written; otherwise it goes. Who may read and write it stays as it was with the file that it replaces.

    No context manager: the KeyboardInterrupt that Python raises as `__exit__` begins would leave the draft behind, and
    so would one as `__enter__` ends, for as long as somebody looks at it."""
    draft: IO[bytes] | None = None
    try:
        with uninterrupted():
            draft = open(target.parent / f".{target.name}.{secrets.token_hex(4)}", "xb")
        write(draft)
        with uninterrupted():
            draft.close()
            keep_mode(target, Path(draft.name))
            os.replace(draft.name, target)
            draft = None
    finally:
        if draft:
            # Functions of C at once: from Python 3.11 on no second Ctrl-C is heard before them.
            try:
                try:
                    draft.close()  # what it still holds may not find room
                finally:
                    os.unlink(draft.name)
            except OSError:
                pass


def keep_mode(target: Path, draft: Path) -> None:
    """Gives the draft the permissions of the file that it will replace, if there is one."""
    if target.exists():
        os.chmod(draft, stat.S_IMODE(target.stat().st_mode))
