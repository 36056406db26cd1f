"""Threats, parries and answers: what the worked positions say, what Python shows, and the independent verifier.

By default the verifier looks at a sample; `KEYSQUARE_PARRY_POSITIONS=500` has it prove the parries of so many positions by
exhaustive search.
"""

import json
import os
import pickle
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

import keysquare as ks
from truth.foundation import Lie
from truth.positions import from_random_play, from_random_setup, open_data
from truth.thinking_threats import ThreatVerifier

PARRY_POSITIONS = int(os.environ.get("KEYSQUARE_PARRY_POSITIONS") or 24)

WORKED = {
    worked["id"]: worked
    for worked in map(json.loads, (Path(__file__).parent / "data/worked-positions.jsonl").read_text().splitlines())
    if worked["id"][0] in "hi"
}
MATE_THREAT = WORKED["h01"]["fen"]
SEVERAL_THREATS = WORKED["h05"]["fen"]
TRADE = WORKED["i05"]["fen"]
IN_CHECK = "4k3/8/8/8/4r3/8/3P4/3QK3 w - - 0 1"


def sans(position: ks.Position, moves: list[ks.Move]) -> set[str]:
    return {move.san(position) for move in moves}


# --- the worked positions ------------------------------------------------------------------------------------------------

# What we say beyond the facts. Theirs is a search of five plies full width plus captures, so a move that our bound (captures,
# checks, and any reply to a quiet move) lets through may be refuted there by a second quiet move.
FURTHER_PARRIES = {
    "h05": {"Qd1"},
    "h07": {"Bb4", "Be7", "Rd8", "Kd8"},  # Ne5 and Qf3, two quiet moves, are the facts' line
}
# A quiet threat must add something to what can be won at once: where the move gives up a man, the threat is that man.
FURTHER_STOPS = {"h03": {"Ba3", "Bg3", "Bd5"}, "h07": {"Ba3", "Bb4", "Bc5", "Kd8"}}
# After f3 Qxh2+ mates no more, which is what the fact says; for us the threat to h2 is still on, because Bxh2+ mates.
STILL_MATED = {"h01": {"f3"}}


@pytest.mark.parametrize("name", sorted(name for name in WORKED if name[0] == "h"))
def test_worked_threats(name: str) -> None:
    facts, position = WORKED[name]["facts"], ks.Position(WORKED[name]["fen"])
    threats = ks.threats(position)
    assert bool(threats) == WORKED[name]["positive"]
    if not threats:
        return
    passed = position.passed()
    assert passed is not None
    strongest = threats[0]
    assert strongest.side != position.mover and strongest.after_pass
    assert strongest.line[0].san(passed) == facts["threat_move"]
    assert ("mate" if strongest.mate else strongest.gain) == facts["threat_move_value_if_pass"]
    mates = {threat.line[0].san(passed) for threat in threats if threat.mate and len(threat.line) == 1}
    assert mates == set(facts["mate_in_one_threats"])
    found = ks.parries(position, strongest)
    assert found.legal == facts["legal_moves"]
    assert sans(position, found.parries) == set(facts["parries"]) | FURTHER_PARRIES.get(name, set())
    stops = (set(facts["stops_threat_move"]) | FURTHER_STOPS.get(name, set())) - STILL_MATED.get(name, set())
    assert sans(position, found.stops) == stops


def test_the_bait_is_no_threat() -> None:
    position = ks.Position(WORKED["h08"]["fen"])
    passed = position.passed()
    assert passed is not None and ks.threats(position) == []
    # The capture wins a pawn by captures and checks; what refutes it is quiet.
    assert ks.resolve(passed).gain == 1
    assert passed.move(WORKED["h08"]["facts"]["bait"]["move"]) in passed.moves()


@pytest.mark.parametrize("name", sorted(name for name in WORKED if name[0] == "i"))
def test_worked_holding_moves(name: str) -> None:
    facts, position = WORKED[name]["facts"], ks.Position(WORKED[name]["fen"])
    found = ks.parries(position, ks.threats(position)[0])
    assert sans(position, found.parries) == set(facts["holding_moves"])
    for move in position.moves():
        assert ks.answers(position, move).loses == (move not in found.parries)


# --- what Python shows -----------------------------------------------------------------------------------------------------


def test_a_threat_carries_its_witness() -> None:
    position = ks.Position(SEVERAL_THREATS)
    threat, *others = ks.threats(position)
    assert (threat.side, threat.gain, threat.mate, threat.after_pass) == (ks.BLACK, 6, False, True)
    assert (threat.target, threat.squares) == ("d2", ["d2"])
    assert threat.line_san == "1...Nf3+ 2.Bxf3 Rxd2"
    assert str(threat) == (
        "Black threatens to win material worth 6 pawns with Nf3+, aimed at the queen on d2 (2.Bxf3 Rxd2)."
    )
    assert str(threat) in repr(threat) and threat.position == position
    assert [other.gain for other in others] == [2, 1]
    assert ks.threats(position, "black", 2) == [threat, others[0]]
    assert ks.threats(position, side=ks.BLACK) == ks.threats(position)
    assert ks.threats(position, "white") == []
    assert pickle.loads(pickle.dumps(threat)) == threat and hash(pickle.loads(pickle.dumps(threat))) == hash(threat)
    data = json.loads(json.dumps(threat.as_dict()))
    assert data["fen"] == SEVERAL_THREATS and data["sentence"] == str(threat) and data["line"] == list(map(str, threat.line))
    assert threat != others[0]


def test_a_threat_is_drawn_like_a_finding() -> None:
    position = ks.Position(SEVERAL_THREATS)
    threats = ks.threats(position)
    picture = ks.diagram(position, threats[:1])
    assert "d4" in picture and "f3" in picture and picture != ks.diagram(position)
    assert ks.diagram(position, [*threats, *ks.findings(position)[:1]]).startswith("<svg")
    assert threats[0]._repr_html_().startswith("<figure><svg")
    with pytest.raises(ValueError, match="another position"):
        ks.diagram(ks.Position(), threats)


def test_parries_say_what_can_be_done() -> None:
    position = ks.Position(MATE_THREAT)
    (threat,) = ks.threats(position)
    found = ks.parries(position, threat)
    assert sans(position, found.parries) == {"f4", "g3", "h3"} < sans(position, found.stops)
    assert found.threat == threat and found.legal == 39
    assert sans(position, found.useful) == {"g3"} and found.counters == []  # g3 attacks the queen
    assert str(found).startswith("Of 39 legal moves 3 parry Qxh2# and leave the other side nothing else: g3, h3 and f4.")
    assert pickle.loads(pickle.dumps(found)) == found
    assert not found.every_natural_reply and not found.most_natural_replies
    several = ks.Position(SEVERAL_THREATS)
    weakest = ks.threats(several)[-1]
    assert ks.parries(several, weakest).most_natural_replies
    assert sans(several, ks.parries(several, weakest).counters) == {"Nd5"}


def test_answers_say_what_was_overlooked() -> None:
    position = ks.Position(MATE_THREAT)
    neglect = ks.answers(position, "a3")
    assert (neglect.loses, neglect.leaves, neglect.walks_into) == (True, True, False)
    assert neglect.reply is not None and neglect.reply.mate and neglect.line == neglect.reply.line
    assert str(neglect) == "a3 leaves what Black threatened before: 1...Qxh2# mates."
    fine = ks.answers(position, position.move("f4"))
    assert (fine.reply, fine.line, fine.gain, fine.cost, fine.loses) == (None, [], 0, 0, False)
    trade = ks.answers(ks.Position(TRADE), "exf5")
    assert (trade.taken, trade.gain, trade.cost, trade.loses) == (1, 1, 0, False)
    hung = ks.answers(ks.Position(WORKED["h03"]["fen"]), "Ba3")
    assert hung.walks_into and not hung.leaves and hung.cost == 3
    assert pickle.loads(pickle.dumps(hung)) == hung


def test_nothing_is_threatened_while_the_mover_is_in_check() -> None:
    assert ks.threats(ks.Position(IN_CHECK)) == []


def test_errors() -> None:
    position = ks.Position(MATE_THREAT)
    (threat,) = ks.threats(position)
    with pytest.raises(ks.InputError):
        ks.threats(position, "green")
    with pytest.raises(ks.InputError):
        ks.answers(position, "Qa8")
    with pytest.raises(ValueError, match="another position"):
        ks.parries(ks.Position(), threat)
    own = ks.threats(ks.Position("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1"), "white")[0]
    with pytest.raises(ValueError, match="own|mover"):
        ks.parries(own.position, own)
    with pytest.raises(ValueError, match="least_gain"):
        ks.threats(position, least_gain=0)
    with pytest.raises(TypeError):
        ks.parries(position, None)  # type: ignore[arg-type]


# --- the independent verifier ----------------------------------------------------------------------------------------------


def puzzle_fens(count: int) -> Iterator[str]:
    """Positions of the open puzzles, evenly spread, in which the waiter threatens something."""
    folder = open_data()
    if folder is None:
        pytest.skip("no open data: KEYSQUARE_OPEN_DATA names no folder with a folder pgn")
    lines = (folder / "open-puzzles.csv").read_text().splitlines()[1:]
    fens = [fen for line in lines if ks.threats(ks.Position(fen := line.split(",")[1]))]
    return (fens[at * len(fens) // count] for at in range(min(count, len(fens))))


def test_parries_are_proved_by_exhaustive_search() -> None:
    checked = 0
    lies = []
    for fen in puzzle_fens(PARRY_POSITIONS):
        checked += 1
        lies += [f"{fen}: {lie}" for lie in ThreatVerifier(fen).violations(parries_of=1, answers_to=1)]
    assert not lies, "\n".join(lies)
    assert checked == PARRY_POSITIONS or PARRY_POSITIONS > 500


@pytest.mark.parametrize("seed", range(3))
def test_random_positions_hold_no_lie(seed: int) -> None:
    fens = [*from_random_play(4, seed), *from_random_setup(2, seed)]
    lies = [f"{fen}: {lie}" for fen in fens for lie in ThreatVerifier(fen).violations(parries_of=1, answers_to=1)]
    assert not lies, "\n".join(lies)


@pytest.mark.parametrize("name", sorted(WORKED))
def test_worked_positions_hold_no_lie(name: str) -> None:
    assert ThreatVerifier(WORKED[name]["fen"]).violations(parries_of=2, answers_to=2) == []


def test_the_verifier_notices_lies() -> None:
    position = ks.Position(SEVERAL_THREATS)
    verifier = ThreatVerifier(SEVERAL_THREATS)
    threats = ks.threats(position)
    found = ks.parries(position, threats[0])

    def refused(check: object, *arguments: object) -> bool:
        try:
            check(*arguments)  # type: ignore[operator]
        except Lie:
            return True
        return False

    def changed(threat: ks.Threat, **changes: object) -> SimpleNamespace:
        names = ("side", "gain", "mate", "after_pass", "target", "squares", "line")
        return SimpleNamespace(**{**{name: getattr(threat, name) for name in names}, **changes})

    assert not refused(verifier.check_threats, threats, "black")
    assert refused(verifier.check_threats, threats[1:], "black")
    assert refused(verifier.check_threats, threats[:2], "black")
    assert refused(verifier.check_threats, threats[::-1], "black")
    lies = [{"gain": 5}, {"gain": 7}, {"mate": True}, {"target": "d1"}, {"squares": ["d2", "f3"]}, {"line": threats[1].line}]
    for lie in lies:
        assert refused(verifier.check_threats, [changed(threats[0], **lie), *threats[1:]], "black"), lie
    assert refused(verifier.check_threats, [changed(threats[0], side="white"), *threats[1:]], "black")

    assert not refused(verifier.check_parries, threats[0], found)
    first = found.moves[0]
    for at in range(len(found.moves)):
        assert refused(verifier.check_parries, threats[0], replace(found, moves=found.moves[:at] + found.moves[at + 1 :]))
    idle = next(move for move in position.moves() if all(move != parry.move for parry in found.moves))
    assert refused(verifier.check_parries, threats[0], replace(found, moves=[*found.moves, replace(first, move=idle)]))
    for lie in ("stops", "ends_all", "counters", "wins", "takes", "threatens", "castles"):
        false = replace(first, **{lie: not getattr(first, lie)})
        assert refused(verifier.check_parries, threats[0], replace(found, moves=[false, *found.moves[1:]])), lie
    assert refused(verifier.check_parries, threats[0], replace(found, natural=found.natural + 1))
    assert refused(verifier.check_parries, threats[0], replace(found, natural_stopping=0))

    answer = ks.answers(position, "a3")
    assert not refused(verifier.check_answer, answer)
    assert refused(verifier.check_answer, replace(answer, reply=None))
    assert refused(verifier.check_answer, replace(answer, cost=answer.cost + 1))
    assert refused(verifier.check_answer, replace(answer, loses=False))
    assert refused(verifier.check_answer, replace(answer, leaves=False))
