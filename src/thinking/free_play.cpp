#include <keysquare/thinking/free_play.hpp>

#include <algorithm>

#include <keysquare/tactics/forcing_moves.hpp>

namespace keysquare {

namespace {

class FreePlaySearch {
  public:
    FreePlaySearch(FreePlay& best, const Options& options) noexcept : best_(best), options_(options) {}

    /// Every string of exactly `moves` moves from here; `won` was won on the way here.
    void search(const Position& position, int moves, int won) noexcept {
        const CheckFinder finder{position};
        for (const Move move : legal_moves(position)) {
            if (best_.mate) return;
            const bool checks = finder.gives_check(move);
            const int gain = won + immediate_gain(position, move, options_.values);
            way_.push_back(move);
            if (moves == 1) {
                // Without check the other side may stop, so nothing more than `gain` can come of it.
                if (checks || gain > best_.gain) try_last(position, move, won);
            } else if (!checks) {
                search(turned(after(position, move)), moves - 1, gain);
            }
            way_.pop_back();
        }
    }

  private:
    void try_last(const Position& position, Move move, int won) noexcept {
        Kept known;
        const Verdict better = move_keeps(position, move, best_.gain + 1 - won, options_.bound, options_.values, known);
        best_.complete = best_.complete && better.complete;
        if (!better.holds) return;
        const Outcome outcome = value_of_move(position, move, options_.bound, options_.values, known);
        best_.complete = best_.complete && outcome.complete;
        if (!outcome.complete) return;
        best_.moves = way_;
        best_.line = outcome.line;
        best_.gain = won + outcome.gain;
        best_.mate = outcome.mate;
    }

    FreePlay& best_;
    const Options& options_;
    decltype(FreePlay::moves) way_;
};

} // namespace

FreePlay free_play(const Position& position, int moves, const Options& options) noexcept {
    FreePlay best;
    best.looked_at = std::clamp(moves, 0, most_free_moves);
    for (int count = 1; count <= best.looked_at && !best.mate; ++count)
        FreePlaySearch{best, options}.search(position, count, 0);
    return best;
}

} // namespace keysquare
