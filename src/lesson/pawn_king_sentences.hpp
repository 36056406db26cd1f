// The English sentences for pawns and kings; the placeholders are those of lesson/sentence_row.hpp.
#pragma once

#include <array>

#include "sentence_row.hpp"

namespace keysquare {

/// The sentences of the themes about pawns and kings.
inline constexpr std::array pawn_king_sentences{
    SentenceRow{Theme::isolated_pawn, Detail::none, "{Other} has {pieces:isolated pawn} ({squares}).", ""},
    SentenceRow{Theme::doubled_pawns, Detail::none, "{Other} has {pieces:doubled pawn} ({squares}).", ""},
    SentenceRow{Theme::backward_pawn, Detail::none, "{Other} has {pieces:backward pawn} ({squares}).", ""},
    SentenceRow{Theme::passed_pawn, Detail::guarded_by_pawn,
                "{Man} is a passed pawn, guarded by {second}; it has {steps:step} to go.", ""},
    SentenceRow{Theme::passed_pawn, Detail::connected,
                "{Man} is a passed pawn, connected with {second}; it has {steps:step} to go.", ""},
    SentenceRow{Theme::passed_pawn, Detail::outside, "{Man} is an outside passed pawn; it has {steps:step} to go.", ""},
    SentenceRow{Theme::passed_pawn, Detail::none, "{Man} is a passed pawn; it has {steps:step} to go.", ""},
    SentenceRow{
        Theme::candidate_to_pass, Detail::none,
        "{Man} is a candidate to pass: no pawn stands before it on its file, and it has {squares:helper} against "
        "{squares_of_other:enemy pawn} beside its way.",
        ""},
    SentenceRow{Theme::pawn_chain, Detail::attacked_already,
                "The pawns on {squares} form a chain, and a pawn of {Side} attacks its base, {man}.", ""},
    SentenceRow{Theme::pawn_chain, Detail::attackable,
                "The pawns on {squares} form a chain; a pawn of {Side} can advance and attack its base, {man}.", ""},
    SentenceRow{Theme::pawn_chain, Detail::none, "{Side} has a chain of {pieces:pawn} ({squares}).", ""},
    SentenceRow{Theme::pawn_islands, Detail::none, "{Side} has {islands:pawn island}, {Other} {islands_of_other}.", ""},
    SentenceRow{Theme::pawn_majority, Detail::queenside,
                "{Side} has the majority on the queenside: {squares:pawn} against {squares_of_other}.", ""},
    SentenceRow{Theme::pawn_majority, Detail::kingside,
                "{Side} has the majority on the kingside: {squares:pawn} against {squares_of_other}.", ""},
    SentenceRow{Theme::pawn_lever, Detail::on_open_file,
                "{Side} has a lever: {man} can go to {squares} and attack {second}; taking it would open the {file}.",
                ""},
    SentenceRow{Theme::pawn_lever, Detail::on_half_open_file,
                "{Side} has a lever: {man} can go to {squares} and attack {second}; an exchange there would make the "
                "{file} half-open for {Side}.",
                ""},
    SentenceRow{Theme::pawn_lever, Detail::none, "{Side} has a lever: {man} can go to {squares} and attack {second}.",
                ""},
    SentenceRow{Theme::blocked_pawns, Detail::fixed_by_pawn, "The pawns on {squares} fix each other.", ""},
    SentenceRow{Theme::blocked_pawns, Detail::blocked_by_piece, "{Side} blockades {pieces:pawn} from {squares}.", ""},
    SentenceRow{Theme::king_shelter, Detail::none, "The shelter of {man} has gaps: it has {shield_pawns:shield pawn}.",
                ""},
    SentenceRow{Theme::king_lines, Detail::on_open_file, "The open {file} leads to {man} or past it.", ""},
    SentenceRow{Theme::king_lines, Detail::on_half_open_file,
                "{Side} has {second} on the half-open {file}, which leads to {man} or past it.", ""},
    SentenceRow{Theme::king_lines, Detail::on_diagonal, "{Side} has a diagonal on {man}, held by {second}.", ""},
    SentenceRow{Theme::near_king, Detail::none,
                "{Side} has {attackers:attacker} round {man}, {Other} {defenders:defender}.", ""},
    SentenceRow{Theme::king_escape, Detail::no_luft, "{Man} has no luft: it can't step off its first rank.", ""},
    SentenceRow{Theme::king_escape, Detail::none, "{Man} has no square to go to.", ""},
    SentenceRow{Theme::king_in_centre, Detail::may_castle,
                "{Man} is in the centre, where {Side} has the {file} for an attack, but may still castle.", ""},
    SentenceRow{Theme::king_in_centre, Detail::may_not_castle, "{Man} is in the centre and can't castle any more.", ""},
};

} // namespace keysquare
