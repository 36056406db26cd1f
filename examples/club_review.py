"""Reads the games of a PGN file and writes one page with the positions worth stopping at, and what is to be seen there.

usage: club_review.py GAMES.pgn [-o PAGE.html] [--moments 4]

The page is a single HTML file that works offline and prints well.
"""

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import escape
from pathlib import Path

import keysquare as ks

AT_MOST = 3  # findings beside a diagram: more can't be told apart in the picture
WORTH_TELLING = 40  # the weight of a seventh rank or a named imbalance; below it stand plain counts
APART = 4  # plies between two moments of a game


@dataclass
class Moment:
    """A position of a game, the findings to tell there, and what was played."""

    step: ks.GameStep
    findings: list[ks.Finding]
    strength: int = field(init=False)

    def __post_init__(self) -> None:
        self.strength = sum(finding.weight for finding in self.findings)


def is_recapture(finding: ks.Finding, step: ks.GameStep) -> bool:
    """Whether the finding only takes back what has just taken: everybody sees that."""
    if step.parent is None or step.move is None or not finding.line:
        return False
    took = step.parent.position.piece_at(step.move.target) is not None
    return took and finding.line[0].target == step.move.target and finding.theme == "hanging"


def subject(finding: ks.Finding) -> tuple[object, ...]:
    """What a finding is about: told once, it is not told again while it stands."""
    return finding.theme, finding.detail, *(placed.square for placed in finding.pieces[:2])


def moments(game: ks.Game, at_most: int) -> list[Moment]:
    """The strongest positions of a game, in the order in which they came up."""
    found: list[Moment] = []
    step = game.root
    while (step := step.next) is not None:
        worth = [f for f in ks.findings(step.position) if f.weight >= WORTH_TELLING and not is_recapture(f, step)]
        if worth:
            found.append(Moment(step, worth))
    chosen: list[Moment] = []
    while found and len(chosen) < at_most:
        told = {subject(finding) for moment in chosen for finding in moment.findings}
        fresh = [Moment(m.step, [f for f in m.findings if subject(f) not in told]) for m in found]
        best = max(fresh, key=lambda moment: moment.strength)
        if not best.findings:
            break
        chosen.append(Moment(best.step, list(shown(best.findings))))
        found = [moment for moment in found if abs(moment.step.ply - best.step.ply) >= APART]
    return sorted(chosen, key=lambda moment: moment.step.ply)


def shown(findings: list[ks.Finding]) -> Iterator[ks.Finding]:
    """The first few findings that are about different things."""
    seen: set[object] = set()
    for finding in findings:
        about = finding.pieces[0].square if finding.pieces else finding.theme
        if about not in seen and len(seen) < AT_MOST:
            seen.add(about)
            yield finding


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
    for finding in moment.findings:
        line = f'<p class="line">{escape(finding.line_san)}</p>' if len(finding.line) > 1 else ""
        items.append(f"<li><p>{escape(str(finding))}</p>{line}</li>")
    played = f"<p>In the game: <b>{escape(numbered(step.next))}</b></p>" if step.next else ""
    coach = f"<blockquote>{escape(step.plain_comment)}</blockquote>" if step.plain_comment else ""
    picture = ks.diagram(position, moment.findings, title=f"After {numbered(step)}, {to_move}")
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
<p>The positions worth stopping at. A ring marks the piece that a sentence is about, an outline its partners, dots the
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
    output.write_text(page(f"Games of {options.games.stem}", sections, note), encoding="utf-8")
    print(f"{len(sections)} games, page: {output}")
    return 0 if sections else 1


if __name__ == "__main__":
    sys.exit(main())
