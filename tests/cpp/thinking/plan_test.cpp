// Plans: what is legal, what is safe, what spoils a step, what is attained, and what is refused.
#include <boost/test/unit_test.hpp>

#include <string>
#include <vector>

#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/thinking/plan.hpp>

#include "features/mirrored.hpp"

namespace {

using namespace keysquare;
using Steps = std::vector<std::string_view>;

Result<PlanCheck> try_plan(std::string_view fen, const Steps& steps) {
    const Position position = read_fen(fen).value();
    return check_plan(position, position.mover(), steps);
}
PlanCheck plan_in(std::string_view fen, const Steps& steps) { return try_plan(fen, steps).value(); }

/// The error of a plan, as "reason step column".
std::string refusal(std::string_view fen, const Steps& steps) {
    const auto refused = try_plan(fen, steps);
    if (refused) return "none";
    const InputError& error = refused.error();
    BOOST_CHECK(error.field == Field::step);
    return std::string{name(error.reason)} + ' ' + std::to_string(error.line) + ' ' + std::to_string(error.column);
}

bool has(const Findings& findings, Theme theme, Side side) {
    return std::ranges::any_of(findings, [&](const Finding& f) { return f.theme == theme && f.side == side; });
}

/// The material that a line wins for the side that makes its first move.
int balance_of(Position position, const Line& line) {
    const Side side = position.mover();
    const int before = balance(position, side, {});
    for (const Move move : line) {
        BOOST_REQUIRE(is_legal(position, move));
        position = after(position, move);
    }
    return balance(position, side, {}) - before;
}

/// A plan of random steps; fewer where none but checks are left.
std::vector<Move> random_plan(Position position, Side side, std::size_t longest, std::mt19937& random) {
    std::vector<Move> steps;
    while (steps.size() < longest) {
        const auto here = turn_of(position, side);
        if (!here) break;
        const MoveList moves = legal_moves(*here);
        if (moves.empty()) break;
        steps.push_back(moves[random() % moves.size()]);
        position = after(*here, steps.back());
    }
    return steps;
}

constexpr std::string_view quiet = "r1bq1rk1/pp2bppp/2n1pn2/8/3P4/2N2N2/PP2BPPP/R1BQ1RK1 w - - 0 10";

} // namespace

BOOST_AUTO_TEST_SUITE(plans)

BOOST_AUTO_TEST_CASE(steps_are_made_with_the_other_side_passing) {
    const PlanCheck plan = plan_in(quiet, {"Bf4", "h2h3", "Rc1"});
    BOOST_TEST(plan.tempi() == 3);
    BOOST_TEST(!plan.after_pass);
    BOOST_TEST(plan.is_safe());
    BOOST_TEST(fen(plan.end).starts_with("r1bq1rk1/pp2bppp/2n1pn2/8/3P1B2/2N2N1P/PP2BPP1/2RQ1RK1 b"));
    for (const PlanStep& step : plan.steps) BOOST_TEST((step.before.mover() == Side::white));
    BOOST_TEST(plan.compared);
    BOOST_TEST(has(plan.created, Theme::open_file, Side::white));
    const std::size_t column = feature_column("white_piece_scope");
    BOOST_REQUIRE(column < feature_count);
    BOOST_TEST(plan.before[column] < plan.after[column]);
}

BOOST_AUTO_TEST_CASE(the_waiter_plans_after_a_pass) {
    const Position position = read_fen(quiet).value();
    const Steps steps{"b6", "Bb7"};
    const PlanCheck plan = check_plan(position, Side::black, steps).value();
    BOOST_TEST(plan.after_pass);
    BOOST_TEST(plan.is_safe());
    BOOST_TEST(paragraph(plan).starts_with("Black plans b6 and Bb7: 2 moves, with White passing. Every stop is safe."));
    BOOST_TEST((plan.other_may_play));
}

BOOST_AUTO_TEST_CASE(stops_that_are_not_safe) {
    // A queen on a square that a pawn attacks falls there, whatever else is said.
    const PlanCheck queen = plan_in("6k1/5p2/6p1/8/8/8/8/3Q2K1 w - - 0 1", {"Qh5"});
    BOOST_CHECK(queen.steps[0].safety == StopSafety::falls);
    BOOST_TEST(queen.steps[0].taken.gain == 9);
    BOOST_TEST(paragraph(queen).find("The stop after Qh5 is not safe: captures on h5 cost material worth 9 pawns "
                                     "(1...gxh5).") != std::string::npos);
    // A rook that leaves its knight loses that.
    const PlanCheck guard = plan_in("3q2k1/5pp1/7p/8/3N4/8/5PPP/3R2K1 w - - 0 1", {"Ra1"});
    BOOST_CHECK(guard.steps[0].safety == StopSafety::loses);
    BOOST_TEST(guard.steps[0].kept.gain == -3);
    // To take something of the same worth is safe.
    BOOST_CHECK(plan_in("6k1/5p2/6p1/7q/8/8/8/3Q2K1 w - - 0 1", {"Qxh5"}).steps[0].safety == StopSafety::safe);
}

BOOST_AUTO_TEST_CASE(spoiled_by_force) {
    const PlanCheck plan = plan_in("3q2k1/5pp1/7p/8/3N4/8/5PPP/3R2K1 w - - 0 1", {"Ra1", "Ra8"});
    BOOST_TEST(plan.spoiled_at() == 0U);
    const Spoiler& spoiler = *plan.steps[0].spoiler;
    BOOST_CHECK(spoiler.how == Spoil::wins);
    BOOST_TEST(spoiler.gain == 3);
    BOOST_TEST(line_text(after(plan.start, plan.steps[0].move), spoiler.line) == "1...Qxd4");
    BOOST_TEST(paragraph(plan).find("After Ra1, Black wins material worth 3 pawns with 1...Qxd4.") !=
               std::string::npos);
}

BOOST_AUTO_TEST_CASE(spoiled_by_a_quiet_reply) {
    // The knight wants to go to d5 by c3; ...e6 makes that a mistake.
    const PlanCheck plan = plan_in("6k1/4pppp/8/8/8/8/1N3PPP/6K1 w - - 0 1", {"Nd1", "Nc3", "Nd5"});
    BOOST_TEST(plan.is_safe());
    BOOST_TEST(!plan.steps[0].spoiler);
    BOOST_REQUIRE(plan.steps[1].spoiler);
    BOOST_CHECK(plan.steps[1].spoiler->how == Spoil::punishes);
    BOOST_TEST(plan.steps[1].spoiler->gain == 3);
    BOOST_TEST(paragraph(plan).find("After Nc3, 2...e6 spoils it: then Nd5 would cost material worth 3 pawns "
                                    "(2...e6 3.Nd5 exd5).") != std::string::npos);
    BOOST_TEST(!plan.steps[2].spoiler);
}

BOOST_AUTO_TEST_CASE(spoiled_by_a_blockade_and_by_a_check) {
    const PlanCheck plan = plan_in("6k1/8/8/p2n4/P7/8/4P3/6K1 w - - 0 1", {"e3", "e4"});
    BOOST_REQUIRE(plan.steps[0].spoiler);
    BOOST_CHECK(plan.steps[0].spoiler->how == Spoil::wins); // Nxe3
    const PlanCheck stopped = plan_in("8/6k1/8/p7/P7/8/4P3/6K1 w - - 0 1", {"e4", "e5", "e6"});
    BOOST_REQUIRE(stopped.steps[0].spoiler);
    BOOST_CHECK(stopped.steps[0].spoiler->how == Spoil::punishes); // ...Kf6 and takes
    const PlanCheck checked = plan_in("4k3/8/8/8/7r/8/8/1K6 w - - 0 1", {"Kc2", "Kd3"});
    BOOST_REQUIRE(checked.steps[0].spoiler);
    BOOST_CHECK(checked.steps[0].spoiler->how == Spoil::prevents); // a rook on the third rank shuts the king off
    const PlanCheck delayed = plan_in("1r2k3/p7/P7/8/8/8/7P/K7 w - - 0 1", {"h3", "h4"});
    BOOST_TEST(!delayed.steps[1].spoiler);
}

BOOST_AUTO_TEST_CASE(a_reply_that_costs_something_spoils_nothing) {
    // ...Qh2+ would not leave time for e5, but it gives the queen away; nothing else stops the pawn.
    const PlanCheck plan = plan_in("k7/p7/7q/7p/P3P2P/8/6P1/6K1 w - - 0 1", {"g3", "Kf2"});
    for (const PlanStep& step : plan.steps)
        if (step.spoiler) BOOST_TEST((step.spoiler->line.front() != Move{Square::h6, Square::h2}));
}

BOOST_AUTO_TEST_CASE(mate_is_an_end) {
    const PlanCheck plan = plan_in("6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1", {"Kf1", "Ra8"});
    BOOST_TEST(plan.mates);
    BOOST_TEST(!plan.compared);
    BOOST_TEST(plan.created.empty());
    BOOST_TEST(!plan.steps[1].spoiler);
    BOOST_REQUIRE(plan.steps[0].spoiler); // luft: Ra8+ is legal still and loses nothing, but does not mate
    BOOST_CHECK(plan.steps[0].spoiler->how == Spoil::defuses);
    BOOST_TEST(plan.steps[0].spoiler->gain == 0);
    BOOST_TEST(paragraph(plan).find("It ends in mate.") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(what_the_other_side_could_do) {
    // Two free moves take rook and knight; one alone takes the rook.
    const std::string fen = "6k1/5pp1/7p/8/R2n4/8/5PPP/3N2K1 b - - 0 1";
    const PlanCheck one = plan_in(fen, {"h5"});
    BOOST_TEST(one.other.gain == 3);
    BOOST_TEST(one.other.moves.size() == 1U);
    const PlanCheck many = plan_in(fen, {"h5", "g6", "Kg7", "Kh7"});
    BOOST_TEST(many.other.looked_at == most_free_moves);
    BOOST_TEST(many.other.gain >= 3);
    // A mate comes before any gain.
    const PlanCheck mate = plan_in("6k1/5ppp/8/8/8/8/5PPP/R5K1 b - - 0 1", {"Kf8", "Ke7"});
    BOOST_TEST(mate.other.mate);
    BOOST_TEST(mate.other.moves.size() == 1U);
    BOOST_TEST(paragraph(mate).find("White could mate with Ra8#.") != std::string::npos);
    const PlanCheck nothing = plan_in("7k/8/8/8/8/8/8/K7 w - - 0 1", {"Kb1"});
    BOOST_TEST(nothing.other.moves.empty());
    BOOST_TEST(nothing.other.gain == 0);
}

BOOST_AUTO_TEST_CASE(a_plan_that_starts_in_check) {
    const PlanCheck plan = plan_in("4k3/8/8/8/8/8/r7/K6R w - - 0 1", {"Kxa2", "Kb3"});
    BOOST_TEST(!plan.compared);
    BOOST_TEST(!plan.other_may_play);
    BOOST_TEST(plan.won == 5);
    BOOST_TEST(refusal("4k3/8/8/8/8/8/r7/K6R w - - 0 1", {"Rh2"}) == "king_left_in_check 1 1");
    // The waiter can't plan: the mover stands in check.
    const Position position = read_fen("4k3/8/8/8/8/8/r7/K6R w - - 0 1").value();
    const auto waiter = check_plan(position, Side::black, Steps{"Kd7"});
    BOOST_REQUIRE(!waiter);
    BOOST_CHECK(waiter.error().reason == Reason::pass_in_check);
    BOOST_TEST(waiter.error().line == 1U);
}

BOOST_AUTO_TEST_CASE(castling_promotion_and_en_passant) {
    const PlanCheck castles = plan_in("4k3/8/8/8/8/8/5PPP/4K2R w K - 0 1", {"O-O", "Rd1"});
    BOOST_TEST(fen(castles.end).starts_with("4k3/8/8/8/8/8/5PPP/3R2K1"));
    BOOST_TEST(castles.is_safe());
    // After a step of the king the right is gone.
    BOOST_TEST(refusal("4k3/8/8/8/8/8/5PPP/4K2R w K - 0 1", {"Ke2", "Ke1", "O-O"}) == "illegal_move 3 1");
    const PlanCheck promotes = plan_in("8/1k6/4P3/8/8/8/8/K7 w - - 0 1", {"e7", "e8N", "Nd6"});
    BOOST_TEST(promotes.won == 2);
    BOOST_TEST(refusal("8/1k6/4P3/8/8/8/8/K7 w - - 0 1", {"e7", "e8"}).starts_with("missing_promotion 2"));
    // En passant is for the first step alone.
    const std::string fen = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1";
    BOOST_TEST(plan_in(fen, {"exd6"}).won == 1);
    BOOST_TEST(refusal(fen, {"Kd2", "exd6"}).starts_with("no_such_piece 2"));
    // The other pawn may answer a double step en passant.
    const PlanCheck taken = plan_in("4k3/8/8/8/3p4/8/4P3/4K3 w - - 0 1", {"e4"});
    BOOST_CHECK(taken.steps[0].safety == StopSafety::falls);
}

BOOST_AUTO_TEST_CASE(en_passant_lapses_for_the_other_side_too) {
    // Black may take en passant now; while White plans, that is over.
    const Position position = read_fen("4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1").value();
    const PlanCheck plan = check_plan(position, Side::white, Steps{"e5"}).value();
    BOOST_TEST(plan.other.gain == 0);
    BOOST_TEST(!paragraph(plan).empty());
}

BOOST_AUTO_TEST_CASE(chess960) {
    const PlanCheck plan = plan_in("5k2/8/8/8/8/8/5PPP/5KR1 w G - 0 1", {"O-O", "Rd1"});
    BOOST_TEST(fen(plan.end).starts_with("5k2/8/8/8/8/8/5PPP/3R2K1"));
    BOOST_CHECK(plan.steps[0].safety == StopSafety::safe);
    BOOST_TEST(plan.won == 0);
}

BOOST_AUTO_TEST_CASE(what_is_no_plan_is_refused_with_its_step) {
    const std::string fen{quiet};
    BOOST_TEST(refusal(fen, {}) == "empty_plan 1 1");
    BOOST_TEST(refusal(fen, Steps(9, "h3")) == "plan_too_long 9 1");
    BOOST_TEST(refusal(fen, {"Bf4", "Nd2", "what"}) == "not_a_move 3 1");
    BOOST_TEST(refusal(fen, {""}).starts_with("not_a_move 1"));
    BOOST_TEST(refusal(fen, {"--"}).starts_with("not_a_move 1"));
    BOOST_TEST(refusal(fen, {"Bf4", std::string_view{"N\0d2", 4}}).starts_with("not_a_move 2"));
    BOOST_TEST(refusal(fen, {"Bf4", "Bf4"}).starts_with("illegal_move 2"));
    BOOST_TEST(refusal(fen, {"Bf4", "e7e5"}).starts_with("no_such_piece 2"));
    BOOST_TEST(refusal("6k1/8/8/8/8/8/8/R4RK1 w - - 0 1", {"Kg2", "Rd1"}).starts_with("ambiguous_move 2"));
    BOOST_TEST(refusal("4r1k1/8/8/8/8/8/4N3/4K3 w - - 0 1", {"Kd1", "Ke1", "Nc3"}).starts_with("king_left_in_check 3"));
    // Who stands in check does not pass.
    BOOST_TEST(refusal("6k1/8/8/8/8/8/8/R5K1 w - - 0 1", {"Ra8+", "Ra1"}) == "pass_in_check 2 1");
    const auto refused = try_plan(fen, {"Bf4", "Rf8"});
    BOOST_TEST(std::string{refused.error().what()}.find("step 2") != std::string::npos);
    const std::array<Move, 2> moves{Move{Square::c1, Square::f4}, Move{Square::c1, Square::f4}};
    const auto illegal = check_plan(read_fen(fen).value(), Side::white, moves);
    BOOST_REQUIRE(!illegal);
    BOOST_CHECK(illegal.error().reason == Reason::illegal_move);
    BOOST_TEST(illegal.error().line == 2U);
    BOOST_TEST(illegal.error().token == "c1f4");
}

BOOST_AUTO_TEST_CASE(random_plans_keep_what_they_say) {
    std::mt19937 random{41};
    std::size_t spoiled = 0;
    std::size_t unsafe = 0;
    for (const Position& position : test::random_positions(120, 40)) {
        const Side side = random() % 2 == 0 ? Side::white : Side::black;
        const std::vector<Move> steps = random_plan(position, side, 1 + random() % longest_plan, random);
        if (steps.empty()) continue;
        const PlanCheck plan = check_plan(position, side, steps).value();
        BOOST_TEST(plan.steps.size() == steps.size());
        for (std::size_t at = 0; at < steps.size(); ++at) {
            const PlanStep& step = plan.steps[at];
            BOOST_REQUIRE(is_legal(step.before, step.move));
            unsafe += step.safety != StopSafety::safe ? 1 : 0;
            if (!step.spoiler) continue;
            ++spoiled;
            const Spoiler& spoiler = *step.spoiler;
            const Position stepped = after(step.before, step.move);
            const int won = balance_of(stepped, spoiler.line) - step.won;
            const Position replied = after(stepped, spoiler.line.front());
            switch (spoiler.how) {
            case Spoil::wins: BOOST_TEST(won == spoiler.gain); break;
            case Spoil::punishes:
            case Spoil::defuses:
                BOOST_TEST(won == spoiler.gain);
                BOOST_TEST((spoiler.line[1] == steps[at + 1]));
                break;
            default:
                BOOST_TEST(!is_legal(replied, steps[at + 1]));
                BOOST_TEST(in_check(replied) == (spoiler.how == Spoil::checks));
            }
            BOOST_TEST((spoiler.mate || spoiler.gain >= (spoiler.how <= Spoil::punishes ? 1 : 0)));
        }
        BOOST_TEST(!paragraph(plan).empty());
        BOOST_TEST(paragraph(plan).find('{') == std::string::npos);
        BOOST_TEST(paragraph(plan) == paragraph(check_plan(position, side, steps).value()));
    }
    BOOST_TEST(spoiled > 50U);
    BOOST_TEST(unsafe > 20U);
}

BOOST_AUTO_TEST_CASE(the_same_in_a_mirror) {
    std::mt19937 random{51};
    for (const Position& position : test::random_positions(60, 50)) {
        const std::vector<Move> steps = random_plan(position, position.mover(), 3, random);
        if (steps.empty()) continue;
        std::vector<Move> mirrored;
        for (const Move move : steps)
            mirrored.emplace_back(test::up_down(move.origin()), test::up_down(move.raw_target()), move.type());
        const PlanCheck one = check_plan(position, position.mover(), steps).value();
        const PlanCheck twin = check_plan(test::flipped(position), other(position.mover()), mirrored).value();
        BOOST_TEST(one.won == twin.won);
        BOOST_TEST(one.other.mate == twin.other.mate); // which of several mates is given depends on the order
        if (!one.other.mate) BOOST_TEST(one.other.gain == twin.other.gain);
        BOOST_TEST((test::mapped(one.gained, test::up_down) == twin.gained));
        for (std::size_t at = 0; at < steps.size(); ++at) {
            BOOST_CHECK(one.steps[at].safety == twin.steps[at].safety);
            BOOST_TEST(one.steps[at].spoiler.has_value() == twin.steps[at].spoiler.has_value());
            if (!one.steps[at].spoiler) continue;
            BOOST_CHECK(one.steps[at].spoiler->how == twin.steps[at].spoiler->how);
            if (!one.steps[at].spoiler->mate) BOOST_TEST(one.steps[at].spoiler->gain == twin.steps[at].spoiler->gain);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
