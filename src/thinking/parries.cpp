#include <keysquare/thinking/parries.hpp>

#include <algorithm>

#include <keysquare/features/development.hpp>
#include <keysquare/features/judged_moves.hpp>
#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/thinking/move_wins.hpp>

#include "threat_parts.hpp"

namespace keysquare {

namespace detail {

ThreatAfterMoves::ThreatAfterMoves(const Position& position, const Threat& threat, const Options& options) noexcept
    : options_(options), mate_(threat.mate), first_(threat.line.front()) {
    const Position handed_over = turned(position);
    if (captured_by(handed_over, first_) != Kind::none) man_ = taken_on(handed_over, first_);
}

bool ThreatAfterMoves::is_on(const Position& moved, Move move) const noexcept {
    const MoveWins wins{moved, options_.least_gain, options_};
    const auto works = [&](Move again) { return mate_ ? wins.win(again).mate : wins.wins(again); };
    if (is_legal(moved, first_) && works(first_)) return true;
    if (man_ == Square::none || move.origin() == man_) return false;
    return any_of(captures_of(moved, man_), works);
}

} // namespace detail

Parries parries(const Position& position, const Threat& threat, const Options& options) {
    Parries result;
    const MoveWins own{position, options.least_gain, options};
    const JudgedMoves judged{position, options};
    const detail::ThreatAfterMoves threatened{position, threat, options};
    const Squares undeveloped = undeveloped_of(position, position.mover());
    result.legal = static_cast<int>(own.moves().size());
    for (std::size_t at = 0; at < own.moves().size(); ++at) {
        const Move move = own.moves()[at];
        const Position moved = after(position, move);
        Parry parry{move};
        parry.stops = !threatened.is_on(moved, move);
        parry.ends_all = !reply_wins(position, move, options);
        if (!judged.loses(at)) {
            ++result.natural;
            result.natural_stopping += parry.stops ? 1 : 0;
        }
        if (!parry.stops && !parry.ends_all) continue;
        const int as_much = threat.mate ? detail::mate_line + 1 : (std::max)(threat.gain, options.least_gain);
        parry.counters = parry.ends_all && own.threatens(move, as_much);
        parry.wins = move_keeps(position, move, options.least_gain, options.bound, options.values).holds;
        parry.takes = detail::takes(position, move);
        parry.threatens = parry.counters || own.threatens(move, options.least_gain);
        parry.castles = move.castles();
        parry.develops = !move.castles() && undeveloped.has(move.origin());
        result.moves.push_back(parry);
    }
    return result;
}

} // namespace keysquare
