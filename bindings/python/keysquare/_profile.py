"""profile: what a player does more often, or less often, than others."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from keysquare import _core
from keysquare._circumstances import SPLITS, circumstances
from keysquare._collection import Collection, Files, Progress, in_order
from keysquare._core import Game
from keysquare._displays import html_text
from keysquare._intervals import CONFIDENCE, Interval, newcombe, standardised_difference, wilson
from keysquare._tally import ALL, KINDS, Cell, Event, Example, Tally
from keysquare._words import ENGLISH, Words, words_in

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MOST_HABITS = 5
FEWEST_EVENTS = 5
"""Of a kind and theme, the player's and the others' together, for it to be compared."""
SIDES = ("white", "black")
TAGS = {"white": "White", "black": "Black"}


@dataclass(frozen=True)
class Rate:
    """How often something happened in so many moves."""

    count: int
    """How often it happened."""
    moves: int
    """The moves in which it could have happened."""

    @property
    def per_100(self) -> float:
        """Per 100 moves; 0 without moves."""
        return 100 * self.count / self.moves if self.moves else 0.0

    @property
    def interval(self) -> Interval:
        """Where the rate per 100 moves lies with 95 % confidence: Wilson's interval, which takes the moves to be
        independent of each other. 0 to 100 without moves."""
        low, high = wilson(self.count, self.moves)
        return Interval(100 * low, 100 * high)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return self._filled(words.rate, words)

    def _filled(self, pattern: str, words: Words) -> str:
        low, high = map(words.tenths, self.interval)
        return pattern.format(rate=words.tenths(self.per_100), low=low, high=high, confidence=words.percent(CONFIDENCE))

    def __str__(self) -> str:
        return self.text()


@dataclass(frozen=True)
class ProfileRow:
    """How often a player's moves were events of one kind and theme, beside the others'."""

    kind: str
    """ "exploited", "missed", "allowed" or "overlooked" (`move_events`)."""
    theme: str
    """The theme, "other" where none fits, or "any" for all of the kind."""
    split: str
    """ "all", or by what the moves are told apart: "phase", "colour", "opponent" or "time_left"."""
    value: str
    """Which of them: "endgame". Empty for "all"."""
    own: Rate
    """The player's rate."""
    others: Rate
    """The rate of the others."""

    @property
    def words(self) -> str:
        """What the player did: "allowed forks"."""
        return self.words_in(ENGLISH)

    def words_in(self, language: str) -> str:
        """The same in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return words.did[self.kind].format(what=words.theme(self.theme))

    @property
    def difference(self) -> float:
        """The player's rate minus the others', per 100 moves."""
        return self.own.per_100 - self.others.per_100

    @property
    def interval(self) -> Interval:
        """Where the difference lies with 95 % confidence: Newcombe's interval."""
        return self._interval(CONFIDENCE)

    @property
    def standardised(self) -> float:
        """The difference over its standard error, both rates pooled."""
        return standardised_difference(self.own.count, self.own.moves, self.others.count, self.others.moves)

    def is_apart(self, compared: int = 1) -> bool:
        """Whether the interval leaves out 0 when so many rows are compared at once (Bonferroni's correction)."""
        low, high = self._interval(1 - (1 - CONFIDENCE) / max(compared, 1))
        return low > 0 or high < 0

    def _interval(self, confidence: float) -> Interval:
        low, high = newcombe(self.own.count, self.own.moves, self.others.count, self.others.moves, confidence)
        return Interval(100 * low, 100 * high)

    def as_dict(self) -> dict[str, Any]:
        """All of it as plain data, fit for JSON and for data frames; rates per 100 moves."""
        return {
            "kind": self.kind,
            "theme": self.theme,
            "split": self.split,
            "value": self.value,
            **_rate_data("", self.own),
            **_rate_data("others_", self.others),
            "difference": self.difference,
            "difference_low": self.interval.low,
            "difference_high": self.interval.high,
            "standardised": self.standardised,
        }


def _rate_data(prefix: str, rate: Rate) -> dict[str, Any]:
    low, high = rate.interval
    return {
        f"{prefix}count": rate.count,
        f"{prefix}moves": rate.moves,
        f"{prefix}rate": rate.per_100,
        f"{prefix}low": low,
        f"{prefix}high": high,
    }


@dataclass(frozen=True)
class Habit:
    """Something that a player does more often, or less often, than the others. `str(habit)` is one sentence."""

    player: str
    """The name as people say it: "Joren Vastin"."""
    others: str
    """With whom the player is compared."""
    row: ProfileRow
    """The row of the profile that shows it."""
    holds: bool
    """The rates lie apart even in view of all the rows that were compared (95 %, Bonferroni's correction)."""
    examples: list[Example]
    """A few positions in which the player did it; none when it never happened."""

    @property
    def kind(self) -> str:
        """ "exploited", "missed", "allowed" or "overlooked"."""
        return self.row.kind

    @property
    def theme(self) -> str:
        """The theme."""
        return self.row.theme

    @property
    def rate(self) -> float:
        """The player's events per 100 moves."""
        return self.row.own.per_100

    @property
    def reference_rate(self) -> float:
        """The others' events per 100 moves."""
        return self.row.others.per_100

    @property
    def interval(self) -> Interval:
        """Where the player's rate lies with 95 % confidence."""
        return self.row.own.interval

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return words.habits[self.kind].format(
            player=self.player,
            what=words.theme(self.theme),
            own=self.row.own.text(language),
            others=words.others.get(self.others, self.others),
            theirs=self.row.others.text(language),
        )

    def __str__(self) -> str:
        return self.text()

    def _repr_html_(self) -> str:
        pictures = "".join(example._repr_html_() for example in self.examples)
        star = "<b>*</b> " if self.holds else ""
        return f"<p>{star}{html_text(str(self))}</p>{pictures}"


@dataclass(frozen=True, eq=False, repr=False)
class Profile:
    """How often a player's moves were events, beside other players' moves. Made by `profile`.

    `str(profile)` is a short table with the habits. Draws itself in notebooks. Profiles of one player over different
    games can be added; a profile pickles, and holds counts and a few examples, no matter how many games there were.
    """

    player: str
    """The name as the games have it."""
    others: str
    """With whom the player is compared, in words."""
    own_tally: Tally
    """What was counted of the player."""
    others_tally: Tally
    """What was counted of the others."""
    refused: int
    """Games that could not be read."""

    @property
    def name(self) -> str:
        """The name as people say it: "Joren Vastin" for "Vastin, Joren"."""
        last, comma, first = self.player.partition(", ")
        return f"{first} {last}" if comma else last

    @property
    def games(self) -> int:
        """The player's games."""
        return self.own_tally.games

    @property
    def moves(self) -> int:
        """The player's moves in them."""
        return self.own_tally.moves[ALL]

    def row(self, kind: str, theme: str | None = None, split: str = "all", value: str = "") -> ProfileRow:
        """The counts of one kind and theme (of all themes without one), of all moves or of a part of them."""
        cell = (split, value)
        return ProfileRow(
            kind,
            theme or "any",
            split,
            value,
            _rate(self.own_tally, kind, theme, cell),
            _rate(self.others_tally, kind, theme, cell),
        )

    @cached_property
    def compared(self) -> list[ProfileRow]:
        """The rows that are compared in search of habits: one for each kind and theme with at least five events of both
        together, those that differ most first."""
        about = self.own_tally.about() | self.others_tally.about()
        rows = [self.row(kind, theme) for kind, theme in sorted(about)]
        enough = [row for row in rows if row.own.count + row.others.count >= FEWEST_EVENTS]
        return sorted(enough, key=lambda row: -abs(row.standardised))

    @property
    def habits(self) -> list[Habit]:
        """What the player does differently: the five rows of `compared` with the largest standardised difference.

        With many rows some differ by chance: `Habit.holds` says which differ too much for that.
        """
        return [
            Habit(
                self.name,
                self.others,
                row,
                row.is_apart(len(self.compared)),
                self.own_tally.examples.get((row.kind, row.theme), []),
            )
            for row in self.compared[:MOST_HABITS]
        ]

    def values(self, split: str) -> list[str]:
        """The values of a split that occur in the player's moves, in order. Raises ValueError for an unknown split."""
        if split not in SPLITS:
            raise ValueError(f"moves are told apart by {', '.join(SPLITS)}; not by {split!r}")
        found = {value for where, value in self.own_tally.moves if where == split}
        known = [value for value in SPLITS[split] if value in found]
        return known + sorted(found - set(known), key=lambda value: (value == "unknown", len(value), value))

    def rows(self, by: str | None = None) -> list[ProfileRow]:
        """A row for each kind and theme that occurred, after one with the theme "any" for the whole kind; with `by`
        ("phase", "colour", "opponent" or "time_left") one for each of its values."""
        cells = [ALL] if by is None else [(by, value) for value in self.values(by)]
        about = self.own_tally.about() | self.others_tally.about()
        rows = []
        for kind in KINDS:
            themes = sorted(theme for other_kind, theme in about if other_kind == kind)
            rows += [self.row(kind, theme, *cell) for theme in [None, *themes] for cell in cells]
        return rows

    def table(self, by: str | None = None) -> list[dict[str, Any]]:
        """The same rows as plain data, ready for a data frame."""
        return [row.as_dict() for row in self.rows(by)]

    def __add__(self, other: Profile) -> Profile:
        """The profile over the games of both. Raises ValueError when they are about different players or compare them
        with different ones."""
        if (self.player, self.others) != (other.player, other.others):
            raise ValueError("only profiles of one player, compared with the same others, can be added")
        own, others = Tally(), Tally()
        own += self.own_tally
        own += other.own_tally
        others += self.others_tally
        others += other.others_tally
        return Profile(self.player, self.others, own, others, self.refused + other.refused)

    def _about(self, words: Words) -> str:
        return words.about_profile.format(
            name=self.name,
            moves=words.count(self.moves, words.moves),
            games=words.count(self.games, words.games),
            others=words.others.get(self.others, self.others),
            their_moves=words.count(self.others_tally.moves[ALL], words.moves),
            their_games=words.count(self.others_tally.games, words.games),
        )

    def _caution(self, words: Words) -> str:
        rows = len(self.compared)
        if not rows:
            return words.nothing_compared.format(fewest=FEWEST_EVENTS)
        by_chance = words.tenths(rows * (1 - CONFIDENCE))
        return words.compared.format(rows=rows, confidence=words.percent(CONFIDENCE), by_chance=by_chance)

    def _lines(self, words: Words) -> list[tuple[str, str, str]]:
        """The table of the kinds: what it is, the player's rate, the others'."""
        rows = [self.row(kind) for kind in KINDS]
        return [
            (words.any_theme.format(kind=words.event_kinds[row.kind]), _short(row.own, words), _short(row.others, words))
            for row in rows
        ]

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        head = (words.per_100, self.name[:22], words.the_others)
        table = [f"{what:<34}{own:>22}{theirs:>22}" for what, own, theirs in (head, *self._lines(words))]
        habits = [f"{'*' if habit.holds else '-'} {habit.text(language)}" for habit in self.habits]
        return "\n".join([self._about(words), "", *table, "", *habits, self._caution(words)])

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Profile of {self.player}: {self.moves} moves in {self.games} games>"

    def _repr_html_(self) -> str:
        words = words_in(ENGLISH)
        rows = "".join(
            f"<tr><td>{what}</td><td>{own}</td><td>{theirs}</td></tr>" for what, own, theirs in self._lines(words)
        )
        habits = "".join(habit._repr_html_() for habit in self.habits)
        return (
            f"<p>{html_text(self._about(words))}</p><table><tr><th>{words.per_100}</th><th>{html_text(self.name)}</th>"
            f"<th>{words.the_others}</th></tr>{rows}</table>{habits}<p>{html_text(self._caution(words))}</p>"
        )

    def plot(self, ax: Axes | None = None, *, language: str = ENGLISH) -> Axes:
        """Draws the ten rows that differ most, per 100 moves, with their intervals, the player's beside the others'.

        `ax`: where to draw; a new figure without it. `language`: of the words, one of `keysquare.languages`; raises
        ValueError for one that is not known. Needs matplotlib (`pip install keysquare[plot]`); raises ImportError without
        it.
        """
        from keysquare._profile_plot import draw

        return draw(self, ax, words_in(language))


def _rate(tally: Tally, kind: str, theme: str | None, cell: Cell) -> Rate:
    return Rate(tally.count(kind, theme, cell), tally.moves[cell])


def _short(rate: Rate, words: Words) -> str:
    return rate._filled(words.short_rate, words)


def profile(
    files: Files,
    player: str,
    *,
    reference: Files | None = None,
    threads: int = 2,
    progress: bool = True,
) -> Profile:
    """What a player does at the board, in counts: how often chances were used and missed, given and overlooked.

    `MoveEffect` says what these events are. Rates are per 100 moves, with 95 % intervals that take moves to be
    independent of each other. They are compared with those of other players; the differences say nothing about why.
    Opponents are the mirror of a player: what one side allows, the other can use. Where that misleads, a `reference` of
    many players' games does not.

    Args:
        files: A path, a pattern such as "games/*.pgn", or an iterable of paths, patterns and `Game` objects. They are
            gone through twice, first for the names.
        player: The name as the games have it, or a part of it that only one name has, in upper or lower case.
        reference: Games of the players to compare with: all of them but this one count. Without it, the player's
            opponents in the same games do.
        threads: How many games are worked on at once.
        progress: Whether a bar on stderr shows how far it is.

    Raises:
        InputError: A file that can't be opened (`cannot_open`).
        ValueError: Nobody has that name, or several have; the message lists them.

    Memory does not grow with the number of games.

    >>> import keysquare as ks
    >>> tags = '[White "Vastin, Joren"]\\n[Black "Pellerow, Ines"]\\n\\n'
    >>> game = ks.game_from_text(tags + "1. e4 e5 2. Nf3 f6 3. Nxe5 fxe5 4. Qh5+ g6 5. Qxe5+ *")
    >>> pellerow = profile([game], "pellerow", progress=False)
    >>> pellerow.name, pellerow.moves, str(pellerow.row("allowed").own)
    ('Ines Pellerow', 4, '25.0 of 100 moves (95 % 4.6 to 69.9)')
    """
    collection = Collection.of(files)
    name = _player_meant(player, {who for game in collection for who in _players(game).values()})
    own, others = Tally(), Tally()
    own_games = (game for game in collection if name in _players(game).values())
    with Progress(collection, name, progress) as bar:
        for game, events in in_order(own_games, _events, threads):
            mine = [side for side, who in _players(game).items() if who == name]
            around = circumstances(game)
            own.add_game(game, mine, events, around)
            if reference is None:
                others.add_game(game, set(SIDES) - set(mine), events, around)
            bar.game(game)
        bar.end()
    refused = collection.counts.refused
    if reference is None:
        return Profile(name, "the opponents", own, others, refused)
    group = Collection.of(reference)
    with Progress(group, "reference group", progress) as bar:
        for game, events in in_order(group, _events, threads):
            theirs = [side for side, who in _players(game).items() if who != name]
            if theirs:
                others.add_game(game, theirs, events, circumstances(game))
            bar.game(game)
        bar.end()
    return Profile(name, "the reference group", own, others, refused + group.counts.refused)


def _events(game: Game) -> list[Event]:
    return list(_core.move_events(game))


def _players(game: Game) -> dict[str, str]:
    return {side: game.tags.get(tag, "?") for side, tag in TAGS.items()}


def _player_meant(asked: str, names: set[str]) -> str:
    """The name that is meant. Raises ValueError with the names that come close."""
    if asked in names:
        return asked
    fits = sorted(name for name in names if asked.casefold() in name.casefold())
    if len(fits) == 1:
        return fits[0]
    if fits:
        raise ValueError(f"several players are called like {asked!r}: {_listed(fits)}")
    by_folded = {name.casefold(): name for name in sorted(names)}
    close = [by_folded[name] for name in difflib.get_close_matches(asked.casefold(), by_folded, n=5, cutoff=0.4)]
    also = f"; close to it are {_listed(close)}" if close else ""
    raise ValueError(f"no player in these games is called {asked!r}{also}")


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - 8} more" if len(names) > 8 else ""
    return ", ".join(names[:8]) + more
