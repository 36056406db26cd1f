"""Tallies: how often events happened in a player's moves, under which circumstances, with a few examples."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from keysquare._circumstances import SPLITS, Circumstances
from keysquare._core import Game, Position
from keysquare._diagrams import diagram
from keysquare._displays import html_text
from keysquare._game_position import GamePosition
from keysquare._study_entry import Entry, Panel
from keysquare._words import ENGLISH, Words, moves_in, words_in

KINDS = ("exploited", "missed", "allowed", "overlooked")
"""Of events, in the order in which they are shown."""
MOST_EXAMPLES = 3
"""That are kept of each kind and theme."""
ALL = ("all", "")
"""The cell of a tally that holds every move."""

Cell = tuple[str, str]
"""A split and one of its values: ("phase", "opening")."""


class Event(Protocol):
    """What a tally asks of an event (`move_events`)."""

    @property
    def ply(self) -> int: ...
    @property
    def side(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def theme(self) -> str: ...
    @property
    def gain(self) -> int: ...
    @property
    def mate(self) -> bool: ...


class Example(GamePosition):
    """A position in which a player's move was an event, before the move. `str(example)` says where it is.

    Draws itself in notebooks.
    """

    def __init__(self, game: Game, position: Position, event: Event) -> None:
        super().__init__(game, event.ply - 1, position)
        self.event = event
        """What happened at the move that was played."""

    def study_entry(self, language: str = ENGLISH) -> Entry:
        """What a `Study` shows of it: the position before the move, the move, and what was at stake."""
        words = words_in(language)
        said = words.at_stake.format(move=moves_in(language, self.played), stake=self._stake(words))
        return Entry(self.title_in(language), (Panel(self.position, sentences=(said,)),))

    @property
    def at_stake(self) -> str:
        """ "mate" or the pawns at stake, in words."""
        return self._stake(words_in(ENGLISH))

    def _stake(self, words: Words) -> str:
        return words.mate if self.event.mate else words.count(self.event.gain, words.pawns)

    def text(self, language: str = ENGLISH) -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return words.example.format(
            title=self.title_in(language), move=moves_in(language, self.played), stake=self._stake(words)
        )

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Example {self}>"

    def _repr_html_(self) -> str:
        picture = diagram(self.position, title=self.title)
        return f"<figure>{picture}<figcaption>{html_text(str(self))}</figcaption></figure>"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Example):
            return NotImplemented
        return (self.game, self.event) == (other.game, other.event)

    def __hash__(self) -> int:
        return hash((self.position.key, self.ply))


@dataclass
class Tally:
    """The counts of one player or of a group of players. Tallies of different games can be added."""

    games: int = 0
    """Games that were counted."""
    moves: Counter[Cell] = field(default_factory=Counter)
    """Moves that were made, by cell."""
    events: Counter[tuple[str, str, Cell]] = field(default_factory=Counter)
    """By kind, theme and cell. A move has at most one event of each kind."""
    examples: dict[tuple[str, str], list[Example]] = field(default_factory=dict)
    """Of each kind and theme those with the smallest position keys: the keys are as good as random, so this is a fair
    choice that depends on nothing but the games, in whatever order and parts they are counted."""

    def add_game(
        self, game: Game, sides: Iterable[str], events: Iterable[Event], around: list[Circumstances]
    ) -> None:
        """Counts the moves of these sides in a game, whose circumstances are given."""
        sides = frozenset(sides)
        self.games += 1
        for each, times in Counter(each for each in around if each.colour in sides).items():
            for cell in _cells(each):
                self.moves[cell] += times
        own_events = [event for event in events if event.side in sides]
        positions = game.positions() if own_events else []
        for event in own_events:
            self.events.update((event.kind, event.theme, cell) for cell in _cells(around[event.ply - 1]))
            self._keep(Example(game, positions[event.ply - 1], event))

    def _keep(self, example: Example) -> None:
        about = example.event.kind, example.event.theme
        self.examples[about] = _fair_choice([*self.examples.get(about, []), example])

    def __iadd__(self, other: Tally) -> Tally:
        self.games += other.games
        self.moves += other.moves
        self.events += other.events
        for about, examples in other.examples.items():
            self.examples[about] = _fair_choice([*self.examples.get(about, []), *examples])
        return self

    def count(self, kind: str, theme: str | None = None, cell: Cell = ALL) -> int:
        """Events of the kind; of one theme, or of all."""
        if theme is not None:
            return self.events[kind, theme, cell]
        return sum(n for (k, _, where), n in self.events.items() if k == kind and where == cell)

    def about(self) -> set[tuple[str, str]]:
        """The kinds and themes that occurred."""
        return {(kind, theme) for kind, theme, _ in self.events}


def _cells(move: Circumstances) -> list[Cell]:
    """The cells in which a move is counted."""
    return [ALL, *zip(SPLITS, move)]


def _fair_choice(examples: list[Example]) -> list[Example]:
    """The same for any order of the examples; no position twice."""
    by_key: dict[int, Example] = {}
    for example in sorted(examples, key=_place):
        by_key.setdefault(example.position.key, example)
    return list(by_key.values())[:MOST_EXAMPLES]


def _place(example: Example) -> tuple[int, str, str, str, int]:
    tags: Mapping[str, str] = example.game.tags
    return example.position.key, example.white, example.black, tags.get("Date", ""), example.ply
