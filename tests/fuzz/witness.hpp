// What holds for every statement with a line, by the board alone: it is legal, it wins what it says, it mates when it says.
#pragma once

#include <keysquare/keysquare.hpp>

#include <array>
#include <utility>

#include "require.hpp"

namespace keysquare::fuzz {

/// Plays the moves; each must be legal.
template <class Moves> Position played(Position position, const Moves& moves, const std::string& what) {
    for (const Move move : moves) {
        require(is_legal(position, move), what + ": " + coordinate(move) + " is not legal in " + fen(position));
        position = after(position, move);
    }
    return position;
}

/// Pawn 1, knight 3, bishop 3, rook 5, queen 9: common practice, no source.
inline int material(const Position& position, Side side) {
    constexpr std::array<std::pair<Kind, int>, 5> values{
        {{Kind::pawn, 1}, {Kind::knight, 3}, {Kind::bishop, 3}, {Kind::rook, 5}, {Kind::queen, 9}}};
    int sum = 0;
    for (const auto& [kind, value] : values)
        sum += value * ((position.men(side) & position.men(kind)).count() -
                        (position.men(other(side)) & position.men(kind)).count());
    return sum;
}

/// A line from `start`, where `side` is to move, that wins `gain` for it and ends as the flags say.
inline void require_line(const Position& start, Side side, const Line& line, int gain, bool mate, bool mated,
                         const std::string& what) {
    if (line.empty()) return require(!mate && !mated, what + ": a mate without a line");
    require(start.mover() == side, what + ": the line starts with the other side");
    const Position end = played(start, line, what);
    require(material(end, side) - material(start, side) == gain, what + ": another gain");
    require(!mate || (is_mated(end) && end.mover() != side), what + ": no mate");
    require(!mated || (is_mated(end) && end.mover() == side), what + ": not mated");
}

inline void require_sentence(const std::string& text, const std::string& what) {
    require(!text.empty() && text.find_first_of("{}") == std::string::npos, what + ": a sentence with a gap: " + text);
}

inline void require_witness(const Position& position, const Finding& finding) {
    const std::string what{name(finding.theme)};
    require(!finding.after_pass || !in_check(position), what + ": a pass in check");
    const Position start = start_of_line(position, finding);
    require_line(start, finding.side, finding.line, finding.gain, finding.mate, finding.mated, what);
    static_cast<void>(played(start, finding.point, what + " (point)"));
    if (finding.removed == Square::none)
        for (const Placed& placed : finding.pieces)
            require(position.piece_at(placed.square) == placed.piece, what + ": a piece that does not stand there");
    for (const Language language : {Language::english, Language::german})
        require_sentence(sentence(position, finding, language), what);
}

inline void require_witness(const Position& position, const Threat& threat) {
    require(!threat.after_pass || !in_check(position), "threat: a pass in check");
    const Position start = threat.after_pass ? turned(position) : position;
    require(!threat.line.empty(), "threat: no line");
    require_line(start, threat.side, threat.line, threat.gain, threat.mate, false, "threat");
    for (const Language language : {Language::english, Language::german})
        require_sentence(sentence(position, threat, language), "threat");
}

} // namespace keysquare::fuzz
