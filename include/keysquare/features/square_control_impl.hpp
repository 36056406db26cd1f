// Bodies of features/square_control.hpp, and the reader that answers for many squares of one position.
#pragma once

#include <algorithm>
#include <utility>

#include <keysquare/features/square_control.hpp>
#include <keysquare/tactics/exchange.hpp>

namespace keysquare {

namespace detail {

/// The men of both sides that may take part in captures on a square.
struct Reach {
    Squares direct;
    Squares support;

    [[nodiscard]] Squares all() const noexcept { return direct | support; }
};

/// Answers `denies` for many squares of one position, without playing the captures wherever that is safe.
class ControlReader {
  public:
    ControlReader(const Position& position, const Values& values) noexcept;

    [[nodiscard]] Reach reach(Square square) const noexcept;
    /// Same answer as the plain definition, and the same precondition.
    [[nodiscard]] bool denies(Side side, Square square, const Reach& reach) const noexcept;
    /// The side that holds the square; kings allowed.
    [[nodiscard]] std::optional<Side> holder(Square square, const Reach& reach) const noexcept;
    [[nodiscard]] std::optional<Side> holder(Square square) const noexcept { return holder(square, reach(square)); }

    [[nodiscard]] Kind cheapest(Squares men) const noexcept;
    /// Taking one of these men off the board changes whose king may be exposed by which capture.
    [[nodiscard]] Squares near_kings() const noexcept { return near_kings_; }
    [[nodiscard]] bool check() const noexcept { return check_; }
    /// The men without which the reach of the square would be another one.
    [[nodiscard]] Squares bearing_on(Square square, const Reach& reach) const noexcept;

  private:
    [[nodiscard]] Squares sliders_seen(Square square, Squares occupied) const noexcept;
    [[nodiscard]] bool plain_swap(Square square, const Reach& reach) const noexcept;
    [[nodiscard]] int swap(Side side, Squares men) const noexcept;

    /// A slider on a line with the other side's king, and the men between them.
    struct KingLine {
        Square slider;
        Squares path;
        Squares blockers;
    };

    const Position& position_;
    Values values_;
    std::array<Kind, 6> order_{Kind::pawn, Kind::knight, Kind::bishop, Kind::rook, Kind::queen, Kind::king};
    Squares diagonal_;
    Squares straight_;
    std::array<Squares, 2> pinned_;
    BoundedList<KingLine, 32> lines_;
    Squares near_kings_;
    bool check_ = false;
    bool usual_values_ = true;
};

inline ControlReader::ControlReader(const Position& position, const Values& values) noexcept
    : position_(position), values_(values), diagonal_(position.men(Kind::bishop) | position.men(Kind::queen)),
      straight_(position.men(Kind::rook) | position.men(Kind::queen)) {
    sort_few(order_.begin(), order_.end() - 1,
             [&](Kind a, Kind b) { return values_[a] != values_[b] ? values_[a] < values_[b] : a < b; });
    usual_values_ = values_[Kind::pawn] >= 0 && values_[Kind::pawn] < values_[Kind::knight] &&
                    all_of(promotion_kinds, [&](Kind kind) { return values_[kind] > values_[Kind::pawn]; });
    for (const Side side : all_sides) {
        const Square king = position.king(side);
        check_ = check_ || attackers_of(position, king, other(side));
        for (const Square slider : position.men(other(side)) & sliders_seen(king, {})) {
            const Squares path = squares_between(king, slider);
            const Squares blockers = path & position.occupied();
            lines_.push_back({slider, path, blockers});
            near_kings_ |= blockers.with(slider);
            if (blockers && !blockers.several()) pinned_[index(side)] |= blockers & position.men(side);
        }
    }
}

inline Squares ControlReader::sliders_seen(Square square, Squares occupied) const noexcept {
    return (bishop_attacks(square, occupied) & diagonal_) | (rook_attacks(square, occupied) & straight_);
}

inline Reach ControlReader::reach(Square square) const noexcept {
    const Squares pawns = position_.men(Kind::pawn);
    const Squares occupied = position_.occupied();
    Reach reach;
    reach.direct = (pawn_attacks(Side::black, square) & pawns & position_.men(Side::white)) |
                   (pawn_attacks(Side::white, square) & pawns & position_.men(Side::black)) |
                   (knight_attacks(square) & position_.men(Kind::knight)) |
                   (king_attacks(square) & position_.men(Kind::king)) | sliders_seen(square, occupied);
    if (!(sliders_seen(square, {}) & ~reach.direct)) return reach;
    for (Squares all = reach.direct;;) {
        const Squares joining = sliders_seen(square, occupied & ~all) & ~all;
        if (!joining) return reach;
        reach.support |= joining;
        all |= joining;
    }
}

inline Squares ControlReader::bearing_on(Square square, const Reach& reach) const noexcept {
    const Squares all = reach.all();
    if (!(sliders_seen(square, {}) & ~all)) return all;
    return all | (queen_attacks(square, position_.occupied() & ~all) & position_.occupied());
}

inline Kind ControlReader::cheapest(Squares men) const noexcept {
    for (const Kind kind : order_)
        if (men & position_.men(kind)) return kind;
    return Kind::none;
}

/// Whether captures on the square, in any order, are never limited by a king's safety (other than its own capture), and
/// whether each side may use its men from the cheapest to the dearest, no capture opening a line for the other side.
/// Precondition: no king is in check.
///
/// Then the cheapest man first is best for both (whoever takes with a dearer man and with the cheaper one later loses
/// no less by swapping the two), so one order answers the question.
inline bool ControlReader::plain_swap(Square square, const Reach& reach) const noexcept {
    const Squares all = reach.all();
    if (rank_of(square) % 7 == 0 && (all & position_.men(Kind::pawn))) return false; // promotions
    for (const KingLine& line : lines_)
        if (!(line.blockers & ~all) && !line.path.has(square) && line.slider != square) return false;
    for (const Square slider : reach.support) {
        const Piece last = position_.piece_at(slider);
        for (const Square before : squares_between(square, slider) & all) {
            const Piece first = position_.piece_at(before);
            if (first.side != last.side || first.kind == Kind::king || values_[first.kind] > values_[last.kind])
                return false;
        }
    }
    return true;
}

/// What `side` wins by taking a knight first, the given men taking in turn from the cheapest to the dearest.
inline int ControlReader::swap(Side side, Squares men) const noexcept {
    constexpr int beyond_price = 1'000'000; // a king that takes under attack
    std::array<std::array<int, 16>, 2> prices;
    std::array<int, 2> counts{};
    for (const Side one : all_sides)
        for (const Kind kind : order_)
            for (int left = (men & position_.men(one, kind)).count(); left > 0; --left)
                prices[index(one)][static_cast<std::size_t>(counts[index(one)]++)] =
                    kind == Kind::king ? beyond_price : values_[kind];
    const auto& own = prices[index(side)];
    const auto& others = prices[index(other(side))];
    // The captures take the knight, own[0], others[0], own[1], ... until the side whose turn it is has no man left.
    const int captures = (std::min)(2 * counts[index(side)], 2 * counts[index(other(side))] + 1);
    int won = 0;
    for (int at = captures - 1; at >= 0; --at) {
        const auto turn = static_cast<std::size_t>(at) / 2;
        const int taken = at == 0 ? values_[Kind::knight] : at % 2 == 1 ? own[turn] : others[turn - 1];
        won = (std::max)(0, taken - won);
    }
    return won;
}

inline bool ControlReader::denies(Side side, Square square, const Reach& reach) const noexcept {
    const Squares takers = reach.direct & position_.men(side);
    if (!takers) return false;
    if (check_ || !usual_values_) return keysquare::denies(position_, side, square, values_);
    Squares free = takers & ~pinned_[index(side)];
    const Squares tied_down = takers & pinned_[index(side)];
    for (const Square pinned : tied_down)
        if (line_through(position_.king(side), pinned).has(square)) free |= Squares{pinned};
    if (!free) return false;
    if (free & position_.men(Kind::pawn)) return true; // at worst the pawn is lost for the knight
    if (!(reach.all() & position_.men(other(side)))) return true;
    if (plain_swap(square, reach)) return swap(side, reach.all()) >= 1;
    return keysquare::denies(position_, side, square, values_);
}

inline std::optional<Side> ControlReader::holder(Square square, const Reach& reach) const noexcept {
    if (position_.kind_at(square) == Kind::king) return position_.piece_at(square).side;
    const bool white = denies(Side::white, square, reach);
    const bool black = denies(Side::black, square, reach);
    if (white == black) return std::nullopt;
    return white ? Side::white : Side::black;
}

} // namespace detail

inline bool denies(const Position& position, Side side, Square square, const Values& values) noexcept {
    PositionParts parts = position.parts();
    parts.pieces[static_cast<std::size_t>(square)] = {other(side), Kind::knight};
    parts.mover = side;
    parts.castling_rooks.fill({Square::none, Square::none});
    parts.en_passant = Square::none;
    return exchange_wins(Position{parts}, square, 1, values);
}

inline SquareControl square_control(const Position& position, const Options& options) noexcept {
    SquareControl control;
    const detail::ControlReader reader{position, options.values};
    for (const Square square : all_squares) {
        const detail::Reach reach = reader.reach(square);
        for (const Side side : all_sides) {
            const Squares attackers = reach.direct & position.men(side);
            Grip& grip = control.grips[index(side)][static_cast<std::size_t>(square)];
            grip.attackers = static_cast<std::uint8_t>(attackers.count());
            grip.support = static_cast<std::uint8_t>((reach.support & position.men(side)).count());
            grip.cheapest = reader.cheapest(attackers);
            grip.denies = position.kind_at(square) == Kind::king ? position.men(side).has(square)
                                                                 : reader.denies(side, square, reach);
            if (attackers) control.attacked[index(side)] |= Squares{square};
            if (grip.denies) control.denied[index(side)] |= Squares{square};
        }
    }
    for (const Side side : all_sides)
        control.held[index(side)] = control.denied[index(side)] & ~control.denied[index(other(side))];
    return control;
}

} // namespace keysquare
