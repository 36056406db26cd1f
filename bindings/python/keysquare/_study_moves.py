"""Moves as people write them: lines, and the text of games with variations and comments."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from keysquare._core import Game, GameStep, Move, Position
from keysquare._diagrams import Arrow, SvgText, diagram
from keysquare._values import WHITE, Side
from keysquare._words import ENGLISH, moves_in, words_in

# The first six glyphs as the signs that the 1994 PGN standard, section 10, calls traditional.
_SIGNS = {1: "!", 2: "?", 3: "!!", 4: "??", 5: "!?", 6: "?!"}


def numbered(position: Position, san: str) -> str:
    """ "23...Rc4": a move as people write it where a line begins."""
    return f"{position.move_number}{'.' if position.mover == WHITE else '...'}{san}"


def line_text(position: Position, moves: Iterable[Move], language: str = ENGLISH) -> str:
    """ "12.Nxd6 Bxd6 13.Rxd6": a line of legal moves from the position, as people write it."""
    words: list[str] = []
    for move in moves:
        san = moves_in(language, move.san(position))
        words.append(numbered(position, san) if not words or position.mover == WHITE else san)
        position = position.after(move)
    return " ".join(words)


def players(tags: Mapping[str, str]) -> str:
    """ "Vastin, Joren – Pellerow, Ines": who played a game."""
    return f"{tags.get('White', '?')} – {tags.get('Black', '?')}"


def line_moves(position: Position, line: str | Iterable[str | Move]) -> tuple[Move, ...]:
    """A line as moves: from SAN, coordinates or moves one by one, or from a text with or without move numbers.

    Raises InputError when one is not legal.
    """
    if isinstance(line, str):
        line = re.sub(r"\b\d+\s*\.+", " ", line).split()
    moves = []
    for given in line:
        move = position.move(given) if isinstance(given, str) else given
        position = position.after(move)
        moves.append(move)
    return tuple(moves)


def line_arrows(moves: Iterable[Move]) -> tuple[Arrow, ...]:
    """The first move of a line as a solid arrow, the reply as a dashed one, as findings draw theirs."""
    styles = ("solid", "dashed")
    return tuple(Arrow(move.origin, move.target, style) for move, style in zip(moves, styles))


def glyphs(nags: Iterable[int], language: str = ENGLISH) -> tuple[str, list[str]]:
    """The glyphs of a move as signs that follow it at once ("!") and as remarks ("forced move")."""
    signs = "".join(_SIGNS.get(nag, "") for nag in nags)
    known = words_in(language).glyphs
    return signs, [known.get(nag, f"${nag}") for nag in nags if nag not in _SIGNS]


class Token(NamedTuple):
    """A piece of the text of a game."""

    kind: str
    """ "move" of the game itself, "side_move" of a variation, "comment", "open", "close", "diagram" or "result"."""
    text: str
    position: Position | None = None
    """Of a diagram."""


def _annotated(step: GameStep, number_is_due: bool, kind: str, language: str) -> Iterator[Token]:
    """A move, its glyphs, its comment."""
    assert step.parent is not None and step.san is not None
    before = step.parent.position
    san = words_in(language).pass_ if step.san == "--" else moves_in(language, step.san)
    signs, remarks = glyphs(step.nags, language)
    yield Token(kind, (numbered(before, san) if number_is_due or before.mover == WHITE else san) + signs)
    for remark in [*remarks, step.plain_comment]:
        if remark:
            yield Token("comment", remark)


def _variation(first: GameStep, language: str) -> Iterator[Token | GameStep]:
    """The moves of a variation; a step that is yielded stands for the variation that it begins."""
    if first.comment_before:
        yield Token("comment", first.comment_before)
    step: GameStep | None = first
    due = True
    while step is not None:
        yield from (tokens := list(_annotated(step, due, "side_move", language)))
        due = len(tokens) > 1
        # The siblings of the first move are told where that one is.
        others = step.parent.children[1:] if step is not first and step.parent else []
        yield from others
        due = due or bool(others)
        step = step.next


def _in_brackets(first: GameStep, language: str) -> Iterator[Token]:
    """A variation with all that are nested in it, without recursion: how deep they go is up to the file."""
    open_ones: list[tuple[GameStep, Iterator[Token | GameStep]]] = [(first, _variation(first, language))]
    yield Token("open", "(")
    while open_ones:
        step, rest = open_ones[-1]
        piece = next(rest, None)
        if isinstance(piece, Token):
            yield piece
        elif piece is not None:
            open_ones.append((piece, _variation(piece, language)))
            yield Token("open", "(")
        else:
            open_ones.pop()
            yield Token("close", ")")
            if step.comment_beyond:
                yield Token("comment", step.comment_beyond)


@dataclass(frozen=True, eq=False)
class Fragment:
    """Some moves of a game, with their variations, comments and glyphs. The game is kept, not copied."""

    first: GameStep
    """The first move of it, one of the game's main line."""
    plies: int
    """How many moves of the main line it has, at least one."""
    heading: str = ""
    """What stands above it."""
    diagrams: tuple[int, ...] = ()
    """Where diagrams stand: after which ply of the game; the ply before the first move is the position that the fragment
    begins with."""
    result: str = ""
    """Told at the end, where the fragment ends the game."""
    tags: tuple[tuple[str, str], ...] = ()
    """Of the game."""
    bottom: Side = WHITE
    """The side that sits below in its diagrams."""
    language: str = ENGLISH
    """Of what is said, by its two-letter code."""

    @property
    def position(self) -> Position:
        """The position that the fragment begins with."""
        assert self.first.parent is not None
        return self.first.parent.position

    @property
    def steps(self) -> list[GameStep]:
        """Its moves of the main line."""
        steps = [self.first]
        while len(steps) < self.plies and (after := steps[-1].next):
            steps.append(after)
        return steps

    def tokens(self) -> Iterator[Token]:
        """The text of the fragment, piece by piece."""
        start = self.first.parent
        assert start is not None
        if start.ply in self.diagrams:
            yield Token("diagram", "", start.position)
        if start.parent is None and start.plain_comment:
            yield Token("comment", start.plain_comment)
        due = True
        for step in self.steps:
            yield from (tokens := list(_annotated(step, due, "move", self.language)))
            assert step.parent is not None
            others = step.parent.children[1:]
            for variation in others:
                yield from _in_brackets(variation, self.language)
            if self.result and step.next is None:
                yield Token("result", self.result)
            due = len(tokens) > 1 or bool(others)
            if step.ply in self.diagrams:
                after = words_in(self.language).after.format(move=moves_in(self.language, step.numbered or ""))
                yield Token("diagram", after, step.position)
                due = True

    def picture(self, token: Token, title: str, serial: int) -> SvgText:
        """The diagram of a token that has one."""
        assert token.position is not None
        return diagram(token.position, bottom=self.bottom, title=title, serial=serial, language=self.language)


def fragment_of(
    game: Game, plies: tuple[int, int] | None, diagrams: Iterable[int] | None, bottom: Side = WHITE
) -> Fragment:
    """The moves of a game from one ply to another, both included and counted from 1; all without them.

    Unless it is said where diagrams stand, the position is shown that a part of a game begins with, and of a whole game
    the one that it ends with.
    """
    last = len(game.main_line)
    if last == 0:
        raise ValueError("the game has no moves; add its start position instead")
    begin, end = plies or (1, last)
    if not 1 <= begin <= end <= last:
        raise ValueError(f"moves={(begin, end)}: the game has plies 1 to {last}")
    wanted = tuple(diagrams) if diagrams is not None else ((begin - 1,) if begin > 1 else (end,))
    for ply in wanted:
        if not begin - 1 <= ply <= end:
            raise ValueError(f"a diagram after ply {ply}: what is shown are plies {begin} to {end}")
    return Fragment(
        game.at_ply(begin),
        end - begin + 1,
        diagrams=wanted,
        result=game.result if end == last and game.result != "*" else "",
        tags=tuple(game.tags.items()),
        bottom=bottom,
    )
