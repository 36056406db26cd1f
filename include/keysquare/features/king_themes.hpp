// King themes: shelter, lines, men near the king, escape squares and the king in the centre, as findings.
#pragma once

#include <keysquare/features/board_view.hpp>
#include <keysquare/features/finding_parts.hpp>
#include <keysquare/features/king_lines.hpp>
#include <keysquare/features/near_king.hpp>

namespace keysquare {

/// The themes of both kings. All of them are counts without a line, speak of one king and are good for the other side,
/// called the attacker here; `pieces` has the king first and at most eight men. What the words mean stands with the
/// calculations in `king_shelter.hpp`, `king_lines.hpp` and `near_king.hpp`. The first two are told only when the
/// attacker has a queen or at least two rooks (common practice, no source).
///
/// - king_shelter: the king is not in the centre (`is_king_in_centre`), and at least one file on it is not shielded.
///   squares = those one and two ranks ahead of the king on the files on it without a shield pawn, none beyond the edge
///   of the board; pieces = the king, its shield; numbers: shield_pawns, open_files, half_open_files (`KingShelter`).
/// - king_lines, one a file and one a `KingDiagonal` (so two for a bishop and a queen on one diagonal). `on_open_file`:
///   an open file on the king; `on_half_open_file`: one half-open for the attacker with a rook or queen of it on the
///   file. squares = that whole file; pieces = the king, the attacker's rooks and queens on the file. `on_diagonal`:
///   squares = `KingDiagonal::squares`; pieces = the king, the bishop or queen.
/// - near_king: at least two attackers. squares = the squares on and next to the king that they attack; pieces = the
///   king, the attackers; numbers: attackers, defenders.
/// - king_escape: told only of a side that has lost its rights to castle. No detail: there is no escape square.
///   `no_luft`: there is one, but the king is on its first rank without luft, the attacker has a rook or a queen, and
///   any file of the board is open or half-open for it. squares = the escape squares; pieces = the king; number:
///   escape_squares.
/// - king_in_centre: the attacker has a queen, the king is in the centre, and either has no right to castle
///   (`may_not_castle`), or the d- or e-file is open or half-open for the attacker (`may_castle`). squares = the files
///   of these two that are; pieces = the king; numbers: open_files, half_open_files (of these two).
void find_king_themes(const BoardView& view, Findings& findings);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// Finds the themes of one king after the other.
class KingThemes {
  public:
    KingThemes(const Position& position, Side side, const PawnStructure& pawns, Findings& findings) noexcept
        : position_(position), side_(side), attacker_(other(side)), king_(position.king(side)), pawns_(pawns),
          findings_(findings) {}

    void find() {
        const Squares queens = position_.men(attacker_, Kind::queen);
        const Squares rooks = position_.men(attacker_, Kind::rook);
        if (queens || rooks.several()) {
            add_shelter();
            add_lines();
        }
        add_men_near();
        if (!may_castle_later(position_, side_)) add_escape((queens | rooks) && pawns_.files_for(attacker_));
        if (queens && is_king_in_centre(position_, side_)) add_centre();
    }

  private:
    Finding& add(Theme theme, Detail kind, Squares squares) {
        Finding& finding = add_count(findings_, theme, kind, attacker_, squares);
        name_men(position_, Squares{king_}, finding);
        return finding;
    }

    void count_files_of(Squares open, Squares half_open, Finding& finding) {
        finding.count(Measure::open_files, count_files(open));
        finding.count(Measure::half_open_files, count_files(half_open));
    }

    void add_shelter() {
        if (is_king_in_centre(position_, side_)) return;
        const KingShelter shelter = king_shelter(position_, side_, pawns_);
        const Squares before_king = (Squares{king_} | beside(Squares{king_})).moved(advance_of(side_));
        const Squares files = files_of(Squares{king_} | beside(Squares{king_}));
        const Squares bare = files & ~files_of(shelter.shield);
        if (!bare) return;
        const Squares gaps = (before_king | before_king.moved(advance_of(side_))) & bare;
        Finding& finding = add(Theme::king_shelter, Detail::none, gaps);
        name_men(position_, shelter.shield, finding);
        finding.count(Measure::shield_pawns, shelter.shield.count());
        count_files_of(shelter.open_files, shelter.half_open_files, finding);
    }

    void add_lines() {
        const KingLines found = king_lines(position_, side_, pawns_);
        const Squares heavy = position_.men(attacker_) & (position_.men(Kind::rook) | position_.men(Kind::queen));
        for (int file = 0; file < 8; ++file) {
            const Squares squares = file_squares(file) & (found.open_files | found.half_open_files);
            if (!squares) continue;
            const bool open = (squares & found.open_files).bits() != 0;
            if (!open && !(heavy & squares)) continue;
            const Detail kind = open ? Detail::on_open_file : Detail::on_half_open_file;
            name_men(position_, heavy & squares, add(Theme::king_lines, kind, squares));
        }
        for (const KingDiagonal& diagonal : found.diagonals)
            name_men(position_, Squares{diagonal.man}, add(Theme::king_lines, Detail::on_diagonal, diagonal.squares));
    }

    void add_men_near() {
        const NearKing near = near_king(position_, side_);
        if (!near.attackers.several()) return;
        Finding& finding = add(Theme::near_king, Detail::none, near.attacked);
        name_men(position_, near.attackers, finding);
        finding.count(Measure::attackers, near.attackers.count());
        finding.count(Measure::defenders, near.defenders.count());
    }

    void add_escape(bool back_rank_matters) {
        const KingEscape escape = king_escape(position_, side_);
        const bool shut_in = rank_for(side_, king_) == 0 && !escape.luft && back_rank_matters;
        if (escape.squares && !shut_in) return;
        Finding& finding = add(Theme::king_escape, escape.squares ? Detail::no_luft : Detail::none, escape.squares);
        finding.count(Measure::escape_squares, escape.squares.count());
    }

    void add_centre() {
        const Squares centre_files = file_squares(3) | file_squares(4);
        const Squares open = centre_files & pawns_.open_files;
        const Squares half_open = centre_files & pawns_.of(attacker_).half_open_files;
        const bool may_castle = may_castle_later(position_, side_);
        if (may_castle && !(open | half_open)) return;
        Finding& finding =
            add(Theme::king_in_centre, may_castle ? Detail::may_castle : Detail::may_not_castle, open | half_open);
        count_files_of(open, half_open, finding);
    }

    const Position& position_;
    Side side_;
    Side attacker_;
    Square king_;
    const PawnStructure& pawns_;
    Findings& findings_;
};

} // namespace detail

inline void find_king_themes(const BoardView& view, Findings& findings) {
    for (const Side side : all_sides) detail::KingThemes{view.position(), side, view.pawns(), findings}.find();
}

} // namespace keysquare
