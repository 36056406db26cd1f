// The English sentences for candidates: the reasons for a move in words. They say nothing that its facts do not hold.
#pragma once

#include <string>
#include <vector>

#include <keysquare/lesson/explain.hpp>
#include <keysquare/thinking/candidates.hpp>

namespace keysquare {

/// The reasons for one candidate, the weightiest first, and what speaks most against it. `position` is the one before
/// the move.
[[nodiscard]] std::string sentence(const Position& position, const Candidate& candidate);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// How a fact is said, after the name of the move. Empty: it only helps to order moves. {worth}: the amount in pawns;
/// {amount}: "2 squares"; {more}: "2 more squares"; {men}: the men on its squares; {squares}: the squares; {holes}:
/// "the hole on d3"; {man}: the kind of man that moves; {win}: the line that wins; {threat}: the move that is
/// threatened; {parried}: the move that was; {allowed}: what the other side then wins, and how.
struct FactWords {
    MoveFact fact;
    std::string_view good; ///< what speaks for the move
    std::string_view bad;  ///< what speaks against it: less of it, or more of a drawback
};

inline constexpr std::array fact_words{
    FactWords{MoveFact::mates, "mates ({win})", ""},
    FactWords{MoveFact::wins, "wins {worth} ({win})", ""},
    FactWords{MoveFact::meets_threat, "saves {saved}", ""},
    FactWords{MoveFact::costs, "", "keeps {worth} less than the best move"},
    FactWords{MoveFact::threatens_mate, "threatens mate with {threat}", ""},
    FactWords{MoveFact::threatens, "threatens {threat}", ""},
    FactWords{MoveFact::trades, "trades on {squares}", ""},
    FactWords{MoveFact::parries, "parries {parried}", ""},
    FactWords{MoveFact::allows, "", "lets {allowed}"},
    FactWords{MoveFact::checks, "gives check", ""},
    FactWords{MoveFact::castles, "castles", ""},
    FactWords{MoveFact::develops, "develops a piece", ""},
    FactWords{MoveFact::moves_attacked_queen, "takes the queen out of attack", ""},
    FactWords{MoveFact::moves_attacked_piece, "moves the attacked {man}", ""},
    FactWords{MoveFact::attacks_pieces, "attacks {men}", ""},
    FactWords{MoveFact::attacks_pawns, "attacks {men}", ""},
    FactWords{MoveFact::advances_pawn, "", ""},
    FactWords{MoveFact::pawn_under_attack, "", ""},
    FactWords{MoveFact::pawn_lever, "brings a lever against {men}", ""},
    FactWords{MoveFact::pushes_passer, "pushes a passed pawn", ""},
    FactWords{MoveFact::loosens_own_king, "", "loosens the pawns before its king"},
    FactWords{MoveFact::nearer_centre, "brings the {man} nearer to the centre", ""},
    FactWords{MoveFact::king_to_centre, "brings the king into play", ""},
    FactWords{MoveFact::chained_pawns, "makes pawns guard each other", "breaks up a chain of pawns"},
    FactWords{MoveFact::piece_scope, "gives the pieces {more}", "takes {amount} from its own pieces"},
    FactWords{MoveFact::rook_scope, "", ""},
    FactWords{MoveFact::outnumbered_men, "leaves fewer men attacked more often than guarded",
              "leaves {men} attacked more often than guarded"},
    FactWords{MoveFact::rook_on_open_file, "puts a rook on an open file", "leaves the open file"},
    FactWords{MoveFact::rook_on_half_open_file, "puts a rook on a half-open file", ""},
    FactWords{MoveFact::loose_men, "leaves fewer men loose", "leaves {men} loose"},
    FactWords{MoveFact::own_king_squares, "gives its king {more}", ""},
    FactWords{MoveFact::their_king_squares, "takes {squares} from the other king", ""},
    FactWords{MoveFact::levers_at_hand, "prepares a pawn lever on {squares}", ""},
    FactWords{MoveFact::stuck_pieces, "frees a piece that had no square", "shuts in {men}"},
    FactWords{MoveFact::men_in_other_half, "goes into the other half of the board", ""},
    FactWords{MoveFact::rook_on_seventh, "brings a rook to the seventh rank", "leaves the seventh rank"},
    FactWords{MoveFact::attacked_men, "leaves fewer men attacked", ""},
    FactWords{MoveFact::outpost, "takes the outpost on {squares}", "gives up the outpost on {squares}"},
    FactWords{MoveFact::frees_pawns, "clears the way for a pawn", ""},
    FactWords{MoveFact::battery, "lines up two pieces", ""},
    FactWords{MoveFact::rim_knights, "brings the knight back from the rim", "puts the knight on the rim"},
    FactWords{MoveFact::takes_bishop, "takes a bishop", ""},
    FactWords{MoveFact::holes, "closes {holes}", "leaves {holes} behind"},
    FactWords{MoveFact::squares_held_twice, "attacks {more} twice", ""},
    FactWords{MoveFact::doubled_pawns, "undoubles pawns", "doubles pawns"},
    FactWords{MoveFact::pins, "pins {men}", ""},
    FactWords{MoveFact::centre_pawns, "puts a pawn into the centre", "takes a pawn away from the centre"},
    FactWords{MoveFact::uses_hole, "aims at {holes}", ""},
    FactWords{MoveFact::fewer_checks, "leaves the other side fewer checks", "lets the other side give more checks"},
    FactWords{MoveFact::uses_king, "uses the king", ""},
    FactWords{MoveFact::blocks_passer, "blocks {men}", "lets a passed pawn go"},
};
static_assert(fact_words.size() == static_cast<std::size_t>(MoveFact::end_));
static_assert(is_in_order_of_facts(fact_words));

/// No more reasons than this are said; what weighs less than `least_said` against a move is not.
inline constexpr std::size_t most_reasons_said = 3;
inline constexpr int least_said = 300;

/// A fact that is not said where another one says it better.
struct SaidBetter {
    MoveFact fact;
    MoveFact by;
};

inline constexpr std::array said_better{
    SaidBetter{MoveFact::threatens, MoveFact::trades},
    SaidBetter{MoveFact::men_in_other_half, MoveFact::trades},
    SaidBetter{MoveFact::fewer_checks, MoveFact::checks},
    SaidBetter{MoveFact::attacks_pawns, MoveFact::pawn_lever},
    SaidBetter{MoveFact::nearer_centre, MoveFact::king_to_centre},
    SaidBetter{MoveFact::meets_threat, MoveFact::parries},
    SaidBetter{MoveFact::uses_king, MoveFact::king_to_centre},
    SaidBetter{MoveFact::nearer_centre, MoveFact::uses_king},
    SaidBetter{MoveFact::nearer_centre, MoveFact::centre_pawns},
    SaidBetter{MoveFact::men_in_other_half, MoveFact::outpost},
    SaidBetter{MoveFact::men_in_other_half, MoveFact::rook_on_seventh},
    SaidBetter{MoveFact::outnumbered_men, MoveFact::trades},
    SaidBetter{MoveFact::moves_attacked_piece, MoveFact::moves_attacked_queen},
    SaidBetter{MoveFact::moves_attacked_piece, MoveFact::trades},
};

/// Says the reasons for one candidate.
class CandidateWriter {
  public:
    CandidateWriter(const Position& position, const Candidate& candidate)
        : position_(position), moved_(after(position, candidate.move)), candidate_(candidate) {}

    [[nodiscard]] std::string write() const {
        const std::string name = san(position_, candidate_.move);
        if (candidate_.won.mate) return name + " " + said_of(candidate_.reasons.front(), true) + ".";
        std::vector<std::string> words;
        for (const MoveReason& reason : candidate_.reasons)
            if (const std::string said = said_of(reason, true); words.size() < most_reasons_said && !said.empty())
                words.push_back(said);
        return name + " " + listed(words) + drawback() + ".";
    }

  private:
    [[nodiscard]] std::string drawback() const {
        for (const MoveReason& reason : candidate_.drawbacks) {
            if (-weight_of(reason) < least_said) break;
            if (const std::string said = said_of(reason, false); !said.empty()) return ", but " + said;
        }
        return {};
    }

    [[nodiscard]] std::string said_of(const MoveReason& reason, bool good) const {
        if (is_said_better(reason.fact)) return {};
        const FactWords& row = fact_words[static_cast<std::size_t>(reason.fact)];
        const std::string_view pattern = good ? row.good : row.bad;
        return filled(pattern, [&](std::string_view key) { return value_of(reason, key); });
    }

    [[nodiscard]] bool is_said_better(MoveFact fact) const noexcept {
        return detail::any_of(candidate_.facts, [fact](const MoveReason& present) {
            return present.amount > 0 && detail::any_of(said_better, [&](const SaidBetter& row) {
                       return row.fact == fact && row.by == present.fact;
                   });
        });
    }

    [[nodiscard]] std::string value_of(const MoveReason& reason, std::string_view key) const {
        const int amount = reason.amount < 0 ? -reason.amount : reason.amount;
        if (key == "worth") return worth(amount);
        if (key == "amount") return counted(amount, "square");
        if (key == "more") return counted(amount, "more square");
        if (key == "holes") return (amount == 1 ? "the hole on " : "the holes on ") + square_names(reason.squares);
        if (key == "saved")
            return reason.squares.has(position_.king(position_.mover())) ? "the king from mate" : worth(amount);
        if (key == "men") return men_on(reason.squares);
        if (key == "squares") return square_names(reason.squares);
        if (key == "man") return std::string{name(position_.kind_at(candidate_.move.origin()))};
        if (key == "parried") return san(turned(position_), candidate_.parried.line.front());
        if (key == "allowed") return allowed();
        if (key == "win") return line_text(position_, candidate_.won.line);
        return san(turned(moved_), candidate_.threat.line.front()); // {threat}
    }

    /// "White win a pawn (3.Bxh7+)".
    [[nodiscard]] std::string allowed() const {
        const Outcome& outcome = candidate_.allowed;
        return side_name(moved_.mover()) + (outcome.mate ? " mate (" : " win " + worth(outcome.gain) + " (") +
               line_text(moved_, outcome.line) + ")";
    }

    /// The men on the squares: as they stand after the move or, where none does, before it.
    [[nodiscard]] std::string men_on(Squares squares) const {
        BoundedList<Placed, 8> men;
        for (const Square square : squares) {
            if (men.size() == men.capacity()) break;
            const Piece now = moved_.piece_at(square);
            men.push_back({square, now ? now : position_.piece_at(square)});
        }
        return piece_names(men);
    }

    const Position& position_;
    Position moved_;
    const Candidate& candidate_;
};

} // namespace detail

inline std::string sentence(const Position& position, const Candidate& candidate) {
    return detail::CandidateWriter{position, candidate}.write();
}

} // namespace keysquare
