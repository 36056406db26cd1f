"""The JSON documents: equal to what Python shows, valid by the published schemas, and what is changed in them is refused.

`KEYSQUARE_JSON_POSITIONS` and `KEYSQUARE_JSON_GAMES` say how much of the open data is gone through. Schemas are applied by
the package `jsonschema`.
"""

import copy
import csv
import itertools
import json
import os
import random
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

import keysquare as ks
from truth.positions import from_random_play, from_random_setup, game_texts, open_data

ROOT = Path(__file__).parents[2]
SCHEMAS = ROOT / "bindings/schema"
CLUB = ROOT / "examples/data/club.pgn"
POSITIONS = int(os.environ.get("KEYSQUARE_JSON_POSITIONS") or 60)
GAMES = int(os.environ.get("KEYSQUARE_JSON_GAMES") or 1)

FORK = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10"
IN_CHECK = "4k3/8/8/4r3/8/2N5/8/4K3 w - - 0 1"
MATED = "R5k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1"
STALEMATED = "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"
CHESS960 = "bqnrkbrn/pppppppp/8/8/8/8/PPPPPPPP/BQNRKBRN w GDgd - 0 1"
PROMOTING = "8/P3k3/8/8/8/8/4K2p/8 w - - 0 1"
OWN = [FORK, IN_CHECK, MATED, STALEMATED, CHESS960, PROMOTING]


def members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object, held to have no member twice."""
    assert len({key for key, _ in pairs}) == len(pairs)
    return dict(pairs)


def refuse(text: str) -> Any:
    raise AssertionError(f"{text} in a document that holds whole numbers alone")


def data_of(text: str) -> Any:
    assert "\n" not in text
    return json.loads(text, object_pairs_hook=members, parse_float=refuse, parse_constant=refuse)


@cache
def schemas() -> Registry[Any]:
    files = [json.loads(path.read_text("utf-8")) for path in sorted(SCHEMAS.glob("*.schema.json"))]
    assert len(files) == 6
    for file in files:
        Draft202012Validator.check_schema(file)
    return Registry().with_resources((file["$id"], Resource.from_contents(file)) for file in files)


@cache
def validator(name: str) -> Draft202012Validator:
    number = name.rsplit(" ", 1)
    identifier = f"urn:keysquare:schema:{number[0].removeprefix('keysquare ').replace(' ', '-')}:{number[1]}"
    return Draft202012Validator(schemas().contents(identifier), registry=schemas())


def faults(document: Any) -> list[str]:
    found = validator(document["schema"]).iter_errors(document)
    return [f"{'/'.join(map(str, fault.absolute_path))}: {fault.message[:200]}" for fault in found]


def documents_of(position: ks.Position, language: str = "en") -> list[Any]:
    sides = [data_of(ks.threats_json(position, side, language=language)) for side in (ks.WHITE, ks.BLACK)]
    return [
        data_of(ks.findings_json(position, language=language)),
        *sides,
        data_of(ks.candidates_json(position, language=language)),
        data_of(ks.outlook_json(position, language=language)),
    ]


def check_position(fen: str) -> None:
    """The documents are valid, and say what the objects say, in every language."""
    position = ks.Position(fen)
    seen, moves, both = ks.findings(position), ks.candidates(position), ks.outlook(position)
    by_side = {side: ks.threats(position, side) for side in (ks.WHITE, ks.BLACK)}
    for language in ks.languages:
        findings, white, black, candidates, outlook = documents_of(position, language)
        for document in (findings, white, black, candidates, outlook):
            assert document["language"] == language
            assert document["fen"] == position.fen and faults(document) == [], fen
        assert findings["findings"] == [finding.as_dict(language) for finding in seen]
        for document, side in ((white, ks.WHITE), (black, ks.BLACK)):
            assert document["side"] == side
            assert document["threats"] == [threat.as_dict(language) for threat in by_side[side]]
            assert document["known"] == (side == position.mover or position.passed() is not None)
        assert candidates["candidates"] == [candidate.as_dict(language) for candidate in moves]
        of_both = {key: value for key, value in outlook.items() if key not in ("schema", "language", "fen")}
        assert of_both == both.as_dict(language)


@pytest.mark.parametrize("fen", OWN)
def test_documents_of_positions_of_our_own(fen: str) -> None:
    check_position(fen)


def test_documents_of_random_positions() -> None:
    for fen in [*from_random_play(12, seed=1), *from_random_setup(12, seed=2), *from_random_play(6, seed=3, chess960=True)]:
        check_position(fen)


def test_documents_of_tactical_and_strategic_positions() -> None:
    folder = open_data()
    if folder is None or not (folder / "open-puzzles.csv").exists():
        pytest.skip("no open-puzzles.csv; set KEYSQUARE_OPEN_DATA to the folder of the open data")
    with (folder / "open-puzzles.csv").open(encoding="utf-8") as lines:
        puzzles = [row["fen"] for row in itertools.islice(csv.DictReader(lines), POSITIONS // 2)]
    suite = (folder / "epd/strategic-test-suite-a.epd").read_text("utf-8").splitlines()
    strategic = [" ".join([*line.split()[:4], "0 1"]) for line in suite[:: max(1, 2 * len(suite) // POSITIONS)]]
    assert len(puzzles) >= POSITIONS // 2 and len(strategic) >= POSITIONS // 2
    for fen in puzzles + strategic:
        check_position(fen)


def test_the_parameters_are_those_of_the_functions() -> None:
    position = ks.Position(FORK)
    hanging = data_of(ks.findings_json(position, themes=["denied_square"], side="white", least_gain=1))["findings"]
    assert hanging == [one.as_dict() for one in ks.findings(position, ["denied_square"], "white")] != []
    assert data_of(ks.threats_json(position))["side"] == ks.BLACK
    assert len(data_of(ks.candidates_json(position, 2))["candidates"]) == 2
    dear = {"queen": 20}
    assert data_of(ks.outlook_json(position, values=dear))["white"] == ks.outlook(position, values=dear)["white"].as_dict()
    with pytest.raises(ValueError, match="no theme is called"):
        ks.findings_json(position, themes=["nonsense"])
    with pytest.raises(ValueError, match="at_most"):
        ks.candidates_json(position, 0)
    with pytest.raises(ks.InputError):
        ks.threats_json(position, "green")
    with pytest.raises(TypeError):
        ks.game_report_json(None)  # type: ignore[arg-type]


def test_a_german_document_says_what_text_says() -> None:
    position = ks.Position("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1")
    findings, white, black, candidates, outlook = documents_of(position, "de")
    sentence = "Weiß kann mit Sxd5 Material im Wert von 5 Bauern gewinnen: Der Turm auf d5 ist ungedeckt."
    said = [finding["sentence"] for finding in findings["findings"]]
    assert said == [finding.text("de") for finding in ks.findings(position)] and sentence in said
    assert [one["sentence"] for one in white["threats"]] == [one.text("de") for one in ks.threats(position, "white")] != []
    assert [one["sentence"] for one in candidates["candidates"]] == [one.text("de") for one in ks.candidates(position)]
    both = ks.outlook(position)
    assert outlook["paragraph"] == both.text("de") != str(both)
    assert outlook["white"]["paragraph"] == both["white"].text("de")
    assert findings["findings"][said.index(sentence)]["line_san"] == "1.Nxd5"
    game = ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0")
    report = data_of(ks.game_report_json(game, language="de"))
    (point,) = report["turning_points"]
    assert point["effect"]["sentence"] == ks.game_report(game).turning_points[0].text("de")
    assert point["numbered"] == "3...Bc5"


def test_a_difficulty_says_what_text_says() -> None:
    both = ks.difficulty(ks.Position(FORK))
    for language in ks.languages:
        assert both.as_dict(language)["white"] == both["white"].as_dict(language)
        assert both["white"].as_dict(language)["paragraph"] == both["white"].text(language)
    assert both.as_dict() == both.as_dict("en") != both.as_dict("de")


def test_an_unknown_language_is_refused() -> None:
    position, game = ks.Position(FORK), ks.Game()
    asked = [
        lambda: ks.findings_json(position, language="fr"),
        lambda: ks.threats_json(position, language="fr"),
        lambda: ks.candidates_json(position, language="fr"),
        lambda: ks.outlook_json(position, language="fr"),
        lambda: ks.game_report_json(game, language="fr"),
        lambda: ks.findings(position)[0].as_dict("fr"),
        lambda: ks.candidates(position)[0].as_dict("fr"),
        lambda: ks.outlook(position).as_dict("fr"),
        lambda: ks.difficulty(position).as_dict("fr"),
    ]
    for ask in asked:
        with pytest.raises(ValueError, match='^no language is called "fr"; there are "en", "de"$'):
            ask()
    with pytest.raises(TypeError):
        ks.findings_json(position, language=None)  # type: ignore[arg-type]


# --- reports ---------------------------------------------------------------------------------------------------------------


def effect_data(effect: ks.MoveEffect | None, language: str) -> Any:
    if effect is None:
        return None
    return {
        "kind": effect.kind,
        "theme": effect.theme,
        "win": effect.win.as_dict(language),
        "cost": effect.cost,
        "left": effect.left,
        "better": None if effect.better is None else str(effect.better),
        "better_san": effect.better_san,
        "sentence": effect.text(language),
    }


def ply_data(ply: ks.PlyReport, language: str) -> Any:
    return {
        "ply": ply.ply,
        "move": None if ply.move is None else str(ply.move),
        "numbered": ply.numbered,
        "fen": ply.position.fen,
        "findings": [finding.as_dict(language) for finding in ply.findings],
        "created": [ply.findings.index(finding) for finding in ply.created],
        "removed": [finding.as_dict(language) for finding in ply.removed],
        "chances": [threat.as_dict(language) for threat in ply.chances],
        "threats": [threat.as_dict(language) for threat in ply.threats],
        "standing": {"pawns": ply.standing.pawns, "mating": ply.standing.mating, "lead": ply.standing.lead},
        "effects": [effect_data(effect, language) for effect in ply.effects],
    }


def report_data(report: ks.GameReport, language: str) -> Any:
    """What the document of a report has to be, from the objects alone."""
    return {
        "schema": "keysquare game report 1",
        "language": language,
        "tags": report.game.tags,
        "result": report.game.result,
        "plies": [ply_data(ply, language) for ply in report.plies],
        "turning_points": [
            {
                "ply": point.ply,
                "numbered": point.numbered,
                "before": point.before,
                "after": point.after,
                "effect": effect_data(point.effect, language),
            }
            for point in report.turning_points
        ],
        "moments": [
            {
                "ply": moment.ply,
                "fen": moment.position.fen,
                "moved": moment.moved,
                "played": moment.played,
                "theme": moment.theme,
                "effect": effect_data(moment.effect, language),
                "worth": moment.worth,
                "findings": [finding.as_dict(language) for finding in moment.findings],
                "question": moment.told(language).question,
                "answer": moment.told(language).answer,
                "verdict": moment.told(language).verdict,
            }
            for moment in report.moments
        ],
    }


def check_game(game: ks.Game) -> None:
    report = ks.game_report(game)
    for language in ks.languages:
        document = data_of(ks.game_report_json(game, language=language))
        assert faults(document) == []
        assert document == report_data(report, language)


def test_reports_of_the_club() -> None:
    games = list(ks.read_games(CLUB))
    assert len(games) == 4
    for game in games:
        check_game(game)


def test_reports_of_games_out_of_the_way() -> None:
    check_game(ks.Game())
    check_game(ks.game_from_text("1. f3 e5 2. g4 Qh4# 0-1"))
    check_game(ks.Game(ks.Position(STALEMATED)))
    game = ks.game_from_text("1. e4 e5 *")
    game.set_tag("Event", 'Quotes " and \\ and ümläut 中 and \x01')
    check_game(game)
    assert data_of(ks.game_report_json(game, 0))["moments"] == []


def test_reports_of_open_games() -> None:
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    for name in ("rated-rapid-blitz.pgn", "masters.pgn"):
        for text in game_texts(folder / "pgn" / name, GAMES):
            check_game(ks.game_from_text(text))


# --- the schemas refuse what is not written -----------------------------------------------------------------------------------


def places_in(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every member of every object and item of every list inside, as the container and the key."""
    keys = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else []
    for key in keys:
        yield value, key
        yield from places_in(value[key])


def shortened(value: Any) -> Any:
    """The same with two items of every list at most, which is as valid and sooner gone through."""
    if isinstance(value, dict):
        return {key: shortened(one) for key, one in value.items()}
    return [shortened(one) for one in value[:2]] if isinstance(value, list) else value


def example_documents() -> list[Any]:
    report = data_of(ks.game_report_json(ks.game_from_text("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0")))
    del report["plies"][1:6]
    return [shortened(one) for one in (*documents_of(ks.Position(FORK)), *documents_of(ks.Position(PROMOTING)), report)]


@pytest.mark.parametrize("change", ["left out", "another type", "one more"])
def test_a_changed_document_is_refused(change: str) -> None:
    """Each time one thing is changed: any member but a count or a tag left out, any value of another type, or a member more."""
    dice = random.Random(7)
    tried = 0
    for document in example_documents():
        assert faults(document) == []
        count = sum(1 for _ in places_in(document))
        for at in sorted(dice.sample(range(count), min(count, 60))):
            changed = copy.deepcopy(document)
            container, key = next(itertools.islice(places_in(changed), at, None))
            if change == "left out":
                named = isinstance(container, dict) and not {"attackers", "Event"} & container.keys()
                if not named or "schema" == key or not is_closed(changed, container):
                    continue
                del container[key]
            elif change == "another type":
                if key == "schema":
                    continue
                container[key] = 0.5
            else:
                if not isinstance(container, dict) or is_tags(changed, container):
                    continue
                container["one_more"] = 1
            tried += 1
            assert not validator(document["schema"]).is_valid(changed), (document["schema"], key, change)
    assert tried > 100


def is_tags(document: Any, container: Any) -> bool:
    return container is document.get("tags")


def is_closed(document: Any, container: Any) -> bool:
    """Whether it is an object with a fixed set of members: counts and tags have those that there are."""
    return not is_tags(document, container) and not all(isinstance(value, int) for value in container.values())


def test_words_that_are_none_are_refused() -> None:
    document = data_of(ks.findings_json(ks.Position(FORK)))
    finding = document["findings"][0]
    for key, word in (
        ("theme", "brilliance"),
        ("detail", "none"),
        ("side", "green"),
        ("squares", ["e9"]),
        ("squares", ["e4", "e4"]),
        ("line", ["e2e9"]),
        ("line", ["Nf3"]),
        ("pieces", [{"square": "e4", "piece": "white dragon"}]),
        ("numbers", {"dragons": 1}),
        ("sentence", ""),
    ):
        changed = copy.deepcopy(document)
        changed["findings"][0][key] = word
        assert finding[key] != word and len(faults(changed)) >= 1, (key, word)
    assert len(faults({**document, "language": "fr"})) == 1
    assert list(validator("keysquare findings 1").iter_errors({**document, "schema": "keysquare findings 2"}))


def test_every_schema_says_what_it_describes() -> None:
    """Every member has a description, its own or that of what it refers to; every object is closed."""

    def resolved(file: Any, node: Any) -> Any:
        reference = node.get("$ref", "")
        if not reference:
            return node
        file = schemas().contents(reference.split("#")[0]) if reference.startswith("urn:") else file
        return file["$defs"][reference.rsplit("/", 1)[1]]

    def check(file: Any, node: Any) -> None:
        if isinstance(node, dict):
            if node.get("type") == "object":
                assert "additionalProperties" in node
                for name, member in node.get("properties", {}).items():
                    assert "description" in member or "description" in resolved(file, member), (file["$id"], name)
                assert set(node.get("required", [])) == set(node.get("properties", {}))
            for one in node.values():
                check(file, one)
        elif isinstance(node, list):
            for one in node:
                check(file, one)

    for path in SCHEMAS.glob("*.schema.json"):
        file = json.loads(path.read_text("utf-8"))
        check(file, file)


def test_python_knows_the_same_languages_themes_and_facts() -> None:
    names = schemas().contents("urn:keysquare:schema:parts:1")["$defs"]
    assert names["language"]["enum"] == list(ks.languages)
    assert names["theme"]["enum"] == list(ks.themes)
    assert sorted(names["fact"]["enum"]) == sorted(ks.fact_definitions())


def test_the_header_names_the_schemas() -> None:
    header = (ROOT / "include/keysquare/lesson/json.hpp").read_text("utf-8")
    for name in re.findall(r'_schema = "(.+)";', header):
        assert validator(name).schema["properties"]["schema"]["const"] == name
    assert len(re.findall(r'_schema = "', header)) == 5
