#include <keysquare/lesson/candidate_sentences.hpp>

#include <array>
#include <vector>

#include <keysquare/thinking/fact_weights.hpp>

#include "templates.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

/// No more reasons than this are said; what weighs less than `least_said` against a move is not.
constexpr std::size_t most_reasons_said = 3;
constexpr int least_said = 300;

/// A fact that is not said where another one says it better.
struct SaidBetter {
    MoveFact fact;
    MoveFact by;
};

constexpr std::array said_better{
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
    CandidateWriter(const Position& position, const Candidate& candidate, Language language)
        : position_(position), moved_(after(position, candidate.move)), candidate_(candidate), words_(language),
          rows_(*detail::candidate_words[static_cast<std::size_t>(language)]) {}

    [[nodiscard]] std::string write() const {
        const std::string name = words_.move(position_, candidate_.move);
        if (candidate_.won.mate) return name + " " + said_of(candidate_.reasons.front(), true) + ".";
        std::vector<std::string> words;
        for (const MoveReason& reason : candidate_.reasons)
            if (const std::string said = said_of(reason, true); words.size() < most_reasons_said && !said.empty())
                words.push_back(said);
        return name + " " + words_.listed(words) + drawback() + ".";
    }

  private:
    [[nodiscard]] std::string drawback() const {
        for (const MoveReason& reason : candidate_.drawbacks) {
            if (-weight_of(reason) < least_said) break;
            if (const std::string said = said_of(reason, false); !said.empty()) return std::string{rows_.but} + said;
        }
        return {};
    }

    [[nodiscard]] std::string said_of(const MoveReason& reason, bool good) const {
        if (is_said_better(reason.fact)) return {};
        const FactWords& row = rows_.facts.first[static_cast<std::size_t>(reason.fact)];
        const std::string_view pattern = good ? row.good : row.bad;
        return detail::filled(pattern, [&](std::string_view key) { return value_of(reason, key); });
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
        const detail::Placeholder asked{key};
        if (asked.name == "worth") return words_.worth(amount, key);
        if (asked.name == "amount") return words_.count(amount, asked);
        if (key == "saved")
            return reason.squares.has(position_.king(position_.mover())) ? std::string{rows_.saved_king}
                                                                         : words_.worth(amount, "worth");
        if (asked.name == "men") return words_.men(men_on(reason.squares), asked.form);
        if (key == "squares") return words_.squares(reason.squares);
        if (asked.name == "man") {
            const Square origin = candidate_.move.origin();
            return words_.man({origin, position_.piece_at(origin)}, asked.form);
        }
        if (key == "parried") return words_.move(turned(position_), candidate_.parried.line.front());
        if (key == "allowed") return allowed();
        if (key == "win") return words_.line(position_, candidate_.won.line);
        return words_.move(turned(moved_), candidate_.threat.line.front()); // {threat}
    }

    /// "White win a pawn (3.Bxh7+)".
    [[nodiscard]] std::string allowed() const {
        const Outcome& outcome = candidate_.allowed;
        return detail::filled(outcome.mate ? rows_.allowed_mate : rows_.allowed, [&](std::string_view key) {
            if (key == "Side") return words_.side(moved_.mover());
            return key == "line" ? words_.line(moved_, outcome.line) : words_.worth(outcome.gain, key);
        });
    }

    /// The men on the squares: as they stand after the move or, where none does, before it.
    [[nodiscard]] BoundedList<Placed, 8> men_on(Squares squares) const {
        BoundedList<Placed, 8> men;
        for (const Square square : squares) {
            if (men.size() == men.capacity()) break;
            const Piece now = moved_.piece_at(square);
            men.push_back({square, now ? now : position_.piece_at(square)});
        }
        return men;
    }

    const Position& position_;
    Position moved_;
    const Candidate& candidate_;
    detail::Words words_;
    const CandidateWords& rows_;
};

} // namespace

std::string sentence(const Position& position, const Candidate& candidate, Language language) {
    return CandidateWriter{position, candidate, language}.write();
}

} // namespace keysquare
