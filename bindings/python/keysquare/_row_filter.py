"""Which games and which of their positions a scan looks at: `where` and `every`, in the form that the library takes."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Union

Where = Mapping[str, Any]
TagCondition = tuple[str, list[str], Union[str, None], Union[str, None]]
RatingCondition = tuple[str, Union[int, None], Union[int, None]]

RATINGS = {"rating": "both", "white_rating": "white", "black_rating": "black"}


@dataclass(frozen=True)
class RowFilter:
    """Conditions on tags and plies, checked."""

    tags: list[TagCondition] = field(default_factory=list)
    ratings: list[RatingCondition] = field(default_factory=list)
    plies: tuple[int, int | None, int] = (0, None, 1)
    """The first, the last or None, and the step."""

    @classmethod
    def of(cls, where: Where | None, every: int | range) -> RowFilter:
        """Raises TypeError and ValueError for what is no condition."""
        if where is not None and not isinstance(where, Mapping):
            raise TypeError('where is a mapping such as {"rating": (1000, 1400)}: no Python runs while games are read')
        made = cls(plies=_plies(every))
        for name, wanted in (where or {}).items():
            if not isinstance(name, str):
                raise TypeError("where is a mapping from names")
            if name in RATINGS:
                made.ratings.append((RATINGS[name], *_bounds(name, wanted, int)))
            elif "A" <= name[:1] <= "Z":
                made.tags.append(_tag_condition(name, wanted))
            else:
                raise ValueError(
                    f'where knows "rating", "white_rating", "black_rating" and tags by their names, not {name!r}'
                )
        return made


def _tag_condition(name: str, wanted: Any) -> TagCondition:
    if isinstance(wanted, str):
        return name, [wanted], None, None
    if isinstance(wanted, tuple):
        return name, [], *_bounds(name, wanted, str)
    if isinstance(wanted, Collection) and wanted and all(isinstance(value, str) for value in wanted):
        return name, sorted(wanted), None, None
    raise TypeError(f"{name}: a text, a list or set of texts, or a tuple of the first and last text is wanted")


def _bounds(name: str, wanted: Any, kind: type) -> tuple[Any, Any]:
    if not isinstance(wanted, tuple) or len(wanted) != 2:
        raise TypeError(f"{name}: a tuple of the least and the greatest is wanted, None for no bound")
    if any(bound is not None and not isinstance(bound, kind) for bound in wanted):
        raise TypeError(f"{name}: the bounds are of type {kind.__name__} or None")
    least, greatest = wanted
    if least is not None and greatest is not None and least > greatest:
        raise ValueError(f"{name}: {least!r} is more than {greatest!r}")
    return least, greatest


def _plies(every: int | range) -> tuple[int, int | None, int]:
    if isinstance(every, range):
        if every.step < 1 or every.start < 0 or len(every) == 0:
            raise ValueError("a range of plies goes up from 0 or more, and is not empty")
        return every.start, every[-1], every.step
    if not isinstance(every, int) or isinstance(every, bool):
        raise TypeError("every is a number of plies or a range of plies")
    if every < 1:
        raise ValueError("every is at least 1")
    return 0, None, every


def names_in(names: str | Iterable[str]) -> list[str]:
    """A name, or several."""
    return [names] if isinstance(names, str) else list(names)


def thread_count(threads: int) -> int:
    """As many as there are cores for 0."""
    if threads < 0:
        raise ValueError("threads is a number of threads, or 0 for as many as there are cores")
    if threads > 0:
        return threads
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
