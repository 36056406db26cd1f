"""Goes through the games of a PGN file as a teacher does and writes one page: where each game turned, and the moments worth
stopping at, each with a question and its answer.

usage: club_review.py GAMES.pgn [-o PAGE.html] [--moments 4]

The page is a single HTML file that works offline and prints well. Given another suffix (.md, .pgn), it is written as
Markdown with pictures or as annotated PGN.
"""

import argparse
import sys
from pathlib import Path

import keysquare as ks


def heading(game: ks.Game) -> str:
    """ "Vastin, Joren (1765) – Pellerow, Ines (1935), 0-1"."""

    def player(side: str) -> str:
        rating = game.tags.get(f"{side}Elo")
        return game.tags.get(side, "?") + (f" ({rating})" if rating else "")

    return f"{player('White')} – {player('Black')}, {game.result}"


def plain(text: str) -> str:
    """A text of the file as Markdown that says just the same."""
    return "".join(f"\\{letter}" if letter in r"\`*_{}[]<>()#+-.!|&~" else letter for letter in text)


def place(game: ks.Game) -> str:
    """Where and when it was played, as Markdown."""
    return ", ".join(plain(game.tags[tag]) for tag in ("Event", "Site", "Date") if tag in game.tags)


def turns(report: ks.GameReport) -> str:
    """Where the game turned, as Markdown."""
    points = "".join(f"\n- {plain(str(point))}" for point in report.turning_points)
    return f"Where the game turned:\n{points}" if points else "The game never turned by what could be won."


def add_game(study: ks.Study, game: ks.Game, at_most: int) -> None:
    """A section of the page for one game. The turning points come last: they give answers away."""
    report = ks.game_report(game, at_most)
    study.section(heading(game)).note(place(game))
    for moment in report.moments:
        coach = report.plies[moment.ply].step.plain_comment
        study.add(moment, answer=f"The coach: *{plain(coach)}*" if coach else "")
    study.note(turns(report))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("games", type=Path, help="a PGN file, compressed or not")
    parser.add_argument("-o", "--output", type=Path, help="the page to write (default: beside the games)")
    parser.add_argument("--moments", type=int, default=4, help="positions for each game, at most (default 4)")
    options = parser.parse_args()
    output = options.output or options.games.with_suffix(".html")

    study = ks.Study("Positions worth stopping at", bottom="mover")
    try:
        reader = ks.read_games(options.games)
    except ks.InputError as error:
        print(f"{options.games}: {error}", file=sys.stderr)
        return 1
    for game in reader:
        print(f"  game {game.number}: {heading(game)}")
        add_game(study, game, options.moments)
    for refused in reader.refused:
        print(f"  game {refused.number} could not be read: {refused.error}", file=sys.stderr)
    if reader.refused:
        study.note(f"{len(reader.refused)} games of the file could not be read.")
    study.save(output)
    print(f"{reader.counts.read} games, page: {output}")
    return 0 if reader.counts.read else 1


if __name__ == "__main__":
    sys.exit(main())
