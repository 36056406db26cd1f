#include <keysquare/thinking/outlook.hpp>

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include <keysquare/features/endgame.hpp>
#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/thinking/counted_facts.hpp>
#include <keysquare/thinking/move_studies.hpp>
#include <keysquare/thinking/stop.hpp>

#include "features/fact_counts.hpp"
#include "threat_parts.hpp"

namespace keysquare {

namespace {

constexpr std::array yardstick_table{
    Yardstick{MoveFact::castles, 1},
    Yardstick{MoveFact::outpost, 1},
    Yardstick{MoveFact::rook_on_seventh, 1},
    Yardstick{MoveFact::pushes_passer, 1},
    Yardstick{MoveFact::develops, 1},
    Yardstick{MoveFact::rook_on_open_file, 1},
    Yardstick{MoveFact::rook_on_half_open_file, 1},
    Yardstick{MoveFact::stuck_pieces, 1},
    Yardstick{MoveFact::rim_knights, 1},
    Yardstick{MoveFact::king_to_centre, 1},
    Yardstick{MoveFact::blocks_passer, 1},
    Yardstick{MoveFact::uses_hole, 1},
    Yardstick{MoveFact::pawn_lever, 1},
    Yardstick{MoveFact::centre_pawns, 1},
    Yardstick{MoveFact::their_king_squares, 1},
    Yardstick{MoveFact::holes, 2},
    Yardstick{MoveFact::piece_scope, 3},
    Yardstick{MoveFact::chained_pawns, 2},
    Yardstick{MoveFact::squares_held_twice, 3},
};

/// The reason with that fact, null when there is none.
const MoveReason* fact_among(const ReasonList& facts, MoveFact wanted) noexcept {
    for (const MoveReason& fact : facts)
        if (fact.fact == wanted) return &fact;
    return nullptr;
}

/// The amount of a fact, 0 where it does not matter.
int amount_that_matters(const ReasonList& facts, const Yardstick& yardstick) noexcept {
    const MoveReason* const fact = fact_among(facts, yardstick.fact);
    if (!fact) return 0;
    return fact->amount >= yardstick.least || fact->amount <= -yardstick.least ? fact->amount : 0;
}

/// Every counted fact that is not 0.
ReasonList facts_about(const MoveMade& made) noexcept {
    ReasonList facts;
    for (const CountedFact& counted : counted_facts())
        if (const MoveReason reason = counted.count(made); reason.amount != 0) facts.push_back(reason);
    return facts;
}

/// Finds the best square of each piece of the side to move, which is not in check.
class BestSquares {
  public:
    BestSquares(const Position& position, int baseline, const Options& options)
        : position_(position), options_(options), baseline_(baseline), facts_(position) {}

    /// No square when nothing that the piece can reach improves anything.
    [[nodiscard]] BestSquare best_of(Square from) {
        collect(from);
        detail::sort_few(goals_, [](const Goal& a, const Goal& b) { return gains_more(a.facts, b.facts); });
        BestSquare best{{from, position_.piece_at(from)}, Square::none, {}, {}, {}};
        for (auto goal = goals_.begin(); goal != goals_.end() && best.square == Square::none;) {
            auto equals_end = goal;
            while (equals_end != goals_.end() && !gains_more(goal->facts, equals_end->facts)) ++equals_end;
            take_nearest(goal, equals_end, best);
            goal = equals_end;
        }
        return best;
    }

  private:
    struct Stop {
        Move move;
        Position onward; ///< after the move and the other side's pass
        bool can_go_on = false;
        std::optional<bool> safe;
        std::optional<int> baseline;
    };
    struct Goal {
        Square square = Square::none;
        ReasonList facts;
    };
    using Goals = std::vector<Goal>;

    [[nodiscard]] static bool is_quiet_move_of(Square from, const Position& position, Move move) noexcept {
        return move.origin() == from && !move.castles() && captured_by(position, move) == Kind::none;
    }

    /// Every square that the piece could get to in one or two legal moves and where it would improve something.
    void collect(Square from) {
        stops_.clear();
        goals_.clear();
        Squares seen{from};
        for (const Move move : legal_moves(position_, ~position_.occupied())) {
            if (!is_quiet_move_of(from, position_, move)) continue;
            const Position moved = after(position_, move);
            const auto onward = passed(moved);
            stops_.push_back({move, onward.value_or(position_), onward.has_value(), {}, {}});
            seen |= Squares{move.target()};
            add_goal(from, move.target(), moved);
        }
        for (const Stop& stop : stops_) {
            if (!stop.can_go_on) continue;
            for (const Move move : legal_moves(stop.onward, ~(seen | stop.onward.occupied()))) {
                if (!is_quiet_move_of(stop.move.target(), stop.onward, move)) continue;
                seen |= Squares{move.target()};
                add_goal(from, move.target(), after(stop.onward, move));
            }
        }
    }

    void add_goal(Square from, Square to, const Position& moved) {
        const FeatureFacts there{moved};
        const Goal goal{to, facts_about({facts_, there, Move{from, to}})};
        if (improvement(goal.facts) > 0) goals_.push_back(goal);
    }

    /// The nearest of the goals that can be reached safely.
    void take_nearest(Goals::iterator from, Goals::iterator to, BestSquare& best) {
        const auto order = [this](const Goal& goal) {
            return rank_for(position_.mover(), goal.square) * 8 + file_of(goal.square);
        };
        detail::sort_few(from, to, [&](const Goal& a, const Goal& b) { return order(a) < order(b); });
        for (const bool direct : {true, false})
            for (auto goal = from; goal != to; ++goal) {
                best.route = direct ? direct_route(goal->square) : longer_route(goal->square);
                if (best.route.empty()) continue;
                best.square = goal->square;
                best.facts = goal->facts;
                best.gains = improvements(goal->facts);
                return;
            }
    }

    [[nodiscard]] Route direct_route(Square to) {
        for (Stop& stop : stops_)
            if (stop.move.target() == to && is_safe(stop)) return Route{stop.move};
        return {};
    }

    /// By the first stop, in the order of the squares.
    [[nodiscard]] Route longer_route(Square to) {
        Route found;
        for (Stop& stop : stops_) {
            if (!stop.can_go_on) continue;
            const bool earlier = found.empty() || stop.move.target() < found.front().target();
            if (!earlier) continue;
            for (const Move move : legal_moves(stop.onward, Squares{to}))
                if (move.origin() == stop.move.target() && !move.castles() && is_safe(stop) && is_safe_from(stop, move))
                    found = Route{stop.move, move};
        }
        return found;
    }

    [[nodiscard]] bool is_safe(Stop& stop) {
        if (!stop.safe) stop.safe = stop_safety(position_, stop.move, baseline_, options_) == StopSafety::safe;
        return *stop.safe;
    }
    [[nodiscard]] bool is_safe_from(Stop& stop, Move move) {
        if (!stop.baseline) stop.baseline = baseline_of(stop.onward, options_);
        return stop_safety(stop.onward, move, *stop.baseline, options_) == StopSafety::safe;
    }

    const Position& position_;
    const Options& options_;
    int baseline_;
    FeatureFacts facts_;
    BoundedList<Stop, 28> stops_; ///< a queen has no more moves
    Goals goals_;
};

/// The outlook of the side to move.
class SideLook {
  public:
    SideLook(const Position& position, bool after_pass, const Options& options)
        : position_(position), options_(options), studies_(position, options) {
        found_.side = position.mover();
        found_.exists = true;
        found_.after_pass = after_pass;
        found_.in_check = keysquare::in_check(position);
        found_.legal = static_cast<int>(studies_.moves().size());
    }

    [[nodiscard]] SideOutlook run() {
        for (std::size_t at = 0; at < studies_.moves().size(); ++at) look_at(at);
        detail::leave_different_ones(found_.threats);
        found_.only_move = only_move(studies_.judged());
        if (!found_.in_check) add_best_squares();
        found_.no_plan = found_.legal > 0 && !found_.in_check && found_.useful.empty() && found_.best_squares.empty();
        return std::move(found_);
    }

  private:
    void look_at(std::size_t at) {
        const MoveStudy study = studies_.study(at);
        const bool wins = !study.won.line.empty();
        const bool safe = studies_.judged().is_safe(at);
        if (wins) detail::insert_in_order(detail::threat_in(position_, found_.after_pass, study.won), found_.threats);
        if (!wins && !safe) return;
        if (const ReasonList reasons = reasons_for(study); !reasons.empty())
            found_.useful.push_back({study.move, study.won, study.threat, reasons});
        else
            found_.merely_safe.push_back(study.move);
    }

    /// Why a safe or winning move is useful; nothing when it is not.
    [[nodiscard]] ReasonList reasons_for(const MoveStudy& study) const {
        using enum MoveFact;
        ReasonList reasons;
        for (const MoveReason& fact : study.facts)
            if (fact.fact == mates || fact.fact == wins || fact.fact == meets_threat) reasons.push_back(fact);
        const bool is_trade = study.won.line.empty() && detail::takes(position_, study.move);
        if (is_trade || (reasons.empty() && improvement(study.facts) < 0)) return reasons;
        for (const MoveReason& fact : study.facts)
            if (fact.fact == threatens_mate || fact.fact == threatens) reasons.push_back(fact);
        for (const MoveReason& gained : improvements(study.facts)) reasons.push_back(gained);
        return reasons;
    }

    void add_best_squares() {
        BestSquares finder{position_, studies_.judged().baseline(), options_};
        Squares pieces = detail::pieces_but_king(position_, position_.mover());
        if (is_endgame(position_)) pieces = pieces.with(position_.king(position_.mover()));
        for (const Square piece : pieces)
            if (const BestSquare best = finder.best_of(piece); best.square != Square::none)
                found_.best_squares.push_back(best);
    }

    const Position& position_;
    const Options& options_;
    MoveStudies studies_;
    SideOutlook found_;
};

} // namespace

std::span<const Yardstick> yardsticks() noexcept { return yardstick_table; }

int improvement(const ReasonList& facts) noexcept {
    for (const Yardstick& yardstick : yardsticks())
        if (const int amount = amount_that_matters(facts, yardstick); amount != 0) return amount;
    return 0;
}

ReasonList improvements(const ReasonList& facts) noexcept {
    ReasonList better;
    for (const Yardstick& yardstick : yardsticks())
        if (amount_that_matters(facts, yardstick) > 0) better.push_back(*fact_among(facts, yardstick.fact));
    return better;
}

bool gains_more(const ReasonList& a, const ReasonList& b) noexcept {
    for (const Yardstick& yardstick : yardsticks()) {
        const int more = amount_that_matters(a, yardstick) - amount_that_matters(b, yardstick);
        if (more != 0) return more > 0;
    }
    return false;
}

Outlook outlook(const Position& position, const Options& options) {
    Outlook both;
    for (const Side side : all_sides) {
        SideOutlook& one = both.sides[index(side)];
        one.side = side;
        one.after_pass = position.mover() != side;
        if (const auto turn = turn_of(position, side)) one = SideLook{*turn, one.after_pass, options}.run();
    }
    both.equilibrium = both.sides[0].no_plan && both.sides[1].no_plan;
    return both;
}

} // namespace keysquare
