// The English sentences about tactical themes.
#pragma once

#include <array>

#include <keysquare/lesson/sentence_row.hpp>

namespace keysquare {

inline constexpr std::array tactics_sentences{
    SentenceRow{Theme::pin, Detail::absolute,
                "{Man} is pinned to its king by {second}; {move} makes use of it and {wins}{punish}.",
                "{Man} is pinned to its king by {second}; {Side} threatens {move}, which {wins}{punish}.",
                "{Man} is pinned to its king by {second}."},
    SentenceRow{Theme::pin, Detail::relative,
                "{Man} is pinned by {second} to {third}; {move} makes use of it and {wins}{punish}.",
                "{Man} is pinned by {second} to {third}; {Side} threatens {move}, which {wins}{punish}.",
                "{Man} is pinned by {second}: leaving the line would give up {third}."},
    SentenceRow{Theme::pin, Detail::absolute_next, "{move} pins {man} to its king and {wins}{punish}.",
                "{Side} threatens {move}, which pins {man} to its king and {wins}{punish}."},
    SentenceRow{Theme::pin, Detail::relative_next, "{move} pins {man} to {third} and {wins}{punish}.",
                "{Side} threatens {move}, which pins {man} to {third} and {wins}{punish}."},
    SentenceRow{Theme::skewer, Detail::none, "{move} attacks {second}, with {third} behind it, and {wins}{punish}.",
                "{Side} threatens {move}, which attacks {second}, with {third} behind it, and {wins}{punish}.",
                "{point} would attack {second}, with {third} behind it, but it wins nothing by force."},
    SentenceRow{Theme::fork, Detail::none, "{move} forks {others} and {wins}{punish}.",
                "{Side} threatens {move}, which forks {others} and {wins}{punish}.",
                "{point} would fork {others}, but it wins nothing by force."},
    SentenceRow{
        Theme::double_attack, Detail::none,
        "{move} threatens mate and attacks {second} at the same time, and {wins}{punish}.",
        "{Side} would have {move}, which threatens mate, attacks {second} at the same time, and {wins}{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_double_check,
                "{Man} can give double check together with {second}: {move} {wins}{punish}.",
                "{Side} threatens a double check by {man} and {second}: {move} {wins}{punish}."},
    SentenceRow{Theme::discovered_attack, Detail::with_check,
                "{Man} uncovers {second} with check: {move} {wins}{punish}.",
                "{Side} threatens to uncover {second} with check: {move} {wins}{punish}.",
                "{Man} stands between {second} and the enemy king: off the line it uncovers a check."},
    SentenceRow{Theme::discovered_attack, Detail::none,
                "{Man} can uncover {second} against {third}: {move} {wins}{punish}.",
                "{Side} threatens to uncover {second} against {third}: {move} {wins}{punish}.",
                "{Man} stands between {second} and {third}: off the line it uncovers an attack."},
    SentenceRow{Theme::battery, Detail::none, "{Man} and {second} form a battery that looks along {squares}.", ""},
    SentenceRow{
        Theme::removable_guard, Detail::by_capture, "{move} takes {man}, which guards {others}, and {wins}{punish}.",
        "{Side} threatens {move}, which takes {man}, the guard of {others}, and {wins}{punish}.",
        "{Man} is the only guard of {second}, and {Side} may take it, {point}; but that wins nothing by force."},
    SentenceRow{Theme::removable_guard, Detail::by_driving_off,
                "{move} drives off {man}, which is needed where it stands, and {wins}{punish}.",
                "{Side} threatens {move}, which drives off {man} from where it is needed and {wins}{punish}."},
    SentenceRow{
        Theme::removable_guard, Detail::by_luring,
        "{move} lures {man} away from its duty, for example {point}, and {wins}{punish}.",
        "{Side} threatens {move}, which lures {man} away from its duty, for example {point}, and {wins}{punish}."},
    SentenceRow{Theme::removable_guard, Detail::by_blocking,
                "{move} cuts off {man} from what it guards and {wins}{punish}.",
                "{Side} threatens {move}, which cuts off {man} from what it guards and {wins}{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attackable,
                "{Man} has no safe square once it is attacked: {move} {wins}{punish}.",
                "{Man} has no safe square once it is attacked: {Side} threatens {move}, which {wins}{punish}."},
    SentenceRow{Theme::trapped_piece, Detail::attacked_already, "",
                "{Man} is trapped: it is attacked, and each of its moves loses material; {Side} threatens {move}."},
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
        "{Side} threatens {move} before taking {second}: it {wins}{punish}; a capture at once wins only {at_once}."},
};

} // namespace keysquare
