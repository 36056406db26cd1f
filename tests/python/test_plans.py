"""Routes and plans against programs of our own, written from the definitions on the rules library `chess`."""

import pickle
import random
from collections.abc import Iterator

import chess
import keysquare as ks
import pytest

from truth.calculations import MATE, Bound, Referee, balance, exchange_at_least, gain_of_move
from truth.positions import from_game, from_random_play, game_texts, open_data

BOUND = Bound()
LONGEST_ROUTE = 6
SQUARES = range(64)


def sources(count: int, seed: int) -> Iterator[chess.Board]:
    """Half of them from random play, half from games of masters (without them, from random play, too)."""
    folder = open_data()
    fens = list(from_random_play(count if folder is None else count // 2, seed))
    if folder is not None:
        for at, text in enumerate(game_texts(folder / "pgn" / "masters.pgn", count - len(fens))):
            fens += from_game(text, 1, seed + at)
    return (chess.Board(fen) for fen in fens)


def position_of(board: chess.Board) -> ks.Position:
    return ks.Position(board.fen(en_passant="fen"))


def passed(board: chess.Board) -> chess.Board | None:
    """The move handed over, where that is legal."""
    if board.is_check():
        return None
    board = board.copy(stack=False)
    board.push(chess.Move.null())
    return board


def turn_of(board: chess.Board, side: chess.Color) -> chess.Board | None:
    return board if board.turn == side else passed(board)


def played(board: chess.Board, move: chess.Move) -> chess.Board:
    board = board.copy(stack=False)
    board.push(move)
    return board


def won_by(referee: Referee, board: chess.Board) -> int:
    """What the mover wins by `resolve`, not in check; `MATE` for a mate."""
    if referee.wins_at_least(board, MATE, BOUND):
        return MATE
    gain = 0
    while referee.wins_at_least(board, gain + 1, BOUND):
        gain += 1
    return gain


def best_kept(referee: Referee, board: chess.Board) -> int:
    """The most that any move keeps, at most 0; `-MATE` where every move is mated."""
    moves = list(board.legal_moves)
    best = 0
    while best > -60 and not any(referee.keeps_at_least(board, move, best, BOUND) for move in moves):
        best -= 1
    if best == -60 and not any(referee.keeps_at_least(board, move, 1 - MATE, BOUND) for move in moves):
        return -MATE
    return best


def baseline(referee: Referee, board: chess.Board) -> int:
    """What a move must keep: the smaller of what doing nothing keeps and of the most that any move keeps."""
    over = passed(board)
    standing = 0 if over is None else -won_by(referee, over)
    return min(best_kept(referee, board), standing)


def is_sound(referee: Referee, board: chess.Board, move: chess.Move) -> bool:
    """Whether the move loses no more than any other."""
    best = best_kept(referee, board)
    return best == -MATE or referee.keeps_at_least(board, move, best, BOUND)


def safety(referee: Referee, board: chess.Board, move: chess.Move, least: int) -> str:
    target = move.to_square
    if board.is_castling(move):
        return "safe" if referee.keeps_at_least(board, move, least, BOUND) else "loses"
    if exchange_at_least(played(board, move), target, gain_of_move(board, move) + 1):
        return "falls"
    if least <= -MATE:
        return "safe"
    return "safe" if referee.keeps_at_least(board, move, least, BOUND) else "loses"


def routes_of(board: chess.Board, origin: chess.Square, target: chess.Square) -> tuple[int, set[tuple[str, ...]]]:
    """The length of the shortest safe routes and all of them, by plain breadth first over strings of stops."""
    referee = Referee()
    level = [((), board, origin)]
    seen = {origin}
    for length in range(1, LONGEST_ROUTE + 1):
        onward = []
        found = set()
        for stops, at, square in level:
            least = baseline(referee, at)
            for move in at.generate_legal_moves(chess.BB_SQUARES[square]):
                if move.to_square in seen or at.is_castling(move) or move.promotion not in (None, chess.QUEEN):
                    continue
                ends = move.to_square == target
                if not ends and (at.is_capture(move) or move.promotion):
                    continue
                if safety(referee, at, move, least) != "safe":
                    continue
                way = (*stops, chess.square_name(move.to_square))
                if ends:
                    found.add(way)
                elif (over := passed(played(at, move))) is not None:
                    onward.append((way, over, move.to_square))
        if found:
            return length, found
        seen |= {square for _, _, square in onward}
        # One board for each square is enough to go on from, but every way counts: keep them all while they are few.
        level = onward
        if len(level) > 400:
            return -1, set()
    return 0, set()


def test_routes_are_all_the_shortest_ones() -> None:
    dice = random.Random(7)
    asked = there = 0
    for board in sources(160, seed=70):
        pieces = board.occupied & ~board.pawns if dice.random() < 0.8 else board.occupied
        origin = dice.choice(list(chess.SquareSet(pieces)))
        target = dice.choice([square for square in SQUARES if square != origin])
        start = turn_of(board, board.color_at(origin) or False)
        answer = ks.route(position_of(board), chess.square_name(origin), chess.square_name(target))
        assert answer.known == (start is not None)
        if start is None:
            assert not answer
            continue
        moves, expected = routes_of(start, origin, target)
        if moves < 0:
            continue  # too many ways for this program
        asked += 1
        there += moves > 0
        context = f"{board.fen()} {chess.square_name(origin)} {chess.square_name(target)}"
        assert answer.moves == moves, context
        assert answer.ways == len(expected), context
        assert {tuple(route.squares) for route in answer} <= expected, context
        assert len(answer) == min(8, len(expected)), context
    assert asked > 100 and there > 15


def test_a_route_is_a_safe_plan() -> None:
    dice = random.Random(8)
    found = 0
    for board in sources(300, seed=80):
        position = position_of(board)
        origin = dice.choice(list(chess.SquareSet(board.occupied)))
        targets = [chess.square_name(square) for square in dice.sample(SQUARES, 3)]
        for route in ks.route(position, chess.square_name(origin), targets):
            found += 1
            plan = ks.check_plan(position, route.moves, side=position.piece_at(chess.square_name(origin)).side)
            assert plan.is_safe
            assert [step.move.target for step in plan.steps] == route.squares
    assert found > 50


def random_plan(board: chess.Board, side: chess.Color, length: int, dice: random.Random) -> list[str]:
    steps: list[str] = []
    while len(steps) < length:
        here = turn_of(board, side)
        if here is None or not any(here.legal_moves):
            break
        move = dice.choice(list(here.legal_moves))
        steps.append(dice.choice([move.uci(), here.san(move)]))
        board = played(here, move)
    return steps


def follow(board: chess.Board, line: list[ks.Move]) -> chess.Board:
    for move in line:
        step = chess.Move.from_uci(str(move))
        assert step in board.legal_moves
        board = played(board, step)
    return board


def check_step(board: chess.Board, step: ks.PlanStep, following: ks.PlanStep | None, referee: Referee | None) -> None:
    """Everything that is said of one step. `board` has the planner to move. The referee is for what costs most."""
    planner = board.turn
    move = chess.Move.from_uci(str(step.move))
    stepped = played(board, move)
    assert step.position.fen == board.fen(en_passant="fen")
    assert step.san == board.san(move)
    assert step.won == gain_of_move(board, move)
    assert step.gives_check == stepped.is_check()
    end = follow(stepped, step.taken.line)
    assert balance(end, not planner) - balance(stepped, not planner) == step.taken.gain
    end = follow(board, step.kept.line)
    assert balance(end, planner) - balance(board, planner) == step.kept.gain
    if referee:
        assert step.safety == safety(referee, board, move, baseline(referee, board))
    spoiler = step.spoiler
    if spoiler is None:
        if referee:
            assert stepped.is_check() or not referee.wins_at_least(stepped, step.won + 1, BOUND)
        return
    end = follow(stepped, spoiler.line)
    reply = chess.Move.from_uci(str(spoiler.line[0]))
    replied = played(stepped, reply)
    assert spoiler.mate == (end.is_checkmate() and end.turn == planner)
    if spoiler.how in ("wins", "punishes", "defuses"):
        assert balance(end, not planner) - balance(stepped, not planner) - step.won == spoiler.gain
    if spoiler.how in ("wins", "punishes"):
        assert spoiler.mate or spoiler.gain >= 1
    if spoiler.how != "wins":
        assert following is not None
        intended = chess.Move.from_uci(str(following.move))
        possible = intended in replied.legal_moves
        assert possible == (spoiler.how in ("punishes", "defuses"))
        if spoiler.how in ("prevents", "checks"):
            assert replied.is_check() == (spoiler.how == "checks")
        else:
            assert spoiler.line[1] == following.move
        if referee:
            assert not referee.wins_at_least(stepped, step.won + 1, BOUND)
            assert is_sound(referee, stepped, reply)
            taken = gain_of_move(stepped, reply)
            if spoiler.how == "punishes":
                assert not referee.keeps_at_least(replied, intended, taken - step.won, BOUND)
            if spoiler.how == "defuses":
                assert referee.keeps_at_least(replied, intended, taken - step.won, BOUND)
                assert not referee.keeps_at_least(replied, intended, MATE, BOUND)
    elif referee:
        assert referee.wins_at_least(stepped, MATE if spoiler.mate else step.won + spoiler.gain, BOUND)


def check_free_play(start: chess.Board, play: ks.FreePlay, tempi: int) -> None:
    assert play.looked_at == min(3, tempi) and len(play.moves) <= play.looked_at
    board = start
    won = 0
    for move in play.moves[:-1]:
        step = chess.Move.from_uci(str(move))
        assert step in board.legal_moves
        won += gain_of_move(board, step)
        over = passed(played(board, step))
        assert over is not None
        board = over
    assert play.line[:1] == play.moves[-1:]
    end = follow(board, play.line)
    assert won + balance(end, board.turn) - balance(board, board.turn) == play.gain
    assert play.mate == (end.is_checkmate() and end.turn != board.turn)
    assert play.mate or play.gain > 0 or not play.moves


def test_thousands_of_random_plans_keep_what_they_say() -> None:
    dice = random.Random(9)
    spoiled = {how: 0 for how in ("wins", "punishes", "prevents", "defuses", "checks")}
    for number, board in enumerate(sources(2400, seed=90)):
        side = dice.choice(chess.COLORS)
        steps = random_plan(board, side, dice.randint(1, 8), dice)
        if not steps:
            continue
        plan = ks.check_plan(position_of(board), steps, side=chess.COLOR_NAMES[side])
        assert plan.tempi == len(steps) and plan.after_pass == (board.turn != side)
        referee = Referee() if number % 40 == 0 else None
        at = turn_of(board, side)
        start = at
        for step, following in zip(plan.steps, [*plan.steps[1:], None], strict=True):
            assert at is not None
            check_step(at, step, following, referee)
            end = played(at, chess.Move.from_uci(str(step.move)))
            at = passed(end)
            if step.spoiler:
                spoiled[step.spoiler.how] += 1
        assert plan.end.fen == end.fen(en_passant="fen")
        assert plan.mates == end.is_checkmate()
        assert plan.won == sum(step.won for step in plan.steps)
        assert plan.compared == (not start.is_check() and not end.is_check())
        others_turn = passed(start)
        assert (plan.other is None) == (others_turn is None)
        if plan.other and others_turn:
            check_free_play(others_turn, plan.other, plan.tempi)
        assert "{" not in str(plan) and str(plan).endswith(".")
    assert all(count > 10 for count in spoiled.values()), spoiled


def test_a_step_without_a_spoiler_has_none() -> None:
    """The other way round: every sound reply leaves the next step as good as it was."""
    dice = random.Random(10)
    looked_at = 0
    for board in sources(300, seed=100):
        steps = random_plan(board, board.turn, 2, dice)
        if len(steps) < 2:
            continue
        plan = ks.check_plan(position_of(board), steps)
        step, following = plan.steps
        if step.spoiler:
            continue
        referee = Referee()
        stepped = played(board, chess.Move.from_uci(str(step.move)))
        over = passed(stepped)
        assert over is not None
        intended = chess.Move.from_uci(str(following.move))
        mates = referee.keeps_at_least(over, intended, MATE, BOUND)
        aims = mates or referee.keeps_at_least(over, intended, 1, BOUND)
        for reply in list(stepped.legal_moves):
            if not is_sound(referee, stepped, reply):
                continue
            replied = played(stepped, reply)
            taken = gain_of_move(stepped, reply)
            assert intended in replied.legal_moves, board.fen()
            assert referee.keeps_at_least(replied, intended, taken - step.won, BOUND), board.fen()
            if aims:
                assert referee.keeps_at_least(replied, intended, MATE if mates else taken + 1, BOUND), board.fen()
            looked_at += 1
    assert looked_at > 100


def test_free_play_is_the_best_of_all_strings() -> None:
    for board in sources(30, seed=110):
        start = passed(board)
        if start is None or not any(board.legal_moves):
            continue
        move = next((move for move in board.legal_moves if not board.gives_check(move)), None)
        over = move and passed(played(board, move))
        if over is None or not any(over.legal_moves):
            continue
        plan = ks.check_plan(position_of(board), [move.uci(), next(iter(over.legal_moves)).uci()])
        play = plan.other
        assert play is not None and play.looked_at == 2
        if play.mate:
            continue
        referee = Referee()
        for first in list(start.legal_moves):
            won = gain_of_move(start, first)
            assert not referee.keeps_at_least(start, first, play.gain + 1, BOUND), board.fen()
            onward = passed(played(start, first))
            for second in list(onward.legal_moves) if onward else []:
                if won + gain_of_move(onward, second) > play.gain or onward.gives_check(second):
                    assert not referee.keeps_at_least(onward, second, play.gain + 1 - won, BOUND), board.fen()


def test_what_is_attained() -> None:
    position = ks.Position("r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10")
    plan = ks.check_plan(position, ["Bf4", "Rc1"])
    before, after = ks.findings(position.passed()), ks.findings(plan.end)

    def claim(finding: ks.Finding) -> tuple[object, ...]:
        return finding.theme, finding.side, frozenset(finding.pieces) or finding.detail

    known = {claim(finding) for finding in before}
    assert plan.created == [finding for finding in after if claim(finding) not in known]
    assert plan.created and plan.removed
    table = ks.features([position.passed(), plan.end])
    changed = {name: tuple(table[name]) for name in table.columns if table[name][0] != table[name][1]}
    assert plan.counts == changed
    held = [set(ks.square_control(at).held["white"]) for at in (position.passed(), plan.end)]
    assert set(plan.gained) == held[1] - held[0] and set(plan.lost) == held[0] - held[1]


def test_answers_are_values() -> None:
    position = ks.Position("6k1/4pppp/8/8/8/8/1N3PPP/6K1 w - - 0 1")
    plan = ks.check_plan(position, ["Nd1", "Nc3", position.move("Nc4")][:2])
    assert pickle.loads(pickle.dumps(plan)) == plan == ks.check_plan(position, ("Nd1", "d1c3"))
    assert repr(plan) == f"<keysquare.PlanCheck: {plan}>"
    routes = ks.route(position, "b2", "d5")
    assert pickle.loads(pickle.dumps(routes)) == routes
    assert str(routes).startswith("The knight on b2 gets to d5 in 3 safe moves if Black only passes: ")
    assert repr(routes) == f"<keysquare.Routes: {routes}>"
    assert [str(route) for route in routes] == ["-".join(route.squares) for route in routes]
    assert routes._repr_svg_().startswith("<svg")
    assert ks.route(position, "b2", {"d5", "d1"}).moves == 1
    assert ks.route(position, "b2", ["b2"]).there


@pytest.mark.parametrize(
    ("moves", "reason", "step"),
    [
        ([], "empty_plan", 1),
        (["h3"] * 9, "plan_too_long", 9),
        (["Nd1", "Rf8"], "no_such_piece", 2),
        (["Nd1", "\u2654e2"], "not_a_move", 2),
        (["Nd1", "x" * 100_000], "not_a_move", 2),
        (["Nd1", "--"], "not_a_move", 2),
        (["Nd1", "e7e5"], "no_such_piece", 2),
        (["O-O"], "illegal_move", 1),
    ],
)
def test_what_is_no_plan_is_refused(moves: list[str], reason: str, step: int) -> None:
    position = ks.Position("6k1/4pppp/8/8/8/8/1N3PPP/6K1 w - - 0 1")
    with pytest.raises(ks.InputError) as caught:
        ks.check_plan(position, moves)
    assert (caught.value.reason, caught.value.step, caught.value.field) == (reason, step, "step")


def test_what_has_the_wrong_type_is_refused() -> None:
    position = ks.Position()
    for moves in ("e4", 3, [3], None, [b"e4"]):
        with pytest.raises(TypeError):
            ks.check_plan(position, moves)  # type: ignore[arg-type]
    for target in (3, None, [3], b"e4"):
        with pytest.raises(TypeError):
            ks.route(position, "g1", target)  # type: ignore[arg-type]
    for square, target in (("g1", "x9"), ("z1", "e4"), ("g1", ["e4", "e9"])):
        with pytest.raises(ks.InputError) as caught:
            ks.route(position, square, target)
        assert caught.value.reason == "not_a_square" and caught.value.step is None
    with pytest.raises(ks.InputError) as caught:
        ks.route(position, "e4", "e5")
    assert caught.value.reason == "no_such_piece"
    with pytest.raises(ValueError, match="no square"):
        ks.route(position, "g1", [])
    with pytest.raises(ks.InputError):
        ks.check_plan(position, ["e4"], side="green")
    with pytest.raises(ValueError, match="least_gain"):
        ks.check_plan(position, ["e4"], least_gain=0)
