#include <keysquare/lesson/explain.hpp>

#include "sentence_writer.hpp"
#include "sentences.hpp"

namespace keysquare {

std::string_view move_letters(Language language) noexcept { return vocabulary_of(language).move_letters; }

std::string move_text(const Position& position, Move move, Language language) {
    return detail::with_letters_of(language, san(position, move));
}

std::string line_text(const Position& from, const Line& line, Language language) {
    std::string text;
    Position position = from;
    for (const Move move : line) {
        if (!text.empty()) text += ' ';
        if (position.mover() == Side::white)
            text += std::to_string(position.move_number()) + '.';
        else if (text.empty())
            text += std::to_string(position.move_number()) + "...";
        text += move_text(position, move, language);
        position = after(position, move);
    }
    return text;
}

Position start_of_line(const Position& position, const Finding& finding) noexcept {
    const Position start = finding.after_pass ? turned(position) : position;
    return finding.removed == Square::none ? start : without(start, finding.removed);
}

std::string sentence(const Position& position, const Finding& finding, Language language) {
    const SentenceRow* row = sentence_row(finding, language);
    if (!row) return {};
    const detail::Words words{language};
    const detail::SentenceWriter writer{position, finding, words};
    if (finding.line.empty() && !row->idle.empty()) return writer.fill(row->idle);
    return writer.fill(finding.after_pass && !row->after_pass.empty() ? row->after_pass : row->now);
}

} // namespace keysquare
