"""A bar on stderr that shows how far work is, or none."""

from __future__ import annotations

from tqdm import tqdm  # type: ignore[import-untyped]  # it has no type information of its own


class Bar:
    """A bar, or nothing at all when it is not to be shown.

    A hidden bar of tqdm would import much when it is made, and Ctrl-C can get lost in the middle of imports: Python ignores
    what is raised while it lets go of a module's lock.
    """

    def __init__(self, shown: bool, what: str, unit: str, total: int | None = None, scaled: bool = True) -> None:
        self._bar = tqdm(total=total, desc=what, unit=unit, unit_scale=scaled) if shown else None

    def advance(self, amount: int = 1) -> None:
        """Says that so much more is done."""
        if self._bar is not None:
            self._bar.update(amount)

    def reach(self, done: int, total: int | None) -> None:
        """Says how much is done in all, and how much there is, if that is known."""
        if self._bar is not None:
            self._bar.total = total
            self._bar.update(done - self._bar.n)

    def fill(self) -> None:
        """Says that all is done."""
        if self._bar is not None and self._bar.total is not None:
            self._bar.update(self._bar.total - self._bar.n)

    def note(self, text: str) -> None:
        """Shows a few words beside the bar, with its next step."""
        if self._bar is not None:
            self._bar.set_postfix_str(text, refresh=False)

    def close(self) -> None:
        """Leaves the last state on the screen."""
        if self._bar is not None:
            self._bar.close()
