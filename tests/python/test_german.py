"""Everything that is said can be said in German: the same facts, no word of English, and whole pages."""

import io
import itertools
import os
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import keysquare as ks
from keysquare._words import _ENGLISH, _GERMAN, Words

ROOT = Path(__file__).parents[2]
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
            for key in ours:
                assert theirs[key] and set(re.findall(r"{\w+}", ours[key])) == set(re.findall(r"{\w+}", theirs[key])), name
        elif isinstance(ours, tuple):
            assert [set(re.findall(r"{\w+}", one)) for one in ours] == [set(re.findall(r"{\w+}", one)) for one in theirs]


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


# --- the board, the Laws, collections -----------------------------------------------------------------------------------


def test_the_board_in_german() -> None:
    position = ks.Position("2r1r1k1/1b2npbp/pq2p1p1/1p1pP3/2pP1B2/2P1QN2/PP1N1PPP/R3R1K1 w - - 0 1")
    control = ks.square_control(position)
    held = len(control.held["white"]), len(control.held["black"])
    assert control.text("de") == f"Weiß beherrscht {held[0]} Felder, Schwarz {held[1]}."
    assert str(control) == control.text() == f"White holds {held[0]} squares, Black {held[1]}."
    for colour, word in (("light", "weißen"), ("dark", "schwarzen")):
        complexes = ks.colour_complex(position)[colour]  # type: ignore[index]
        assert complexes.text("de").startswith(f"Von den {word} Feldern beherrscht Weiß ")
        check(str(complexes), complexes.text("de"))
    guardian = ks.guardian(position, "black", "dark")
    assert guardian is not None and len(guardian.lost) > 1
    assert guardian.text("de") == (
        f"Ohne den Läufer auf g7 verliert Schwarz {len(guardian.lost)} der schwarzen Felder der eigenen Hälfte."
    )
    check(str(guardian), guardian.text("de"))
    one = replace(guardian, lost=guardian.lost[:1])
    assert str(one) == "Without the bishop on g7 Black loses one of the dark squares in its half."
    assert one.text("de") == "Ohne den Läufer auf g7 verliert Schwarz eines der schwarzen Felder der eigenen Hälfte."


def test_boards_of_real_games_say_the_same_in_german() -> None:
    weak = 0
    for position in real_positions()[::5]:
        check(str(ks.square_control(position)), ks.square_control(position).text("de"))
        for complexes in ks.colour_complex(position).values():
            check(str(complexes), complexes.text("de"))
            weak += "eine Schwäche von" in complexes.text("de")
    assert weak > 0


def states() -> list[ks.GameState]:
    """One for each sentence."""
    knights = ks.Game()
    knights.root.add_line("Nf3 Nf6 Ng1 Ng8 " * 4)
    played = [
        ("rnbqkbnr/pppp1ppp/8/4p3/6P1/5P2/PPPPP2P/RNBQKBNR b KQkq g3 0 2", "Qh4#"),
        ("7k/8/8/6Q1/8/8/8/K7 w - - 0 1", "Qg6"),
        ("4k3/8/8/8/8/8/4p3/4K3 w - - 0 1", "Kxe2"),
        ("4k3/8/8/8/8/4K3/8/R7 w - - 149 90", "Rb1"),
        ("4k3/8/8/8/8/4K3/8/R7 w - - 99 90", "Rb1"),
        ("4k3/8/8/8/8/4K3/8/R7 w - - 98 90", "Rb1"),
    ]
    return [*knights.states(), *(ks.Game(ks.Position(fen)).root.add_line(moves).state for fen, moves in played)]


def test_states_in_german() -> None:
    told = states()
    for state in told:
        assert str(state) == state.text("en")
        check(str(state), state.text("de"))
    of_knights, others = told[:-6], told[-6:]
    assert of_knights[0].text("de") == (
        "Weiß ist am Zug; die Stellung ist zum ersten Mal entstanden, und 0 Halbzüge sind ohne Bauernzug und Schlagfall "
        "vergangen."
    )
    assert "und 1 Halbzug ist ohne" in of_knights[1].text("de") and "1 ply has gone by" in str(of_knights[1])
    assert of_knights[7].text("de") == (
        "Schwarz darf Remis reklamieren: Nach f6g8 entsteht eine Stellung zum dritten Mal."
    )
    assert of_knights[8].text("de") == "Weiß darf Remis reklamieren: Die Stellung ist zum 3. Mal entstanden."
    assert of_knights[16].text("de") == "Die Partie ist remis: Die Stellung ist zum 5. Mal entstanden."
    assert [state.text("de") for state in others] == [
        "Weiß ist matt.",
        "Die Partie ist remis: Schwarz ist patt.",
        "Die Partie ist remis: Keine Seite hat das Material, um mattzusetzen.",
        "Die Partie ist remis: 150 Halbzüge sind ohne Bauernzug und Schlagfall vergangen.",
        "Schwarz darf Remis reklamieren: 100 Halbzüge sind ohne Bauernzug und Schlagfall vergangen.",
        "Schwarz darf Remis reklamieren: 99 Halbzüge sind ohne Bauernzug und Schlagfall vergangen, und der nächste kann "
        "der 100. sein.",
    ]


@pytest.fixture(scope="module")
def season() -> list[ks.Game]:
    games = ks.read_games(ROOT / "examples/data/season.pgn")
    return list(itertools.islice((game for game in games if "Vastin, Joren" in game.tags.values()), 6))


@pytest.fixture(scope="module")
def profile(season: list[ks.Game]) -> ks.Profile:
    return ks.profile(season, "vastin", progress=False)


def check_words(german: str) -> None:
    found = ENGLISH_WORDS & set(re.findall(r"[^\W\d_]+", german))
    assert not found, (found, german)


def test_a_profile_in_german(profile: ks.Profile) -> None:
    assert str(profile) == profile.text() != profile.text("de")
    check_words(profile.text("de"))
    assert facts(str(profile)) == facts(profile.text("de"), german=True)
    lines = profile.text("de").splitlines()
    assert lines[0] == (
        f"{profile.name}: {profile.moves} Züge in {profile.games} Partien; "
        f"die Gegner: {profile.others_tally.moves['all', '']} Züge in {profile.others_tally.games} Partien."
    )
    assert re.fullmatch(r"erlaubt, alle Themen +\d+,\d \(\d+,\d bis \d+,\d\) +\d+,\d \(\d+,\d bis \d+,\d\)", lines[5])
    assert profile.habits
    for habit in profile.habits:
        check_words(habit.text("de"))
        assert f" {habit.text('de')}" in profile.text("de")
    rate = ks.Rate(1, 4)
    assert str(rate) == "25.0 of 100 moves (95 % 4.6 to 69.9)"
    assert rate.text("de") == "25,0 von 100 Zügen (95 %: 4,6 bis 69,9)"
    with pytest.raises(ValueError, match='no language is called "fr"'):
        profile.text("fr")


@pytest.mark.parametrize(
    ("kind", "theme", "english", "german", "did"),
    [
        ("allowed", "fork", "A allows forks", "A erlaubt in {} Gabeln;", "erlaubt: Gabeln"),
        ("missed", "any", "A misses anything", "A verpasst in {} irgendetwas;", "verpasst: irgendetwas"),
        ("exploited", "back_rank", "A makes use of attacks on", "A nutzt in {} Angriffe auf der Grundreihe;",
         "genutzt: Angriffe auf der Grundreihe"),
        ("overlooked", "other", "A overlooks other wins", "A übersieht in {} sonstige Gewinne;", "übersehen: sonstige Gewinne"),
    ],
)
def test_a_habit_in_german(kind: str, theme: str, english: str, german: str, did: str) -> None:
    row = ks.ProfileRow(kind, theme, "all", "", ks.Rate(1, 4), ks.Rate(2, 40))
    habit = ks.Habit("A", "the reference group", row, True, [])
    assert str(habit).startswith(f"{english} ") and str(habit) == habit.text()
    assert habit.text("de") == f"{german.format(row.own.text('de'))} die Vergleichsgruppe in {row.others.text('de')}."
    assert row.words_in("de") == did and row.words_in("en") == row.words


def test_an_example_in_german(profile: ks.Profile) -> None:
    for examples in profile.own_tally.examples.values():
        for example in examples:
            check_words(example.text("de").replace(example.title_in("de"), ""))
            assert "(es geht um " in example.text("de") and str(example) == example.text()
            study = ks.Study("Beispiele", language="de").add(example)
            assert ": Es geht um " in study.markdown()
            check_words(study.markdown())


def test_a_selection_in_german(season: list[ks.Game]) -> None:
    found = ks.select(season, themes="fork", limit=2, progress=False)
    assert len(found) == 2 and str(found) == found.text()
    check_words(found.text("de"))
    first = found.text("de").splitlines()[0]
    assert re.fullmatch(r"2 Stellungen aus \d Partien?; \d+ Stellungen aus \d+ Partien? durchgesehen \(.*nicht gebraucht\)", first)
    assert found[0].text("de").splitlines()[1].strip() == found[0].findings[0].text("de")


def test_a_summary_in_german(season: list[ks.Game]) -> None:
    summary = ks.summarise(ROOT / "examples/data/club.pgn", by="Round", features=[], progress=False)
    assert str(summary) == summary.text()
    check_words(summary.text("de"))
    assert facts(str(summary)) == facts(summary.text("de"), german=True)
    assert re.fullmatch(r"\d+ Stellungen aus 4 Partien, 0 ausgelassen", summary.text("de").splitlines()[0])
    assert "Weiß holte " in summary.text("de")
    assert ks.Share(1, 4).text("de") == "25,0 % von 4 (95 %: 4,6 bis 69,9)"
    assert str(ks.Share(1, 4)) == "25.0 % of 4 (95 % 4.6 to 69.9)"


def words_of_figure(figure: Any) -> str:
    from matplotlib.text import Text

    figure.canvas.draw()
    return "\n".join(text.get_text() for text in figure.findobj(Text))


def test_plots_in_german(profile: ks.Profile) -> None:
    pytest.importorskip("matplotlib").use("agg")
    from matplotlib import pyplot

    axes = profile.plot(language="de")
    words = words_of_figure(axes.get_figure())
    check_words(words)
    assert "in 100 Zügen, mit Intervallen zu 95 %" in words and "die Gegner" in words
    assert [label.get_text().removesuffix(" *") for label in axes.get_yticklabels()] == [
        row.words_in("de") for row in profile.compared[:10]
    ]
    pyplot.close("all")
    report = ks.game_report(ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0"))
    words = words_of_figure(report.plot(language="de"))
    check_words(words)
    assert "3...Lc5" in words and "Raum" in words
    assert "3...Bc5" in words_of_figure(report.plot())
    for draw in (profile.plot, report.plot):
        with pytest.raises(ValueError, match='no language is called "fr"'):
            draw(language="fr")  # type: ignore[operator]


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
