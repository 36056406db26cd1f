"""Everything that is said can be said in German: the same facts, no word of English, and whole pages."""

import io
import os
import re
from pathlib import Path

import pytest

import keysquare as ks
from keysquare._words import _ENGLISH, _GERMAN, Words

OVERLOADED = "3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1"

# Function words and words of the trade; none of them is a German word.
ENGLISH_WORDS = set(
    "the and with of on to it its are which can if no one two move moves pawn pawns queen rook bishop knight king White "
    "Black square squares material wins loses by for only they each than that there would has have side piece pieces "
    "threatens or answer after".split()
)

LETTERS = str.maketrans("SLTDK0", "NBRQKO")
MOVE = re.compile(r"^(?:[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=[QRBN])?|O-O(?:-O)?)[+#]?$")


def facts(text: str, german: bool = False) -> set[str]:
    """The squares, moves and numbers of a text, moves in the letters of SAN."""
    found = set()
    for word in re.findall(r"[\w#+=-]+", text):
        move = word.translate(LETTERS) if german and not word.isdigit() else word
        if MOVE.match(move):
            found.add(move)
        elif word.isdigit():
            found.add(word)
    return found


def check(english: str, german: str) -> None:
    """Holds a German text against the English one."""
    assert english != german
    assert german[-1] in ".?", german
    first = german.split()[0].translate(LETTERS)
    assert MOVE.match(first) or german[0].isupper() or german[0].isdigit(), german
    assert "  " not in german and "{" not in german and "|" not in german, german
    assert not ENGLISH_WORDS & set(re.findall(r"[^\W\d_]+", german)), german
    assert facts(english) == facts(german, german=True), (english, german)


def real_positions() -> list[ks.Position]:
    """Positions of real games, from the open collections where they are."""
    data = Path(os.environ.get("KEYSQUARE_OPEN_DATA", Path(__file__).parents[2] / "../shared/data"))
    files = sorted((data / "pgn").glob("masters*.pgn"))
    if not files:
        pytest.skip("the open data are not there")
    positions = []
    for number, game in enumerate(ks.read_games(files[0])):
        positions += [game.at_ply(ply).position for ply in range(number % 7, len(game.main_line), 7)]
        if number == 25:
            break
    return positions


def test_the_known_languages() -> None:
    assert ks.languages == ("en", "de")
    assert ks.move_letters("de") == "SLTDK0" and ks.move_letters() == "NBRQKO"
    finding = ks.findings(ks.Position(OVERLOADED))[0]
    assert finding.text() == finding.text("en") == str(finding)
    for asked in (
        lambda: finding.text("fr"),
        lambda: ks.candidates(ks.Position(OVERLOADED)).text("fr"),
        lambda: ks.Study("Lesson", language="fr"),
        lambda: ks.diagram(ks.Position(OVERLOADED), language="fr"),
        lambda: ks.theme_noun("fork", "fr"),
    ):
        with pytest.raises(ValueError, match='no language is called "fr"; there are "en", "de"'):
            asked()


def test_both_languages_have_the_same_placeholders() -> None:
    for name in Words.__dataclass_fields__:
        ours, theirs = getattr(_ENGLISH, name), getattr(_GERMAN, name)
        if isinstance(ours, str):
            assert theirs and set(re.findall(r"{\w+}", ours)) == set(re.findall(r"{\w+}", theirs)), name
        elif isinstance(ours, dict):
            assert ours.keys() == theirs.keys()


def test_a_finding_in_german() -> None:
    position = ks.Position(OVERLOADED)
    (finding,) = ks.findings(position, ["overloaded"])
    assert finding.text("de") == (
        "Der Turm auf d8 ist überlastet (d5 und e8): Txd5 gewinnt Material im Wert von 3 Bauern, denn schlägt er dort, "
        "vernachlässigt er die andere Aufgabe: 1.Txd5 Txd5 2.Te8#."
    )
    assert ks.theme_noun("fork", "de") == "Gabeln" and ks.theme_heading("fork", "de") == "Gabel"
    assert ks.theme_heading("removable_guard") == "Removable guard"


def test_findings_of_real_games_say_the_same_in_german() -> None:
    told = 0
    for position in real_positions():
        for finding in ks.findings(position):
            check(str(finding), finding.text("de"))
            told += 1
    assert told > 2000


def test_answers_about_real_positions_say_the_same_in_german() -> None:
    for position in real_positions()[::20]:
        for threat in ks.threats(position):
            check(str(threat), threat.text("de"))
            parries = ks.parries(position, threat)
            check(str(parries), parries.text("de"))
        candidates = ks.candidates(position)
        for candidate in candidates:
            check(str(candidate), candidate.text("de"))
            answer = ks.answers(position, candidate.move)
            check(str(answer), answer.text("de"))
        assert candidates.text("de") == "\n".join(candidate.text("de") for candidate in candidates)
        if candidates:
            plan = ks.check_plan(position, [candidates[0].move])
            check(str(plan), plan.text("de"))
        outlook = ks.outlook(position)
        check(str(outlook), outlook.text("de"))
        check(str(outlook["white"]), outlook["white"].text("de"))
        both = ks.difficulty(position)
        check(str(both), both.text("de"))
        check(str(both["black"]), both["black"].text("de"))
        square = next(square for square, piece in position.pieces.items() if piece.kind == "king")
        check(str(ks.route(position, square, "d5")), ks.route(position, square, "d5").text("de"))
        check(str(ks.mobility(position, square)), ks.mobility(position, square).text("de"))
        ledger = ks.exchange_context(position)
        if ledger:
            check(str(ledger), ledger.text("de"))


def test_a_game_report_in_german() -> None:
    game = ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0")
    report = ks.game_report(game)
    assert report.turning_points[0].text("de") == (
        "3...Lc5 übersieht, dass Weiß droht, mattzusetzen: 4.Dxf7#. Nach 3...Sf6 geht nichts verloren."
    )
    moment = report.moments[0]
    assert moment.told("de").question == (
        "Schwarz ist am Zug. Zuerst: Was droht Weiß, und was lässt sich dagegen tun?"
    )
    assert moment.text("de") == f"{moment.told('de').question} {moment.told('de').answer}"
    assert moment.title_in("de") == "Nach 3.Df3"
    for ply in report.plies:
        for effect in ply.effects:
            check(str(effect), effect.text("de"))
    assert str(report.plies[6].standing) == "White mates."
    assert report.plies[6].standing.text("de") == "Weiß setzt matt."
    assert report.plies[7].standing.text("de") == "Mit dem, was sofort zu gewinnen ist, hat Weiß einen Bauern mehr."
    assert report.text("de").splitlines()[1].startswith("Wendepunkt: 3...Lc5 übersieht")


def german_study() -> ks.Study:
    position = ks.Position(OVERLOADED)
    study = ks.Study("Dienstagstraining", author="Hedda Wexmoor", date="13.10.2026", language="de")
    study.section("Überlastete Verteidiger").note("Prüfe *jeden* Verteidiger, bevor du zählst.")
    study.add(position, threats=True, candidates=True)
    study.ask(position, "Welcher schwarze Stein hat zu viel zu tun?", answer=ks.findings(position)[0], solution="1.Rxd5 Rxd5 2.Re8#")
    study.add(ks.findings(position)[0]).add(ks.outlook(position)).add(ks.difficulty(position))
    study.add(ks.check_plan(position, ["Rxd5"])).add(ks.route(position, "e1", "a7")).add(ks.mobility(position, "e1"))
    game = ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 $7 Bc5 (3... Nf6 4. Ne2 Be7 5. O-O O-O) 4. Qxf7# 1-0")
    study.add(game).add(game.at_ply(5))
    for moment in ks.game_report(game).moments:
        study.add(moment)
    return study


def words_of_page(html: str) -> str:
    """What a reader or a screen reader gets of a page."""
    html = re.sub(r"<style>.*?</style>", " ", html, flags=re.DOTALL)
    labels = " ".join(re.findall(r'aria-label="([^"]*)"', html))
    return re.sub(r"<[^>]*>", " ", html) + " " + labels


def test_a_study_in_german_has_no_english_word() -> None:
    study = german_study()
    html = study.html()
    assert '<html lang="de">' in html
    for text in (words_of_page(html), study.markdown(), words_of_page(study.exercises(4).html())):
        found = ENGLISH_WORDS & set(re.findall(r"[^\W\d_]+", text))
        assert not found, found
        assert "Lösung" in text and "Weiß am Zug" in text and "Txd5" in text
    assert "Rxd5" not in words_of_page(html)
    assert "erzwungener Zug" in html and "0-0" in html
    assert [entry.title for entry in study.entries[:3]] == ["Weiß am Zug", "Weiß am Zug", "Überlasteter Verteidiger"]


def test_pgn_keeps_the_letters_of_the_standard() -> None:
    pgn = german_study().pgn()
    assert "1. Rxd5" in pgn and "1. Txd5" not in pgn
    assert "ist überlastet" in pgn.replace("\n", " ")
    assert len(list(ks.read_games(io.StringIO(pgn)))) > 5


def test_an_english_study_is_as_it_was() -> None:
    study = ks.Study("Tuesday lesson").add(ks.Position(OVERLOADED))
    assert study.language == "en" and '<html lang="en">' in study.html()
    assert "White to move" in study.html()
