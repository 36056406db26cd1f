// DifficultyTemplates: the sentences about what a side has to see; and the English ones.
#pragma once

#include <array>

#include <keysquare/board/literal.hpp>
#include <keysquare/thinking/difficulty.hpp>

namespace keysquare {

/// The templates. {Side}, {Other}: the side that has to see something, and the other one; {legal}: how many legal moves it has;
/// {has}: "White has", "With Black passing, White has"; {count}: the count in question; {worth}: "a pawn", "material
/// worth 3 pawns"; {moves}: how many moves; {line}: the line to be seen; {first}: its first move; {answers}:
/// how many there are to that; {more}: how many forcing ones there are to later moves.
/// {nth}: "first"; {traits}: "is quiet and goes backwards". What follows on another sentence begins with a space.
struct DifficultyTemplates {
    Literal no_turn;
    Literal has;
    Literal has_after_pass;
    Literal no_move;
    Literal mated;
    Literal one_move;
    Literal all_keep;
    Literal some_keep;
    Literal one_keeps;
    Literal none_keeps;
    Literal one_move_loses;
    Literal all_lose;
    Literal some_lose_least;
    Literal one_loses_least;
    Literal checked;
    Literal at_stake;
    Literal mate_at_stake;
    Literal nothing;
    Literal wins;
    Literal mates;
    Literal holds;
    Literal holds_least;
    Literal given_wins;
    Literal given_mates;
    Literal given_even;
    Literal given_loses;
    Literal is_quiet;
    Literal goes_back;
    Literal goes_far;
    Literal gives_up;
    Literal no_quiet_move;
    Literal deficit;
    Literal no_other;
    Literal one_other;
    Literal several_others;
    Literal one_tempting;
    Literal tempting;
    Literal one_as_good;
    Literal as_good;
    Literal one_failing;
    Literal failing;
    Literal answers;
    Literal answers_on_the_way;
    Literal the_move;
    Literal the_nth_move;
    Literal another_move;
    std::array<Literal, 16> ordinals; ///< a line has no more moves of one side
};
static_assert((longest_line + 1) / 2 == 16);

inline constexpr DifficultyTemplates english_difficulty_templates{
    .no_turn = "{Other} stands in check and can't pass, so {Side} has no turn.",
    .has = "{Side} has",
    .has_after_pass = "With {Other} passing, {Side} has",
    .no_move = "{has} no legal move.",
    .mated = "{has} {legal:legal move}, and is mated by force whatever it plays.",
    .one_move = "{has} one legal move.",
    .all_keep = "{has} {legal:legal move}, and all keep the material.",
    .some_keep = "{has} {legal:legal move}, and {count} keep the material.",
    .one_keeps = "{has} {legal:legal move}, and only one keeps the material.",
    .none_keeps = "{has} {legal:legal move}, and none is known to keep the material.",
    .one_move_loses = "{has} one legal move, which loses {worth}.",
    .all_lose = "{has} {legal:legal move}, and each of them loses {worth}.",
    .some_lose_least = "{has} {legal:legal move}, and {count} lose no more than {worth}.",
    .one_loses_least = "{has} {legal:legal move}, and only one loses no more than {worth}.",
    .checked = " It stands in check.",
    .at_stake = " If it did nothing, {Other} would win {worth}.",
    .mate_at_stake = " If it did nothing, {Other} would mate.",
    .nothing = " There is no line that it must see.",
    .wins = " To win {worth} it must see {moves:move} ahead: {line}.",
    .mates = " To mate it must see {moves:move} ahead: {line}.",
    .holds = " To meet this it must see {moves:move} ahead: {line}.",
    .holds_least = " To lose no more than that it must see {moves:move} ahead: {line}.",
    .given_wins = " The line that it must see wins {worth} in {moves:move}: {line}.",
    .given_mates = " The line that it must see mates in {moves:move}: {line}.",
    .given_even = " The line that it must see wins nothing, in {moves:move}: {line}.",
    .given_loses = " The line that it must see gives up {worth} in {moves:move}: {line}.",
    .is_quiet = "is quiet",
    .goes_back = "goes backwards",
    .goes_far = "goes {count} squares",
    .gives_up = "puts its man where it can be taken",
    .no_quiet_move = " None of the moves is quiet.",
    .deficit = " On the way it is behind by {worth}.",
    .no_other = " No other move does as well.",
    .one_other = " One other move does as well.",
    .several_others = " {count} other moves do as well.",
    .one_tempting = " At first sight one other move brings as much.",
    .tempting = " At first sight {count} other moves bring as much.",
    .one_as_good = " By captures and checks alone one other move comes to as much.",
    .as_good = " By captures and checks alone {count} other moves come to as much.",
    .one_failing = " One other capture, promotion or check comes to less.",
    .failing = " {count} other captures, promotions or checks come to less.",
    .answers = " {Other} has {answers:answer} to {first}; captures, promotions and checks among them: {count}.",
    .answers_on_the_way =
        " {Other} has {answers:answer} to {first}; captures, promotions and checks among them: {count}, and {more} later on.",
    .the_move = " The move {traits}",
    .the_nth_move = " The {nth} move {traits}",
    .another_move = ", the {nth} {traits}",
    .ordinals = {"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
                 "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth"},
};

} // namespace keysquare
