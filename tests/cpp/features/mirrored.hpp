// Positions for symmetry tests: random play, and the two mirrors of a position.
#pragma once

#include <random>
#include <vector>

#include <keysquare/board/legal.hpp>
#include <keysquare/board/validity.hpp>
#include <keysquare/notation/fen.hpp>

namespace keysquare::test {

/// Left and right exchanged (a1 <-> h1).
[[nodiscard]] constexpr Square left_right(Square square) noexcept {
    return square == Square::none ? square : square_at(index(square) ^ 7);
}
/// Ranks exchanged (a1 <-> a8).
[[nodiscard]] constexpr Square up_down(Square square) noexcept {
    return square == Square::none ? square : square_at(index(square) ^ 56);
}

template <class Map> [[nodiscard]] Squares mapped(Squares squares, Map map) {
    Squares result;
    for (const Square square : squares) result |= Squares{map(square)};
    return result;
}

/// The position without castling rights.
[[nodiscard]] inline Position without_rights(const Position& position) {
    PositionParts parts = position.parts();
    for (auto& rooks : parts.castling_rooks) rooks.fill(Square::none);
    return Position{parts};
}

/// Left-right mirror image. Precondition: no castling rights.
[[nodiscard]] inline Position mirrored(const Position& position) {
    PositionParts parts = position.parts();
    const auto before = parts.pieces;
    for (std::size_t at = 0; at < 64; ++at) parts.pieces[at ^ 7U] = before[at];
    parts.en_passant = left_right(parts.en_passant);
    return Position{parts};
}

/// The same position with the sides exchanged.
[[nodiscard]] inline Position flipped(const Position& position) {
    PositionParts parts = position.parts();
    const auto before = parts.pieces;
    for (std::size_t at = 0; at < 64; ++at) {
        Piece piece = before[at];
        if (piece) piece.side = other(piece.side);
        parts.pieces[at ^ 56U] = piece;
    }
    const auto rooks = parts.castling_rooks;
    for (const Side side : all_sides)
        for (const Wing wing : all_wings)
            parts.castling_rooks[index(other(side))][index(wing)] = up_down(rooks[index(side)][index(wing)]);
    parts.en_passant = up_down(parts.en_passant);
    parts.mover = other(parts.mover);
    return Position{parts};
}

/// `count` positions from random games of up to 120 plies, each at a random ply, without castling rights. The same seed
/// gives the same positions everywhere.
[[nodiscard]] inline std::vector<Position> random_positions(std::size_t count, unsigned seed) {
    std::mt19937 random{seed};
    std::vector<Position> positions;
    while (positions.size() < count) {
        Position position = start_position();
        for (auto plies = random() % 120; plies > 0; --plies) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            position = after(position, moves[random() % moves.size()]);
        }
        positions.push_back(without_rights(position));
    }
    return positions;
}

/// Takes a random rook of one side and a random minor piece of the other off positions from random games, and keeps
/// those that can be computed on and in which one side is then once or more the exchange up.
[[nodiscard]] inline std::vector<Position> random_exchange_positions(std::size_t count, unsigned seed) {
    std::mt19937 random{seed};
    std::vector<Position> positions;
    while (positions.size() < count)
        for (const Position& position : random_positions(count, static_cast<unsigned>(random()))) {
            const Side giver = random() % 2 == 0 ? Side::white : Side::black;
            const Squares rooks = position.men(giver, Kind::rook);
            const Squares minors =
                position.men(other(giver)) & (position.men(Kind::knight) | position.men(Kind::bishop));
            if (!rooks || !minors) continue;
            const auto any_of = [&](Squares squares) {
                auto at = squares.begin();
                for (auto skip = random() % static_cast<unsigned>(squares.count()); skip > 0; --skip) ++at;
                return *at;
            };
            const Square rook = any_of(rooks);
            const Square minor = any_of(minors);
            const Position changed = without(without(position, rook), minor);
            const auto more = [&](Kind kind) {
                return changed.men(other(giver), kind).count() - changed.men(giver, kind).count();
            };
            const bool exchange_up = more(Kind::rook) > 0 && more(Kind::queen) == 0 &&
                                     more(Kind::rook) + more(Kind::knight) + more(Kind::bishop) == 0;
            if (exchange_up && !fault_for_computing(changed) && positions.size() < count) positions.push_back(changed);
        }
    return positions;
}

} // namespace keysquare::test
