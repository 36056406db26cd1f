#include <keysquare/lesson/difficulty_sentences.hpp>

#include <vector>

#include "templates.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

/// Writes the paragraph of one side.
class DifficultyWriter {
  public:
    DifficultyWriter(const Difficulty& difficulty, Language language)
        : difficulty_(difficulty), words_(language),
          templates_(*detail::difficulty_templates[static_cast<std::size_t>(language)]) {}

    [[nodiscard]] std::string write() const {
        if (!difficulty_.has_turn) return told(templates_.no_turn);
        return choice() + at_stake() + line() + moves() + others() + answers();
    }

  private:
    [[nodiscard]] std::string told(std::string_view pattern, int count = 0, int pawns = 0) const {
        const Difficulty& d = difficulty_;
        return detail::filled(pattern, [&](std::string_view key) -> std::string {
            const detail::Placeholder asked{key};
            if (key == "Side") return words_.side(d.side);
            if (key == "Other") return words_.side(other(d.side));
            if (key == "has") return told(d.after_pass ? templates_.has_after_pass : templates_.has);
            if (asked.name == "legal") return words_.count(d.legal, asked);
            if (asked.name == "count") return words_.count(count, asked);
            if (asked.name == "worth") return words_.worth(pawns, key);
            if (asked.name == "moves") return words_.count(static_cast<int>(d.steps.size()), asked);
            if (key == "line") return words_.line(d.start, d.line);
            if (key == "first") return words_.move(d.start, d.line.front());
            if (asked.name == "answers") return words_.count(d.first(&LineStep::replies), asked);
            return std::to_string(d.sum(&LineStep::forcing_replies) - d.first(&LineStep::forcing_replies)); // {more}
        });
    }

    [[nodiscard]] std::string choice() const {
        const Difficulty& d = difficulty_;
        if (d.legal == 0) return told(templates_.no_move);
        if (d.mated) return told(templates_.mated);
        if (d.keeping == 0) return told(templates_.none_keeps);
        if (d.loss > 0)
            return told(d.legal == 1           ? templates_.one_move_loses
                        : d.keeping == d.legal ? templates_.all_lose
                        : d.keeping == 1       ? templates_.one_loses_least
                                               : templates_.some_lose_least,
                        d.keeping, d.loss);
        if (d.legal == 1) return told(templates_.one_move);
        if (d.keeping == d.legal) return told(templates_.all_keep);
        return told(d.keeping == 1 ? templates_.one_keeps : templates_.some_keep, d.keeping);
    }

    [[nodiscard]] std::string at_stake() const {
        const Difficulty& d = difficulty_;
        if (d.legal == 0 || d.mated) return {};
        if (d.checked) return told(templates_.checked);
        if (d.mate_at_stake) return told(templates_.mate_at_stake);
        return d.at_stake > 0 ? told(templates_.at_stake, 0, d.at_stake) : std::string{};
    }

    [[nodiscard]] std::string line() const {
        const Difficulty& d = difficulty_;
        if (d.legal == 0) return {};
        if (d.line.empty() && d.mated) return {};
        if (d.line.empty()) return told(templates_.nothing);
        const bool given = d.source == LineSource::given;
        if (d.mate) return told(given ? templates_.given_mates : templates_.mates);
        if (d.source == LineSource::holds) return told(d.loss > 0 ? templates_.holds_least : templates_.holds);
        if (!given) return told(templates_.wins, 0, d.gain);
        if (d.gain == 0) return told(templates_.given_even);
        return d.gain > 0 ? told(templates_.given_wins, 0, d.gain) : told(templates_.given_loses, 0, -d.gain);
    }

    /// "is quiet and goes backwards".
    [[nodiscard]] std::string traits_of(const LineStep& step) const {
        std::vector<std::string> traits;
        if (step.is_quiet()) traits.push_back(told(templates_.is_quiet));
        if (step.backward) traits.push_back(told(templates_.goes_back));
        if (step.is_long()) traits.push_back(told(templates_.goes_far, step.distance));
        if (step.gives_up) traits.push_back(told(templates_.gives_up));
        return words_.listed(traits);
    }

    /// "The first move is quiet, the third goes 5 squares."
    [[nodiscard]] std::string moves() const {
        const Difficulty& d = difficulty_;
        std::string text;
        for (std::size_t at = 0; at < d.steps.size(); ++at) {
            const std::string traits = traits_of(d.steps[at]);
            if (traits.empty()) continue;
            const std::string_view pattern = d.steps.size() == 1 ? templates_.the_move
                                             : text.empty()      ? templates_.the_nth_move
                                                                 : templates_.another_move;
            text += detail::filled(pattern, [&](std::string_view key) {
                return key == "nth" ? std::string{templates_.ordinals[at]} : traits;
            });
        }
        if (!text.empty()) text += '.';
        if (d.steps.size() > 1 && d.count(&LineStep::is_quiet) == 0) text += templates_.no_quiet_move;
        return d.deficit > 0 ? text + told(templates_.deficit, 0, d.deficit) : text;
    }

    /// The other moves that may be taken for the first one of the line, and those that fail.
    [[nodiscard]] std::string others() const {
        const Difficulty& d = difficulty_;
        const auto some = [&](int count, std::string_view one, std::string_view several) {
            return count == 0 ? std::string{} : told(count == 1 ? one : several, count);
        };
        const std::string equals = d.source != LineSource::wins ? std::string{}
                                   : d.winning_most == 1
                                       ? told(templates_.no_other)
                                       : some(d.winning_most - 1, templates_.one_other, templates_.several_others);
        return equals + some(d.first(&LineStep::tempting), templates_.one_tempting, templates_.tempting) +
               some(d.source == LineSource::holds ? 0 : d.as_good, templates_.one_as_good, templates_.as_good) +
               some(d.failing, templates_.one_failing, templates_.failing);
    }

    [[nodiscard]] std::string answers() const {
        const Difficulty& d = difficulty_;
        if (d.first(&LineStep::replies) == 0) return {};
        const int count = d.first(&LineStep::forcing_replies);
        return told(d.sum(&LineStep::forcing_replies) > count ? templates_.answers_on_the_way : templates_.answers,
                    count);
    }

    const Difficulty& difficulty_;
    detail::Words words_;
    const DifficultyTemplates& templates_;
};

} // namespace

std::string paragraph(const Difficulty& difficulty, Language language) {
    return DifficultyWriter{difficulty, language}.write();
}

std::string paragraph(const Difficulty& mover, const Difficulty& waiter, Language language) {
    return paragraph(mover, language) + ' ' + paragraph(waiter, language);
}

} // namespace keysquare
