// RowReader: the games of pieces as rows, with counts. One for each thread.
#pragma once

#include <utility>

#include <keysquare/notation/pgn.hpp>

#include "text_pieces.hpp"

namespace keysquare {

class RowReader {
  public:
    RowReader(const TextPieces& pieces, const RowFilter& filter, bool keep_comments, const Options& options)
        : pieces_(pieces), filter_(filter), keep_comments_(keep_comments), rows_(options) {}

    /// Hands every row of the piece to `receive(const GameRows&)`, until that gives false or the queue is stopped, and
    /// returns the counts.
    template <class Receive> ScanCounts read(TextPiece& piece, Receive receive) {
        ScanCounts counts;
        PgnReader reader{std::move(piece.text), options()};
        while (!pieces_.is_stopped()) switch (reader.next(game_)) {
            case Reading::game:
                rows_.begin(game_, piece.file, piece.offset + reader.game_offset());
                if (!give_rows(receive, counts)) return counts;
                ++counts.games;
                break;
            case Reading::left_out: ++counts.left_out; break;
            case Reading::refused: note_refused(piece, reader, counts); break;
            case Reading::end: return counts;
            }
        return counts;
    }

  private:
    [[nodiscard]] PgnOptions options() const {
        PgnOptions options;
        options.keep_comments = keep_comments_;
        if (!filter_.games.empty()) options.wanted = [this](const Game& game) { return filter_.games.fits(game); };
        return options;
    }

    template <class Receive> bool give_rows(Receive& receive, ScanCounts& counts) {
        const auto& [first, last, step] = filter_.plies;
        const std::size_t end = (std::min)(rows_.last_ply(), last);
        for (std::size_t ply = first; ply <= end; ply += step) {
            rows_.go_to(ply);
            if (pieces_.is_stopped() || !receive(rows_)) return false;
            ++counts.positions;
            if (step > end - ply) break; // the sum might wrap around
        }
        return true;
    }

    static void note_refused(const TextPiece& piece, const PgnReader& reader, ScanCounts& counts) {
        const InputError& error = reader.error();
        ++counts.refused_by_reason[error.reason];
        if (counts.refused.size() == ScanCounts::most_described) return;
        InputError placed = error;
        placed.line -= reader.game_line() - 1;
        placed = placed.in_game(piece.file, 0, piece.offset + error.offset);
        counts.refused.push_back({piece.file, piece.offset + reader.game_offset(), std::move(placed)});
    }

    const TextPieces& pieces_;
    const RowFilter& filter_;
    bool keep_comments_;
    GameRows rows_;
    Game game_;
};

} // namespace keysquare
