"""Writes the corpora that the fuzz targets start from, out of examples/data and the positions named here.

The files of `corpus/TARGET` that are found by fuzzing (`found-*`) stay as they are.
"""

from __future__ import annotations

import bz2
import gzip
import io
import re
from pathlib import Path

import chess
import chess.pgn
import zstandard

HERE = Path(__file__).resolve().parent
DATA = HERE.parents[1] / "examples" / "data"
MEN = "PNBRQpnbrq"

# Composed here, but for the position of 218 legal moves (the known record; from memory).
POSITIONS = [
    chess.STARTING_FEN,
    "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1",
    "r3k2r/pppq1ppp/2n2n2/3pp3/3PP3/2N2N2/PPPQ1PPP/R3K2R w KQkq - 4 8",
    "4k3/8/8/2pP4/8/8/8/4K2R w K c6 0 2",
    "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1",
    "8/P5k1/8/8/8/8/1p4K1/8 b - - 12 60",
    "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10",
    "2r3k1/1b3ppp/p2Np3/1p6/8/P3PQ2/1P3PPP/2R3K1 b - - 1 24",
    "nrb1kbrn/pppppppp/8/8/8/8/PPPPPPPP/NRB1KBRN w GBgb - 0 1",
    "k7/8/8/8/3q4/8/1n6/R2QK2R w KQ - 3 30",
]


def write(target: str, files: dict[str, bytes]) -> None:
    folder = HERE / "corpus" / target
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.glob("made-*"):
        old.unlink()
    for name, content in files.items():
        (folder / f"made-{name}").write_bytes(content)


def position_bytes(fen: str) -> bytes:
    """The position as `PositionBytes` in position_target.hpp reads it."""
    board = chess.Board(fen, chess960=True)
    rights = [board.has_kingside_castling_rights(chess.WHITE), board.has_queenside_castling_rights(chess.WHITE)]
    rights += [board.has_kingside_castling_rights(chess.BLACK), board.has_queenside_castling_rights(chess.BLACK)]
    flags = (not board.turn) + sum(2 << place for place, right in enumerate(rights) if right)
    kings = [board.king(side) or 0 for side in (chess.WHITE, chess.BLACK)]
    file = 255 if board.ep_square is None else chess.square_file(board.ep_square)
    men = bytearray([flags, *kings, file, 12, 10])
    for square, piece in board.piece_map().items():
        if piece.piece_type != chess.KING:
            men += bytes([square, MEN.index(piece.symbol())])
    return bytes(men)


def games() -> list[tuple[str, list[chess.Board], list[str]]]:
    """Some games of the club: the text, the positions and the moves."""
    texts = re.split(r"\n\n(?=\[Event )", (DATA / "club.pgn").read_text(encoding="utf-8"))
    found = []
    for text in texts[:8]:
        game = chess.pgn.read_game(io.StringIO(text))
        assert game is not None
        boards, moves, board = [], [], game.board()
        for move in game.mainline_moves():
            boards.append(board.copy(stack=False))
            moves.append(board.san(move))
            board.push(move)
        found.append((text + "\n\n", boards, moves))
    return found


HOSTILE_PGN = {
    "variations": "[Event \"x\"]\n\n1. e4 (1. d4 d5 (1... Nf6 $1 {a} 2. c4)) e5 ; rest\n2. Nf3 $14 Nc6 1-0\n\n",
    "tags": '[A "q\\"uote"] [B "c"]\n% skip\n[FEN "4k3/8/8/8/8/8/8/4K2R w K - 0 1"]\n[SetUp "1"]\n\n1. O-O+ *\n\n',
    "commands": "1. e4 {[%clk 0:01:02] [%eval #-3] text} e5 {[%eval 0.31,12]} 1/2-1/2\n",
    "broken": "1. e4 e5 2. Ke3 *\n\n[Event \"y\"]\n\n1. -- (1. d4 -- 2. c4) *\n\n1. a4 {open",
    "bytes": b"\xef\xbb\xbf[White \"\xfcber\"]\r\n\r\n1. e4! {\xc3\xa4\xff} e5?? 2.Nf3 e.p. *\r\n".decode("latin-1"),
}


def main() -> None:
    club = games()
    middle = [(boards[at].fen(), moves[at : at + 6]) for _, boards, moves in club for at in (6, len(boards) // 2)]
    fens = POSITIONS + [fen for fen, _ in middle]
    numbered = list(enumerate(fens))
    write("fen", {f"{at:02}": fen.encode() for at, fen in numbered[:14]})
    write("san", {f"{at:02}": f"{fen}\n{moves[0]}".encode() for at, (fen, moves) in enumerate(middle)})
    epd = [f'{" ".join(fen.split()[:4])} bm {moves[0]}; id "club {at}"; hmvc 3; fmvn 12;' for at, (fen, moves) in enumerate(middle)]
    write("epd", {f"{at:02}": line.encode() for at, line in enumerate(epd)})
    write("plan", {f"{at:02}": f"{fen}\n{' '.join(moves[::2])}".encode() for at, (fen, moves) in enumerate(middle)})
    write("position", {f"{at:02}": position_bytes(fen) for at, fen in numbered})
    texts = {f"club{at}": text.encode() for at, (text, _, _) in enumerate(club[:4])}
    texts |= {name: text.encode("latin-1") for name, text in HOSTILE_PGN.items()}
    write("pgn", texts)
    packed = {}
    for name, text in texts.items():
        packed[f"{name}.gz"] = gzip.compress(text, mtime=0)
        packed[f"{name}.bz2"] = bz2.compress(text)
        packed[f"{name}.zst"] = zstandard.compress(text)
    packed["bomb.gz"] = gzip.compress(b"\n" * 100_000, mtime=0)
    packed["members.gz"] = packed["broken.gz"] + packed["tags.gz"]
    write("compressed", packed)


if __name__ == "__main__":
    main()
