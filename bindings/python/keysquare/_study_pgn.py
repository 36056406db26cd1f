"""A study as PGN: every entry a game that starts from its position, sentences as comments, lines as moves."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from keysquare._core import Game, GameStep, Move
from keysquare._diagrams import Arrow, Mark
from keysquare._study_entry import Entry, Lesson, Panel, Told, playable_lines
from keysquare._study_markup import words_of
from keysquare._study_moves import Fragment, players
from keysquare._words import words_in


def pgn_of(lesson: Lesson) -> str:
    """All entries as games in export format (1994 PGN standard, 8.1). Notes between them have no place in it."""
    return "".join(_game(lesson, number, entry).pgn() for number, entry in lesson.entries)


def _game(lesson: Lesson, number: int, entry: Entry) -> Game:
    game = Game(entry.position)
    parts = (*entry.shown, *entry.solved)
    of_game = next((part for part in parts if isinstance(part, Fragment) and part.tags), None)
    if of_game:
        for name, value in of_game.tags:
            if name not in ("SetUp", "FEN", "Event", "Round", "Result"):
                game.set_tag(name, value)
        game.result = of_game.result or "*"
    game.set_tag("Event", lesson.title)
    if lesson.author and not of_game:
        game.set_tag("Annotator", lesson.author)
    if not of_game and re.fullmatch(r"\d{4}-\d\d-\d\d", lesson.date):
        game.set_tag("Date", lesson.date.replace("-", "."))
    game.set_tag("Round", str(number))
    writer = _MoveWriter(game)
    known = of_game and players(game.tags) == entry.title
    writer.say("" if known else _sentence(entry.title), words_of(entry.text))
    writer.add(entry.shown, is_answer=False)
    writer.say(words_of(entry.question))
    writer.loose.append(words_of(entry.answer))
    writer.add(entry.solved, is_answer=True)
    return game


def _sentence(text: str) -> str:
    return text if not text or text[-1] in ".!?" else f"{text}."


class _MoveWriter:
    """Puts what parts of an entry show into the tree of a game."""

    def __init__(self, game: Game) -> None:
        self.game = game
        self.loose: list[str] = []
        """Sentences without a move that they could stand at."""

    def say(self, *texts: str, at: GameStep | None = None) -> None:
        """Adds to the comment at a step, or before the first move."""
        for text in filter(None, texts):
            (at or self.game.root).add_comment(text)

    def add(self, parts: Iterable[Panel | Fragment], is_answer: bool) -> None:
        """The moves of the parts. An answer stands after the first move, so that nobody reads it with the question."""
        # A line that is given is the main line; those of findings come after it.
        for part in sorted(parts, key=lambda part: isinstance(part, Panel) and not part.line):
            if part.position != self.game.start:
                self.loose += _words(part)
            elif isinstance(part, Fragment):
                _copy(part, self.game.root)
            else:
                self._panel(part)
        self.say(*self.loose, at=self.game.root.next if is_answer else None)
        self.loose = []

    def _panel(self, panel: Panel) -> None:
        if panel.line:
            self._line(panel.line)
        told = panel.told()
        # What is good for its side comes before warnings: nobody takes a mistake for the main line then.
        for finding, one in sorted(zip(panel.findings, told), key=lambda pair: pair[0].gain <= 0 and not pair[0].mate):
            lines = playable_lines(finding)
            for line in lines:
                self._line(line, one.text)
            if not lines:
                self.loose += _words_of_told(one)
        for one in told[len(panel.findings) :]:
            self.loose += _words_of_told(one)
        if not panel.numbered:
            self.loose.append(_marked(panel))

    def _line(self, moves: Sequence[Move], comment: str = "") -> None:
        """Goes along what is there already, and adds the rest: the first line is the main line."""
        step = self.game.root
        for at, move in enumerate(moves):
            step = _step_after(step, move)
            if at == 0 and comment not in step.comment:
                self.say(comment, at=step)


def _step_after(parent: GameStep, move: Move) -> GameStep:
    """The step of a move: the one that is there already, or a new one."""
    known = next((child for child in parent.children if child.move == move), None)
    return known or parent.add_move("--" if move.is_null else move)


def _words_of_told(told: Told) -> list[str]:
    return [told.text, _sentence(told.line)]


def _words(part: Panel | Fragment) -> list[str]:
    """What belongs to another position than the game's start, without moves."""
    if isinstance(part, Fragment):
        return [_sentence(part.heading), " ".join(token.text for token in part.tokens() if token.kind != "diagram")]
    told = [word for one in part.told() for word in _words_of_told(one)]
    return [_sentence(part.heading), *told, _sentence(part.line_text())]


def _marked(panel: Panel) -> str:
    """Marks and arrows in words: comments that every program shows."""
    squares = [mark.square if isinstance(mark, Mark) else mark for mark in panel.marks]
    arrows = ["-".join(Arrow(*arrow)[:2]) for arrow in panel.arrows]
    words = words_in(panel.language)
    told = (
        words.marked.format(squares=", ".join(squares)) if squares else "",
        words.arrows.format(arrows=", ".join(arrows)) if arrows else "",
    )
    return " ".join(filter(None, told))


def _copy(fragment: Fragment, root: GameStep) -> None:
    """The moves of a fragment with variations, comments and glyphs, at the root of another game."""
    start = fragment.first.parent
    assert start is not None
    if start.parent is None:
        root.add_comment(start.plain_comment)
    waiting: list[tuple[GameStep, GameStep]] = []
    last = root
    for step in fragment.steps:
        assert step.parent is not None
        here = last
        for child in step.parent.children:
            made = _copy_step(child, here)
            if child == step:
                last = made
            else:
                waiting += [(grandchild, made) for grandchild in reversed(child.children)]
    while waiting:
        step, parent = waiting.pop()
        made = _copy_step(step, parent)
        waiting += [(child, made) for child in reversed(step.children)]


def _copy_step(step: GameStep, parent: GameStep) -> GameStep:
    assert step.move is not None
    made = _step_after(parent, step.move)
    made.add_comment(step.comment_before, "before")
    made.add_comment(step.plain_comment)
    made.add_comment(step.comment_beyond, "beyond")
    for nag in step.nags:
        made.add_nag(nag)
    return made
