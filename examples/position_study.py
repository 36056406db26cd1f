"""Writes a lesson of the Lantern Chess Club: locked pieces, guards with two jobs, the exchange given for good reasons.

usage: position_study.py [-o LESSON.html]

The lesson takes its positions from the club's games and from diagrams on the coach's own board. What the coach says is
written here; what is said about a position, and every line, comes from the library. With a name that ends in .md or .pgn
the same lesson is written as Markdown or as an annotated game file.
"""

import argparse
import sys
from pathlib import Path

import keysquare as ks

GAMES = Path(__file__).parent / "data" / "club.pgn"

TWO_KNIGHTS = "3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1"
TWO_ROOKS = "8/1pr1rppk/p2Q2bp/8/6B1/7P/q4PPK/3R1R2 b - - 0 1"
ONE_ROOK_TWO_JOBS = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1"
BISHOP_BEFORE_KING = "r3rbk1/pp3ppp/1qpn4/8/6Q1/1P3N2/PBP2PPP/3RR1K1 w - - 0 1"

ABOUT = """
Most games of our autumn tournament were not lost by a move that looked bad. They were lost because *one piece had too
much to do*. Three questions to take home:

1. Which of my pieces can't move, because a friend needs it?
2. Which guard has two jobs?
3. If I give a rook for a bishop or knight, what do I get that I can **count**?
"""


def finding(position: ks.Position, theme: str) -> ks.Finding:
    """The strongest finding of a theme."""
    return ks.findings(position, themes=[theme])[0]


def locked_pieces(study: ks.Study, game: ks.Game) -> None:
    study.section("Locked pieces")
    study.note("Two pieces whose only guards are each other look safe. Count who else guards them, then try to move one.")
    study.add(finding(ks.Position(TWO_KNIGHTS), "mutual_guards"), title="Two knights and two rooks")
    lock = game.at_ply(46)
    study.add(
        lock,
        title="Joren (White) has to move against Ines",
        question="Two white pieces can't move without loss. Which, and what takes them if one goes?",
        findings=[finding(lock.position, "mutual_guards")],
    )
    study.add(game, title="How Ines (Black) broke the lock", moves=(48, 53), diagrams=[51])
    study.ask(
        TWO_ROOKS,
        "Rooks can lock each other, too. Can either black rook move without loss?",
        answer=finding(ks.Position(TWO_ROOKS), "mutual_guards"),
        title="Two rooks and a queen",
    )


def two_jobs(study: ks.Study, game: ks.Game) -> None:
    study.section("Guards with two jobs")
    study.note(
        "Ask of every guard: what *else* would fall if it had to take? A guard with two jobs guards only one thing."
    )
    study.ask(
        ONE_ROOK_TWO_JOBS,
        "What does the rook on d8 guard? Name two things, then a move.",
        answer=finding(ks.Position(ONE_ROOK_TWO_JOBS), "overloaded"),
        title="A rook between two jobs",
    )
    study.ask(
        BISHOP_BEFORE_KING,
        "Find the guard with two jobs, and the move that makes it choose.",
        answer="The same idea with a bishop: it guards d6 and g7, and if it takes on d6, nothing guards g7.",
        findings=[finding(ks.Position(BISHOP_BEFORE_KING), "overloaded")],
        solution="1.Rxd6 Bxd6 2.Qxg7#",
        title="A bishop before its king",
    )
    missed = game.at_ply(55)
    study.add(
        missed,
        title="Mabel and Edo",
        note="Mabel (White) has just pushed 28.a4. Edo had four minutes left.",
        question="Black to move: which white piece has two jobs now, and which capture makes it choose?",
        findings=[finding(missed.position, "overloaded")],
        bottom="mover",
    )


def the_exchange(study: ks.Study, game: ks.Game) -> None:
    study.section("The exchange, given")
    study.note("Rook for bishop or knight is no gift when there is something to show for it. Count it, don’t feel it.")
    given = game.at_ply(54)
    study.add(
        given,
        title="What did Ines (Black) get for it?",
        note="After 27.Nxd4 bxa3 the knights have gone, and White has a rook for a bishop.",
        question="Count what Black has for the exchange: pawns, bishops, passed pawns, the kings.",
        findings=[finding(given.position, "exchange_imbalance")],
    )


def lesson(games: list[ks.Game]) -> ks.Study:
    study = ks.Study("Pieces with too much to do", author="Hedda Wexmoor", date="2026-11-17", about=ABOUT)
    locked_pieces(study, games[0])
    two_jobs(study, games[1])
    the_exchange(study, games[0])
    study.section("For next Tuesday")
    study.note("Find one locked pair or one guard with two jobs in a game of your own, and bring the position.")
    return study


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument(
        "-o",
        "--output",
        type=Path,
        default=Path("lesson.html"),
        help="an .html, .md or .pgn file (default lesson.html)",
    )
    output: Path = parser.parse_args().output
    try:
        study = lesson(list(ks.read_games(GAMES)))
        print(f"{len(study)} entries, lesson: {study.save(output)}")
    except (OSError, ValueError) as error:
        print(error, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
