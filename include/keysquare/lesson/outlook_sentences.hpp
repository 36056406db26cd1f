// The English sentences about the outlook of both sides. They say nothing that the result does not hold.
#pragma once

#include <span>
#include <string>
#include <vector>

#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/thinking/exchange_outlook.hpp>

namespace keysquare {

/// No more kinds of useful moves than this are named, and no more moves of each.
inline constexpr std::size_t most_useful_kinds = 3;
inline constexpr std::size_t most_useful_of_a_kind = 3; ///< How many moves of a kind are named.

/// What one side can do, in a few sentences. `position` is the one that the outlook was asked for.
[[nodiscard]] std::string paragraph(const Position& position, const SideOutlook& side);

/// What both sides can do, the mover first, in a paragraph that can be read out.
[[nodiscard]] std::string paragraph(const Position& position, const Outlook& outlook);

/// What there is to show for the exchange, the guardian that left, and who has threats and useful moves.
[[nodiscard]] std::string paragraph(const Position& position, const ExchangeOutlook& exchange);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How a reason is said: of useful moves, in brackets behind them; and of a best square, after "where it". {worth}: the
/// amount in pawns; {count}: the amount; {s}: "s" unless that is 1; {squares}: the squares.
struct OutlookWords {
    MoveFact fact;
    std::string_view of_moves;
    std::string_view there;
};

/// In the order in which reasons are told: the searched ones, then as `yardsticks`.
inline constexpr std::array outlook_words{
    OutlookWords{MoveFact::mates, "mate", ""},
    OutlookWords{MoveFact::wins, "winning {worth}", ""},
    OutlookWords{MoveFact::meets_threat, "against a threat", ""},
    OutlookWords{MoveFact::threatens_mate, "threatening mate", ""},
    OutlookWords{MoveFact::threatens, "threatening {worth}", ""},
    OutlookWords{MoveFact::castles, "castling", ""},
    OutlookWords{MoveFact::outpost, "an outpost", "stands on an outpost"},
    OutlookWords{MoveFact::rook_on_seventh, "the seventh rank", "stands on the seventh rank"},
    OutlookWords{MoveFact::pushes_passer, "a passed pawn goes on", ""},
    OutlookWords{MoveFact::develops, "development", "is developed"},
    OutlookWords{MoveFact::rook_on_open_file, "an open file", "has an open file"},
    OutlookWords{MoveFact::rook_on_half_open_file, "a half-open file", "has a half-open file"},
    OutlookWords{MoveFact::stuck_pieces, "no longer shut in", "leaves fewer pieces shut in"},
    OutlookWords{MoveFact::rim_knights, "away from the rim", "is off the rim"},
    OutlookWords{MoveFact::king_to_centre, "the king towards the centre", "is nearer to the centre"},
    OutlookWords{MoveFact::blocks_passer, "stopping a passed pawn", "stops a passed pawn"},
    OutlookWords{MoveFact::uses_hole, "aiming at {squares}", "aims at the hole{s} on {squares}"},
    OutlookWords{MoveFact::pawn_lever, "a pawn lever", ""},
    OutlookWords{MoveFact::centre_pawns, "a pawn in the centre", ""},
    OutlookWords{MoveFact::their_king_squares, "less room for the other king", "takes {squares} from the other king"},
    OutlookWords{MoveFact::holes, "fewer holes", "leaves {count} hole{s} fewer"},
    OutlookWords{MoveFact::piece_scope, "more squares for the pieces", "gives the pieces {count} more square{s}"},
    OutlookWords{MoveFact::chained_pawns, "pawns that guard each other", ""},
    OutlookWords{MoveFact::squares_held_twice, "more squares attacked twice",
                 "helps to attack {count} more square{s} twice"},
};
static_assert(outlook_words.size() == yardstick_table.size() + 5);

namespace outlook_templates {
inline constexpr std::string_view no_turn = "{Side} has no turn, as {Other} stands in check.";
inline constexpr std::string_view mated = "{Side} is mated.";
inline constexpr std::string_view no_move = "{Side} {has} no legal move.";
inline constexpr std::string_view in_check = "{Side} stands in check and has {legal}.";
inline constexpr std::string_view only = "Only {move} keeps the material.";
inline constexpr std::string_view named = "{If}{Side} {has} {count}: {moves}.";
inline constexpr std::string_view among = "{If}{Side} {has} {count}, among them {moves}.";
inline constexpr std::string_view none_useful = "{If}{Side} {has} no useful move, only {safe}.";
inline constexpr std::string_view none_safe = "{If}{Side} {has} no move that is useful or safe.";
inline constexpr std::string_view no_plan = "No piece has a better square: {Side} can only wait.";
inline constexpr std::string_view best =
    "The best square for {man} is {square}, {moves} away{route}, where it {gains}.";
inline constexpr std::string_view equilibrium =
    "Neither side has a threat, and no piece a better square: whoever is to move can only wait.";

inline constexpr std::string_view guardian =
    "{Man} is gone: of the {colour} squares {Side} held {before} and holds {now} now, {Other} held {other_before} and "
    "holds {other_now}.";
inline constexpr std::string_view has_turn = "{Side} has {useful} and {threats}";
inline constexpr std::string_view has_no_turn = "{Side} has no turn while {Other} stands in check";
} // namespace outlook_templates

/// Writes about one side.
class OutlookWriter {
  public:
    OutlookWriter(const Position& position, const SideOutlook& side)
        : position_(position), side_(side), turn_(turn_of(position, side.side).value_or(position)) {}

    /// `equilibrium`: that there is no plan is said of both sides together.
    [[nodiscard]] std::string write(bool equilibrium) const {
        namespace templates = outlook_templates;
        if (!side_.exists) return fill(templates::no_turn);
        if (side_.legal == 0) return fill(side_.in_check ? templates::mated : templates::no_move);
        std::string text = side_.in_check ? fill(templates::in_check) : useful();
        if (side_.only_move) add(text, fill(templates::only));
        if (!side_.threats.empty()) add(text, sentence(position_, side_.threats.front()));
        if (side_.no_plan && !equilibrium) add(text, fill(templates::no_plan));
        if (const BestSquare* best = most_gaining()) add(text, said(*best));
        return text;
    }

  private:
    static void add(std::string& text, const std::string& sentence) { text += " " + sentence; }

    [[nodiscard]] std::string useful() const {
        namespace templates = outlook_templates;
        if (side_.useful.empty())
            return fill(side_.merely_safe.empty() ? templates::none_safe : templates::none_useful);
        std::size_t named = 0;
        std::vector<std::string> words;
        for (KindOfMove& kind : kinds()) {
            if (words.size() == most_useful_kinds) break;
            while (kind.moves.size() > most_useful_of_a_kind) kind.moves.pop_back();
            words.push_back(listed(kind.moves) + " (" + kind.reason + ")");
            named += kind.moves.size();
        }
        const bool all = named == side_.useful.size();
        return fill(all ? templates::named : templates::among, listed(words));
    }

    /// Useful moves with the same first reason.
    struct KindOfMove {
        std::string reason;
        std::vector<std::string> moves;
    };

    /// What is told first at the front.
    [[nodiscard]] std::vector<KindOfMove> kinds() const {
        std::vector<const UsefulMove*> moves;
        for (const UsefulMove& move : side_.useful) moves.push_back(&move);
        const auto place = [](const UsefulMove* move) { return place_of(move->reasons.front().fact); };
        sort_few(moves, [&](const UsefulMove* a, const UsefulMove* b) { return place(a) < place(b); });
        std::vector<KindOfMove> kinds;
        for (const UsefulMove* move : moves) {
            const MoveReason& reason = move->reasons.front();
            const std::string text = said(reason, outlook_words[place_of(reason.fact)].of_moves);
            const std::size_t at = detail::place_of(kinds, [&](const KindOfMove& kind) { return kind.reason == text; });
            if (at == kinds.size()) kinds.push_back({text, {}});
            kinds[at].moves.push_back(san(turn_, move->move));
        }
        return kinds;
    }

    [[nodiscard]] std::string fill(std::string_view pattern, const std::string& moves = {}) const {
        return filled(pattern, [&](std::string_view key) -> std::string {
            if (key == "Side") return side_name(side_.side);
            if (key == "Other") return side_name(other(side_.side));
            if (key == "If") return side_.after_pass ? "If " + side_name(other(side_.side)) + " passed, " : "";
            if (key == "has") return side_.after_pass ? "would have" : "has";
            if (key == "legal") return counted(side_.legal, "legal move");
            if (key == "safe") return counted(static_cast<int>(side_.merely_safe.size()), "safe move");
            if (key == "count") return counted(static_cast<int>(side_.useful.size()), "useful move");
            if (key == "move") return san(turn_, side_.only_move);
            return moves;
        });
    }

    /// How early a reason is told.
    [[nodiscard]] static std::size_t place_of(MoveFact fact) noexcept {
        return detail::place_of(outlook_words, [&](const OutlookWords& row) { return row.fact == fact; });
    }

    [[nodiscard]] static std::string said(const MoveReason& reason, std::string_view pattern) {
        return filled(pattern, [&](std::string_view key) -> std::string {
            if (key == "worth") return worth(reason.amount);
            if (key == "count") return reason.amount == 1 ? "one" : std::to_string(reason.amount);
            if (key == "s") return reason.amount == 1 ? "" : "s";
            return square_names(reason.squares);
        });
    }

    /// The best square with the most to be gained.
    [[nodiscard]] const BestSquare* most_gaining() const {
        const BestSquare* most = nullptr;
        for (const BestSquare& best : side_.best_squares)
            if (!most || gains_more(best.facts, most->facts)) most = &best;
        return most;
    }

    [[nodiscard]] static std::string said(const BestSquare& best) {
        std::vector<std::string> gains;
        for (const MoveReason& gain : best.gains)
            if (gains.size() < 2) gains.push_back(said(gain, outlook_words[place_of(gain.fact)].there));
        return filled(outlook_templates::best, [&](std::string_view key) -> std::string {
            if (key == "man") return piece_name(best.piece);
            if (key == "square") return std::string{name(best.square)};
            if (key == "moves") return best.route.size() == 1 ? "one move" : "two moves";
            if (key == "gains") return listed(gains);
            return best.route.size() == 1 ? "" : " by way of " + std::string{name(best.route.front().target())};
        });
    }

    const Position& position_;
    const SideOutlook& side_;
    Position turn_;
};

/// "White has 6 useful moves and no threat".
inline std::string moves_and_threats(const SideOutlook& side) {
    const auto& pattern = side.exists ? outlook_templates::has_turn : outlook_templates::has_no_turn;
    return filled(pattern, [&](std::string_view key) {
        if (key == "Side") return side_name(side.side);
        if (key == "Other") return side_name(other(side.side));
        if (key == "useful") return counted(static_cast<int>(side.useful.size()), "useful move");
        return counted(static_cast<int>(side.threats.size()), "threat");
    });
}

/// What changed on the squares of the piece that left.
inline std::string said_of_guardian(const GuardianGone& gone) {
    const Side side = gone.piece.piece.side;
    const auto held = [](const Grasp& grasp, Side of) { return std::to_string(grasp.held[index(of)].count()); };
    return filled(outlook_templates::guardian, [&](std::string_view key) -> std::string {
        if (key == "Man") return capitalised(piece_name(gone.piece));
        if (key == "colour") return gone.complex == Complex::light ? "light" : "dark";
        if (key == "Side") return side_name(side);
        if (key == "Other") return side_name(other(side));
        if (key == "before") return held(gone.before, side);
        if (key == "now") return held(gone.now, side);
        return held(key == "other_before" ? gone.before : gone.now, other(side));
    });
}

} // namespace detail

inline std::string paragraph(const Position& position, const SideOutlook& side) {
    return detail::OutlookWriter{position, side}.write(false);
}

inline std::string paragraph(const Position& position, const Outlook& outlook) {
    const auto written = [&](Side side) {
        return detail::OutlookWriter{position, outlook.of(side)}.write(outlook.equilibrium);
    };
    const std::string text = written(position.mover()) + " " + written(position.waiter());
    return outlook.equilibrium ? text + " " + std::string{detail::outlook_templates::equilibrium} : text;
}

inline std::string paragraph(const Position& position, const ExchangeOutlook& exchange) {
    Findings findings;
    find_exchange_imbalance(BoardView{position}, findings);
    std::string text = sentence(position, findings.front());
    if (exchange.ledger.guardian) text += " " + detail::said_of_guardian(*exchange.ledger.guardian);
    const Side giver = exchange.ledger.giver();
    return text + " " + detail::moves_and_threats(exchange.outlook.of(giver)) + "; " +
           detail::moves_and_threats(exchange.outlook.of(other(giver))) + ".";
}

} // namespace keysquare
