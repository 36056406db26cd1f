#include <keysquare/thinking/answers.hpp>

namespace keysquare {

namespace {

/// Whether the reply to a move was to be had before the move, after a pass.
bool was_there_before(const Position& position, const Answer& answer, const Options& options) {
    const Threats before = threats(position, position.waiter(), options);
    return detail::any_of(before, [&](const Threat& threat) {
        return is_same_threat(threat, answer.reply) && (threat.mate || threat.gain >= answer.cost);
    });
}

} // namespace

Answer answers(const Position& position, Move move, const Options& options) {
    const Position moved = after(position, move);
    Answer answer;
    answer.move = move;
    answer.taken = immediate_gain(position, move, options.values);
    const Threats replies = threats(moved, moved.mover(), options);
    if (replies.empty()) return answer;
    answer.reply = replies.front();
    answer.cost = answer.reply.gain - answer.taken;
    answer.loses = answer.reply.mate || answer.cost >= options.least_gain;
    answer.leaves = answer.loses && was_there_before(position, answer, options);
    answer.walks_into = answer.loses && !answer.leaves;
    return answer;
}

} // namespace keysquare
