// The English sentences about tactical themes.
#pragma once

#include <array>

#include "sentence_row.hpp"

namespace keysquare {

/// The sentences of the tactical themes.
inline constexpr std::array tactics_sentences{
    SentenceRow{Theme::pin, Detail::absolute,
                "{Man} is pinned to its king by {second}; {Side} can {win} with {move}{punish}.",
                "{Man} is pinned to its king by {second}; {Side} threatens to {win} with {move}{punish}.",
                "{Man} is pinned to its king by {second}."},
    SentenceRow{Theme::pin, Detail::relative,
                "{Man} is pinned by {second} to {third}; {Side} can {win} with {move}{punish}.",
                "{Man} is pinned by {second} to {third}; {Side} threatens to {win} with {move}{punish}.",
                "{Man} is pinned by {second}: leaving the line would give up {third}."},
    SentenceRow{Theme::pin, Detail::absolute_next,
                "{Side} can {win} with {move}, which pins {man} to its king{punish}.",
                "{Side} threatens to {win} with {move}, which pins {man} to its king{punish}."},
    SentenceRow{Theme::pin, Detail::relative_next, "{Side} can {win} with {move}, which pins {man} to {third}{punish}.",
                "{Side} threatens to {win} with {move}, which pins {man} to {third}{punish}."},
    SentenceRow{Theme::skewer, Detail::none,
                "{Side} can {win} with {move}, which attacks {second} with {third} behind it{punish}.",
                "{Side} threatens to {win} with {move}, which attacks {second} with {third} behind it{punish}.",
                "The attack on {second} with {third} behind it, {point}, would win nothing by force."},
    SentenceRow{Theme::fork, Detail::none, "{Side} can {win} with {move}, a fork of {others}{punish}.",
                "{Side} threatens to {win} with {move}, a fork of {others}{punish}.",
                "The fork of {others}, {point}, would win nothing by force."},
    SentenceRow{Theme::double_attack, Detail::none,
                "{Side} can {win} with {move}, which threatens mate and attacks {second} as well{punish}.",
                "{Side} would {win} with {move}, which threatens mate and attacks {second} as well{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_double_check,
                "{Side} can {win} with {move}, a double check by {man} and {second}{punish}.",
                "{Side} threatens to {win} with {move}, a double check by {man} and {second}{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_check,
                "{Side} can {win} with {move}, a check that uncovers {second}{punish}.",
                "{Side} threatens to {win} with {move}, a check that uncovers {second}{punish}.",
                "{Man} stands between {second} and the enemy king: off the line it uncovers a check."},
    SentenceRow{Theme::discovered_attack, Detail::none,
                "{Side} can {win} with {move}, which uncovers {second} against {third}{punish}.",
                "{Side} threatens to {win} with {move}, which uncovers {second} against {third}{punish}.",
                "{Man} stands between {second} and {third}: off the line it uncovers an attack."},
    SentenceRow{Theme::battery, Detail::none, "{Man} and {second} form a battery that looks along {squares}.", ""},
    SentenceRow{
        Theme::removable_guard, Detail::by_capture,
        "{Side} can {win} with {move}, which takes {man}, a guard of {others}{punish}.",
        "{Side} threatens to {win} with {move}, which takes {man}, a guard of {others}{punish}.",
        "{Man} is the only guard of {second}, and {Side} may take it, {point}; but that wins nothing by force."},
    SentenceRow{Theme::removable_guard, Detail::by_blocking,
                "{Side} can {win} with {move}, which cuts off {man} from what it guards{punish}.",
                "{Side} threatens to {win} with {move}, which cuts off {man} from what it guards{punish}."},
    SentenceRow{Theme::removable_guard, Detail::by_luring,
                "{Side} can {win} with {move}, which lures {man} away from its duty; if it takes, {point}.",
                "{Side} threatens to {win} with {move}, which lures {man} away from its duty; if it takes, {point}."},
    SentenceRow{Theme::removable_guard, Detail::by_driving_off,
                "{Side} can {win} with {move}, which attacks {man}, needed where it stands{punish}.",
                "{Side} threatens to {win} with {move}, which attacks {man}, needed where it stands{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attackable,
                "{Man} has no safe square once it is attacked: {Side} can {win} with {move}{punish}.",
                "{Man} has no safe square once it is attacked: {Side} threatens to {win} with {move}{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attacked_already, "",
                "{Man} is trapped: {Side} threatens to {win} with {move}, and each of its moves loses material too."},
    SentenceRow{Theme::mate_in_one, Detail::none, "{Side} mates with {move}.", "{Side} threatens mate with {move}."},
    SentenceRow{Theme::mate_in_two, Detail::none, "{Side} mates in two moves: {line}.",
                "{Side} threatens mate in two moves: {line}."},
    SentenceRow{Theme::back_rank, Detail::none, "{Man} is shut in on its back rank, and {line} mates there.",
                "{Man} is shut in on its back rank, and {Side} threatens {line}, mate.",
                "{Man} is shut in on its back rank; {Side} has {others} to make use of it."},
    SentenceRow{Theme::promotion_threat, Detail::none, "{Man} gets through: {line} {wins}.",
                "{Side} threatens to bring {man} through: {line} {wins}."},
    SentenceRow{
        Theme::intermediate_move, Detail::none,
        "Before {second} is taken, {move} comes first: it {wins}{punish}; a capture at once wins only {at_once}.",
        "Before {second} is taken, {Side} threatens {move}: it {wins}{punish}; a capture at once wins only "
        "{at_once}."},
};

} // namespace keysquare
