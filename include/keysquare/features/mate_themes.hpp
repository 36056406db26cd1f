// Mates: in one, in two, and on the back rank.
#pragma once

#include <keysquare/features/tactical_finding.hpp>
#include <keysquare/tactics/mates.hpp>

namespace keysquare {

/// Theme `mate_in_one`, for both sides: a legal move that mates. line = the first such move; squares = where the
/// mating moves arrive; number: moves (how many mate).
///
/// Theme `mate_in_two`, for both sides, where there is no mate in one: a legal move after which every legal reply is
/// mated by the next move. The other side must have a reply. line = the move, a reply, the mate; squares = where such
/// moves arrive; number: moves (how many there are). A move that neither checks nor threatens mate in one, if the
/// other side could pass, is not looked at.
///
/// Theme `back_rank`, for both sides: the other king stands on its first rank, every square of its second rank next to
/// it holds one of its own men or is attacked (with the king lifted off the board), and `side` has a rook or queen.
/// - With mate and line when the line of a mate ends with a rook or queen that arrives on that rank and gives check
///   along it: of the mates in one the first that does; where there is none in one, the line of `mate_in_two`; where
///   there is neither, that of `resolve`.
/// - Otherwise with no gain.
/// pieces = the king, then the rooks and queens of `side`; squares = those squares of the second rank.
void find_mates(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The position at the end of a line.
inline Position end_of(Position position, const Line& line) noexcept {
    for (const Move move : line) position = after(position, move);
    return position;
}

/// The mate in one or two as a finding; the line is empty when there is none.
inline Finding quickest_mate(const BoardView& view, Side side) {
    const WinningMoves& winning = view.winning(side);
    const Position& position = winning.position();
    Finding finding = winning_finding(view, Theme::mate_in_one, Detail::none, side, {});
    const auto note = [&](const Line& line) {
        if (finding.line.empty()) finding.line = line;
        finding.squares |= Squares{line.front().target()};
        finding.mate = true;
    };
    const MoveList mates = mating_moves(position);
    for (const Move move : mates) note({move});
    int moves = static_cast<int>(mates.size());
    if (mates.empty()) {
        finding.theme = Theme::mate_in_two;
        for (std::size_t at = 0; at < winning.moves().size(); ++at) {
            const Move move = winning.moves()[at];
            if (!winning.finder().gives_check(move) && !winning.threatens_mate(at)) continue;
            const Line line = mate_in_two(position, move);
            if (line.empty()) continue;
            note(line);
            ++moves;
        }
    }
    if (moves == 0) return finding;
    finding.gain = gain_of_line(position, finding.line, view.options().values);
    finding.count(Measure::moves, moves);
    return finding;
}

/// The squares of the second rank next to a king on its first; none when it stands elsewhere.
inline Squares before_king_at_home(const Position& position, Side side) noexcept {
    const Square king = position.king(side);
    if (rank_for(side, king) != 0) return {};
    return king_attacks(king) & rank_squares(side == Side::white ? 1 : 6);
}

inline bool is_shut_in(const Position& position, Side side, Squares before) noexcept {
    const Squares lifted = position.occupied().without(position.king(side));
    for (const Square square : before & ~position.men(side))
        if (!attackers_of(position, square, other(side), lifted)) return false;
    return true;
}

/// Whether the line ends with a rook or queen that arrives on the mated king's first rank and checks along it.
inline bool ends_on_back_rank(const Position& start, const Line& line, Side mated) noexcept {
    const Square arrived = line.back().target();
    const Position end = end_of(start, line);
    const Square king = end.king(mated);
    const Kind kind = end.kind_at(arrived);
    return (kind == Kind::rook || kind == Kind::queen) && rank_for(mated, arrived) == 0 && rank_for(mated, king) == 0 &&
           rook_attacks(arrived, end.occupied()).has(king);
}

inline void add_if_back_rank(const BoardView& view, Side side, const Finding& quickest, Findings& findings) {
    const Position& position = view.position();
    const Squares rooks_and_queens = position.men(side) & (position.men(Kind::rook) | position.men(Kind::queen));
    const Squares before = before_king_at_home(position, other(side));
    if (!before || !rooks_and_queens || !is_shut_in(position, other(side), before)) return;
    Finding finding = winning_finding(view, Theme::back_rank, Detail::none, side, {});
    if (view.turn(side).exists) {
        const Position& start = view.turn(side).position;
        Line line = quickest.line;
        if (line.size() == 1)
            for (const Move move : mating_moves(start))
                if (!ends_on_back_rank(start, line, other(side))) line = {move};
        if (line.empty() && resolve_wins(start, 100, view.options().bound, view.options().values).holds)
            line = resolve(start, view.options().bound, view.options().values).line;
        if (!line.empty() && ends_on_back_rank(start, line, other(side))) {
            finding.mate = true;
            finding.line = line;
            finding.gain = gain_of_line(start, line, view.options().values);
        }
    }
    if (!finding.mate) finding.after_pass = false;
    finding.squares = before;
    const Square king = position.king(other(side));
    finding.pieces.push_back({king, position.piece_at(king)});
    name_men(position, rooks_and_queens, finding);
    findings.push_back(finding);
}

} // namespace detail

inline void find_mates(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) {
        Finding quickest;
        if (view.turn(side).exists) {
            quickest = detail::quickest_mate(view, side);
            if (quickest.mate) findings.push_back(quickest);
        }
        detail::add_if_back_rank(view, side, quickest, findings);
    }
}

} // namespace keysquare
