// SentenceRow: one sentence template. The tables of rows stand in sentences.hpp and in headers beside it.
#pragma once

#include <keysquare/board/literal.hpp>
#include <keysquare/features/finding.hpp>

namespace keysquare {

/// The sentence for findings of one theme and detail (`Detail::none` fits every detail; the first row that fits
/// counts).
///
/// Placeholders, all filled from the finding alone:
/// {Side} {Other}: "White"; {man} {second} {third}: "the knight on d6", the first pieces; {pieces}: all pieces, "the
/// rooks on a1 and e1"; {others}: all but the first; {Man} {Pieces}: with a capital; {squares}: "d5 and e8"; {move}:
/// the first move of the line; {line} {point}: the moves of the line and of the point; {win}: "win a pawn", "mate";
/// {wins}: the same in the third person; {loses}: "loses a pawn", "gets mated", "wins nothing"; {count}: who is ahead by
/// the count of material; {ledger}: what the side that is the exchange down has for it; {punish}: what follows on the
/// first move of the line, in brackets; {file}: the files of the squares, "c-file"; {colour}: "dark"; {name of a
/// measure}: its count.
///
/// Forms, all of them rows of the vocabulary of the language (`vocabulary.hpp`): {measure:thing}: the count with
/// its noun, "no safe move", "one safe move", "7 safe moves"; {man:acc}: men in another form, a case or what stands for
/// them; {win:zu}, {file:acc}: the same for what is won and for files. {pieces?is|are}, {measure?is|are}: the first word
/// with at most one, the second with several.
struct SentenceRow {
    Theme theme;        ///< which findings
    Detail detail;      ///< `Detail::none`: whatever the detail
    Literal now;        ///< for a finding of the position as it stands
    Literal after_pass; ///< for one that needs the move handed over; empty: the same
    Literal idle = {};  ///< for one without a line, where others of the row have one; empty: the same
};

} // namespace keysquare
