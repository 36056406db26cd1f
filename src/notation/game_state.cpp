#include <keysquare/notation/game_state.hpp>

#include <algorithm>
#include <unordered_map>

namespace keysquare {

namespace {

/// The square of a legal en passant capture, or none.
Square capturable_en_passant(const Position& position) noexcept {
    const Square square = position.en_passant();
    return square != Square::none && detail::en_passant_is_legal(position, square) ? square : Square::none;
}

struct KeyOfPosition {
    std::size_t operator()(const Position& position) const noexcept { return static_cast<std::size_t>(position.key()); }
};
struct SameByLaws {
    bool operator()(const Position& a, const Position& b) const noexcept { return is_same_by_laws(a, b); }
};

/// Goes along a line and counts the positions that can come again.
class Occurrences {
  public:
    explicit Occurrences(const Position& start) { enter(start); }

    void play(Move move) {
        const Position next = after_in_game(now_, move);
        // no position from before a pawn move or a capture can come again, and nobody passes in a game
        if (next.halfmove_clock() == 0 || !move) {
            counts_.clear();
            most_ = 0;
        }
        enter(next);
    }

    [[nodiscard]] const Position& now() const noexcept { return now_; }
    [[nodiscard]] GameState state() const;

  private:
    void enter(const Position& position) {
        now_ = position;
        most_ = (std::max)(most_, ++counts_[position]);
    }
    [[nodiscard]] int count_of(const Position& position) const {
        const auto found = counts_.find(position);
        return found == counts_.end() ? 0 : found->second;
    }
    void find_claims(GameState& state) const;

    Position now_;
    std::unordered_map<Position, int, KeyOfPosition, SameByLaws> counts_;
    int most_ = 0; // of the counts
};

GameState Occurrences::state() const {
    GameState state;
    state.mover = now_.mover();
    state.occurrences = count_of(now_);
    state.quiet_plies = now_.halfmove_clock();
    state.mover_is_mated = is_mated(now_);
    state.mover_is_stalemated = is_stalemated(now_);
    state.has_occurred_five_times = state.occurrences >= 5;
    state.is_quiet_for_75_moves = state.quiet_plies >= 150 && !state.mover_is_mated;
    state.is_dead = is_dead_by_material(now_);
    if (!state.mover_is_mated && !state.mover_is_stalemated) find_claims(state);
    return state;
}

void Occurrences::find_claims(GameState& state) const {
    state.claimable_by_repetition = state.occurrences >= 3;
    state.claimable_by_quiet_moves = state.quiet_plies >= 100;
    const bool fifty_are_near = state.quiet_plies == 99;
    if (most_ < 2 && !fifty_are_near) return;
    for (const Move move : legal_moves(now_)) {
        const Position next = after(now_, move);
        if (next.halfmove_clock() == 0) continue;
        if (count_of(next) >= 2) state.repeating_moves.push_back(move);
        // a move that ends the game leaves nothing to claim
        if (fifty_are_near && has_legal_move(next)) state.claimable_by_quiet_moves = true;
    }
    if (!state.repeating_moves.empty()) state.claimable_by_repetition = true;
}

} // namespace

bool is_same_by_laws(const Position& a, const Position& b) noexcept {
    if (a.key() != b.key() || a.mover() != b.mover()) return false;
    for (const Side side : all_sides) {
        if (a.men(side) != b.men(side)) return false;
        for (const Wing wing : all_wings)
            if (a.castling_rook(side, wing) != b.castling_rook(side, wing)) return false;
    }
    for (const Kind kind : all_kinds)
        if (a.men(kind) != b.men(kind)) return false;
    return capturable_en_passant(a) == capturable_en_passant(b);
}

bool is_dead_by_material(const Position& position) noexcept {
    const Squares bishops = position.men(Kind::bishop);
    const Squares others = position.occupied() & ~bishops & ~position.men(Kind::king);
    if (!others) return !(bishops & light_squares) || !(bishops & dark_squares);
    return !bishops && others.count() == 1 && others == position.men(Kind::knight);
}

GameState game_state(const Game& game, StepIndex at) {
    Occurrences line{game.start()};
    for (const StepIndex step : game.path_to(at)) line.play(game.step(step).move);
    return line.state();
}

std::vector<GameState> game_states(const Game& game) {
    Occurrences line{game.start()};
    std::vector<GameState> states;
    states.push_back(line.state());
    for (const StepIndex step : game.main_steps()) {
        line.play(game.step(step).move);
        states.push_back(line.state());
    }
    return states;
}

} // namespace keysquare
