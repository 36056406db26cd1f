// steps: moves that a caller gives one after the other, read and refused in one way.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/error.hpp>

namespace keysquare::detail {

/// An error about the step with that number (from 1) of a plan or a line.
[[nodiscard]] inline InputError step_error(Reason reason, std::size_t step, std::string_view text,
                                           std::size_t column = 1) {
    return {reason, Field::step, column, text, step};
}

/// The legal move that a step means, given as text or as a move.
[[nodiscard]] inline Result<Move> step_in(const Position& position, std::string_view text, std::size_t step) {
    Result<Move> move = read_move(position, text);
    if (!move) return step_error(move.error().reason, step, move.error().token, move.error().column);
    if (!*move) return step_error(Reason::illegal_move, step, text); // the null move of some game files
    return move;
}

[[nodiscard]] inline Result<Move> step_in(const Position& position, Move move, std::size_t step) {
    if (move && is_legal(position, move)) return move;
    return step_error(Reason::illegal_move, step, coordinate(move));
}

[[nodiscard]] inline std::string text_of_step(std::string_view text) { return std::string{text}; }
[[nodiscard]] inline std::string text_of_step(Move move) { return coordinate(move); }

} // namespace keysquare::detail
