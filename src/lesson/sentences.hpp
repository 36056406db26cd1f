// The English sentences, as tables of templates, and where those of every language are found.
#pragma once

#include <array>

#include "german/pawn_king_sentences.hpp"
#include "german/sentences.hpp"
#include "german/square_sentences.hpp"
#include "german/tactics_sentences.hpp"
#include "pawn_king_sentences.hpp"
#include "sentence_row.hpp"
#include "square_sentences.hpp"
#include "tactics_sentences.hpp"
#include "vocabulary.hpp"

namespace keysquare {

/// The sentences of the themes that the other tables do not have.
inline constexpr std::array english_sentences{
    SentenceRow{Theme::hanging, Detail::unguarded, "{Side} can {win} with {move}: {man} has no guard.",
                "{Side} threatens to {win} with {move}: {man} has no guard."},
    SentenceRow{Theme::hanging, Detail::guard_pinned, "{Side} can {win} with {move}: no guard of {man} may recapture.",
                "{Side} threatens to {win} with {move}: no guard of {man} may recapture."},
    SentenceRow{Theme::hanging, Detail::cheaper_attacker,
                "{Side} can {win} with {move}: {man} is attacked by a cheaper man, {second}.",
                "{Side} threatens to {win} with {move}: {man} is attacked by a cheaper man, {second}."},
    SentenceRow{Theme::hanging, Detail::en_passant, "{Side} can {win} with {move}: {man} can be taken in passing.", ""},
    SentenceRow{Theme::hanging, Detail::none,
                "{Side} can {win} with {move}: the captures on {squares} come out in {Side}'s favour "
                "({attackers:attacker}, {guards:guard}).",
                "{Side} threatens to {win} with {move}: the captures on {squares} come out in {Side}'s favour "
                "({attackers:attacker}, {guards:guard})."},
    SentenceRow{Theme::poisoned, Detail::none, "{Man} looks free, but taking it {loses}: {line}.",
                "{Man} looks free, but if {Side} were to move, taking it {loses}: {line}."},
    SentenceRow{Theme::loose, Detail::none, "{Man} is loose: nothing guards it, and nothing attacks it yet.", ""},
    SentenceRow{Theme::guard_duty, Detail::guards_man, "{Man} is needed to guard {second}: without it, {move} {wins}.",
                ""},
    SentenceRow{Theme::guard_duty, Detail::blocks_line, "{Man} shields {second}: without it, {move} {wins}.", ""},
    SentenceRow{Theme::guard_duty, Detail::hinders_attacker,
                "{Man} holds off the attack on {second}: without it, {move} {wins}.", ""},
    SentenceRow{Theme::guard_duty, Detail::stops_mate, "{Man} is needed to stop mate on {squares}: without it, {move}.",
                ""},
    SentenceRow{Theme::guard_duty, Detail::stops_promotion,
                "{Man} stops the pawn on its way to {squares}: without it, {move} {wins}.", ""},
    SentenceRow{
        Theme::overloaded, Detail::none,
        "{Man} is overloaded ({squares}): {move} {wins}, for if it takes there, it fails its other duty: {point}.",
        "{Man} is overloaded ({squares}): {Side} threatens {move}, which {wins}, for if it takes there, it fails its "
        "other duty: {point}."},
    SentenceRow{Theme::tied, Detail::none,
                "{Man} is tied to its duty ({squares}): each of its moves loses something; the least bad one, {move}, "
                "{loses}{punish}.",
                "{Man} is tied to its duty ({squares}): each of its moves would lose something; the least bad one, "
                "{move}, {loses}{punish}."},
    SentenceRow{
        Theme::mutual_guards, Detail::locked,
        "{Pieces} are locked: each needs the other, and every one of their moves loses something; the least bad "
        "one, {move}, {loses}{punish}.",
        ""},
    SentenceRow{Theme::mutual_guards, Detail::pressured, "{Pieces} guard each other under attack.", ""},
    SentenceRow{Theme::mutual_guards, Detail::only_each_other, "{Pieces} are guarded only by each other.", ""},
    SentenceRow{Theme::shield_pair, Detail::locked,
                "{Man} guards {second}, which shields it: neither can move without loss; the least bad move, {move}, "
                "{loses}{punish}.",
                ""},
    SentenceRow{Theme::shield_pair, Detail::none, "{Man} guards {second}, which shields it in turn.", ""},
    SentenceRow{Theme::square_control, Detail::none,
                "{Side} holds {held:square} of the board, {Other} {held_by_other}.", ""},
    SentenceRow{
        Theme::colour_complex, Detail::none,
        "{Side} rules the {colour} squares ({held} held, {Other} {held_by_other}): {Other} has no bishop for them, and "
        "{fixed_pawns:pawn} fixed on the other colour.",
        ""},
    SentenceRow{Theme::guardian, Detail::none,
                "{Man} is the guardian of the {colour} squares in {Side}'s half: without it, {change:square} "
                "({squares}) slip away.",
                ""},
    SentenceRow{Theme::denied_square, Detail::none, "{Man} must not go to {squares}: {move} {loses}{punish}.",
                "{Man} could not safely go to {squares}: {move} {loses}{punish}."},
    SentenceRow{Theme::rook_scope, Detail::none, "{Man} has {safe_moves:safe move}.", ""},
    SentenceRow{Theme::stuffed_rooks, Detail::none,
                "{Side} has no safe rook move ({pieces}); the least bad one, {move}, {loses}{punish}.", ""},
    SentenceRow{Theme::open_file, Detail::on_open_file, "{Man} stands on the open {file}.", ""},
    SentenceRow{Theme::open_file, Detail::on_half_open_file, "{Man} stands on the half-open {file}.", ""},
    SentenceRow{Theme::open_file, Detail::can_take_open_file, "{Man} can take an open file ({squares}).", ""},
    SentenceRow{Theme::open_file, Detail::can_take_half_open_file, "{Man} can take a half-open file ({squares}).", ""},
    SentenceRow{Theme::seventh_rank, Detail::none, "{Man} has reached its seventh rank.", ""},
    SentenceRow{Theme::doubled_rooks, Detail::none, "{Pieces} are doubled on the {file}.", ""},
    SentenceRow{Theme::connected_rooks, Detail::none, "{Pieces} are connected.", ""},
    SentenceRow{Theme::entry_square, Detail::none, "{Man} can enter the enemy camp ({squares}).", ""},
    SentenceRow{Theme::material, Detail::even, "Material is even.", ""},
    SentenceRow{Theme::material, Detail::pawns_up, "{Side} is {pawns:pawn} up.", ""},
    SentenceRow{Theme::material, Detail::the_exchange, "{Side} is the exchange up; {count}.", ""},
    SentenceRow{Theme::material, Detail::the_exchange_for_pawns, "The exchange stands against pawns; {count}.", ""},
    SentenceRow{Theme::material, Detail::two_exchanges,
                "Rooks stand against minor pieces, {exchanges} of each; {count}.", ""},
    SentenceRow{Theme::material, Detail::two_minors_for_rook, "Two minor pieces stand against a rook; {count}.", ""},
    SentenceRow{Theme::material, Detail::two_minors_for_rook_and_pawns,
                "Two minor pieces stand against a rook and pawns; {count}.", ""},
    SentenceRow{Theme::material, Detail::queen_for_pieces, "A queen stands against pieces; {count}.", ""},
    SentenceRow{Theme::material, Detail::minor_for_pawns, "A minor piece stands against pawns; {count}.", ""},
    SentenceRow{Theme::material, Detail::piece_up, "{Side} has more pieces; {count}.", ""},
    SentenceRow{Theme::material, Detail::piece_for_pawns, "Pieces stand against pawns; {count}.", ""},
    SentenceRow{Theme::material, Detail::bishop_pair, "{Side} has the bishop pair.", ""},
    SentenceRow{Theme::material, Detail::opposite_bishops, "The bishops run on opposite colours.", ""},
    SentenceRow{Theme::material, Detail::none, "The material is unbalanced; {count}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::no_compensation,
                "{Side} is the exchange up, and the ledger shows nothing for it.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::some_compensation,
                "{Side} is the exchange up; {Other} has something for it: {ledger}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::enough_compensation,
                "{Side} is the exchange down and has enough to show for it: {ledger}.", ""},
    SentenceRow{Theme::exchange_imbalance, Detail::none,
                "{Side} is the exchange down and has more than enough to show for it: {ledger}.", ""},
};

/// All tables of sentences about findings, by language.
inline constexpr TableOf<SentenceRow> sentence_tables[language_count][4]{
    {english_sentences, pawn_king_sentences, square_sentences, tactics_sentences},
    {german_sentences, german_pawn_king_sentences, german_square_sentences, german_tactics_sentences},
};

/// The row of the finding, whichever table it stands in, or nothing.
[[nodiscard]] constexpr const SentenceRow* sentence_row(const Finding& finding,
                                                        Language language = Language::english) noexcept {
    for (const TableOf<SentenceRow>& table : sentence_tables[static_cast<std::size_t>(language)])
        for (const SentenceRow& row : table)
            if (row.theme == finding.theme && (row.detail == Detail::none || row.detail == finding.detail)) return &row;
    return nullptr;
}

} // namespace keysquare
