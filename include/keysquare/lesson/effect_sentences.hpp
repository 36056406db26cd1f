// The sentences for what a move did, and the questions that go with it.
#pragma once

#include <string>

#include <keysquare/board/literal.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/theme_words.hpp>
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

inline constexpr RestSentences rest_sentences[language_count]{
    ///< by language
    {"nothing is lost", "only {worth} is lost"},
    {"geht nichts verloren", "geht nur {worth:nom} verloren"},
};

/// One sentence about what `move`, played in `position`, did; it says nothing that the effect does not hold.
[[nodiscard]] std::string sentence(const Position& position, Move move, const MoveEffect& effect,
                                   Language language = Language::english);

/// What follows on a sentence that says what is won, its finding's or its threat's.
[[nodiscard]] std::string verdict(const Position& position, Move move, const MoveEffect& effect,
                                  Language language = Language::english);

/// The question to ask about it in `position`.
[[nodiscard]] std::string question(const Position& position, Move move, const MoveEffect& effect,
                                   Language language = Language::english);

/// The question to ask about a finding; empty when its theme is none by itself.
[[nodiscard]] std::string question(const Finding& finding, Language language = Language::english);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The position that what is won belongs to.
inline Position place_of(const Position& position, Move move, const MoveEffect& effect) noexcept {
    return effect.kind == EffectKind::allowed ? after(position, move) : position;
}

inline std::string filled_for_effect(const Position& position, Move move, const MoveEffect& effect,
                                     Literal EffectSentences::*pattern, Language language) {
    const Position where = place_of(position, move, effect);
    const auto at = static_cast<std::size_t>(language);
    const Words words{language};
    return filled(effect_sentences[at][static_cast<std::size_t>(effect.kind)].*pattern,
                  [&](std::string_view key) -> std::string {
                      if (key == "played") return words.numbered(position, move);
                      if (key == "Side") return words.side(position.mover());
                      if (key == "Other") return words.side(position.waiter());
                      if (key == "means")
                          return effect.theme == Theme::end_ ? std::string{}
                                                             : std::string{words_of(effect.theme, language).means};
                      if (key == "better") return words.numbered(position, effect.better);
                      if (key == "rest")
                          return filled(effect.left == 0 ? rest_sentences[at].nothing : rest_sentences[at].only,
                                        [&](std::string_view worth) { return words.worth(effect.left, worth); });
                      return filled_for(where, effect.win, std::string{"{"}.append(key).append("}"), words);
                  });
}

} // namespace detail

inline std::string sentence(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return detail::filled_for_effect(position, move, effect, &EffectSentences::told, language);
}

inline std::string verdict(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return detail::filled_for_effect(position, move, effect, &EffectSentences::verdict, language);
}

inline std::string question(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return detail::filled_for_effect(position, move, effect, &EffectSentences::question, language);
}

inline std::string question(const Finding& finding, Language language) {
    const detail::Words words{language};
    return detail::filled(words_of(finding.theme, language).question, [&](std::string_view key) {
        return words.side(key == "Side" ? finding.side : other(finding.side));
    });
}

} // namespace keysquare
