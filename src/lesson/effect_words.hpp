// EffectSentences: the sentences about what a move did, in all languages.
#pragma once

#include <keysquare/board/literal.hpp>
#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// What is said about an effect. {played} is the move with its number, {Side} who played it, {Other} the other side;
/// {win}, {means} and {line} are of what is won, {better} is the better move with its number, {rest} what is lost after
/// it.
struct EffectSentences {
    EffectKind kind;  ///< what the move did
    Literal told;     ///< the whole sentence
    Literal verdict;  ///< what follows on a sentence that says what is won
    Literal question; ///< to ask in the position before the move
};

/// By language, in the order of `EffectKind`.
inline constexpr EffectSentences effect_sentences[language_count][4]{
    {
        {EffectKind::exploited, "{played} takes the chance to {win}{means}: {line}.", "{played} takes the chance.",
         "{Side} to move. What did the last move give away?"},
        {EffectKind::missed, "{played} misses the chance to {win}{means}: {line}.", "{played} misses it.",
         "{Side} to move. There is something to win. What, and how?"},
        {EffectKind::allowed, "{played} lets {Other} {win}{means}: {line}. After {better} {rest}.",
         "{played} allows it; after {better} {rest}.", "{Side} thinks of {played}. What would {Other} answer?"},
        {EffectKind::overlooked,
         "{played} overlooks that {Other} threatens to {win}{means}: {line}. After {better} {rest}.",
         "{played} overlooks it; after {better} {rest}.",
         "{Side} to move. First of all: what does {Other} threaten, and what can be done about it?"},
    },
    {
        {EffectKind::exploited, "{played} nutzt die Gelegenheit, {means}{win:zu}: {line}.",
         "{played} nutzt die Gelegenheit.", "{Side} ist am Zug. Was hat der letzte Zug preisgegeben?"},
        {EffectKind::missed, "{played} verpasst die Gelegenheit, {means}{win:zu}: {line}.",
         "{played} verpasst die Gelegenheit.", "{Side} ist am Zug. Es gibt etwas zu gewinnen. Was, und wie?"},
        {EffectKind::allowed, "{played} erlaubt {Other}, {means}{win:zu}: {line}. Nach {better} {rest}.",
         "{played} lässt das zu; nach {better} {rest}.", "{Side} erwägt {played}. Was würde {Other} antworten?"},
        {EffectKind::overlooked,
         "{played} übersieht, dass {Other} droht, {means}{win:zu}: {line}. Nach {better} {rest}.",
         "{played} übersieht das; nach {better} {rest}.",
         "{Side} ist am Zug. Zuerst: Was droht {Other}, und was lässt sich dagegen tun?"},
    },
};
static_assert(static_cast<std::size_t>(EffectKind::end_) == 4);

/// {rest}: what is lost after the better move.
struct RestSentences {
    Literal nothing; ///< nothing
    Literal only;    ///< only {worth}
};

/// By language.
inline constexpr RestSentences rest_sentences[language_count]{
    {"nothing is lost", "only {worth} is lost"},
    {"geht nichts verloren", "geht nur {worth:nom} verloren"},
};

} // namespace keysquare
