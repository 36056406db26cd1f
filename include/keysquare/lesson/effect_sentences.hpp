// The English sentences for what a move did, and the questions that go with it.
#pragma once

#include <string>

#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/theme_words.hpp>
#include <keysquare/thinking/move_effects.hpp>

namespace keysquare {

/// What is said about an effect. {played} is the move with its number, {Side} who played it, {Other} the other side;
/// {win}, {means} and {line} are of what is won, {better} is the better move with its number, {rest} what is lost after it.
struct EffectSentences {
    EffectKind kind;           ///< what the move did
    std::string_view told;     ///< the whole sentence
    std::string_view verdict;  ///< what follows on a sentence that says what is won
    std::string_view question; ///< to ask in the position before the move
};

/// In the order of `EffectKind`.
inline constexpr std::array effect_sentences{
    EffectSentences{EffectKind::exploited, "{played} takes the chance to {win}{means}: {line}.",
                    "{played} takes the chance.", "{Side} to move. What did the last move give away?"},
    EffectSentences{EffectKind::missed, "{played} misses the chance to {win}{means}: {line}.", "{played} misses it.",
                    "{Side} to move. There is something to win. What, and how?"},
    EffectSentences{EffectKind::allowed, "{played} lets {Other} {win}{means}: {line}. After {better} {rest}.",
                    "{played} allows it; after {better} {rest}.",
                    "{Side} thinks of {played}. What would {Other} answer?"},
    EffectSentences{EffectKind::overlooked,
                    "{played} overlooks that {Other} threatens to {win}{means}: {line}. After {better} {rest}.",
                    "{played} overlooks it; after {better} {rest}.",
                    "{Side} to move. First of all: what does {Other} threaten, and what can be done about it?"},
};

/// One sentence about what `move`, played in `position`, did; it says nothing that the effect does not hold.
[[nodiscard]] std::string sentence(const Position& position, Move move, const MoveEffect& effect);

/// What follows on a sentence that says what is won, its finding's or its threat's.
[[nodiscard]] std::string verdict(const Position& position, Move move, const MoveEffect& effect);

/// The question to ask about it in `position`.
[[nodiscard]] std::string question(const Position& position, Move move, const MoveEffect& effect);

/// The question to ask about a finding; empty when its theme is none by itself.
[[nodiscard]] std::string question(const Finding& finding);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The position that what is won belongs to.
inline Position place_of(const Position& position, Move move, const MoveEffect& effect) noexcept {
    return effect.kind == EffectKind::allowed ? after(position, move) : position;
}

inline std::string filled_for_effect(const Position& position, Move move, const MoveEffect& effect,
                                     std::string_view pattern) {
    const Position where = place_of(position, move, effect);
    return filled(pattern, [&](std::string_view key) -> std::string {
        if (key == "played") return numbered_san(position, move);
        if (key == "Side") return side_name(position.mover());
        if (key == "Other") return side_name(position.waiter());
        if (key == "means")
            return effect.theme == Theme::end_ ? std::string{} : std::string{words_of(effect.theme).means};
        if (key == "better") return numbered_san(position, effect.better);
        if (key == "rest") return effect.left == 0 ? "nothing is lost" : "only " + worth(effect.left) + " is lost";
        return filled_for(where, effect.win, std::string{"{"}.append(key).append("}"));
    });
}

} // namespace detail

inline std::string sentence(const Position& position, Move move, const MoveEffect& effect) {
    return detail::filled_for_effect(position, move, effect,
                                     effect_sentences[static_cast<std::size_t>(effect.kind)].told);
}

inline std::string verdict(const Position& position, Move move, const MoveEffect& effect) {
    return detail::filled_for_effect(position, move, effect,
                                     effect_sentences[static_cast<std::size_t>(effect.kind)].verdict);
}

inline std::string question(const Position& position, Move move, const MoveEffect& effect) {
    return detail::filled_for_effect(position, move, effect,
                                     effect_sentences[static_cast<std::size_t>(effect.kind)].question);
}

inline std::string question(const Finding& finding) {
    return detail::filled(words_of(finding.theme).question, [&](std::string_view key) {
        return detail::side_name(key == "Side" ? finding.side : other(finding.side));
    });
}

} // namespace keysquare
