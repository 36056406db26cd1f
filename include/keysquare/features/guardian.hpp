// The guardian of a colour complex: the minor piece that a side's squares of one colour stand or fall with.
#pragma once

#include <keysquare/features/colour_complex.hpp>

namespace keysquare {

/// What each side has of some squares, by side.
struct Grasp {
    std::array<Squares, 2> held{};     ///< squares that it holds (`SquareControl`)
    std::array<Squares, 2> attacked{}; ///< squares that it attacks at least once

    /// Whether all of it is equal.
    friend bool operator==(const Grasp&, const Grasp&) noexcept = default;
};

/// The squares that slip from the hands of `side`: held before and not after, or attacked before and not after.
[[nodiscard]] constexpr Squares slipped(const Grasp& before, const Grasp& after, Side side) noexcept {
    const std::size_t at = index(side);
    return (before.held[at] & ~after.held[at]) | (before.attacked[at] & ~after.attacked[at]);
}

/// What both sides have of the board, and what they would have with the men on `gone` off it: the two men of an
/// exchange, say, for the numbers before and after. Nothing when a king would then stand in check: of such a moment the
/// counts say nothing. Precondition: no king on `gone`. Cost: two square controls.
struct GraspChange {
    Grasp before; ///< as the board is
    Grasp after;  ///< with the men gone
};
/// See `GraspChange`.
[[nodiscard]] std::optional<GraspChange> grasp_without(const Position& position, Squares gone,
                                                       const Options& options = {}) noexcept;

/// The board without one piece. `after` equals what `grasp_without` says; where that says nothing, `asked` is false.
struct Absence {
    Placed piece;       ///< the piece that is taken away
    bool asked = false; ///< false where its king would stand in check without it
    Grasp after;        ///< what both sides would have; as `now` where it was not asked
    Squares lost;       ///< squares that slip from the hands of the piece's side
};

/// The absence of every knight, bishop, rook and queen on the board, in the order of their squares.
struct PieceAbsences {
    Grasp now;                       ///< as the board is
    BoundedList<Absence, 30> pieces; ///< one absence for each of them
};

/// Cost: `square_control` and about two microseconds a piece; only what the piece bears on is looked at again.
[[nodiscard]] PieceAbsences piece_absences(const Position& position, const Options& options = {}) noexcept;

/// The guardian of the squares of one colour in the half of `side`, with everything counted on those sixteen squares.
struct Guardian {
    Grasp now;       ///< what both sides have of the squares
    Absence absence; ///< of the piece with the largest drop
};

/// Without the guardian at least this many of the sixteen squares slip from the hands of its side ...
inline constexpr int least_guardian_loss = 3;
/// ... and at least this many more than without any other minor piece of the side.
inline constexpr int least_guardian_lead = 2;

/// The guardian, if there is one; none while a king is in check. Only where the pawns have left the colour
/// (`left_by_pawns`): elsewhere they guard it. Only minor pieces are compared: queens and rooks range over both
/// colours, and nobody gives one up for squares.
///
/// The thresholds, measured on 10,000 positions from games: in seven cases of eight no minor piece loses a side more
/// than two of the sixteen squares, so three stand out; one position in 40 has a guardian. Cost: some microseconds,
/// mostly far less, because the pawns answer first.
[[nodiscard]] std::optional<Guardian> guardian(const Position& position, Side side, Complex complex,
                                               const Options& options = {}) noexcept;

/// `Theme::guardian` with `Detail::light` or `Detail::dark` for the side whose guardian it is, when no king is in
/// check. No line; `removed` is the square of the guardian, `pieces` the guardian, `squares` those that slip away
/// without it, and `change` their number. held, held_without, attacked and attacked_without count the complex in the
/// side's half.
void find_guardian(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Looks at the wanted squares once, and again without single men, there only where the answer may differ.
class AbsenceReader {
  public:
    AbsenceReader(const Position& position, const Values& values, Squares wanted) noexcept
        : position_(position), values_(values), reader_(position, values), wanted_(wanted) {
        for (const Square square : wanted) {
            const Reach reach = reader_.reach(square);
            bearing_[static_cast<std::size_t>(square)] = reader_.bearing_on(square, reach);
            note(now_, position, reader_, square, reach);
        }
    }

    [[nodiscard]] const Grasp& now() const noexcept { return now_; }

    /// Precondition: no king stands on `square`.
    [[nodiscard]] Absence without(Square square) const noexcept {
        Absence absence;
        absence.piece = {square, position_.piece_at(square)};
        const Position left = keysquare::without(position_, square);
        const ControlReader reader{left, values_};
        if (reader.check()) return absence;
        absence.asked = true;
        Squares again = wanted_;
        if (!reader_.check() && !reader_.near_kings().has(square))
            for (const Square one : wanted_)
                if (!bearing_[static_cast<std::size_t>(one)].has(square)) again = again.without(one);
        for (const Side side : all_sides) {
            absence.after.held[index(side)] = now_.held[index(side)] & ~again;
            absence.after.attacked[index(side)] = now_.attacked[index(side)] & ~again;
        }
        for (const Square one : again) note(absence.after, left, reader, one, reader.reach(one));
        absence.lost = slipped(now_, absence.after, absence.piece.piece.side);
        return absence;
    }

  private:
    static void note(Grasp& grasp, const Position& position, const ControlReader& reader, Square square,
                     const Reach& reach) noexcept {
        if (const auto holder = reader.holder(square, reach)) grasp.held[index(*holder)] |= Squares{square};
        for (const Side side : all_sides)
            if (reach.direct & position.men(side)) grasp.attacked[index(side)] |= Squares{square};
    }

    const Position& position_;
    Values values_;
    ControlReader reader_;
    Squares wanted_;
    Grasp now_;
    std::array<Squares, 64> bearing_{};
};

} // namespace detail

inline std::optional<GraspChange> grasp_without(const Position& position, Squares gone,
                                                const Options& options) noexcept {
    Position left = position;
    for (const Square square : gone) left = without(left, square);
    if (in_check(left) || in_check(turned(left))) return std::nullopt;
    const auto grasp = [&](const Position& one) {
        const SquareControl control = square_control(one, options);
        return Grasp{control.held, control.attacked};
    };
    return GraspChange{grasp(position), grasp(left)};
}

inline PieceAbsences piece_absences(const Position& position, const Options& options) noexcept {
    const detail::AbsenceReader reader{position, options.values, all_squares};
    PieceAbsences absences{.now = reader.now(), .pieces = {}};
    for (const Square square : position.occupied() & ~(position.men(Kind::pawn) | position.men(Kind::king)))
        absences.pieces.push_back(reader.without(square));
    return absences;
}

inline std::optional<Guardian> guardian(const Position& position, Side side, Complex complex,
                                        const Options& options) noexcept {
    if (!left_by_pawns(position, side, complex, options.values)) return std::nullopt;
    const Squares minors = position.men(side) & (position.men(Kind::knight) | position.men(Kind::bishop));
    if (!minors) return std::nullopt;
    const detail::AbsenceReader reader{position, options.values, squares_of(complex) & half_of(side)};
    Guardian best{.now = reader.now(), .absence = {}};
    int next = 0;
    for (const Square square : minors) {
        const Absence absence = reader.without(square);
        const int lost = absence.lost.count();
        const int most = best.absence.lost.count();
        next = (std::max)(next, (std::min)(lost, most));
        if (lost > most) best.absence = absence;
    }
    const int most = best.absence.lost.count();
    if (most < least_guardian_loss || most - next < least_guardian_lead) return std::nullopt;
    return best;
}

inline void find_guardian(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    if (!view.turn(position.waiter()).exists) return;
    for (const Side side : all_sides)
        for (const Complex complex : all_complexes) {
            const auto found = guardian(position, side, complex, view.options());
            if (!found) continue;
            const std::size_t at = index(side);
            Finding& finding = findings.emplace_back();
            finding.theme = Theme::guardian;
            finding.detail = complex == Complex::light ? Detail::light : Detail::dark;
            finding.side = side;
            finding.removed = found->absence.piece.square;
            finding.squares = found->absence.lost;
            finding.pieces.push_back(found->absence.piece);
            finding.count(Measure::held, found->now.held[at].count());
            finding.count(Measure::held_without, found->absence.after.held[at].count());
            finding.count(Measure::attacked, found->now.attacked[at].count());
            finding.count(Measure::attacked_without, found->absence.after.attacked[at].count());
            finding.count(Measure::change, found->absence.lost.count());
        }
}

} // namespace keysquare
