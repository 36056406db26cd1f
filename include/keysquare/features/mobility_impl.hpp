// Bodies of features/mobility.hpp.
#pragma once

#include <keysquare/features/mobility.hpp>

namespace keysquare {

inline std::string_view name(SquareVerdict verdict) noexcept {
    constexpr std::string_view names[] = {
        "open", "neglects",      "own_man",           "pinned",   "unanswered_check", "held_by_pawn", "held_by_minor",
        "held", "gives_up_duty", "denied_by_tactics", "undecided"};
    return names[static_cast<std::size_t>(verdict)];
}

namespace detail {

/// Works out the destinations of one piece.
class MobilitySurvey {
  public:
    MobilitySurvey(const BoardView& view, Square from)
        : view_(view), options_(view.options()), from_(from), piece_(view.position().piece_at(from)),
          duties_(view.duties(piece_.side)), position_(view.turn(piece_.side).position),
          judged_(view.judged(piece_.side)) {}

    void run(Mobility& mobility) const {
        std::array<std::size_t, 64> move_to{};
        Squares legal;
        for (std::size_t at = 0; at < judged_.moves().size(); ++at) {
            const Move move = judged_.moves()[at];
            if (move.origin() != from_ || (move.promotes() && move.promotion() != Kind::queen)) continue;
            // In Chess960 castling and a king's step may arrive on one square: the step is shown.
            if (legal.has(move.target()) && move.castles()) continue;
            legal |= Squares{move.target()};
            move_to[static_cast<std::size_t>(move.target())] = at;
        }
        const bool checked = in_check(position_);
        const bool pinned = view_.pinned(piece_.side).has(from_);
        for (const Square to : reach() | legal) {
            if (mobility.destinations.size() == mobility.destinations.capacity()) break;
            Destination& destination = mobility.destinations.emplace_back();
            destination.square = to;
            if (legal.has(to))
                judge(move_to[static_cast<std::size_t>(to)], destination);
            else if (position_.men(piece_.side).has(to))
                destination.verdict = SquareVerdict::own_man;
            else if (piece_.kind == Kind::king)
                destination.verdict = held_by(attackers_without_king(to));
            else
                destination.verdict = checked && !pinned ? SquareVerdict::unanswered_check : SquareVerdict::pinned;
        }
    }

  private:
    /// Where the piece could go if only the men on the board stood in its way.
    [[nodiscard]] Squares reach() const noexcept {
        if (piece_.kind != Kind::pawn) return attacks_of(piece_, from_, position_.occupied());
        const int advance = advance_of(piece_.side);
        const Squares empty = ~position_.occupied();
        const Squares step = Squares{from_}.moved(advance) & empty;
        const Squares leap = rank_for(piece_.side, from_) == 1 ? step.moved(advance) & empty : Squares{};
        return step | leap | (pawn_attacks(piece_.side, from_) & position_.men(other(piece_.side)));
    }

    [[nodiscard]] Squares attackers_without_king(Square to) const noexcept {
        return attackers_of(position_, to, other(piece_.side), position_.occupied().without(from_));
    }

    /// The verdict for a square that these men of the other side hold.
    [[nodiscard]] SquareVerdict held_by(Squares takers) const noexcept {
        if (takers & position_.men(Kind::pawn)) return SquareVerdict::held_by_pawn;
        if (takers & (position_.men(Kind::knight) | position_.men(Kind::bishop))) return SquareVerdict::held_by_minor;
        return SquareVerdict::held;
    }

    void judge(std::size_t at, Destination& destination) const {
        const Move move = judged_.moves()[at];
        const Position arrived = after(position_, move);
        const int won = immediate_gain(position_, move, options_.values);
        if (!move.castles() && exchange_wins(arrived, move.target(), won + options_.least_gain, options_.values)) {
            const Outcome taken = exchange(arrived, move.target(), options_.values);
            destination.verdict = held_by(Squares{taken.line.front().origin()});
            destination.outcome = preceded_by(move, won, Outcome{-taken.gain, false, false, true, taken.line});
        } else if (judged_.loses(at)) {
            destination.outcome = judged_.value(at);
            destination.verdict = destination.outcome.complete ? reason_of_loss(move, arrived, won, destination)
                                                               : SquareVerdict::undecided;
        } else if (judged_.is_safe(at)) {
            if (!view_.turn(piece_.side).after_pass) find_quiet_refutation(move, arrived, won, destination);
        } else {
            destination.verdict = judged_.neglects(at) ? SquareVerdict::neglects : SquareVerdict::undecided;
        }
    }

    /// A duty when a reply that wins enough arrives on something that the piece held and holds no longer.
    [[nodiscard]] SquareVerdict reason_of_loss(Move move, const Position& arrived, int won,
                                               Destination& destination) const {
        const int too_much = won - judged_.baseline() + 1;
        Bound rest = options_.bound; // the reply is the first ply of the search that judged the move
        --rest.plies;
        --rest.check_plies;
        for (const Move reply : legal_moves(arrived)) {
            const Square falls = reply.target();
            if (!held_before(falls) || guards(arrived, move.target(), falls)) continue;
            if (!move_keeps(arrived, reply, too_much, rest, options_.values).holds) continue;
            destination.duty = falls;
            return SquareVerdict::gives_up_duty;
        }
        return SquareVerdict::denied_by_tactics;
    }

    [[nodiscard]] bool held_before(Square square) const noexcept {
        return detail::any_of(duties_,
                              [&](const Duty& duty) { return duty.guard == from_ && duty.target == square; }) ||
               (position_.men(piece_.side).has(square) && guards(position_, from_, square));
    }
    [[nodiscard]] bool guards(const Position& position, Square guard, Square square) const noexcept {
        return attackers_of(position, square, piece_.side).has(guard);
    }

    void find_quiet_refutation(Move move, const Position& arrived, int won, Destination& destination) const {
        const int ceiling = judged_.baseline() - won - options_.least_gain;
        const Outcome refuted =
            quiet_refutation(arrived, move.target(), ceiling, options_.least_gain, options_.bound, options_.values);
        if (refuted.line.empty()) return;
        destination.verdict = SquareVerdict::denied_by_tactics;
        destination.outcome = preceded_by(move, won, refuted);
    }

    const BoardView& view_;
    const Options& options_;
    Square from_;
    Piece piece_;
    const Duties& duties_;
    const Position& position_;
    const JudgedMoves& judged_;
};

} // namespace detail

inline Mobility mobility(const BoardView& view, Square square) {
    Mobility mobility;
    mobility.piece = {square, view.position().piece_at(square)};
    if (!mobility.piece.piece || !view.turn(mobility.piece.piece.side).exists) return mobility;
    mobility.known = true;
    detail::MobilitySurvey{view, square}.run(mobility);
    return mobility;
}

inline Mobility mobility(const Position& position, Square square, const Options& options) {
    return mobility(BoardView{position, options}, square);
}

inline void find_denied_square(const BoardView& view, const Mobility& mobility, Findings& findings) {
    const Piece piece = mobility.piece.piece;
    if (!mobility.known || piece.kind == Kind::pawn || piece.kind == Kind::king) return;
    for (const Destination& to : mobility.destinations) {
        if (to.verdict != SquareVerdict::denied_by_tactics) continue;
        Finding& finding = findings.emplace_back();
        finding.theme = Theme::denied_square;
        detail::set_warning(view, piece.side, to.outcome, finding);
        finding.pieces.push_back(mobility.piece);
        finding.squares = Squares{to.square};
    }
}

} // namespace keysquare
