"""Writes season.pgn: a season of the invented Lantern Chess Club of Dunmarrow, every game played by this program.

usage: make_season.py [-o SEASON.pgn] [--games 120]

Sixteen members meet each other once. Each picks moves by the facts that keysquare counts about them, with noise that
depends on the rating, and a few members have habits, so that there is something to be found:

- Joren Vastin does not see forks coming: a move that allows one seems as good to him as any other.
- Edo Karlitz thinks too long, and with little time left he no longer sees what hangs.
- Sela Quillon follows her own plan and often leaves a threat standing.
- Ines Pellerow is strong, and sees nearly everything.

The same version of keysquare writes the same bytes each time: all chance comes from seeds, and no number is broken.
"""

import argparse
import random
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import combinations
from pathlib import Path

import keysquare as ks

START_SECONDS = 5400
BONUS_SECONDS = 30
FIRST_ROUND = date(2026, 9, 17)  # a Thursday
LONGEST_GAME = 140  # plies
BEFORE_RESIGNING = 8  # plies in a row that somebody must be far behind


@dataclass(frozen=True)
class Member:
    """A member of the club. The chances are in percent."""

    name: str
    rating: int
    blind_to_forks: int = 0
    """How often a move that allows a fork seems to cost nothing."""
    leaves_threats: int = 0
    """How often a threat of the other side is not seen at all."""
    blind_in_time_trouble: int = 0
    """How often, with less than a tenth of the time left, no gain is seen, not even a hanging piece."""
    slow: int = 100
    """The time for a move, in percent of what would be wise."""

    @property
    def misses(self) -> int:
        """Of a thousand dangers or chances of one pawn, how many are not seen: 260 at 1000, 8 at 1950. Larger ones are
        seen more easily."""
        return 260 - (self.rating - 1000) * 252 // 950

    @property
    def noise(self) -> int:
        """How widely the taste for a move varies, in the unit of `TASTE`."""
        return 900 - (self.rating - 1000) * 700 // 950


MEMBERS = [
    Member("Pellerow, Ines", 1940),
    Member("Vastin, Joren", 1765, blind_to_forks=90),
    Member("Dravik, Solveya", 1720),
    Member("Harrowmead, Piers", 1655),
    Member("Aldercombe, Rufus", 1610),
    Member("Quillon, Sela", 1570, leaves_threats=60),
    Member("Fennimarsh, Otto", 1525),
    Member("Karlitz, Edo", 1465, blind_in_time_trouble=95, slow=190),
    Member("Thornquill, Mabel", 1430),
    Member("Merridane, Oona", 1395),
    Member("Osterwick, Bram", 1340),
    Member("Yarrowby, Lune", 1290),
    Member("Lindqvarn, Tavi", 1250),
    Member("Corvane, Wystan", 1180),
    Member("Peddlestone, Nim", 1095),
    Member("Ashgrove-Till, Kit", 1010),
]

# First moves that everybody plays (common practice, no source).
OPENINGS = [
    line.split()
    for line in """
    e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6
    e4 e5 Nf3 Nc6 Bc4 Bc5 c3 Nf6
    e4 e5 Nf3 Nc6 Bc4 Nf6 d3 Be7
    e4 e5 Nf3 Nc6 d4 exd4 Nxd4 Nf6
    e4 e5 Nf3 Nf6 Nxe5 d6 Nf3 Nxe4
    e4 e5 Nc3 Nf6 f4 d5
    e4 c5 Nf3 d6 d4 cxd4 Nxd4 Nf6 Nc3
    e4 c5 Nf3 Nc6 d4 cxd4 Nxd4 g6
    e4 c5 Nf3 e6 d4 cxd4 Nxd4 a6
    e4 c5 c3 d5 exd5 Qxd5
    e4 c5 Nc3 Nc6 g3 g6
    e4 e6 d4 d5 Nc3 Nf6
    e4 e6 d4 d5 e5 c5 c3 Nc6
    e4 c6 d4 d5 exd5 cxd5
    e4 c6 d4 d5 Nc3 dxe4 Nxe4 Bf5
    e4 d5 exd5 Qxd5 Nc3 Qa5
    e4 d6 d4 Nf6 Nc3 g6
    d4 d5 c4 e6 Nc3 Nf6 Bg5 Be7
    d4 d5 c4 c6 Nf3 Nf6 Nc3 dxc4
    d4 d5 c4 dxc4 e3 Nf6
    d4 d5 Nf3 Nf6 Bf4 e6 e3
    d4 Nf6 c4 e6 Nc3 Bb4 e3 O-O
    d4 Nf6 c4 e6 Nf3 b6 g3 Bb7
    d4 Nf6 c4 g6 Nc3 Bg7 e4 d6
    d4 Nf6 c4 g6 Nc3 d5 Nf3 Bg7
    d4 f5 g3 Nf6 Bg2 e6
    c4 e5 Nc3 Nf6 Nf3 Nc6
    c4 c5 Nc3 Nc6 g3 g6
    Nf3 d5 g3 Nf6 Bg2 e6
    f4 d5 Nf3 Nf6 e3 g6
    """.strip().splitlines()
]

# How much each of a fact counts when everything that can be won or lost is equal; the unit means nothing.
TASTE = {
    "castles": 2500,
    "checks": 300,
    "develops": 500,
    "threatens": 150,
    "attacks_pieces": 250,
    "pawn_lever": 250,
    "centre_pawns": 600,
    "pushes_passer": 900,
    "loosens_own_king": -450,
    "nearer_centre": 120,
    "king_to_centre": 500,
    "piece_scope": 60,
    "loose_men": 120,
    "own_king_squares": 150,
    "men_in_other_half": 250,
    "rook_on_open_file": 500,
    "rook_on_half_open_file": 300,
    "rook_on_seventh": 900,
    "outpost": 450,
    "rim_knights": 200,
    "holes": 120,
    "doubled_pawns": 400,
    "blocks_passer": 400,
}
KING_WALK = 1800  # what a walk of the king costs while the other side has a queen
PER_PAWN = 2000  # what a pawn that can be won or lost counts beside taste
MOST_PAWNS = 12  # a mate counts like these


@dataclass
class Clock:
    """What one player has left, in seconds."""

    left: int = START_SECONDS

    def think(self, member: Member, move_number: int, ways: int, chance: random.Random) -> None:
        """Spends time on a move: a share of what is left, more where there is much to choose from."""
        wise = self.left // max(42 - move_number, 14) + BONUS_SECONDS // 2
        spent = wise * member.slow * chance.randrange(30, 171) * (60 + min(ways, 40)) // 900_000
        self.left = max(self.left - max(spent, 2), 3) + BONUS_SECONDS

    @property
    def is_short(self) -> bool:
        return self.left * 10 < START_SECONDS

    def __str__(self) -> str:
        return f"{self.left // 3600}:{self.left // 60 % 60:02}:{self.left % 60:02}"


@dataclass
class Table:
    """One game while it is being played."""

    white: Member
    black: Member
    chance: random.Random
    game: ks.Game = field(default_factory=ks.Game)
    clocks: dict[str, Clock] = field(default_factory=lambda: {"white": Clock(), "black": Clock()})

    def play(self) -> ks.Game:
        step = self.game.root
        opening = list(self.chance.choice(OPENINGS))
        seen: dict[int, int] = {}
        behind = level = 0
        while True:
            position = step.position
            seen[position.key] = seen.get(position.key, 0) + 1
            moves = position.moves()
            balance = balance_of(position)
            behind = behind + 1 if abs(balance) >= 6 else 0
            level = level + 1 if abs(balance) <= 1 else 0
            result = self.result(position, moves, seen[position.key], balance, behind, level, step.ply)
            if result:
                self.game.result = result
                return self.game
            member = self.white if position.mover == "white" else self.black
            clock = self.clocks[position.mover]
            if opening:
                move = position.move(opening.pop(0))
                clock.left -= self.chance.randrange(5, 60) - BONUS_SECONDS
            else:
                move = chosen_move(step, member, clock.is_short, self.chance)
                clock.think(member, position.move_number, len(moves), self.chance)
            step = step.add_move(move)
            step.add_comment(f"[%clk {clock}]")

    def result(
        self, position: ks.Position, moves: list[ks.Move], times: int, balance: int, behind: int, level: int, ply: int
    ) -> str:
        """How the game ends here, empty when it goes on. Who is far behind resigns when it is their move."""
        if position.is_mated:
            return "0-1" if position.mover == "white" else "1-0"
        if not moves or times >= 3 or position.halfmove_clock >= 100 or bare(position):
            return "1/2-1/2"
        ahead = "white" if balance > 0 else "black"
        lost = behind >= BEFORE_RESIGNING and position.mover != ahead and ply >= 44
        if lost and self.chance.randrange(100) < 15 or ply >= LONGEST_GAME and abs(balance) >= 3:
            return "1-0" if ahead == "white" else "0-1"
        if ply >= LONGEST_GAME or (ply >= 70 and level >= 24 and self.chance.randrange(100) < 8):
            return "1/2-1/2"
        return ""


VALUES = {"pawn": 1, "knight": 3, "bishop": 3, "rook": 5, "queen": 9, "king": 0}


def balance_of(position: ks.Position) -> int:
    """White's material minus Black's, in pawns."""
    return sum(VALUES[piece.kind] * (1 if piece.side == "white" else -1) for piece in position.pieces.values())


def bare(position: ks.Position) -> bool:
    """Neither side has a pawn, and nobody can mate: a minor piece at most."""
    men = [piece.kind for piece in position.pieces.values() if piece.kind != "king"]
    return not men or men in (["knight"], ["bishop"])


def chosen_move(step: ks.GameStep, member: Member, short_of_time: bool, chance: random.Random) -> ks.Move:
    """The move that seems best to the member."""
    position = step.position
    studies = [(study.move, {fact.fact: fact.amount for fact in study.facts}) for study in ks.move_facts(position)]
    view = View(step, member, short_of_time, chance, studies)
    worth = []
    for move, facts in studies:
        taste = sum(weight * facts.get(fact, 0) for fact, weight in TASTE.items()) - king_walk(position, move)
        worth.append(taste + chance.randrange(-member.noise, member.noise + 1) - PER_PAWN * view.cost(move, facts))
    return studies[worth.index(max(worth))][0]


def king_walk(position: ks.Position, move: ks.Move) -> int:
    """What speaks against a walk of the king while there are queens."""
    man = position.piece_at(move.origin)
    walks = man is not None and man.kind == "king" and not move.castles
    return KING_WALK if walks and f"{position.waiter} queen" in position.pieces.values() else 0


class View:
    """What a member sees of a position: some of what can be won, and some of what can be lost."""

    def __init__(
        self,
        step: ks.GameStep,
        member: Member,
        short_of_time: bool,
        chance: random.Random,
        studies: list[tuple[ks.Move, dict[str, int]]],
    ) -> None:
        self._position = step.position
        self._member = member
        self._chance = chance
        self._gain = max((pawns_won(facts) for _, facts in studies), default=0)
        takes_back = any(pawns_won(facts) and move.target == taken_on(step) for move, facts in studies)
        blind = short_of_time and self.happens(member.blind_in_time_trouble * 10)
        self._sees_gain = not blind and (takes_back or not self.misses(self._gain))
        self._sees_threats = not self.happens(member.leaves_threats * 10)
        self._blind_to_forks = self.happens(member.blind_to_forks * 10)

    def happens(self, per_thousand: int) -> bool:
        return self._chance.randrange(1000) < per_thousand

    def misses(self, pawns: int) -> bool:
        """Whether something about that many pawns is not seen."""
        return self.happens(self._member.misses * 3 // (1 + pawns) ** 2)

    def cost(self, move: ks.Move, facts: dict[str, int]) -> int:
        """What the move seems to cost against the best one, in pawns: what it does not win, and what it lets go."""
        not_won = max(self._gain - pawns_won(facts), 0)
        lost = facts.get("costs", 0) - not_won
        if "allows" in facts:
            answer = ks.answers(self._position, move)
            lost = max(lost, MOST_PAWNS if answer.reply and answer.reply.mate else answer.cost)
            if self.overlooks(answer):
                lost = 0
        if lost > 0 and self.misses(lost):
            lost = 0
        return max(min(lost, MOST_PAWNS), 0) + (not_won if self._sees_gain else 0)

    def overlooks(self, answer: ks.Answer) -> bool:
        """Whether a habit hides the answer."""
        if answer.leaves and not self._sees_threats:
            return True
        if answer.reply is None or not self._blind_to_forks:
            return False
        after = answer.reply.position
        forks = ks.findings(after, themes=["fork"], side=after.mover)
        return any(fork.line[:1] == answer.line[:1] for fork in forks)


def taken_on(step: ks.GameStep) -> ks.Square | None:
    """The square on which the last move took something."""
    if step.parent is None or step.move is None or step.parent.position.piece_at(step.move.target) is None:
        return None
    return step.move.target


def pawns_won(facts: dict[str, int]) -> int:
    return MOST_PAWNS if "mates" in facts else facts.get("wins", 0)


def rounds() -> list[list[tuple[Member, Member]]]:
    """Everybody against everybody: one stays, the others go round (the circle method); colours alternate."""
    circle = list(MEMBERS)
    table = []
    for number in range(len(MEMBERS) - 1):
        pairs = []
        for at in range(len(circle) // 2):
            first, second = circle[at], circle[-1 - at]
            pairs.append((first, second) if (at or number) % 2 == 0 else (second, first))
        table.append(pairs)
        circle = [circle[0], circle[-1], *circle[1:-1]]
    return table


def season(most: int) -> list[ks.Game]:
    """The first games of the season, all of them at most."""
    games: list[ks.Game] = []
    for number, pairs in enumerate(rounds(), 1):
        day = FIRST_ROUND + timedelta(days=4 * (number - 1) - (number - 1) // 2)  # Thursdays and Mondays
        for board, (white, black) in enumerate(pairs, 1):
            if len(games) == most:
                return games
            game = Table(white, black, random.Random(f"Dunmarrow {number} {board}")).play()
            tags = {
                "Event": "Lantern Chess Club All-Play-All",
                "Site": "Dunmarrow",
                "Date": f"{day:%Y.%m.%d}",
                "Round": f"{number}.{board}",
                "White": white.name,
                "Black": black.name,
                "WhiteElo": str(white.rating),
                "BlackElo": str(black.rating),
                "TimeControl": f"{START_SECONDS}+{BONUS_SECONDS}",
            }
            for name, value in tags.items():
                game.set_tag(name, value)
            games.append(game)
    return games


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("-o", "--output", type=Path, default=Path(__file__).with_name("season.pgn"))
    parser.add_argument("--games", type=int, default=len(list(combinations(MEMBERS, 2))), help="how many are played")
    options = parser.parse_args()
    games = season(options.games)
    options.output.write_text("".join(game.pgn() for game in games), encoding="utf-8", newline="\n")
    print(f"{len(games)} games: {options.output}")


if __name__ == "__main__":
    main()
