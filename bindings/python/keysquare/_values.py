"""The small values that everything else is made of. All of them are text, and can be given as plain text too."""

from __future__ import annotations

from typing import NamedTuple

_KINDS = {"pawn": "P", "knight": "N", "bishop": "B", "rook": "R", "queen": "Q", "king": "K"}


class InputError(ValueError):
    """A text that was refused. `str(error)` is the whole error as one line of English.

    Pickles and compares like any exception.
    """

    message: str
    """The same line."""
    reason: str
    """Why, in snake case: "no_such_piece", "bad_castling", "unterminated_comment", ..."""
    field: str
    """Which part of the text is meant ("placement", "movetext", ...); "none" where it has no parts."""
    line: int
    """The line, from 1; in a plan the number of the step."""
    column: int
    """The column, from 1, in bytes of UTF-8."""
    token: str
    """The text at fault, shortened to 40 bytes; for a file its name, or what the system says."""
    file: str
    """The file as it was named; empty when the text came from elsewhere."""
    game: int
    """The number of the game in its text, from 1; 0 when the text is no text of games."""
    offset: int
    """In a text of games, the bytes before the fault (in a compressed file, of what it holds)."""

    def __init__(
        self,
        message: str,
        reason: str,
        field: str = "none",
        line: int = 1,
        column: int = 1,
        token: str = "",
        file: str = "",
        game: int = 0,
        offset: int = 0,
    ) -> None:
        super().__init__(message, reason, field, line, column, token, file, game, offset)
        self.message = message
        self.reason = reason
        self.field = field
        self.line = line
        self.column = column
        self.token = token
        self.file = file
        self.game = game
        self.offset = offset

    def __str__(self) -> str:
        return self.message

    @property
    def step(self) -> int | None:
        """The number of the step, from 1, where the error is about a plan; otherwise None."""
        return self.line if self.field == "step" else None


def _refused(reason: str, what: str, text: str) -> InputError:
    token = text.encode(errors="replace")[:40].decode(errors="replace")
    place = f', at "{token}"' if token else ""
    return InputError(f"not the name of a {what} (field none, column 1{place})", reason, token=token)


class Square(str):
    """A square of the board: a text ("e4") that knows its place.

    Equal to the plain text and with the same hash, so it serves wherever the text does. Raises InputError
    (`not_a_square`) for other texts, TypeError for what is no text.

    >>> Square("e4") == "e4", Square("e4").file, Square("e4").rank, Square("e4").is_light
    (True, 'e', '4', True)
    """

    __slots__ = ()

    def __new__(cls, name: str) -> Square:
        if not isinstance(name, str):
            raise TypeError(f"a square is text such as 'e4', not {type(name).__name__}")
        if len(name) != 2 or name[0] not in "abcdefgh" or name[1] not in "12345678":
            raise _refused("not_a_square", "square", name)
        return super().__new__(cls, name)

    @property
    def file(self) -> str:
        """The letter of the file, "a" to "h"."""
        return self[0]

    @property
    def rank(self) -> str:
        """The digit of the rank, "1" to "8"; "1" is White's first rank."""
        return self[1]

    @property
    def is_light(self) -> bool:
        """Whether it is a light square."""
        return (ord(self[0]) + ord(self[1])) % 2 == 1


class Side(str):
    """One of the two sides, the text "white" or "black".

    Raises InputError (`not_a_side`) for other texts, TypeError for what is no text.

    >>> WHITE == "white", WHITE.other
    (True, 'black')
    """

    __slots__ = ()

    def __new__(cls, name: str) -> Side:
        if not isinstance(name, str):
            raise TypeError(f"a side is text, 'white' or 'black', not {type(name).__name__}")
        if name not in ("white", "black"):
            raise _refused("not_a_side", "side", name)
        return super().__new__(cls, name)

    @property
    def other(self) -> Side:
        """The other side."""
        return BLACK if self == "white" else WHITE


WHITE = Side("white")
BLACK = Side("black")


class Piece(str):
    """A kind of man with its side, the text "white knight".

    Raises ValueError for other texts, TypeError for what is no text.

    >>> piece = Piece("black queen")
    >>> piece.side, piece.kind, piece.letter
    ('black', 'queen', 'q')
    """

    __slots__ = ()

    def __new__(cls, name: str) -> Piece:
        if not isinstance(name, str):
            raise TypeError(f"a piece is text such as 'white knight', not {type(name).__name__}")
        side, _, kind = name.partition(" ")
        if side not in ("white", "black") or kind not in _KINDS:
            raise ValueError(f"not a piece such as 'white knight': {name[:40]!r}")
        return super().__new__(cls, name)

    @property
    def side(self) -> Side:
        """Whose it is."""
        return WHITE if self.startswith("white") else BLACK

    @property
    def kind(self) -> str:
        """ "pawn", "knight", "bishop", "rook", "queen" or "king"."""
        return self.partition(" ")[2]

    @property
    def letter(self) -> str:
        """The letter of FEN: upper case for White, lower case for Black."""
        letter = _KINDS[self.kind]
        return letter if self.side == "white" else letter.lower()


class Placed(NamedTuple):
    """A piece where it stands; unpacks as `square, piece`."""

    square: Square
    """Where it stands."""
    piece: Piece
    """What it is."""

    def __str__(self) -> str:
        return f"{self.piece} on {self.square}"
