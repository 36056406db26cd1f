"""The plain records that answers are made of. All of them compare by content and pickle.

Squares are listed in the order a1, b1, ..., h8; dicts by side have the keys "white" and "black".
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, overload

from keysquare._displays import Spoken, board_html, threat_html
from keysquare._values import BLACK, WHITE, InputError, Placed, Side, Square
from keysquare._words import InLanguages, Words, words_in

if TYPE_CHECKING:
    from keysquare._core import Finding, Move, Position, Threat
    from keysquare._diagrams import Arrow, Mark


class Drawn(ABC):
    """What draws itself in notebooks by marks and arrows on its position."""

    position: Position
    """The position that it is about."""

    @abstractmethod
    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        """The marks and arrows."""

    def _repr_svg_(self) -> str:
        from keysquare._diagrams import diagram

        marks, arrows = self._drawing()
        return diagram(self.position, marks=marks, arrows=arrows)


@dataclass(frozen=True)
class Outcome:
    """What a calculation found for the side that makes the first move of the line."""

    gain: int
    """The material balance at the end of the line minus the balance at its start, in pawns."""
    mate: bool
    """The line ends with checkmate by that side."""
    mated: bool
    """The line ends with checkmate of that side."""
    complete: bool
    """False when the node bound stopped the search: then the rest means nothing."""
    line: list[Move]
    """Legal moves in turn, the best for both sides; empty when it is best to do nothing."""


@dataclass(frozen=True)
class Destination:
    """One square that a piece could reach, and what would come of it."""

    square: Square
    """The square that the piece could reach."""
    verdict: str
    """
    - "open": legal, and nothing is lost by it;
    - "neglects": nothing is wrong with the square, but something else that is attacked would be left to fall;
    - "own_man": a man of the same side stands there;
    - "pinned", "unanswered_check": not legal, the king would stand in check;
    - "held_by_pawn", "held_by_minor", "held": the captures that follow there lose material, the cheapest taker being a
      pawn, a knight or bishop, or a dearer man; or a king may not step there;
    - "gives_up_duty": something that the piece holds falls (`duty`);
    - "denied_by_tactics": the other side wins material by a tactical point that `line` shows;
    - "undecided": the search bound was too small to say.
    """
    duty: Square | None
    """What falls, for "gives_up_duty"."""
    line: list[Move]
    """The move and the best replies, where the move is legal and loses something; otherwise empty."""
    gain: int
    """What the line brings the piece's side, in pawns."""
    mated: bool
    """The line ends with checkmate of the piece's side."""


@dataclass(frozen=True, repr=False)
class Mobility(Drawn, Mapping[Square, Destination]):
    """The mobility of one piece: a mapping from the squares that it could reach to `Destination`.

    Draws itself in notebooks: a dot on each square where the piece may safely go, a cross on each that costs something.
    """

    position: Position
    """The position that it is about."""
    piece: Placed
    """The piece that could move."""
    known: bool
    """False, and no destinations, when the piece's side has no turn because the other one stands in check."""
    destinations: list[Destination]
    """Every square that it could reach, in square order."""
    scope: list[Square]
    """Where the piece may safely go: the squares with the verdict "open" or "neglects"."""

    def __getitem__(self, square: str) -> Destination:
        for destination in self.destinations:
            if destination.square == square:
                return destination
        raise KeyError(square)

    def __iter__(self) -> Iterator[Square]:
        return (destination.square for destination in self.destinations)

    def __len__(self) -> int:
        return len(self.destinations)

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        reachable = [place for place in self.destinations if place.verdict != "own_man"]
        pattern = words.no_turn if not self.known else words.mobility_at if self.scope else words.mobility
        return pattern.format(
            piece=words.kind(self.piece.piece.kind),
            square=self.piece.square,
            side=words.side(self.piece.piece.side),
            reachable=len(reachable),
            safe=len(self.scope),
            squares=", ".join(self.scope),
        )

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Mobility: {self}>"

    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        from keysquare._diagrams import Mark

        safe = set(self.scope)
        marks = [Mark(self.piece.square, "ring")]
        for square, destination in self.items():
            if square in safe:
                marks.append(Mark(square, "dotted_outline" if square in self.position.pieces else "dot"))
            elif destination.verdict != "own_man":
                marks.append(Mark(square, "cross"))
        return marks, []


@dataclass(frozen=True)
class Grip:
    """One side's grip on one square. Attackers are counted by geometry: a king and pinned men attack too."""

    attackers: int
    """Men that attack the square."""
    support: int
    """Rooks, bishops and queens that join in when the men before them are gone."""
    cheapest: str | None
    """The kind of the cheapest attacker; the king counts as the dearest."""
    denies: bool
    """A knight of the other side put there would be lost."""


@dataclass(frozen=True)
class ControlledSquare:
    """One square, with the grip of both sides."""

    square: Square
    """The square."""
    white: Grip
    """White's grip on it."""
    black: Grip
    """Black's grip on it."""
    holder: Side | None
    """The side that denies the square to the other side and is not denied it; None when it is contested."""

    def of(self, side: str) -> Grip:
        """The grip of one side."""
        return self.white if Side(side) == WHITE else self.black


@dataclass(frozen=True, repr=False)
class SquareControl(Mapping[Square, ControlledSquare]):
    """The control of all 64 squares: a mapping from the square, and the totals by side."""

    squares: dict[Square, ControlledSquare]
    """All 64 squares."""
    held: dict[Side, list[Square]]
    """The squares that each side holds; their number is the side's total."""
    denied: dict[Side, list[Square]]
    """The squares that each side denies to the other."""
    attacked: dict[Side, list[Square]]
    """The squares that each side attacks at least once."""

    def __getitem__(self, square: str) -> ControlledSquare:
        return self.squares[Square(square)]

    def __iter__(self) -> Iterator[Square]:
        return iter(self.squares)

    def __len__(self) -> int:
        return len(self.squares)

    def __contains__(self, square: object) -> bool:
        return square in self.squares

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        return words.control.format(white=len(self.held[WHITE]), black=len(self.held[BLACK]))

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.SquareControl: {self}>"

    def _repr_html_(self) -> str:
        return board_html(_holders(self.held), f"{self} W: held by White, B: by Black.")


def _holders(held: Mapping[Side, list[Square]]) -> dict[str, str]:
    """The letter of the side that holds each square."""
    return {square: "W" if side == WHITE else "B" for side, squares in held.items() for square in squares}


@dataclass(frozen=True)
class RegionCounts:
    """How many squares of a complex a side has in one region of the board."""

    held: int
    """Squares of the region that the side holds."""
    attacked: int
    """Squares of the region that the side attacks at least once."""
    holes: int
    """Squares of the region that are holes."""


@dataclass(frozen=True)
class ComplexSide:
    """What one side has of the squares of one colour."""

    held: list[Square]
    """Squares that it holds (`square_control`)."""
    attacked: list[Square]
    """Squares that it attacks at least once."""
    holes: list[Square]
    """Squares on its second to fourth rank that its pawns can't guard any more."""
    bishops: list[Square]
    """The side's bishops that run on the colour."""
    pawns: list[Square]
    """Its pawns on the colour."""
    fixed_pawns: list[Square]
    """Those of them that can't well advance."""
    pawns_off: list[Square]
    """Its pawns on the other colour."""
    fixed_pawns_off: list[Square]
    """Those of them that can't well advance."""
    regions: dict[str, RegionCounts]
    """Counts on the colour in "board", "own_half", "other_half", "centre", "own_king" and "other_king" (the squares next
    to the king)."""


@dataclass(frozen=True, repr=False)
class ColourComplex:
    """The squares of one colour, and what both sides have of them."""

    colour: str
    """ "light" or "dark"."""
    weak_side: Side | None
    """The side to which the complex is a weakness: its pawns have left it, and it has no bishop on it while the other side
    has one."""
    sides: dict[Side, ComplexSide]
    """What each side has of the complex."""

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        held = {str(side): len(counts.held) for side, counts in self.sides.items()}
        weak = words.weak_complex.format(side=words.side(self.weak_side)) if self.weak_side else ""
        return words.complex.format(colour=words.colours[self.colour], **held) + weak

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.ColourComplex: {self}>"

    def _repr_html_(self) -> str:
        held = {side: counts.held for side, counts in self.sides.items()}
        return board_html(_holders(held), f"{self} W: held by White, B: by Black.")


@dataclass(frozen=True)
class Grasp:
    """What each side has of some squares."""

    held: dict[Side, list[Square]]
    """By side: the squares that it holds."""
    attacked: dict[Side, list[Square]]
    """By side: the squares that it attacks at least once."""


@dataclass(frozen=True, repr=False)
class Guardian:
    """The minor piece that a side's squares of one colour stand or fall with; all counted in that side's half."""

    side: Side
    """The side in whose half the squares lie."""
    colour: str
    """ "light" or "dark"."""
    piece: Placed
    """The guardian."""
    lost: list[Square]
    """The squares that slip from the side's hands without the piece."""
    now: Grasp
    """What both sides have of these squares."""
    without: Grasp
    """What they would have without the piece."""

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        pattern = words.guardian_of_one if len(self.lost) == 1 else words.guardian_of_many
        return pattern.format(
            piece=words.kind(self.piece.piece.kind),
            square=self.piece.square,
            side=words.side(self.side),
            count=len(self.lost),
            colour=words.colours[self.colour],
        )

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        return f"<keysquare.Guardian: {self}>"

    def _repr_html_(self) -> str:
        letters: dict[str, str] = {**dict.fromkeys(self.lost, "×"), self.piece.square: self.piece.piece.letter}
        return board_html(letters, f"{self} ×: squares that slip away.")


@dataclass(frozen=True)
class KingShelter:
    """The pawns before a king, the files that lead to it, and the enemy men that bear on it."""

    king: Square
    """Where the king stands."""
    shield: list[Square]
    """On each file on the king or beside it, the nearest own pawn one or two ranks ahead."""
    open_files: list[str]
    """Of these files, by letter, those without any pawn."""
    half_open_files: list[str]
    """Of these files those on which only this side has a pawn, so that the enemy rooks meet it."""
    bearing_men: list[Square]
    """Enemy men that attack the king's square or one next to it."""


@dataclass(frozen=True)
class LedgerPage:
    """One side's page of the exchange ledger. Every count is the count of what is listed."""

    pawns: list[Square]
    """All pawns of the side."""
    more_pawns: int
    """Own pawns minus those of the other side."""
    passed_pawns: list[Square]
    """Its passed pawns."""
    isolated_pawns: list[Square]
    """Its isolated pawns: none of its side on a neighbouring file."""
    doubled_pawns: list[Square]
    """Its doubled pawns."""
    pawn_islands: int
    """How many groups its pawns make, with a file between them."""
    weak_pawns: int
    """Isolated pawns plus files with doubled pawns."""
    bishop_pair: list[Square]
    """The bishops when they run on both colours, otherwise empty."""
    outposts: list[Square]
    """Minor pieces on outposts."""
    rooks: dict[Square, list[Square] | None]
    """Every rook with the squares that it can safely go to; None where that can't be asked because the other side stands
    in check."""
    open_files: list[str]
    """Files that the rooks can use, by letter: those without any pawn."""
    half_open_files: list[str]
    """Those with a pawn of the other side only."""
    king: KingShelter
    """What shelters its king, and what points at it."""
    threats: list[Threat]
    """What it would win if it were to move, strongest first; empty while it has no turn."""
    useful_moves: list[UsefulMove]
    """Its useful moves (`outlook`), likewise."""


@dataclass(frozen=True)
class GuardianGone:
    """The minor piece that the side with the rooks no longer has, and what both sides had and have of its complex."""

    piece: Placed
    """Where it stood in the earlier position."""
    colour: str
    """ "light" or "dark"."""
    before: Grasp
    """In the earlier position, on squares of the complex alone."""
    now: Grasp
    """The same in the position itself."""


@dataclass(frozen=True)
class Compensation:
    """What a published formula says of the compensation for the exchange: no verdict on who stands better."""

    level: str
    """ "none", "some", "enough" or "more_than_enough"."""
    points: int
    """In half pawns; the price of the exchange is four."""
    items: dict[str, int]
    """The points that each item brought: pawns, bishop_pair, outpost, passed_pawn, exposed_king, men_at_king,
    no_rook_file, damaged_pawns."""


@dataclass(frozen=True)
class ExchangeLedger(InLanguages, Spoken):
    """What each side has in a position where one of them is the exchange up. `str(ledger)` is one short paragraph."""

    side: Side
    """The side with the rooks."""
    giver: Side
    """The side that gave the exchange."""
    times: int
    """How often."""
    pages: dict[Side, LedgerPage]
    """What each side has."""
    guardian: GuardianGone | None
    """Only when an earlier position was given and it is clear which piece it was."""
    compensation: Compensation
    """Of the giver. Threats and useful moves bring no points: they come and go with every move."""
    paragraph: str
    """All of it in sentences."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    def __str__(self) -> str:
        return self.paragraph


@dataclass(frozen=True)
class Parry:
    """What one move does about a threat, and what else it does."""

    move: Move
    """The move."""
    stops: bool
    """The threat is gone: neither its first move nor another capture of the man that it takes wins (mates) any more."""
    ends_all: bool
    """The other side has nothing at all: no move of it wins more than this one took."""
    counters: bool
    """It ends all, and it gives check or threatens at least as much as the threat wins."""
    wins: bool
    """It wins something by captures and checks."""
    takes: bool
    """It captures or promotes."""
    threatens: bool
    """It gives check, or threatens something by captures and checks that could not be won at once."""
    castles: bool
    """It castles."""
    develops: bool
    """It moves a knight or bishop from its first square."""

    @property
    def useful(self) -> bool:
        """Whether it does something else than to parry."""
        return self.wins or self.takes or self.threatens or self.castles or self.develops


@dataclass(frozen=True)
class Parries(InLanguages):
    """What can be done about a threat. `str(parries)` says it in a few sentences."""

    threat: Threat
    """The threat that was asked about."""
    moves: list[Parry]
    """The moves that stop the threat or leave the other side nothing."""
    legal: int
    """Legal moves of the mover."""
    natural: int
    """Its natural replies: the legal moves that lose nothing by themselves."""
    natural_stopping: int
    """Those of them that stop the threat."""
    sentence: str
    """What is said about them."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    @property
    def stops(self) -> list[Move]:
        """The moves after which this threat is gone."""
        return [parry.move for parry in self.moves if parry.stops]

    @property
    def parries(self) -> list[Move]:
        """The moves after which the other side wins nothing at all."""
        return [parry.move for parry in self.moves if parry.ends_all]

    @property
    def counters(self) -> list[Move]:
        """Those of `parries` that answer with a check or a threat as large."""
        return [parry.move for parry in self.moves if parry.counters]

    @property
    def useful(self) -> list[Move]:
        """Those of `parries` that are good for something else as well."""
        return [parry.move for parry in self.moves if parry.ends_all and parry.useful]

    @property
    def every_natural_reply(self) -> bool:
        """Whether every natural reply stops the threat."""
        return 0 < self.natural == self.natural_stopping

    @property
    def most_natural_replies(self) -> bool:
        """Whether at least half of the natural replies stop it."""
        return 0 < self.natural <= 2 * self.natural_stopping

    def __str__(self) -> str:
        return self.sentence

    def _repr_html_(self) -> str:
        return threat_html(self.threat, self.sentence)


@dataclass(frozen=True)
class Answer(InLanguages):
    """What the other side has after a move. `str(answer)` is a sentence."""

    move: Move
    """The move that was asked about."""
    reply: Threat | None
    """The strongest thing that the other side can do then; its position is the one after the move."""
    taken: int
    """What the move takes by itself, in pawns."""
    cost: int
    """The gain of the reply minus `taken`; 0 when there is no reply."""
    loses: bool
    """The reply mates by force, or the cost is at least what was asked for."""
    walks_into: bool
    """It loses, and after a pass the other side would not have had as much of the same."""
    leaves: bool
    """It loses, because of what was threatened before."""
    sentence: str
    """What is said about it."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    @property
    def line(self) -> list[Move]:
        """The line of the reply, from the position after the move."""
        return [] if self.reply is None else self.reply.line

    @property
    def gain(self) -> int:
        """The gain of the reply, for the other side."""
        return 0 if self.reply is None else self.reply.gain

    def __str__(self) -> str:
        return self.sentence

    def _repr_html_(self) -> str:
        return threat_html(self.reply, self.sentence)


@dataclass(frozen=True)
class Route:
    """One way of a piece to its target."""

    squares: list[Square]
    """Its stops, the target last."""
    moves: list[Move]
    """The moves, each legal while the other side passes."""

    def __len__(self) -> int:
        return len(self.moves)

    def __str__(self) -> str:
        return "-".join(self.squares)


@dataclass(frozen=True, repr=False)
class Routes(InLanguages, Drawn, Sequence[Route]):
    """The shortest safe routes of a piece: a sequence of `Route`, empty where there is none.

    `str(routes)` is one English sentence. Draws itself in notebooks: the first route as arrows.
    """

    position: Position
    """The position in which the piece sets out."""
    piece: Placed
    """The piece that is to go."""
    targets: list[Square]
    """The squares that it is to reach, any one of them."""
    known: bool
    """False, and no routes, when the piece's side has no turn because the other one stands in check."""
    after_pass: bool
    """The other side is to move, and passes first, too."""
    there: bool
    """The piece stands on a target already; there are no routes then."""
    moves: int
    """How many moves each route takes; 0 when there is none."""
    ways: int
    """How many shortest routes there are, also those that are not listed."""
    routes: list[Route]
    """At most eight of them, in the order of their stops."""
    sentence: str
    """One English sentence."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    @overload
    def __getitem__(self, at: int) -> Route: ...
    @overload
    def __getitem__(self, at: slice) -> list[Route]: ...
    def __getitem__(self, at: int | slice) -> Route | list[Route]:
        return self.routes[at]

    def __len__(self) -> int:
        return len(self.routes)

    def __str__(self) -> str:
        return self.sentence

    def __repr__(self) -> str:
        return f"<keysquare.Routes: {self.sentence}>"

    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        from keysquare._diagrams import Arrow, Mark

        marks = [Mark(self.piece.square, "ring")]
        marks += [Mark(square, "outline") for square in self.targets if square != self.piece.square]
        stops = [self.piece.square, *self.routes[0].squares] if self.routes else []
        return marks, [Arrow(*pair) for pair in zip(stops, stops[1:])]


@dataclass(frozen=True)
class Spoiler:
    """The reply that spoils a plan after one of its steps."""

    how: str
    """
    - "wins": it wins material or mates by force, whatever the plan was;
    - "punishes": the next step, played all the same, loses material or runs into mate;
    - "prevents": the next step is not legal any more;
    - "defuses": the next step, which would have mated or won something, does neither any more;
    - "checks": the next step is not legal any more because the reply gives check.

    Of several the first in this list is given. But for "wins", the reply costs the other side nothing.
    """
    gain: int
    """What the line wins for the side that replies, minus what the step won, in pawns; 0 where it prevents or checks."""
    mate: bool
    """The line mates."""
    line: list[Move]
    """The reply and what follows, from the position after the step."""
    line_san: str
    """The line as people write it."""


@dataclass(frozen=True)
class PlanStep:
    """One step of a plan."""

    position: Position
    """The position that the step is made in, the planner to move."""
    move: Move
    """The move of the step."""
    san: str
    """The move in SAN."""
    won: int
    """What the step wins by itself, in pawns: the man taken, the promotion."""
    gives_check: bool
    """Only the last step may."""
    safety: str
    """
    - "safe";
    - "falls": captures on its square win for the other side more than the step has won (`taken`);
    - "loses": the move loses something by `resolve`, there or elsewhere (`kept`);
    - "undecided": the search bound was too small to say.
    """
    taken: Outcome
    """What captures on its square win for the other side, by `exchange`."""
    kept: Outcome
    """What the planner has when the other side replies at once; the line starts with the step."""
    spoiler: Spoiler | None
    """The reply that spoils the plan here, None where there is none inside the bound."""

    @property
    def is_safe(self) -> bool:
        """Whether the piece may stop there."""
        return self.safety == "safe"


@dataclass(frozen=True)
class FreePlay:
    """What a side achieves with a few moves in a row while the other one passes."""

    looked_at: int
    """All strings of 1 to this many free moves were tried (at most 3)."""
    gain: int
    """What the best of them wins, in pawns, the other side's best replies to the last move included; 0 without moves when
    nothing wins anything."""
    mate: bool
    """The last free move, with the best replies, mates."""
    complete: bool
    """False when the node bound left a string undecided; that one is not counted."""
    moves: list[Move]
    """The free moves."""
    line: list[Move]
    """The last of them again, and the best replies to it."""


@dataclass(frozen=True, repr=False)
class PlanCheck(InLanguages, Drawn):
    """What comes of a plan. `str(plan)` is one short English paragraph. Draws itself in notebooks: its moves as arrows."""

    position: Position
    """The position that the plan was asked about."""
    side: Side
    """The planner."""
    after_pass: bool
    """The other side is to move at first, and passes."""
    steps: list[PlanStep]
    """The steps, in their order."""
    end: Position
    """The position after the last step, the other side to move."""
    won: int
    """What all steps win by themselves, in pawns."""
    mates: bool
    """The last step mates."""
    compared: bool
    """False where a king is in check before or after; `created`, `removed`, `gained` and `lost` are empty then."""
    created: list[Finding]
    """Findings of the end that were none before, strongest first. Two are the same when theme, side and pieces are."""
    removed: list[Finding]
    """Findings of before that are none at the end. Before and after are compared with the other side to move."""
    gained: list[Square]
    """Squares that the planner holds at the end and did not before (`square_control`)."""
    lost: list[Square]
    """Squares that the planner held before and does not at the end."""
    counts: dict[str, tuple[int, int]]
    """The columns of `features` that change: before and after."""
    other: FreePlay | None
    """What the other side achieves with as many free moves; None when the planner stands in check and can't pass."""
    paragraph: str
    """One short English paragraph."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    @property
    def tempi(self) -> int:
        """The number of moves that the plan takes."""
        return len(self.steps)

    @property
    def is_safe(self) -> bool:
        """Whether every stop is safe."""
        return all(step.is_safe for step in self.steps)

    @property
    def spoiled_at(self) -> PlanStep | None:
        """The first step that a reply spoils."""
        return next((step for step in self.steps if step.spoiler), None)

    def __str__(self) -> str:
        return self.paragraph

    def __repr__(self) -> str:
        return f"<keysquare.PlanCheck: {self.paragraph}>"

    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        from keysquare._diagrams import Arrow

        several = len(self.steps) > 1
        return [], [
            Arrow(step.move.origin, step.move.target, number=at if several else 0)
            for at, step in enumerate(self.steps, start=1)
        ]


@dataclass(frozen=True)
class LineStep:
    """One move of the side in the line to be seen, and what there is besides it at that moment.

    A move is forcing when it captures, promotes or gives check, and quiet otherwise. At first sight a move brings what it
    takes by itself minus what the other side then wins by `exchange` on the square of arrival; a mate at once brings more
    than anything else.
    """

    position: Position
    """The position that the move is made in."""
    move: Move
    """The move."""
    san: str
    """The move in SAN."""
    man: str
    """The kind of the man that moves, "knight"; the king in castling."""
    captures: bool
    """It takes a man."""
    promotes: bool
    """A pawn becomes a piece."""
    checks: bool
    """It gives check."""
    backward: bool
    """It arrives on a rank nearer to the side's own first rank; castling does not."""
    recaptures: bool
    """It takes a man where the other side's last move of the line arrived."""
    gives_up: bool
    """At first sight it brings less than nothing: captures on its square cost more than it took."""
    distance: int
    """How far it goes, in steps of a king; 0 in castling."""
    legal: int
    """Legal moves of the side."""
    forcing: int
    """Those of them that are forcing."""
    tempting: int
    """The others that bring at least as much at first sight."""
    replies: int
    """Legal moves of the other side after the move."""
    forcing_replies: int
    """Those of them that are forcing."""

    @property
    def is_quiet(self) -> bool:
        """Whether it neither captures nor promotes nor gives check."""
        return not (self.captures or self.promotes or self.checks)

    @property
    def is_long(self) -> bool:
        """Whether it goes four squares or more."""
        return self.distance >= 4


@dataclass(frozen=True, repr=False)
class Difficulty(InLanguages, Spoken):
    """What one side has to see in a position, all of it counts. `str(difficulty)` is one short English paragraph."""

    position: Position
    """The position that it is about."""
    side: Side
    """The side that has to see it."""
    known: bool
    """False when the side has no turn because the other one is to move and stands in check; all else is empty then."""
    after_pass: bool
    """The other side is to move, and passes."""
    checked: bool
    """The side stands in check."""
    legal: int
    """Its legal moves."""
    keeping: int
    """Those that keep the material, by `resolve` after each; where some is lost anyway, those that lose least."""
    loss: int
    """What even these lose, in pawns; 0 with `mated`."""
    mated: bool
    """Every move is mated by force; then all of them count as keeping."""
    at_stake: int
    """What the other side would win by `resolve` if this one did nothing, in pawns; 0 in check, and with
    `mate_at_stake`."""
    mate_at_stake: bool
    """The other side would mate by force if this one did nothing."""
    forcing: int
    """Legal moves that capture, promote or give check."""
    winning: int
    """Legal moves that win something by force, as `threats` finds them."""
    winning_most: int
    """Those of them that win the most; every mate counts alike."""
    source: str
    """
    Where the line to be seen comes from:
    - "given": the caller gave it;
    - "wins": the strongest of the side's `threats`;
    - "holds": there is none, but the side stands in check or would lose something by doing nothing: the move that comes to
      most;
    - "none": there is nothing to be seen.
    """
    line: list[Move]
    """The line to be seen. One that was found is cut as soon as the balance is what it is at the end, and never falls
    below that again."""
    line_san: str
    """The line as people write it: "12.Nxd6 Bxd6 13.Rxd6"."""
    gain: int
    """What the line wins, in pawns."""
    mate: bool
    """The line ends with checkmate by the side."""
    deficit: int
    """How far the side is behind the start of the line at the worst moment of it, in pawns."""
    movers: int
    """How many of its men move in the line."""
    steps: list[LineStep]
    """The moves of the side in the line."""
    shown: int
    """What the first move of the line comes to by captures and checks alone (`resolve` after it), in pawns; 0 with a
    mate."""
    shown_mate: bool
    """By captures and checks alone the side mates."""
    shown_mated: bool
    """By captures and checks alone it is mated."""
    as_good: int
    """Other legal moves that come to at least as much by captures and checks alone."""
    better: int
    """Those of them that come to more."""
    failing: int
    """Other captures, promotions and checks, that come to less."""
    numbers: dict[str, int]
    """All counts by name, as `difficulty_numbers` defines them; yes is 1, no is 0."""
    paragraph: str
    """One short English paragraph."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    @property
    def moves(self) -> int:
        """The number of moves of the side in the line."""
        return len(self.steps)

    def as_dict(self, language: str = "en") -> dict[str, Any]:
        """The counts, the line and the paragraph as plain data, fit for JSON; moves in coordinate notation, the paragraph
        as in `text`."""
        return {
            "fen": self.position.fen,
            "side": str(self.side),
            "after_pass": self.after_pass,
            "source": self.source,
            "line": [str(move) for move in self.line],
            "line_san": self.line_san,
            "numbers": dict(self.numbers),
            "paragraph": self.text(language),
        }

    def __str__(self) -> str:
        return self.paragraph

    def __repr__(self) -> str:
        return f"<keysquare.Difficulty: {self.paragraph}>"


@dataclass(frozen=True, repr=False)
class Difficulties(InLanguages, Spoken, Mapping[Side, Difficulty]):
    """What both sides have to see: a mapping from the side. `str(difficulties)` is one paragraph, the mover first."""

    position: Position
    """The position that it is about."""
    sides: dict[Side, Difficulty]
    """What each side has to see."""
    paragraph: str
    """Both in sentences."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    def __getitem__(self, side: str) -> Difficulty:
        return self.sides[Side(side)]

    def __iter__(self) -> Iterator[Side]:
        return iter(self.sides)

    def __len__(self) -> int:
        return len(self.sides)

    def as_dict(self, language: str = "en") -> dict[str, Any]:
        """Both sides as plain data, fit for JSON; paragraphs as in `text`."""
        return {str(side): difficulty.as_dict(language) for side, difficulty in self.items()}

    def __str__(self) -> str:
        return self.paragraph

    def __repr__(self) -> str:
        return f"<keysquare.Difficulties: {self.paragraph}>"


@dataclass(frozen=True)
class Reason:
    """One fact about a move."""

    fact: str
    """Its name; `fact_definitions` says what it means."""
    amount: int
    """How much of it; negative when the move makes it worse for the side that moves."""
    squares: list[Square]
    """Where it is seen."""


@dataclass(frozen=True)
class MoveFacts:
    """All facts about one legal move."""

    move: Move
    """The move."""
    loses: bool
    """It loses material, or runs into mate, inside the bound."""
    facts: list[Reason]
    """Those with an amount other than 0."""


@dataclass(frozen=True, repr=False)
class Candidate(InLanguages):
    """A move that deserves a look. `str(candidate)` is one English sentence with its reasons."""

    position: Position
    """Before the move."""
    move: Move
    """The move."""
    san: str
    """The move in SAN."""
    won: Outcome | None
    """What it wins, whatever the reply: the line starts with the move. None when it wins nothing."""
    kept: Outcome
    """What its side has when the other side replies with captures and checks: the line starts with the move."""
    threat: Outcome | None
    """What would follow if the other side passed: a mate, or more than falls at once without the move. The line starts
    in `position.after(move).passed()`."""
    loses: bool
    """It loses material; only where every move does."""
    reasons: list[Reason]
    """What speaks for it, most first; never empty."""
    drawbacks: list[Reason]
    """What speaks against it, most first."""
    parried: Threat | None
    """The strongest threat of the other side, where the move stops it."""
    allowed: Outcome | None
    """The best reply of the other side, where one wins something: the line starts in `position.after(move)`."""
    sentence: str
    """The move with its reasons, as a sentence."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    def __str__(self) -> str:
        return self.sentence

    def __repr__(self) -> str:
        return f"<keysquare.Candidate: {self.sentence}>"

    def as_dict(self, language: str = "en") -> dict[str, Any]:
        """All of it as plain data, fit for JSON; moves in coordinate notation, sentences as in `text`."""
        return {
            "fen": self.position.fen,
            "move": str(self.move),
            "san": self.san,
            "won": _outcome_data(self.won),
            "kept": _outcome_data(self.kept),
            "threat": _outcome_data(self.threat),
            "loses": self.loses,
            "reasons": [_reason_data(reason) for reason in self.reasons],
            "drawbacks": [_reason_data(reason) for reason in self.drawbacks],
            "parried": self.parried.as_dict(language) if self.parried else None,
            "allowed": _outcome_data(self.allowed),
            "sentence": self.text(language),
        }

    def _repr_svg_(self) -> str:
        return Candidates(self.position, [self])._repr_svg_()


@dataclass(frozen=True, repr=False)
class Candidates(Drawn, Sequence[Candidate]):
    """The moves that deserve a look, the one with the most to be said for it first.

    `str(candidates)` has a line for each. Draws itself in notebooks: the moves as numbered arrows.
    """

    position: Position
    """The position that they are about."""
    moves: list[Candidate]
    """The candidates, the best one first."""

    @overload
    def __getitem__(self, at: int) -> Candidate: ...
    @overload
    def __getitem__(self, at: slice) -> list[Candidate]: ...
    def __getitem__(self, at: int | slice) -> Candidate | list[Candidate]:
        return self.moves[at]

    def __len__(self) -> int:
        return len(self.moves)

    def __str__(self) -> str:
        return "\n".join(candidate.sentence for candidate in self.moves)

    def text(self, language: str = "en") -> str:
        """The sentences of all in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words_in(language)
        return "\n".join(candidate.text(language) for candidate in self.moves)

    def __repr__(self) -> str:
        return f"<keysquare.Candidates: {', '.join(candidate.san for candidate in self.moves)}>"

    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        from keysquare._diagrams import Arrow

        several = len(self.moves) > 1
        arrows = [
            Arrow(candidate.move.origin, candidate.move.target, number=at if several else 0)
            for at, candidate in enumerate(self.moves, start=1)
        ]
        return [], arrows


@dataclass(frozen=True)
class UsefulMove:
    """A move that does something useful."""

    move: Move
    """The move."""
    san: str
    """The move in SAN."""
    reasons: list[Reason]
    """Why: "mates", "wins", "meets_threat", "threatens_mate", "threatens", and the facts of `yardsticks` that it improves.
    Never empty."""
    won: Outcome | None
    """What it wins, whatever the reply: the line starts with the move. None when it wins nothing."""
    threat: Outcome | None
    """What would follow if the other side passed after it: a mate, or more than falls at once without the move."""

    def __str__(self) -> str:
        return self.san


@dataclass(frozen=True)
class BestSquare:
    """The best square that a piece can safely get to in one or two moves."""

    piece: Placed
    """The piece, where it stands now."""
    square: Square
    """Where it is best placed."""
    route: Route
    """The first of the shortest safe routes (`keysquare.route`)."""
    gains: list[Reason]
    """The facts of `yardsticks` that are better when the piece stands there and nothing else has changed."""

    def __str__(self) -> str:
        return f"{self.piece}: {self.route}"


@dataclass(frozen=True, repr=False)
class SideOutlook(InLanguages, Drawn):
    """What one side can do. `str(side)` is a few sentences. Draws itself in notebooks: its pieces and their best squares."""

    position: Position
    """The position that it is about."""
    side: Side
    """The side that it is about."""
    known: bool
    """False, and nothing else is said, when the side has no turn because the other one stands in check."""
    after_pass: bool
    """The other side is to move, and passes first: everything is said of `position.passed()`."""
    in_check: bool
    """It stands in check; nothing is said about plans and best squares then."""
    legal: int
    """Its legal moves."""
    useful: list[UsefulMove]
    """The moves that win something, and the safe moves that meet a threat, improve something, or threaten something
    without making anything worse."""
    merely_safe: list[Move]
    """The other safe moves."""
    only_move: Move | None
    """Of several legal moves the one that keeps the material, when every other one is known not to."""
    threats: list[Threat]
    """As `threats` gives them."""
    best_squares: list[BestSquare]
    """Of the pieces that have one, and in an endgame of the king."""
    no_plan: bool
    """It may move and is not in check, and has neither a useful move nor a piece with a better square."""
    paragraph: str
    """All of it in sentences."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    def as_dict(self, language: str = "en") -> dict[str, Any]:
        """All of it as plain data, fit for JSON; moves in coordinate notation, sentences as in `text`."""
        return {
            "fen": self.position.fen,
            "side": str(self.side),
            "known": self.known,
            "after_pass": self.after_pass,
            "in_check": self.in_check,
            "legal": self.legal,
            "useful": [
                {
                    "move": str(useful.move),
                    "san": useful.san,
                    "reasons": [_reason_data(reason) for reason in useful.reasons],
                    "won": _outcome_data(useful.won),
                    "threat": _outcome_data(useful.threat),
                }
                for useful in self.useful
            ],
            "merely_safe": [str(move) for move in self.merely_safe],
            "only_move": None if self.only_move is None else str(self.only_move),
            "threats": [threat.as_dict(language) for threat in self.threats],
            "best_squares": [
                {
                    "piece": str(best.piece.piece),
                    "from": str(best.piece.square),
                    "square": str(best.square),
                    "route": [str(move) for move in best.route.moves],
                    "gains": [_reason_data(gain) for gain in best.gains],
                }
                for best in self.best_squares
            ],
            "no_plan": self.no_plan,
            "paragraph": self.text(language),
        }

    def __str__(self) -> str:
        return self.paragraph

    def __repr__(self) -> str:
        return f"<keysquare.SideOutlook: {self.paragraph}>"

    def _drawing(self) -> tuple[list[Mark], list[Arrow]]:
        from keysquare._diagrams import Arrow, Mark

        marks, arrows = [], []
        for number, best in enumerate(self.best_squares, 1):
            stops = [best.piece.square, *best.route.squares]
            marks += [Mark(best.piece.square, "ring", number), Mark(best.square, "outline", number)]
            arrows += [Arrow(*pair, "dashed" if at else "solid") for at, pair in enumerate(zip(stops, stops[1:]))]
        return marks, arrows


@dataclass(frozen=True, repr=False)
class Outlook(InLanguages, Mapping[Side, SideOutlook]):
    """What both sides can do: a mapping from the side. `str(outlook)` is one paragraph, the mover first.

    Draws itself in notebooks: a diagram for each side, with the paragraph.
    """

    position: Position
    """The position that it is about."""
    sides: dict[Side, SideOutlook]
    """What each side can do."""
    equilibrium: bool
    """Neither side has a plan: no threats, no useful moves, no better squares."""
    paragraph: str
    """Both in sentences."""
    texts: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)
    """The same in every language, by its code."""

    def __getitem__(self, side: str) -> SideOutlook:
        return self.sides[Side(side)]

    def __iter__(self) -> Iterator[Side]:
        return iter(self.sides)

    def __len__(self) -> int:
        return len(self.sides)

    def as_dict(self, language: str = "en") -> dict[str, Any]:
        """All of it as plain data, fit for JSON; sentences as in `text`."""
        return {
            **{str(side): outlook.as_dict(language) for side, outlook in self.items()},
            "equilibrium": self.equilibrium,
            "paragraph": self.text(language),
        }

    def __str__(self) -> str:
        return self.paragraph

    def __repr__(self) -> str:
        return f"<keysquare.Outlook: {self.paragraph}>"

    def _repr_html_(self) -> str:
        # The sentences hold names of squares, pieces and moves alone: nothing in them needs to be escaped.
        drawings = "".join(outlook._repr_svg_() for outlook in self.sides.values() if outlook.best_squares)
        return f"<figure>{drawings}<figcaption>{self.paragraph}</figcaption></figure>"


def _outcome_data(outcome: Outcome | None) -> dict[str, Any] | None:
    if outcome is None:
        return None
    return {
        "gain": outcome.gain,
        "mate": outcome.mate,
        "mated": outcome.mated,
        "complete": outcome.complete,
        "line": [str(move) for move in outcome.line],
    }


def _reason_data(reason: Reason) -> dict[str, Any]:
    return {"fact": reason.fact, "amount": reason.amount, "squares": [str(square) for square in reason.squares]}


@dataclass(frozen=True)
class FeatureColumn:
    """One column of the numeric vector."""

    name: str
    """In snake case, and no two have the same."""
    type: str
    """ "int16" for all of them."""
    unit: str
    """What the numbers count: "men", "squares", "files", "pairs", "lines", "groups", "pawns" (their value), "rank", "steps",
    "moves", "plies" or "yes_or_no" (1 or 0)."""
    view: str
    """ "white" or "black": the side that the definition speaks of; "difference": White's number minus Black's; "mover": the
    side to move; "position": the same from either side."""
    definition: str
    """What is counted. A man attacks the squares that it could capture on, a slider up to and including the first man,
    pins not looked at; a piece is a man other than a pawn; each side counts ranks from its own, 1 to 8."""


@dataclass(frozen=True, repr=False)
class FeatureSchema(Sequence[FeatureColumn]):
    """The columns of the numeric vector, in order. A sequence of FeatureColumn."""

    version: int
    """Raised whenever a column gets another name, place or meaning. New columns are appended and leave it as it is."""
    columns: tuple[FeatureColumn, ...]
    """All columns, in the order of the vector."""

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the columns."""
        return tuple(column.name for column in self.columns)

    def column(self, name: str) -> FeatureColumn:
        """The column of that name. Raises KeyError."""
        for column in self.columns:
            if column.name == name:
                return column
        raise KeyError(name)

    @overload
    def __getitem__(self, at: int) -> FeatureColumn: ...
    @overload
    def __getitem__(self, at: slice) -> tuple[FeatureColumn, ...]: ...
    def __getitem__(self, at: int | slice) -> FeatureColumn | tuple[FeatureColumn, ...]:
        return self.columns[at]

    def __len__(self) -> int:
        return len(self.columns)

    def __repr__(self) -> str:
        return f"<keysquare.FeatureSchema version {self.version}: {len(self)} columns>"


@dataclass(frozen=True)
class RefusedGame:
    """A game that could not be read, and why. A file that breaks off or can't be opened is noted so, too."""

    number: int
    """The number of the game in its text, from 1; 0 when the file could not be opened, and in scans, which read in
    parts. They count the line of the error from that of the game."""
    offset: int
    """Where the game begins, in bytes from the start of the text."""
    error: InputError
    """What was wrong and where: file, number of the game, line, column and offset of the fault."""
    tags: dict[str, str]
    """The tags that were read before the fault; none in scans."""

    @property
    def reason(self) -> str:
        """The reason of the error."""
        return self.error.reason

    @property
    def line(self) -> int:
        """The line of the fault, from 1."""
        return self.error.line

    @property
    def column(self) -> int:
        """The column of the fault, from 1."""
        return self.error.column

    @property
    def token(self) -> str:
        """The text at fault."""
        return self.error.token


@dataclass(frozen=True)
class ReadingCounts:
    """How many games a reader has given and refused so far."""

    read: int
    """Games that were read."""
    refused: int
    """Games that could not be read."""
    with_notices: int
    """Games given though something was odd about them (`Game.notices`)."""


@dataclass(frozen=True)
class ScanColumn:
    """A column that scans and summaries can give."""

    name: str
    """What the column is called; unique."""
    type: str
    """int16, int32, int64, uint64, float64 or utf8, as Arrow calls them."""
    group: str
    """Where it comes from, and so what it costs: "game" next to nothing, all of "vector" together about a microsecond a
    position, each of "search" up to some milliseconds."""
    may_be_missing: bool
    """Whether rows may be without a value."""
    definition: str
    """What it holds, in a sentence."""


@dataclass(frozen=True)
class ScanProgress:
    """How far a scan is."""

    bytes: int
    """Bytes of the files gone through, as they are on the disc."""
    of_bytes: int | None
    """All there are; None when a file does not tell its length."""
    games: int
    """Games seen so far."""
    positions: int
    """Rows so far."""


@dataclass(frozen=True)
class ScanCounts:
    """What became of the games of a scan. `games + left_out + refused` are all that there are (`seen`)."""

    games: int
    """Games whose positions were looked at."""
    left_out: int
    """Games that the filter left out."""
    positions: int
    """Rows."""
    refused_by_reason: dict[str, int]
    """How many games could not be read, by the reason of their error."""
    refused_games: tuple[RefusedGame, ...]
    """The first hundred of them."""

    @property
    def refused(self) -> int:
        """Games that could not be read."""
        return sum(self.refused_by_reason.values())

    @property
    def seen(self) -> int:
        """All games."""
        return self.games + self.left_out + self.refused

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        reasons = ", ".join(f"{reason} {games}" for reason, games in self.refused_by_reason.items())
        return words.scanned.format(
            positions=words.count(self.positions, words.positions),
            games=words.count(self.games, words.games),
            left_out=self.left_out,
            more=f"{words.refused.format(count=self.refused)} ({reasons})" if reasons else "",
        )

    def __str__(self) -> str:
        return self.text()


@dataclass(frozen=True)
class Evaluation:
    """What a "[%eval ...]" command holds, as it was written: White's point of view, and just one of the first two."""

    pawns: float | None
    """In pawns, from White's point of view; None where it is a mate."""
    mate_in: int | None
    """A mate in so many moves, negative when Black mates."""
    depth: int | None
    """The plies that were searched, where they are given."""


@dataclass(frozen=True)
class GameState(Spoken):
    """What the Laws of Chess say of a position because of the moves that led to it.

    `str(state)` says it in a sentence. Articles are those of the FIDE Laws of Chess of 2023.
    """

    mover: Side
    """The side to move."""
    occurrences: int
    """How often the position has occurred, this time included (9.2.3); positions before a null move don't count."""
    quiet_plies: int
    """Plies since the last pawn move or capture, those before the start position included."""
    mover_is_mated: bool
    """The game is over: the side to move is mated (5.1.1)."""
    mover_is_stalemated: bool
    """The game is drawn: the side to move is stalemated (5.2.1)."""
    has_occurred_five_times: bool
    """Drawn: the position has occurred five times (9.6.1)."""
    is_quiet_for_75_moves: bool
    """Drawn: 150 quiet plies, the last of which is no checkmate (9.6.2)."""
    is_dead: bool
    """Drawn: bare kings, one knight or bishop beside them, or bishops on squares of one colour only (5.2.2)."""
    claimable_by_repetition: bool
    """The mover may claim a draw: the position has occurred three times (9.2.2), or will have after a move (9.2.1)."""
    claimable_by_quiet_moves: bool
    """The mover may claim a draw: 100 quiet plies (9.3.2), or 99 and a move that makes them 100 (9.3.1)."""
    repeating_moves: list[Move]
    """The mover's moves after which the position will have occurred at least three times."""

    @property
    def is_drawn(self) -> bool:
        """Whether the game is drawn here without a claim."""
        return self.mover_is_stalemated or self.has_occurred_five_times or self.is_quiet_for_75_moves or self.is_dead

    @property
    def is_over(self) -> bool:
        """Whether the game has ended here by the Laws, without a claim."""
        return self.mover_is_mated or self.is_drawn

    def text(self, language: str = "en") -> str:
        """What `str` gives, in a language of `keysquare.languages`. Raises ValueError for one that is not known."""
        words = words_in(language)
        mover = words.side(self.mover)
        quiet = words.quiet[self.quiet_plies != 1].format(plies=self.quiet_plies)
        if self.mover_is_mated:
            return f"{words.checkmated.format(side=mover)}."
        if self.is_drawn:
            return words.drawn.format(why=self._why_drawn(words, quiet))
        grounds = self._grounds(words, quiet)
        if grounds:
            return words.may_claim.format(side=mover, why=words.and_also.join(grounds))
        return words.game_goes_on.format(side=mover, times=words.times[self.occurrences - 1], quiet=quiet)

    def _why_drawn(self, words: Words, quiet: str) -> str:
        if self.mover_is_stalemated:
            return words.stalemated.format(side=words.side(self.mover))
        if self.is_dead:
            return words.dead
        return words.repeated.format(count=self.occurrences) if self.has_occurred_five_times else quiet

    def _grounds(self, words: Words, quiet: str) -> list[str]:
        """What the mover may claim a draw for."""
        grounds = []
        if self.occurrences >= 3:
            grounds.append(words.repeated.format(count=self.occurrences))
        elif self.claimable_by_repetition:
            grounds.append(words.will_repeat.format(moves=words.or_.join(str(move) for move in self.repeating_moves)))
        if self.claimable_by_quiet_moves:
            grounds.append(quiet if self.quiet_plies >= 100 else quiet + words.will_be_quiet)
        return grounds

    def __str__(self) -> str:
        return self.text()
