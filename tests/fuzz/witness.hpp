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

/// An outcome for the mover of `start`.
inline void require_outcome(const Position& start, const Outcome& outcome, const std::string& what) {
    if (!outcome.complete) return;
    require(!outcome.line.empty() || outcome.gain == 0, what + ": a gain without a line");
    require_line(start, start.mover(), outcome.line, outcome.gain, outcome.mate, outcome.mated, what);
}

/// The moves of one man while the other side passes; it arrives on `square`.
inline void require_route(Position position, const Route& route, Square square, const std::string& what) {
    require(!route.empty() && route.back().target() == square, what + ": it ends elsewhere");
    for (std::size_t at = 0; at < route.size(); ++at) {
        if (at > 0) {
            require(!in_check(position), what + ": a pass in check");
            require(route[at].origin() == route[at - 1].target(), what + ": another man");
            position = turned(position);
        }
        position = played(position, std::array{route[at]}, what);
    }
}

/// What `say` gives for a language is a text without gaps, in every language.
template <class Say> void require_sentence(Say say, const std::string& what) {
    for (const Language language : {Language::english, Language::german}) {
        const std::string text = say(language);
        require(!text.empty() && text.find_first_of("{}") == std::string::npos, what + ": a text with a gap: " + text);
    }
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
    require_sentence([&](Language language) { return sentence(position, finding, language); }, what);
}

inline void require_witness(const Position& position, const Threat& threat) {
    require(!threat.after_pass || !in_check(position), "threat: a pass in check");
    const Position start = threat.after_pass ? turned(position) : position;
    require(!threat.line.empty(), "threat: no line");
    require_line(start, threat.side, threat.line, threat.gain, threat.mate, false, "threat");
    require_sentence([&](Language language) { return sentence(position, threat, language); }, "threat");
}

inline void require_witness(const Difficulty& seen) {
    require_line(seen.start, seen.side, seen.line, seen.gain, seen.mate, false, "difficulty");
    require_sentence([&](Language language) { return paragraph(seen, language); }, "difficulty");
}

inline void require_witness(const Position& position, const Candidate& candidate) {
    require(is_legal(position, candidate.move), "candidate: not legal");
    const Position moved = after(position, candidate.move);
    require_outcome(position, candidate.won, "candidate (won)");
    require_outcome(position, candidate.kept, "candidate (kept)");
    require_outcome(moved, candidate.allowed, "candidate (allowed)");
    if (!candidate.threat.line.empty()) require_outcome(turned(moved), candidate.threat, "candidate (threat)");
    if (!candidate.parried.line.empty()) require_witness(position, candidate.parried);
    require_sentence([&](Language language) { return sentence(position, candidate, language); }, "candidate");
}

inline void require_witness(const Position& position, const Answer& answer, const Options& options) {
    const Position moved = after(position, answer.move);
    if (!answer.reply.line.empty()) require_witness(moved, answer.reply);
    require(answer.taken == material(moved, position.mover()) - material(position, position.mover()),
            "answer: another gain of the move");
    const bool loses = answer.reply.mate || answer.reply.gain - answer.taken >= options.least_gain;
    require(answer.loses == (loses && !answer.reply.line.empty()), "answer: it loses otherwise");
    require(answer.loses == (answer.walks_into || answer.leaves), "answer: neither new nor old");
    require_sentence([&](Language language) { return sentence(position, answer, language); }, "answer");
}

/// After a move that stops the threat its first move wins nothing, and after one that ends all no move does.
inline void require_stopped(const Position& position, const Threat& threat, const Parry& parry,
                            const Options& options) {
    require(is_legal(position, parry.move), "parry: not legal");
    const int taken = immediate_gain(position, parry.move, options.values);
    for (const Threat& left : threats(after(position, parry.move), threat.side, options)) {
        require(!parry.stops || left.line.front() != threat.line.front() || (threat.mate && !left.mate),
                "parry: the threat is still on");
        require(!parry.ends_all || (!left.mate && left.gain - taken < options.least_gain),
                "parry: there is another threat");
    }
}

inline void require_witness(const Position& position, const SideOutlook& outlook) {
    if (!outlook.exists) return;
    const Position start = outlook.after_pass ? turned(position) : position;
    for (const UsefulMove& useful : outlook.useful) {
        require(is_legal(start, useful.move), "outlook: a useful move that is not legal");
        require_outcome(start, useful.won, "outlook (won)");
        if (!useful.threat.line.empty())
            require_outcome(turned(after(start, useful.move)), useful.threat, "outlook (threat)");
    }
    for (const Move move : outlook.merely_safe)
        require(is_legal(start, move), "outlook: a safe move that is not legal");
    require(outlook.only_move == Move{} || is_legal(start, outlook.only_move), "outlook: the only move is not legal");
    for (const BestSquare& best : outlook.best_squares)
        require_route(start, best.route, best.square, "outlook (best square)");
}

inline void require_witness(const BoardView& view, const Mobility& mobility) {
    const Position& start = view.turn(mobility.piece.piece.side).position;
    for (const Destination& to : mobility.destinations) require_outcome(start, to.outcome, "mobility");
}

} // namespace keysquare::fuzz
