"""Reads the games of a PGN file and writes one page with the positions worth stopping at, and what is to be seen there.

usage: club_review.py GAMES.pgn [-o PAGE.html] [--moments 4]

The page is a single HTML file that works offline and prints well.
"""

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path

import keysquare as ks

AT_MOST = 3  # findings beside a diagram: more can't be told apart in the picture
WORTH_TELLING = 40  # about the weight of a named imbalance; below it stand plain counts
APART = 4  # plies between two moments of a game


@dataclass
class Moment:
    """A position of a game, and what is worth telling there, each finding with how much it is worth."""

    step: ks.GameStep
    told: list[tuple[float, ks.Finding]]

    @property
    def worth(self) -> float:
        return sum(worth for worth, _ in self.told)


def subject(finding: ks.Finding) -> tuple[object, ...]:
    """What a finding is about: told once, it is not told again while it stands."""
    if finding.theme in ("exchange_imbalance", "colour_complex", "material"):
        return finding.theme, finding.detail
    return finding.theme, *(placed.square for placed in finding.pieces[:2])


def worth(finding: ks.Finding, step: ks.GameStep, later: list[ks.Finding]) -> float:
    """How much the finding teaches here: its weight, more where the players went wrong over it, less where they saw it.

    `later` are the findings after the move that was played.
    """
    played = step.next.move if step.next else None
    first = finding.line[0] if finding.line else None
    if finding.theme == "hanging" and finding.after_pass:
        # A threat teaches something when the next move leaves it standing.
        stands = any(f.theme == "hanging" and not f.after_pass and subject(f) == subject(finding) for f in later)
        return finding.weight if stands else 0
    if finding.theme == "hanging":
        took = step.parent is not None and step.move is not None and step.parent.position.piece_at(step.move.target)
        if took and first and first.target == step.move.target:
            return 0  # taking back what has just taken: everybody sees that
        return finding.weight * (0.4 if played == first else 1.3)
    if finding.theme in ("poisoned", "denied_square"):
        return finding.weight * (2.5 if played == first and not finding.after_pass else 0.4)
    return finding.weight


def moments(game: ks.Game, at_most: int) -> list[Moment]:
    """The positions of a game that are worth stopping at, in the order in which they came up."""
    steps = [step for step in game.steps if step.is_main_line and step.ply > 0]
    seen = [ks.findings(step.position) for step in steps]
    found: list[Moment] = []
    for step, findings, later in zip(steps, seen, [*seen[1:], []], strict=True):
        told = [(value, f) for f in findings if (value := worth(f, step, later)) >= WORTH_TELLING]
        found.append(Moment(step, sorted(told, key=lambda pair: -pair[0])))
    chosen: list[Moment] = []
    while found and len(chosen) < at_most:
        known = {subject(finding) for moment in chosen for _, finding in moment.told}
        fresh = [Moment(m.step, list(shown(m.told, known))) for m in found]
        best = max(fresh, key=lambda moment: moment.worth)
        if not best.told:
            break
        chosen.append(best)
        found = [moment for moment in found if abs(moment.step.ply - best.step.ply) >= APART]
    return sorted(chosen, key=lambda moment: moment.step.ply)


def shown(told: list[tuple[float, ks.Finding]], known: set[tuple[object, ...]]) -> Iterator[tuple[float, ks.Finding]]:
    """The first few that are new and about different pieces."""
    pieces: set[object] = set()
    for value, finding in told:
        about = finding.pieces[0].square if finding.pieces else finding.theme
        if subject(finding) not in known and about not in pieces and len(pieces) < AT_MOST:
            pieces.add(about)
            yield value, finding


def numbered(step: ks.GameStep) -> str:
    """ "23...Rc4": the move of a step as people write it."""
    before = step.parent.position if step.parent else step.position
    dots = "." if before.mover == ks.WHITE else "..."
    return f"{before.move_number}{dots}{step.san}"


def moment_html(moment: Moment) -> str:
    step = moment.step
    position = step.position
    to_move = f"{str(position.mover).capitalize()} to move"
    items = []
    findings = [finding for _, finding in moment.told]
    for finding in findings:
        # Most sentences hold their line already.
        told = len(finding.line) < 2 or finding.line_san.split()[-1] in str(finding)
        line = "" if told else f'<p class="line">{escape(finding.line_san)}</p>'
        items.append(f"<li><p>{escape(str(finding))}</p>{line}</li>")
    played = f"<p>In the game: <b>{escape(numbered(step.next))}</b></p>" if step.next else ""
    coach = f"<blockquote>{escape(step.plain_comment)}</blockquote>" if step.plain_comment else ""
    picture = ks.diagram(position, findings, title=f"After {numbered(step)}, {to_move}")
    return f"""<article>
<figure>{picture}</figure>
<div>
<h3>After {escape(numbered(step))} <small>{to_move}</small></h3>
<ol class="{"one" if len(items) == 1 else "several"}">{"".join(items)}</ol>
{coach}{played}
</div>
</article>"""


def game_html(game: ks.Game, at_most: int) -> str:
    def player(side: str) -> str:
        rating = game.tags.get(f"{side}Elo")
        return escape(game.tags.get(side, "?")) + (f" ({escape(rating)})" if rating else "")

    about = ", ".join(escape(game.tags[tag]) for tag in ("Event", "Site", "Date") if tag in game.tags)
    body = "\n".join(moment_html(moment) for moment in moments(game, at_most))
    return f"""<section>
<h2>{player("White")} – {player("Black")} <span>{escape(game.result)}</span></h2>
<p class="about">{about}</p>
{body or "<p>Nothing in this game stands out.</p>"}
</section>"""


STYLE = """
:root { color-scheme: light; }
body { font: 17px/1.5 Georgia, "DejaVu Serif", serif; color: #000; background: #fff; margin: 0 auto; max-width: 60rem; padding: 1rem 1.25rem; }
h1 { font-size: 1.7rem; margin: 1rem 0 .25rem; }
h2 { font-size: 1.25rem; margin: 2.5rem 0 0; padding-top: .6rem; border-top: 3px double #000; }
h2 span { float: right; }
h3 { font-size: 1.05rem; margin: 0 0 .4rem; }
h3 small { font-weight: normal; font-style: italic; margin-left: .5rem; }
.about { margin: 0; font-style: italic; }
article { display: grid; grid-template-columns: 25rem 1fr; gap: 1.5rem; margin: 1.5rem 0; break-inside: avoid; }
figure { margin: 0; }
figure svg { width: 100%; height: auto; display: block; }
p { margin: .3rem 0; }
ol { margin: 0; padding-left: 1.6rem; }
ol.one { list-style: none; padding-left: 0; }
.line { font-weight: bold; }
blockquote { margin: .8rem 0; padding-left: .8rem; border-left: 2px solid #000; font-style: italic; }
@media (max-width: 48rem) { article { grid-template-columns: 1fr; } }
@media print { body { font-size: 11pt; max-width: none; padding: 0; } article { grid-template-columns: 7.5cm 1fr; } h2 { break-after: avoid; } }
"""


def page(title: str, sections: list[str], note: str) -> str:
    body = "\n".join(sections)
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>{escape(title)}</title>
<style>{STYLE}</style>
</head>
<body>
<h1>{escape(title)}</h1>
<p>A ring marks the piece that a sentence is about, an outline its partners, dots the
squares that count; a solid arrow is the move, a dashed one the answer. Every line is legal and was checked against all
replies inside the search bound of keysquare {escape(ks.__version__)}. {escape(note)}</p>
{body}
</body>
</html>
"""


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("games", type=Path, help="a PGN file")
    parser.add_argument("-o", "--output", type=Path, help="the page to write (default: beside the games)")
    parser.add_argument("--moments", type=int, default=4, help="positions for each game, at most (default 4)")
    options = parser.parse_args()
    output = options.output or options.games.with_suffix(".html")

    try:
        reader = ks.read_games(options.games)
    except ks.InputError as error:
        print(f"{options.games}: {error}", file=sys.stderr)
        return 1
    sections = []
    for game in reader:
        print(f"  game {game.number}: {game.tags.get('White', '?')} – {game.tags.get('Black', '?')}")
        sections.append(game_html(game, options.moments))
    for refused in reader.refused:
        print(f"  game {refused.number} could not be read: {refused.error}", file=sys.stderr)
    note = f"{len(reader.refused)} games could not be read." if reader.refused else ""
    output.write_text(page("Positions worth stopping at", sections, note), encoding="utf-8")
    print(f"{len(sections)} games, page: {output}")
    return 0 if sections else 1


if __name__ == "__main__":
    sys.exit(main())
