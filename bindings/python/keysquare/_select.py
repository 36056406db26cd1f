"""select: positions of a collection that show what a lesson is about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import overload

from keysquare import _core
from keysquare._collection import Collection, Files, Progress, in_order
from keysquare._core import Finding, Game, Position
from keysquare._diagrams import diagram
from keysquare._displays import html_text
from keysquare._game_position import GamePosition, ratings
from keysquare._study_entry import Entry, Panel
from keysquare._study_wishes import AT_MOST
from keysquare._words import ENGLISH, Words, words_in


class Selected(GamePosition):
    """A position that was asked for, with the game that it comes from. `str(selected)` says where, and what is seen.

    Draws itself in notebooks; a study shows it (`study_entry`).
    """

    def __init__(self, game: Game, ply: int, position: Position, findings: Iterable[Finding] | None = None) -> None:
        super().__init__(game, ply, position)
        if findings is not None:
            self.findings = list(findings)

    @cached_property
    def findings(self) -> list[Finding]:
        """What it shows, strongest first: the findings that were asked for, or all of them when no theme was named."""
        return _core.findings(self.position)

    def study_entry(self, language: str = ENGLISH) -> Entry:
        """What a `Study` shows of it: the diagram with its strongest findings."""
        return Entry(self.title_in(language), (Panel(self.position, findings=tuple(self.findings[:AT_MOST])),))

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        told = (f"  {finding.text(language)}" for finding in self.findings[:AT_MOST])
        return "\n".join([f"{self.title_in(language)}:", *told])

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Selected {self.title}>"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Selected):
            return NotImplemented
        return (self.game, self.ply, self.findings) == (other.game, other.ply, other.findings)

    def __hash__(self) -> int:
        return hash((self.position.key, self.ply))

    def _repr_html_(self) -> str:
        told = self.findings[:AT_MOST]
        picture = diagram(self.position, told, title=self.title)
        items = "".join(f"<li>{html_text(str(finding))}</li>" for finding in told)
        played = f"<p>In the game: {html_text(self.played)}</p>" if self.played else ""
        return (
            f"<figure>{picture}<figcaption><p><b>{html_text(self.title)}</b></p>"
            f"<ol>{items}</ol>{played}</figcaption></figure>"
        )


@dataclass(frozen=True, repr=False)
class Selection(Sequence[Selected]):
    """The positions that `select` found, in the order of the collection. Draws itself in notebooks."""

    moments: tuple[Selected, ...]
    """The positions that were found, in the order of the games."""
    games: int
    """Games that were read."""
    refused: int
    """Games that could not be read."""
    searched: int
    """Those of them whose positions were looked at; the others did not have the ratings that were asked for."""
    positions: int
    """Positions that were looked at."""
    whole: bool
    """The collection was searched to its end. False when there were enough positions."""

    @overload
    def __getitem__(self, at: int) -> Selected: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[Selected, ...]: ...
    def __getitem__(self, at: int | slice) -> Selected | tuple[Selected, ...]:
        return self.moments[at]

    def __len__(self) -> int:
        return len(self.moments)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return "\n".join([self._summary(words), *(moment.text(language) for moment in self.moments)])

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Selection: {self._summary(words_in(ENGLISH))}>"

    def _summary(self, words: Words) -> str:
        refused = words.refused.format(count=self.refused) if self.refused else ""
        return words.selection.format(
            found=words.count(len(self), words.positions),
            games=words.count(len({id(moment.game) for moment in self}), words.games),
            positions=words.count(self.positions, words.positions),
            searched=words.count(self.searched, words.games),
            read=self.games,
            more=refused + ("" if self.whole else words.rest_not_needed),
        )

    def _repr_html_(self) -> str:
        return "".join([f"<p>{html_text(self._summary(words_in(ENGLISH)))}</p>", *(moment._repr_html_() for moment in self)])


def select(
    files: Files,
    *,
    themes: str | Iterable[str] | None = None,
    gain: int = 0,
    side: str | None = None,
    where: Callable[[Selected], bool] | None = None,
    rating: tuple[int, int] | None = None,
    plies: tuple[int, int] | None = None,
    limit: int = 10,
    per_game: int = 1,
    threads: int = 2,
    progress: bool = True,
) -> Selection:
    """Positions of a collection of games that show what is asked for, spread over the games.

    The games are gone through in their order. From each the first `per_game` positions that fit are taken, and the
    reading stops when there are `limit` of them. When the games end before that, further positions are taken: the next
    one of each game in turn, then the one after, until there are enough or none is left. No position is taken twice,
    and within a game none that shows just the same men as one before. The same call gives the same positions, whatever
    the number of threads.

    Args:
        files: A path, a pattern such as "games/*.pgn", or an iterable of paths, patterns and `Game` objects.
        themes: Names of themes, each of which the position must show; "theme:detail" asks for a detail
            ("mutual_guards:locked"). None asks for none: then `where` decides alone.
        gain: At least this many pawns are won by the finding, or in a warning lost; a mate is always enough. 1 leaves
            out what is seen but wins nothing.
        side: Only findings for "white", "black", the "mover" (who can use it now) or the "waiter".
        where: A condition of your own, asked only where the themes are seen: gets the `Selected`, with its `findings`,
            `columns`, `game` and `step`.
        rating: The lowest and highest rating that both players must have. Games without both ratings are left out.
        plies: The first and last ply that are looked at; 0 is the start position.
        limit: How many positions are wanted.
        per_game: How many of one game, as long as there are enough games.
        threads: How many games are looked at at once.
        progress: Whether a bar on stderr shows how far it is.

    Raises:
        InputError: A file that can't be opened (`cannot_open`).
        ValueError: An unknown theme, detail or side, or a number that makes no sense.

    Each position costs about a quarter of a millisecond, less for some themes; memory is needed for the games of the
    positions found.

    >>> import keysquare as ks
    >>> game = ks.game_from_text("1. e4 e5 2. Nf3 f6 3. Nxe5 fxe5 4. Qh5+ Ke7 5. Qxe5+ Kf7 1-0")
    >>> chosen = select([game], themes="fork", gain=1, side="mover", progress=False)
    >>> print(chosen[0].moved, chosen[0].findings[0])
    3...fxe5 White can win a pawn with Qh5+, a fork of the king on e8 and the pawn on e5 (4...Ke7 5.Qxe5+ Kf7).
    """
    wanted = _Wanted.of(themes, gain, side, plies)
    if limit < 1 or per_game < 1:
        raise ValueError("limit and per_game are at least 1")
    collection = Collection.of(files)
    chosen = _Chosen(limit, per_game)
    searched = positions = 0
    with Progress(collection, "positions", progress) as bar:
        rated = (game for game in collection if _has_ratings(game, rating))
        found = in_order(rated, wanted.moments, threads)
        try:
            for game, moments in found:
                searched += 1
                positions += wanted.looked_at(game)
                chosen.take(moment for moment in moments if where is None or where(moment))
                bar.game(game)
                bar.note(f"{len(chosen)} found")
                if chosen.enough:
                    break
            else:
                bar.end()
        finally:
            found.close()
    counts = collection.counts
    return Selection(
        tuple(chosen.moments()), counts.read, counts.refused, searched, positions, whole=not chosen.enough
    )


def _has_ratings(game: Game, wanted: tuple[int, int] | None) -> bool:
    if wanted is None:
        return True
    low, high = wanted
    return all(rating is not None and low <= rating <= high for rating in ratings(game))


@dataclass(frozen=True)
class _Wanted:
    """What a position must show, and which plies are looked at."""

    themes: list[str] | None
    gain: int
    side: str | None
    first: int
    last: int | None

    @classmethod
    def of(
        cls, themes: str | Iterable[str] | None, gain: int, side: str | None, plies: tuple[int, int] | None
    ) -> _Wanted:
        if isinstance(themes, str):
            themes = [themes]
        first, last = (0, None) if plies is None else plies
        if first < 0 or gain < 0:
            raise ValueError("plies and gain are not negative")
        if themes is None and (gain or side):
            raise ValueError("gain and side are asked of themes, and none is named")
        wanted = cls(None if themes is None else list(themes), gain, side, first, last)
        wanted.moments(Game())  # an unknown name is refused before anything is read
        return wanted

    def moments(self, game: Game) -> list[Selected]:
        """The positions of the game that show it."""
        if self.themes is None:
            positions = game.positions()
            plies = range(self.first, len(positions) if self.last is None else min(self.last + 1, len(positions)))
            return [Selected(game, ply, positions[ply]) for ply in plies]
        most = {} if self.last is None else {"last_ply": self.last}
        shown = _core.plies_with_themes(game, self.themes, self.side, self.gain, self.first, **most)
        return [Selected(game, ply, findings[0].position, findings) for ply, findings in shown]

    def looked_at(self, game: Game) -> int:
        last = len(game.main_line) if self.last is None else min(self.last, len(game.main_line))
        return max(0, last - self.first + 1)


class _Chosen:
    """Takes positions in the order of the games, and keeps a few more of each for when there are too few games."""

    def __init__(self, limit: int, per_game: int) -> None:
        self._limit = limit
        self._per_game = per_game
        self._games: list[list[Selected]] = []
        self._keys: set[int] = set()
        self._taken = 0

    def __len__(self) -> int:
        return min(self._taken, self._limit)

    @property
    def enough(self) -> bool:
        return self._taken >= self._limit

    def take(self, moments: Iterable[Selected]) -> None:
        """The different ones of the next game."""
        told: set[object] = set()
        kept: list[Selected] = []
        for moment in moments:
            about = _about(moment)
            if moment.position.key in self._keys or (about is not None and about in told):
                continue
            told.add(about)
            self._keys.add(moment.position.key)
            kept.append(moment)
            if len(kept) == self._limit:  # more could not be needed
                break
        if kept:
            self._games.append(kept)
            self._taken += min(len(kept), self._per_game)

    def moments(self) -> Iterator[Selected]:
        """Those that are taken, in the order of the games."""
        shares = [min(len(kept), self._per_game) for kept in self._games]
        missing = self._limit - sum(shares)
        while missing > 0:
            more = [at for at, kept in enumerate(self._games) if len(kept) > shares[at]][:missing]
            if not more:
                break
            for at in more:
                shares[at] += 1
            missing -= len(more)
        taken = [moment for kept, share in zip(self._games, shares) for moment in kept[:share]]
        return iter(taken[: self._limit])


def _about(moment: Selected) -> object | None:
    """What a position shows, for telling whether it shows something new; None where no theme was asked for."""
    if "findings" not in vars(moment):
        return None
    return frozenset((finding.theme, finding.side, *finding.pieces) for finding in moment.findings)
