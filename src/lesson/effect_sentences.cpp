#include <keysquare/lesson/effect_sentences.hpp>

#include <keysquare/lesson/theme_words.hpp>

#include "effect_words.hpp"
#include "threat_writer.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

std::string filled_for_effect(const Position& position, Move move, const MoveEffect& effect,
                              Literal EffectSentences::*pattern, Language language) {
    const Position where = effect.is_after_move() ? after(position, move) : position;
    const auto at = static_cast<std::size_t>(language);
    const detail::Words words{language};
    return detail::filled(
        effect_sentences[at][static_cast<std::size_t>(effect.kind)].*pattern, [&](std::string_view key) -> std::string {
            if (key == "played") return words.numbered(position, move);
            if (key == "Side") return words.side(position.mover());
            if (key == "Other") return words.side(position.waiter());
            if (key == "means")
                return effect.theme == Theme::end_ ? std::string{}
                                                   : std::string{words_of(effect.theme, language).means};
            if (key == "better") return words.numbered(position, effect.better);
            if (key == "rest")
                return detail::filled(effect.left == 0 ? rest_sentences[at].nothing : rest_sentences[at].only,
                                      [&](std::string_view worth) { return words.worth(effect.left, worth); });
            return detail::filled_for(where, effect.win, std::string{"{"}.append(key).append("}"), words);
        });
}

} // namespace

std::string sentence(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return filled_for_effect(position, move, effect, &EffectSentences::told, language);
}

std::string verdict(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return filled_for_effect(position, move, effect, &EffectSentences::verdict, language);
}

std::string question(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return filled_for_effect(position, move, effect, &EffectSentences::question, language);
}

std::string question(const Finding& finding, Language language) {
    const detail::Words words{language};
    return detail::filled(words_of(finding.theme, language).question, [&](std::string_view key) {
        return words.side(key == "Side" ? finding.side : other(finding.side));
    });
}

} // namespace keysquare
