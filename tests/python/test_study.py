"""Studies: what is shown of each kind of item, and what comes out as Markdown and PGN."""

import dataclasses
import io
import re
import subprocess
import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import chess.pgn
import pytest

import keysquare as ks

ROOT = Path(__file__).parents[2]
CLUB = ROOT / "examples/data/club.pgn"

OVERLOADED = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1"
FORK = "rn1q1rk1/pbpp1ppp/1p1bpn2/8/3PP3/2NB1N2/PPP2PPP/R1BQ1RK1 b - - 0 1"

# Everything that could leave its place: tags, attributes, character data, comments of PGN, Markdown.
HOSTILE = (
    "<script>alert(1)</script> \"quoted' ]]> --> <img src=x onerror=alert(2)> } { ; "
    "[link](javascript:alert(3)) `c` # | \\ &lt;"
)


class Reader(HTMLParser):
    """Checks that tags are closed in order, and collects them with their attributes and text."""

    VOID = {"meta", "br", "hr"}

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(html)
        self.close()
        assert not self.open, self.open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data

    def values(self, attribute: str) -> list[str | None]:
        return [attributes[attribute] for _, attributes in self.tags if attribute in attributes]


def overloaded() -> ks.Finding:
    return ks.findings(ks.Position(OVERLOADED), themes=["overloaded"])[0]


def game(number: int = 1) -> ks.Game:
    return list(ks.read_games(CLUB))[number - 1]


def study() -> ks.Study:
    return ks.Study("Tuesday lesson", author="Hedda Wexmoor", date="2026-10-13")


def read_back(made: ks.Study) -> list[ks.Game]:
    return list(ks.read_games(io.BytesIO(made.pgn().encode()), on_error="raise"))


def by_chess(made: ks.Study) -> Iterator[chess.pgn.Game]:
    """The games as the rules library reads them, without complaints (PyPI package chess)."""
    text = io.StringIO(made.pgn())
    while (read := chess.pgn.read_game(text)) is not None:
        assert not read.errors
        yield read


def items() -> list[object]:
    position = ks.Position(FORK)
    (threat,) = ks.threats(position)[:1]
    plan = ks.check_plan(ks.Position(OVERLOADED), ["Re5", "Rdxd5"])
    return [
        position,
        FORK,
        overloaded(),
        threat,
        [threat],
        tuple(ks.findings(ks.Position(OVERLOADED))[:2]),
        ks.candidates(position),
        ks.candidates(position)[0],
        ks.parries(position, threat),
        plan,
        ks.outlook(position),
        ks.outlook(position)["black"],
        ks.mobility(position, "d6"),
        ks.route(position, "b8", "d5"),
        ks.difficulty(position),
        ks.difficulty(position, "white"),
        game(),
        game().steps[9],
        game().root,
    ]


@pytest.mark.parametrize("item", items(), ids=lambda item: type(item).__name__)
def test_every_item_is_shown_everywhere(item: object) -> None:
    made = study().add(item)
    (entry,) = made.entries
    assert entry.title and not entry.has_answer
    page = Reader(made.html())
    assert [tag for tag, _ in page.tags].count("svg") >= 1
    assert made.markdown().count("![White: ") >= 1
    # Said is what the library says, word for word.
    sentences = [str(item)] if not isinstance(item, (str, list, tuple, ks.Position, ks.Game, ks.GameStep)) else []
    if isinstance(item, (ks.Candidates, ks.Outlook)):
        sentences = [str(one) for one in (item if isinstance(item, ks.Candidates) else item.values())]
    if isinstance(item, ks.Mobility):
        sentences = [f"{len(item.scope)} are safe"]
    for sentence in sentences:
        assert sentence in page.text and sentence in " ".join(made.pgn().split())
    (read,) = by_chess(made)
    assert read.board().fen(en_passant="fen").split()[0] == entry.position.fen.split()[0]
    assert len(read_back(made)) == 1


def test_a_position_alone_tells_its_strongest_findings() -> None:
    position = ks.Position(OVERLOADED)
    (panel,) = study().add(position).entries[0].shown
    assert isinstance(panel, ks.Panel)
    assert 1 <= len(panel.findings) <= 3
    assert panel.findings[0] == ks.findings(position)[0]
    assert len({finding.pieces[0].square for finding in panel.findings}) == len(panel.findings)
    assert [told.number for told in panel.told()] == list(range(1, len(panel.findings) + 1))
    (bare,) = study().add(position, findings=[]).entries[0].shown
    assert isinstance(bare, ks.Panel) and not bare.findings


def test_more_is_told_only_when_asked_for() -> None:
    made = study().add(FORK).add(FORK, threats=True, candidates=True, plan=["c5"])
    short, long = made.entries
    assert len(short.shown) == 1
    assert [part.heading for part in long.shown] == [
        "",
        "What White threatens",
        "Moves that deserve a look",
        "Black's plan: c5",
    ]


def test_nothing_is_claimed_where_nothing_was_found() -> None:
    quiet, checked = "4k3/8/8/8/8/8/8/4K3 w - - 0 1", "4k3/8/8/8/8/8/4r3/4K3 w - - 0 1"
    text = study().add(quiet, threats=True).add(checked, threats=True).markdown()
    assert "Black threatens nothing inside the search bound." in text
    assert "In check nobody can pass" in text


def test_what_an_item_says_is_the_answer_to_a_question() -> None:
    finding = overloaded()
    for made in (study().add(finding, question="Who?"), study().ask(OVERLOADED, "Who?", answer=finding)):
        (entry,) = made.entries
        assert entry.title == "White to move"
        assert [part for part in entry.shown if isinstance(part, ks.Panel) and part.told()] == []
        (solved,) = entry.solved
        assert isinstance(solved, ks.Panel) and solved.findings == (finding,)
    (step,) = study().add(game().steps[46], question="Who?").entries
    assert not step.text and isinstance(step.solved[-1], ks.Fragment)


def test_a_solution_is_a_legal_line() -> None:
    for line in ("1.Rxd5 Rxd5 2.Re8#", "Rxd5 Rxd5 Re8#", ["Rxd5", "d8d5", "Re8"]):
        made = study().ask(OVERLOADED, "Mate?", "In two.", solution=line)
        assert "1.Rxd5 Rxd5 2.Re8#" in Reader(made.html()).text
        (read,) = by_chess(made)
        assert [move.uci() for move in read.mainline_moves()] == ["d1d5", "d8d5", "e1e8"]
        assert read.end().board().is_checkmate()
    black = study().ask(FORK, "?", solution="1... e5 2. dxe5").entries[0].solved[0]
    assert isinstance(black, ks.Panel) and black.line_text() == "1...e5 2.dxe5"
    for wrong in ("1.Rxd9", ["Rxd5", "Ke2"]):
        with pytest.raises(ks.InputError):
            study().ask(OVERLOADED, "?", solution=wrong)


def test_wrong_arguments_are_answered() -> None:
    with pytest.raises(ValueError, match=r"note\(\)"):
        study().add("Look at the rooks.")
    with pytest.raises(TypeError, match="can't show int"):
        study().add(3)
    for wrong in ([], [overloaded(), 3]):
        with pytest.raises(TypeError, match="findings and threats"):
            study().add(wrong)
    with pytest.raises(ValueError, match="another position"):
        study().add(FORK, findings=[overloaded()])
    with pytest.raises(ValueError, match="needs a question"):
        study().add(OVERLOADED, answer="Rxd5")
    with pytest.raises(ks.InputError):
        study().add(OVERLOADED, marks=["e9"])
    with pytest.raises(ks.InputError):
        study().add(OVERLOADED, bottom="red")
    with pytest.raises(ValueError, match="for games"):
        study().add(OVERLOADED, moves=(1, 2))
    with pytest.raises(ValueError, match="no moves"):
        study().add(ks.Game())
    for moves, diagrams in (((0, 3), None), ((5, 4), None), ((1, 900), None), ((3, 4), [7]), (None, [-1])):
        with pytest.raises(ValueError, match="pl(y|ies)"):
            study().add(game(), moves=moves, diagrams=diagrams)
    with pytest.raises(ValueError, match="title"):
        ks.Study(" ")
    with pytest.raises(ks.InputError):
        ks.Study("x", bottom="red")
    assert len(study()) == 0


def test_anything_may_bring_its_own_entry() -> None:
    position = ks.Position(OVERLOADED)

    class Moment:
        def study_entry(self) -> ks.Entry:
            return ks.Entry("The moment", (ks.Panel(position),), question="What now?", answer="*Look.*")

    made = study().add(Moment(), title="Mine", note="Noted.", findings=[overloaded()])
    (entry,) = made.entries
    assert (entry.title, entry.text, entry.question, entry.answer) == ("Mine", "Noted.", "What now?", "*Look.*")
    assert isinstance(entry.solved[0], ks.Panel) and entry.solved[0].findings
    assert study().add(entry).entries == [entry]

    class Wrong:
        def study_entry(self) -> str:
            return "moment"

    with pytest.raises(TypeError, match="Entry"):
        study().add(Wrong())
    with pytest.raises(ValueError, match="at least one"):
        ks.Entry("Nothing", ())
    with pytest.raises(dataclasses.FrozenInstanceError):
        entry.title = "Other"  # type: ignore[misc]


def test_a_part_of_a_game_with_its_diagrams() -> None:
    made = study().add(game(2), moves=(54, 60), diagrams=[53, 56], title="Two jobs")
    text = Reader(made.html()).text
    for told in ("28.a4??", "28...Re2?", "(28...Bxb3 29.Rxb3 Re1# shows the point.)", "30...Bc4!", "After 28...Re2"):
        assert told in text
    assert "27.Rb1" not in text and "31.Kg1" not in text and "[%clk" not in text and " 0-1" not in text
    markdown = made.markdown()
    assert markdown.count("![") == 2
    assert (
        markdown.index("**28.a4??**")
        < markdown.index("*After 28...Re2, White to move*")
        < markdown.index("**29.a5??**")
    )
    (read,) = read_back(made)
    whole = [step for step in game(2).steps if step.is_main_line]
    assert read.main_line == [step.move for step in whole[54:61]]
    assert read.tags["White"] == "Thornquill, Mabel" and read.tags["Event"] == "Tuesday lesson"
    assert [step.nags for step in read.steps if step.is_main_line][1:] == [step.nags for step in whole[54:61]]
    assert "shows the point." in [step.comment for step in read.steps]


def test_a_whole_game_keeps_moves_variations_comments_and_glyphs() -> None:
    for original in ks.read_games(CLUB):
        (read,) = read_back(study().add(original))
        assert read.result == original.result
        kept = [(step.san, step.nags, step.plain_comment, step.comment_before) for step in read.steps[1:]]
        told = [(step.san, step.nags, step.plain_comment, step.comment_before) for step in original.steps[1:]]
        assert sorted(map(str, kept)) == sorted(map(str, told))


def test_nested_variations_are_told_in_order() -> None:
    nested = ks.game_from_text(
        "{Start.} 1. e4 e5 (1... c5 $5 {sharp} 2. Nf3 (2. c3 d5 (2... Nf6) 3. exd5) 2... d6) 2. Nf3 $7 *"
    )
    text = " ".join(Reader(study().add(nested).html()).text.split())
    assert "Start. 1.e4 e5 (1...c5!? sharp 2.Nf3 (2.c3 d5 (2...Nf6) 3.exd5) 2...d6) 2.Nf3 forced move" in text
    deep = "1. e4 e5 " + "(1... c5 2. a3 " * 1200 + ")" * 1200 + "*"
    assert study().add(ks.game_from_text(deep.replace("2. a3 (", "(").replace("2. a3 )", ")"))).html()


def test_lines_that_need_a_pass_or_a_man_thought_away_are_words_in_pgn() -> None:
    position = ks.Position("r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10")
    duties = ks.findings(position, themes=["guard_duty"], side="black")
    threats = ks.threats(ks.Position(FORK))
    assert duties[0].removed and threats[0].after_pass
    for found in (duties, threats):
        (read,) = read_back(study().add(list(found)))
        assert not read.main_line
        assert all(str(finding) in read.root.comment for finding in found)


def test_a_warning_is_no_main_line_where_something_better_is_told() -> None:
    position = ks.Position("2r2rk1/1p3ppp/pq1p4/4bN2/4P3/1P3P2/P2Q2PP/3R1R1K w - - 0 1")
    fork = ks.findings(position, themes=["fork"])[0]
    poisoned = ks.findings(position, themes=["poisoned"])[0]
    (read,) = read_back(study().add([poisoned, fork]))
    assert read.main_line == fork.line
    assert [child.move for child in read.root.children] == [fork.line[0], poisoned.line[0]]


def test_marks_and_arrows_of_the_coach() -> None:
    made = study().add(OVERLOADED, findings=[], marks=["d8", ks.Mark("e8", "dot")], arrows=[("e1", "e8")])
    assert "outline on d8, dot on e8. Arrows: from e1 to e8." in made.markdown()
    assert "Marked: d8, e8. Arrows: e1-e8." in made.pgn()
    asked = study().add(overloaded(), question="?", marks=["d8"]).entries[0]
    assert isinstance(asked.shown[0], ks.Panel) and asked.shown[0].marks == ("d8",)


def test_pictures_say_what_they_show() -> None:
    plan = ks.check_plan(ks.Position(OVERLOADED), ["Re5", "Rdxd5"])
    assert study().add(plan).entries[0].shown[0].picture().words.endswith("from e1 to e5 (1), from d1 to d5 (2).")
    assert ks.SvgText("no picture").words == ""


def test_an_entry_may_show_several_positions() -> None:
    before = ks.Position(OVERLOADED)
    later = before.after("Rxd5")
    entry = ks.Entry(
        "Twice",
        (
            ks.Panel(before, line=(before.move("Rxd5"),)),
            ks.Panel(later, "Then", findings=tuple(ks.findings(later)[:1]), line=(later.move("Rxd5"),)),
        ),
    )
    (read,) = read_back(study().add(entry))
    assert read.main_line == [before.move("Rxd5")]
    assert f"Then. {ks.findings(later)[0]}" in read.root.comment and "1...Rxd5." in read.root.comment


def test_results_without_a_position_are_said_of_their_own_one() -> None:
    step = [step for step in game().steps if step.is_main_line][51]
    answer = ks.answers(step.position, "Rxd4")
    later = step.position.after("Rxd4").after("Nxd4").after("bxa3")
    ledger = ks.exchange_context(later, step.position)
    assert ledger is not None
    for position, result in ((step.position, answer), (later, ledger)):
        made = study().add(position, findings=[], said=[result]).add(position, question="?", said=[result])
        assert Reader(made.html()).text.count(str(result)) == 3  # the answer also at the end, for paper
        for other in (OVERLOADED, later if position is not later else step.position):
            with pytest.raises(ValueError, match="another position"):
                study().add(other, said=[result])
    imbalance = ks.findings(later, themes=["exchange_imbalance"])
    text = Reader(study().add(later, findings=imbalance, said=[ledger]).html()).text
    assert str(ledger).startswith(str(imbalance[0])) and text.count(str(imbalance[0])) == 1
    assert str(ledger)[len(str(imbalance[0])) :].strip() in text
    with pytest.raises(TypeError, match="only an Answer"):
        study().add(OVERLOADED, said=["I think so"])  # type: ignore[list-item]


def test_a_move_told_twice_is_one_move_in_pgn() -> None:
    step = game().steps[0]
    (read,) = read_back(study().add(step, solution="1.e4 e5", findings=[]))
    assert [child.san for child in read.root.children] == ["e4"]


def test_the_side_at_the_bottom() -> None:
    made = ks.Study("x", bottom="mover").add(FORK).add(FORK, bottom="white").add(game(), bottom="black")
    assert [entry.shown[0].bottom for entry in made.entries] == ["black", "white", "black"]


def hostile_study() -> ks.Study:
    text = ks.Game()
    text.set_tag("White", HOSTILE)
    text.set_tag("Event", HOSTILE)
    text.root.add_comment(HOSTILE)
    step = text.root.add_move("e4")
    step.add_comment(HOSTILE)
    variation = text.root.add_move("d4")
    variation.add_comment(HOSTILE, "before")
    variation.add_comment(HOSTILE, "beyond")
    step.add_move("e5").add_comment(HOSTILE)
    made = ks.Study(HOSTILE, author=HOSTILE, date=HOSTILE, about=HOSTILE)
    made.section(HOSTILE).note(HOSTILE).add(text).add(step).add(text, question=HOSTILE)
    return made.ask(OVERLOADED, HOSTILE, HOSTILE, title=HOSTILE, note=HOSTILE, findings=[overloaded()])


ALLOWED = set(
    "html head meta title style body a b header h1 h2 h3 h4 p nav ul ol li main article section div span figure"
    " figcaption details summary em strong code pre blockquote br svg desc defs path g use text circle".split()
)


@pytest.mark.parametrize("sheet", [False, True])
def test_hostile_text_stays_text_in_html(sheet: bool) -> None:
    made = hostile_study()
    html = made.exercises().html() if sheet else made.html()
    page = Reader(html)
    assert {tag for tag, _ in page.tags} <= ALLOWED
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on")]
    assert all(address and re.match(r"#[\w-]+$", address) for address in page.values("href"))
    assert page.text.count("<script>alert(1)</script>") >= 3
    assert "script" not in html.replace("&lt;script&gt;", "").replace("&lt;/script&gt;", "").replace("javascript:", "")
    ids = page.values("id")
    assert len(ids) == len(set(ids))
    framed = made.exercises()._repr_html_() if sheet else made._repr_html_()
    assert [tag for tag, _ in Reader(framed).tags] == ["iframe"]


def test_hostile_text_stays_text_in_markdown() -> None:
    from markdown_it import MarkdownIt

    text = hostile_study().markdown()
    # As a reader that lets raw HTML through would show it (CommonMark by the PyPI package markdown-it-py).
    rendered = MarkdownIt("commonmark", {"html": True}).render(text)
    tags = set(re.findall(r"<([a-z]\w*)", rendered))
    assert tags <= {"h1", "h2", "h3", "h4", "p", "em", "strong", "img", "code", "blockquote"}
    assert set(re.findall(r'<img src="([^"]*)"', rendered)) <= {f"diagrams/diagram-{i:02}.svg" for i in range(1, 20)}


def test_hostile_text_survives_pgn() -> None:
    made = hostile_study()
    for read, again in zip(read_back(made), by_chess(made), strict=True):
        # The rules library leaves the backslashes before quotes in tags.
        assert read.tags["Event"] == re.sub(r'\\(["\\])', r"\1", again.headers["Event"]) == HOSTILE
        assert not read.notices


def test_links_and_pictures_of_notes() -> None:
    made = study().note(
        "[club](https://example.org/a) <mailto:hedda@example.org> [bad](file:///etc/passwd) ![a map](http://x.org/m.png)"
    )
    page = Reader(made.html())
    assert page.values("href") == ["https://example.org/a", "mailto:hedda@example.org"]
    assert "a map" in page.text and "img" not in [tag for tag, _ in page.tags]
    assert "![" not in made.markdown() and "[club](https://example.org/a) <mailto:hedda@example.org>" in made.markdown()


def test_headings_go_down_in_steps() -> None:
    made = study().add(OVERLOADED).section("One").note("# Deep\n\n## Deeper").add(FORK, threats=True)
    made.add(overloaded(), question="# Asked")
    levels = [int(tag[1]) for tag, _ in Reader(made.html()).tags if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:]))


def test_files(tmp_path: Path) -> None:
    made = study().ask(OVERLOADED, "Who?", answer=overloaded()).add(FORK)
    assert made.save(tmp_path / "lesson.html").read_text(encoding="utf-8") == made.html()
    assert made.save(str(tmp_path / "lesson.pgn")).read_text(encoding="utf-8") == made.pgn()
    text = made.save(tmp_path / "lesson.md").read_text(encoding="utf-8")
    shown = re.findall(r"!\[(.*?)\]\((.*?)\)", text)
    assert len(shown) == 3
    for words, name in shown:
        picture = ElementTree.parse(tmp_path / name).getroot()
        assert picture.findtext("{http://www.w3.org/2000/svg}desc") == words
    assert text.index("## Answers") > text.index("*The answer is at the end.*")
    # Pictures of an earlier run go, other files stay.
    (tmp_path / "lesson-diagrams/mine.txt").write_text("kept")
    study().add(FORK).save(tmp_path / "lesson.md")
    assert sorted(file.name for file in (tmp_path / "lesson-diagrams").iterdir()) == ["diagram-01.svg", "mine.txt"]
    assert sorted(file.name for file in tmp_path.iterdir()) == [
        "lesson-diagrams",
        "lesson.html",
        "lesson.md",
        "lesson.pgn",
    ]


def test_a_file_name_with_spaces_makes_links_all_the_same(tmp_path: Path) -> None:
    text = study().add(FORK).save(tmp_path / "my lesson (1).md").read_text(encoding="utf-8")
    assert "](my%20lesson%20%281%29-diagrams/diagram-01.svg)" in text
    assert (tmp_path / "my lesson (1)-diagrams/diagram-01.svg").exists()


def test_what_can_not_be_written_leaves_nothing(tmp_path: Path) -> None:
    made = study().add(FORK)
    for name in ("lesson.docx", "lesson"):
        with pytest.raises(ValueError, match=r"\.html, \.md or \.pgn"):
            made.save(tmp_path / name)
    with pytest.raises(FileNotFoundError, match="absent/lesson.html"):
        made.save(tmp_path / "absent/lesson.html")
    (tmp_path / "taken.html").mkdir()
    with pytest.raises(IsADirectoryError, match="taken.html"):
        made.save(tmp_path / "taken.html")
    (tmp_path / "lesson-diagrams").write_text("a file")
    with pytest.raises(OSError, match="lesson-diagrams"):
        made.save(tmp_path / "lesson.md")
    assert sorted(file.name for file in tmp_path.iterdir()) == ["lesson-diagrams", "taken.html"]


def test_thirty_positions_are_less_than_two_megabytes() -> None:
    made = study()
    for position in list(game(2).positions())[20:50]:
        made.ask(position, "What would you look at?", answer=ks.candidates(position))
    assert len(made) == 30
    assert len(made.html().encode()) < 2_000_000


def test_a_sheet_of_exercises(tmp_path: Path) -> None:
    made = study().add(FORK).note("Not on the sheet.")
    for at in range(7):
        made.ask(OVERLOADED, f"Question {at}", answer=overloaded())
    for per_page, pages in ((4, 2), (6, 2), (12, 1)):
        sheet = made.exercises(per_page)
        assert len(sheet) == 7 and sheet.per_page == per_page
        page = Reader(sheet.html())
        assert [name for name in page.values("class")].count("sheet") == pages
        assert [f"exercise-{at}" for at in range(1, 8)] == [
            i for i in page.values("id") if str(i).startswith("exercise")
        ]
        assert "Not on the sheet" not in page.text
        assert page.text.rindex("Question 6") < page.text.index("Answers")
    assert made.exercises().save(tmp_path / "sheet.html").read_text(encoding="utf-8") == made.exercises().html()
    with pytest.raises(ValueError, match=r"\.html"):
        made.exercises().save(tmp_path / "sheet.pdf")
    with pytest.raises(ValueError, match="4, 6, 12"):
        made.exercises(5)
    with pytest.raises(ValueError, match="no question"):
        study().add(FORK).exercises()


def test_what_a_study_says_of_itself() -> None:
    made = study()
    assert repr(made) == '<keysquare.Study "Tuesday lesson": no entries>' and len(made) == 0
    assert repr(made.add(FORK)) == '<keysquare.Study "Tuesday lesson": 1 entry>'
    assert repr(made.add(FORK, question="?").exercises()).endswith(": 1 exercise, 6 on a page>")
    assert made.html() == made.html()


def run(program: str, *arguments: object) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, str(ROOT / "examples" / program), *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True)


def test_the_example_lesson(tmp_path: Path) -> None:
    for suffix in ("html", "md", "pgn"):
        done = run("position_study.py", "-o", tmp_path / f"lesson.{suffix}")
        assert done.returncode == 0 and str(tmp_path) in done.stdout, done.stderr
    text = Reader((tmp_path / "lesson.html").read_text(encoding="utf-8")).text
    for theme in ("are locked", "is overloaded", "exchange down"):
        assert theme in text
    assert len(list(ks.read_games(tmp_path / "lesson.pgn", on_error="raise"))) == 8
    assert "usage" in run("position_study.py", "--help").stdout
    done = run("position_study.py", "-o", tmp_path / "absent/lesson.html")
    assert done.returncode == 1 and "absent" in done.stderr and "Traceback" not in done.stderr


def test_the_example_sheet(tmp_path: Path) -> None:
    fens = tmp_path / "fens.txt"
    fens.write_text(f"# ours\n{OVERLOADED}  # two jobs\n\nno position\n4k3/8/8/8/8/8/8/4K3 w - - 0 1\n")
    done = run("exercise_sheet.py", fens, CLUB, "--per-page", 4, "-o", tmp_path / "sheet.html")
    assert done.returncode == 0, done.stderr
    assert "line 4:" in done.stderr and "line 5: nothing to be won here" in done.stderr
    text = Reader((tmp_path / "sheet.html").read_text(encoding="utf-8")).text
    assert "Rxd5" in text and "28...Re2 was played" in text
    assert "usage" in run("exercise_sheet.py", "--help").stdout
    assert run("exercise_sheet.py", tmp_path / "absent.txt").returncode == 1
