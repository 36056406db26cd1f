"""Files written as a whole or not at all."""

from __future__ import annotations

import errno
import os
import re
import tempfile
from collections.abc import Mapping
from pathlib import Path

from keysquare._new_file import keep_mode, uninterrupted

_PICTURE = re.compile(r"diagram-\d\d+\.svg")


def write_files(path: Path, text: str, folder: Path | None = None, pictures: Mapping[str, str] | None = None) -> None:
    """Writes a text, and before it the pictures that it shows into a folder.

    Everything is written beside its place first and then renamed, so that each file is whole, and nothing is renamed
    before everything can be. Pictures of an earlier study in the same folder go, other files stay. Ctrl-C is heard when
    all is done. Raises OSError.
    """
    place = path.resolve()  # a link is followed, not replaced
    _require_room_for_file(path)
    if folder:
        for name in pictures or {}:
            _require_room_for_file(folder / name)
    try:
        with uninterrupted(), tempfile.TemporaryDirectory(dir=place.parent, prefix=".study-") as work:
            _move(place, text, folder, pictures or {}, Path(work))
    except OSError as error:
        # Nobody knows the names of our drafts: the file that was asked for is what can't be written.
        blamed = folder if folder and error.filename == str(folder) else path
        raise OSError(error.errno, error.strerror, str(blamed)) from error


def _move(path: Path, text: str, folder: Path | None, pictures: Mapping[str, str], work: Path) -> None:
    drafts = {path: _write(work / "text", text)}
    if folder:
        pictured = {folder / name: _write(work / name, picture) for name, picture in pictures.items()}
        drafts = {**pictured, **drafts}
        folder.mkdir(exist_ok=True)
    for place, draft in drafts.items():
        keep_mode(place, draft)
        os.replace(draft, place)
    for old in folder.iterdir() if folder else ():
        if _PICTURE.fullmatch(old.name) and old not in drafts:
            old.unlink()


def _require_room_for_file(path: Path) -> None:
    if path.exists() and not path.is_file():
        raise OSError(errno.EISDIR if path.is_dir() else errno.EINVAL, "there is something else of that name", str(path))


def _write(path: Path, text: str) -> Path:
    # Lone surrogates come from texts that were read leniently; no file can hold them.
    path.write_bytes(text.encode("utf-8", errors="replace"))
    return path
