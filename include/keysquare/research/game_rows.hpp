// GameRows: a game as rows, one for each ply that is asked for, with everything that a column may want to know.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <keysquare/features/feature_vector.hpp>
#include <keysquare/research/game_filter.hpp>
#include <keysquare/thinking/exchange_outlook.hpp>
#include <keysquare/thinking/game_effects.hpp>

namespace keysquare {

/// A game of a file, ready to be asked about its plies. One object serves game after game and belongs to one thread; what
/// is dear is worked out when the first column asks for it.
class GameRows {
  public:
    /// Without a game yet; `begin` gives it one.
    explicit GameRows(const Options& options = {}) : options_(options) {}

    /// Goes over to a game, which the caller keeps, `offset` bytes into the text of the file called `file`.
    void begin(const Game& game, std::string_view file, std::uint64_t offset);
    /// Goes over to a ply of the game. Precondition: `ply <= last_ply()`.
    void go_to(std::size_t ply);

    /// The game it is at.
    [[nodiscard]] const Game& game() const noexcept { return *game_; }
    /// The file of the game, as it was named.
    [[nodiscard]] std::string_view file() const noexcept { return file_; }
    /// Where the game begins in the text of its file, in bytes.
    [[nodiscard]] std::uint64_t offset() const noexcept { return offset_; }
    /// Which game it is of those that this object went over to, from 1.
    [[nodiscard]] std::uint64_t number() const noexcept { return number_; }
    /// The ply it is at; 0 is the start position.
    [[nodiscard]] std::size_t ply() const noexcept { return ply_; }
    /// The last ply of the main line.
    [[nodiscard]] std::size_t last_ply() const noexcept { return steps_.size() - 1; }
    /// The position at the ply.
    [[nodiscard]] const Position& position() const noexcept { return positions_[ply_]; }
    /// Of the whole main line, the start first.
    [[nodiscard]] std::span<const Position> positions() const noexcept {
        return {positions_.data(), positions_.size()};
    }
    /// The step that led to a ply; the root for ply 0.
    [[nodiscard]] StepIndex step(std::size_t ply) const noexcept { return steps_[ply]; }
    /// The move played in the position; null at the end of the game.
    [[nodiscard]] Move played() const noexcept {
        return ply_ < last_ply() ? game_->step(steps_[ply_ + 1]).move : Move{};
    }

    /// The rating of a side by its tag; nothing where there is none.
    [[nodiscard]] std::optional<int> rating(Side side) const noexcept { return ratings_[index(side)]; }
    /// What the game brought White: 1, 0.5 or 0; nothing when the result is unknown.
    [[nodiscard]] std::optional<double> white_score() const noexcept;

    /// What features share of the position.
    [[nodiscard]] const BoardView& view() const;
    /// What the mover can win at once.
    [[nodiscard]] const Threats& chances() const;
    /// What the waiter would win if the mover passed.
    [[nodiscard]] const Threats& threats_of_waiter() const;
    /// What both sides can do.
    [[nodiscard]] const Outlook& outlook() const;
    /// How many pairs of men of the side are locked (theme `mutual_guards`).
    [[nodiscard]] int locked_pairs(Side side) const;
    /// The ledger of the exchange imbalance, compared with the position before the captures in a row that led to it.
    [[nodiscard]] const std::optional<ExchangeLedger>& ledger() const;
    /// What the move that was played did (`game_effects`); empty at the end of the game.
    [[nodiscard]] const MoveEffects& effects() const;

    /// A text that a column writes and that lives until the next one does.
    [[nodiscard]] std::string& scratch() const noexcept { return scratch_; }

  private:
    /// Of one position.
    struct Studies {
        std::optional<BoardView> view;
        std::optional<Threats> chances;
        std::optional<Threats> threats;
        std::optional<Outlook> outlook;
        std::optional<std::array<int, 2>> locked_pairs;
        std::optional<std::optional<ExchangeLedger>> ledger;
    };

    [[nodiscard]] const Position* before_the_exchange() const noexcept;

    Options options_;
    const Game* game_ = nullptr;
    std::string_view file_;
    std::uint64_t offset_ = 0;
    std::uint64_t number_ = 0;
    std::size_t ply_ = 0;
    std::vector<StepIndex> steps_;
    std::vector<Position> positions_;
    std::array<std::optional<int>, 2> ratings_;
    mutable Studies studies_;
    mutable std::optional<std::vector<MoveEffects>> effects_; // of the whole game
    mutable Findings found_;
    mutable std::string scratch_;
};

} // namespace keysquare

#include <keysquare/research/game_rows_impl.hpp>
