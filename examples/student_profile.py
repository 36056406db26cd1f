"""Prints what a student does differently from the others, with positions to look at, and draws it.

usage: student_profile.py [GAMES.pgn] [--player NAME] [-o PICTURE.png]

Without arguments it tells about Joren Vastin's season in the Lantern Chess Club of Dunmarrow. The picture needs
matplotlib.
"""

import argparse
import sys
from pathlib import Path

import keysquare as ks

SEASON = Path(__file__).parent / "data/season.pgn"


def told(habit: ks.Habit) -> str:
    """A habit and where it can be seen."""
    star = "*" if habit.holds else "-"
    examples = [f"    {example}\n      {example.position.fen}" for example in habit.examples]
    return "\n".join([f"{star} {habit}", *examples])


def parts(profile: ks.Profile, habit: ks.Habit, split: str) -> str:
    """How often it happens in each part of the moves: "opening 1.0, middlegame 4.2 ..."."""
    rows = [profile.row(habit.kind, habit.theme, split, value) for value in profile.values(split)]
    return ", ".join(f"{row.value} {row.own.per_100:.1f} ({row.own.count} in {row.own.moves})" for row in rows)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("games", nargs="?", type=Path, default=SEASON, help="a PGN file (default: the club's season)")
    parser.add_argument("--player", default="Vastin, Joren", help="the name as the games have it, or a part of it")
    parser.add_argument("-o", "--output", type=Path, help="where to draw the profile")
    options = parser.parse_args()
    try:
        profile = ks.profile(options.games, options.player, reference=options.games)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 1

    print(profile)
    print("\nPositions to look at, before the move:")
    for habit in profile.habits:
        print(told(habit))
    if profile.habits:
        first = profile.habits[0]
        print(f"\nHow often {profile.name} {first.row.words}, in 100 moves:")
        for split in ("phase", "colour", "opponent", "time_left"):
            print(f"  {split.replace('_', ' ')}: {parts(profile, first, split)}")
    if options.output:
        profile.plot().get_figure().savefig(options.output, dpi=120)
        print(f"\nPicture: {options.output}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
