// Summary: statistics of the positions of any number of games, by groups. Parts made anywhere can be added, and come to
// what the whole would have been, to the bit.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include <keysquare/research/scan.hpp>
#include <keysquare/research/statistics.hpp>

namespace keysquare {

/// What a summary knows of one group of positions.
struct SummaryGroup {
    std::uint64_t positions = 0;            ///< rows of the group
    std::uint64_t games = 0;                ///< games that have a position in the group
    std::array<std::uint64_t, 4> results{}; ///< of these, in the order of `GameResult`
    std::vector<Statistics> columns;        ///< in the order of `Summary::columns`

    /// White's points in these games, 1 for a win and 0.5 for a draw; games without a result do not count.
    [[nodiscard]] double white_points() const noexcept;
    /// Games of the group whose result is known.
    [[nodiscard]] std::uint64_t games_with_result() const noexcept;

    /// Whether all counts are the same.
    friend bool operator==(const SummaryGroup& a, const SummaryGroup& b) noexcept {
        return a.positions == b.positions && a.games == b.games && a.results == b.results && a.columns == b.columns;
    }

  private:
    friend class Summary;
    std::uint64_t last_game_ = 0; // that was counted, see `GameRows::number`
};

/// The values that the positions of a group have in the columns that tell groups apart; nothing where there is none.
using GroupKey = std::vector<std::optional<std::string>>;

/// Statistics of columns by groups. Summaries of parts add up, to the bit, to that of the whole.
class Summary {
  public:
    /// Groups by the values of `by` as texts; without such columns there is one group. Precondition: `columns` hold
    /// numbers (`is_summable`).
    Summary(std::vector<ChosenColumn> by, std::vector<ChosenColumn> columns);

    /// The columns that tell groups apart.
    [[nodiscard]] const std::vector<ChosenColumn>& by() const noexcept { return by_; }
    /// The columns that statistics were made of.
    [[nodiscard]] const std::vector<ChosenColumn>& columns() const noexcept { return columns_; }
    /// In the order of the bytes of their values.
    [[nodiscard]] const std::map<GroupKey, SummaryGroup>& groups() const noexcept { return groups_; }
    /// What was read, left out and refused on the way.
    [[nodiscard]] const ScanCounts& counts() const noexcept { return counts_; }

    /// Adds the row that `rows` stands at. All rows must come from one object.
    void add(const GameRows& rows);
    /// Adds what became of the games.
    void add(const ScanCounts& counts) { counts_ += counts; }
    /// Adds one of other games, which come later. Precondition: `is_like(other)`.
    Summary& operator+=(const Summary& other);
    /// Whether they have the same groups and columns.
    [[nodiscard]] bool is_like(const Summary& other) const noexcept;

    /// All of it as bytes, and back. Nothing for bytes that are no summary of this version of the schema.
    [[nodiscard]] std::string bytes() const;
    /// The summary that `bytes` made; nothing for bytes that are none of this version of the schema.
    [[nodiscard]] static std::optional<Summary> from_bytes(std::string_view bytes);

    /// Equal but for the descriptions of refused games.
    friend bool operator==(const Summary& a, const Summary& b);

  private:
    [[nodiscard]] SummaryGroup& group_named(const GroupKey& key);

    std::vector<ChosenColumn> by_;
    std::vector<ChosenColumn> columns_;
    std::vector<std::size_t> vector_; // places in `columns_` of those of the numeric vector ...
    std::vector<std::size_t> others_; // ... and of the others
    std::map<GroupKey, SummaryGroup> groups_;
    ScanCounts counts_;
    GroupKey key_; // of the row that was added last, for its room
};

/// Whether statistics make sense of a column: it holds numbers, and they are no names (`key`, `game_offset`).
[[nodiscard]] bool is_summable(const ChosenColumn& column) noexcept;

/// Reads shards on several threads and sums them up. What comes out does not depend on the number of threads.
class Summarising {
  public:
    /// Precondition: `threads >= 1`.
    Summarising(std::vector<Shard> shards, const Summary& empty, RowFilter filter, int threads,
                const Options& options = {});
    Summarising(const Summarising&) = delete;
    Summarising& operator=(const Summarising&) = delete;
    /// Stops.
    ~Summarising();

    /// Whether it was done before the time was over. Throws what a thread threw.
    [[nodiscard]] bool wait(std::chrono::milliseconds patience);
    /// Waits for the end and gives what came out. To be called once, and not after `stop`.
    [[nodiscard]] Summary result();
    /// Ends it early; the threads are gone when this returns.
    void stop() noexcept;
    /// How far it is. From any thread.
    [[nodiscard]] ScanProgress progress() const noexcept;

  private:
    class Work;
    std::unique_ptr<Work> work_;
};

} // namespace keysquare
