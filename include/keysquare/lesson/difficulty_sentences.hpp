// The English paragraph about what a side has to see. It says nothing that the counts do not hold.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <keysquare/lesson/explain.hpp>
#include <keysquare/thinking/difficulty.hpp>

namespace keysquare {

/// One short English paragraph for one side: its choice, what is at stake, the line to be seen and its moves, what
/// looks as good, and the replies that have to be looked at.
[[nodiscard]] std::string paragraph(const Difficulty& difficulty);

/// The paragraph for both sides, the mover first.
[[nodiscard]] std::string paragraph(const Difficulty& mover, const Difficulty& waiter);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// The templates. {Side}, {Other}: the side that has to see something, and the other one; {legal}: "34 legal moves";
/// {has}: "White has", "With Black passing, White has"; {count}: the count in question; {worth}: "a pawn", "material
/// worth 3 pawns"; {moves}: "3 moves"; {line}: the line to be seen; {first}: its first move; {answers}:
/// "31 answers", to that; {more}: how many forcing ones there are to later moves.
namespace difficulty_templates {
inline constexpr std::string_view no_turn = "{Other} stands in check and can't pass, so {Side} has no turn.";
inline constexpr std::string_view has = "{Side} has";
inline constexpr std::string_view has_after_pass = "With {Other} passing, {Side} has";
inline constexpr std::string_view no_move = "{has} no legal move.";
inline constexpr std::string_view mated = "{has} {legal}, and is mated by force whatever it plays.";
inline constexpr std::string_view one_move = "{has} one legal move.";
inline constexpr std::string_view all_keep = "{has} {legal}, and all keep the material.";
inline constexpr std::string_view some_keep = "{has} {legal}, and {count} keep the material.";
inline constexpr std::string_view one_keeps = "{has} {legal}, and only one keeps the material.";
inline constexpr std::string_view none_keeps = "{has} {legal}, and none is known to keep the material.";
inline constexpr std::string_view one_move_loses = "{has} one legal move, which loses {worth}.";
inline constexpr std::string_view all_lose = "{has} {legal}, and each of them loses {worth}.";
inline constexpr std::string_view some_lose_least = "{has} {legal}, and {count} lose no more than {worth}.";
inline constexpr std::string_view one_loses_least = "{has} {legal}, and only one loses no more than {worth}.";
inline constexpr std::string_view checked = " It stands in check.";
inline constexpr std::string_view at_stake = " If it did nothing, {Other} would win {worth}.";
inline constexpr std::string_view mate_at_stake = " If it did nothing, {Other} would mate.";

inline constexpr std::string_view nothing = " There is no line that it must see.";
inline constexpr std::string_view wins = " To win {worth} it must see {moves} ahead: {line}.";
inline constexpr std::string_view mates = " To mate it must see {moves} ahead: {line}.";
inline constexpr std::string_view holds = " To meet this it must see {moves} ahead: {line}.";
inline constexpr std::string_view holds_least = " To lose no more than that it must see {moves} ahead: {line}.";
inline constexpr std::string_view given_wins = " The line that it must see wins {worth} in {moves}: {line}.";
inline constexpr std::string_view given_mates = " The line that it must see mates in {moves}: {line}.";
inline constexpr std::string_view given_even = " The line that it must see wins nothing, in {moves}: {line}.";
inline constexpr std::string_view given_loses = " The line that it must see gives up {worth} in {moves}: {line}.";

inline constexpr std::string_view is_quiet = "is quiet";
inline constexpr std::string_view goes_back = "goes backwards";
inline constexpr std::string_view goes_far = "goes {count} squares";
inline constexpr std::string_view gives_up = "puts its man where it can be taken";
inline constexpr std::string_view no_quiet_move = " None of the moves is quiet.";
inline constexpr std::string_view deficit = " On the way it is behind by {worth}.";

inline constexpr std::string_view no_other = " No other move does as well.";
inline constexpr std::string_view one_other = " One other move does as well.";
inline constexpr std::string_view several_others = " {count} other moves do as well.";
inline constexpr std::string_view one_tempting = " At first sight one other move brings as much.";
inline constexpr std::string_view tempting = " At first sight {count} other moves bring as much.";
inline constexpr std::string_view one_as_good = " By captures and checks alone one other move comes to as much.";
inline constexpr std::string_view as_good = " By captures and checks alone {count} other moves come to as much.";
inline constexpr std::string_view one_failing = " One other capture, promotion or check comes to less.";
inline constexpr std::string_view failing = " {count} other captures, promotions or checks come to less.";
inline constexpr std::string_view answers =
    " {Other} has {answers} to {first}; captures, promotions and checks among them: {count}.";
inline constexpr std::string_view answers_on_the_way =
    " {Other} has {answers} to {first}; captures, promotions and checks among them: {count}, and {more} later on.";
} // namespace difficulty_templates

/// "first", "second", ...: a line has no more moves of one side.
[[nodiscard]] constexpr std::string_view ordinal(std::size_t at) noexcept {
    constexpr std::string_view words[] = {"first",      "second",     "third",     "fourth",   "fifth",    "sixth",
                                          "seventh",    "eighth",     "ninth",     "tenth",    "eleventh", "twelfth",
                                          "thirteenth", "fourteenth", "fifteenth", "sixteenth"};
    static_assert(std::size(words) == (longest_line + 1) / 2);
    return words[at];
}

/// Writes the paragraph of one side.
class DifficultyWriter {
  public:
    explicit DifficultyWriter(const Difficulty& difficulty) : difficulty_(difficulty) {}

    [[nodiscard]] std::string write() const {
        if (!difficulty_.has_turn) return told(difficulty_templates::no_turn);
        return choice() + at_stake() + line() + moves() + others() + answers();
    }

  private:
    [[nodiscard]] std::string told(std::string_view pattern, int count = 0, int pawns = 0) const {
        const Difficulty& d = difficulty_;
        return filled(pattern, [&](std::string_view key) -> std::string {
            if (key == "Side") return side_name(d.side);
            if (key == "Other") return side_name(other(d.side));
            if (key == "has")
                return told(d.after_pass ? difficulty_templates::has_after_pass : difficulty_templates::has);
            if (key == "legal") return counted(d.legal, "legal move");
            if (key == "count") return std::to_string(count);
            if (key == "worth") return worth(pawns);
            if (key == "moves") return counted(static_cast<int>(d.steps.size()), "move");
            if (key == "line") return line_text(d.start, d.line);
            if (key == "first") return san(d.start, d.line.front());
            if (key == "answers") return counted(d.first(&LineStep::replies), "answer");
            return std::to_string(d.sum(&LineStep::forcing_replies) - d.first(&LineStep::forcing_replies)); // {more}
        });
    }

    [[nodiscard]] std::string choice() const {
        namespace templates = difficulty_templates;
        const Difficulty& d = difficulty_;
        if (d.legal == 0) return told(templates::no_move);
        if (d.mated) return told(templates::mated);
        if (d.keeping == 0) return told(templates::none_keeps);
        if (d.loss > 0)
            return told(d.legal == 1           ? templates::one_move_loses
                        : d.keeping == d.legal ? templates::all_lose
                        : d.keeping == 1       ? templates::one_loses_least
                                               : templates::some_lose_least,
                        d.keeping, d.loss);
        if (d.legal == 1) return told(templates::one_move);
        if (d.keeping == d.legal) return told(templates::all_keep);
        return told(d.keeping == 1 ? templates::one_keeps : templates::some_keep, d.keeping);
    }

    [[nodiscard]] std::string at_stake() const {
        const Difficulty& d = difficulty_;
        if (d.legal == 0 || d.mated) return {};
        if (d.checked) return told(difficulty_templates::checked);
        if (d.mate_at_stake) return told(difficulty_templates::mate_at_stake);
        return d.at_stake > 0 ? told(difficulty_templates::at_stake, 0, d.at_stake) : std::string{};
    }

    [[nodiscard]] std::string line() const {
        namespace templates = difficulty_templates;
        const Difficulty& d = difficulty_;
        if (d.legal == 0) return {};
        if (d.line.empty() && d.mated) return {};
        if (d.line.empty()) return told(templates::nothing);
        const bool given = d.source == LineSource::given;
        if (d.mate) return told(given ? templates::given_mates : templates::mates);
        if (d.source == LineSource::holds) return told(d.loss > 0 ? templates::holds_least : templates::holds);
        if (!given) return told(templates::wins, 0, d.gain);
        if (d.gain == 0) return told(templates::given_even);
        return d.gain > 0 ? told(templates::given_wins, 0, d.gain) : told(templates::given_loses, 0, -d.gain);
    }

    /// "is quiet and goes backwards".
    [[nodiscard]] std::string traits_of(const LineStep& step) const {
        std::vector<std::string> traits;
        if (step.is_quiet()) traits.push_back(told(difficulty_templates::is_quiet));
        if (step.backward) traits.push_back(told(difficulty_templates::goes_back));
        if (step.is_long()) traits.push_back(told(difficulty_templates::goes_far, step.distance));
        if (step.gives_up) traits.push_back(told(difficulty_templates::gives_up));
        return traits.empty() ? std::string{} : listed(traits);
    }

    /// "The first move is quiet, the third goes 5 squares."
    [[nodiscard]] std::string moves() const {
        const Difficulty& d = difficulty_;
        std::string text;
        for (std::size_t at = 0; at < d.steps.size(); ++at) {
            const std::string traits = traits_of(d.steps[at]);
            if (traits.empty()) continue;
            text += text.empty() ? " The " : ", the ";
            if (d.steps.size() > 1) text += std::string{ordinal(at)} + ' ';
            if (text.find("move ") == std::string::npos) text += "move ";
            text += traits;
        }
        if (!text.empty()) text += '.';
        if (d.steps.size() > 1 && d.count(&LineStep::is_quiet) == 0) text += difficulty_templates::no_quiet_move;
        return d.deficit > 0 ? text + told(difficulty_templates::deficit, 0, d.deficit) : text;
    }

    /// The other moves that may be taken for the first one of the line, and those that fail.
    [[nodiscard]] std::string others() const {
        namespace templates = difficulty_templates;
        const Difficulty& d = difficulty_;
        const auto some = [&](int count, std::string_view one, std::string_view several) {
            return count == 0 ? std::string{} : told(count == 1 ? one : several, count);
        };
        const std::string equals = d.source != LineSource::wins ? std::string{}
                                   : d.winning_most == 1
                                       ? told(templates::no_other)
                                       : some(d.winning_most - 1, templates::one_other, templates::several_others);
        return equals + some(d.first(&LineStep::tempting), templates::one_tempting, templates::tempting) +
               some(d.source == LineSource::holds ? 0 : d.as_good, templates::one_as_good, templates::as_good) +
               some(d.failing, templates::one_failing, templates::failing);
    }

    [[nodiscard]] std::string answers() const {
        const Difficulty& d = difficulty_;
        if (d.first(&LineStep::replies) == 0) return {};
        const int count = d.first(&LineStep::forcing_replies);
        return told(d.sum(&LineStep::forcing_replies) > count ? difficulty_templates::answers_on_the_way
                                                              : difficulty_templates::answers,
                    count);
    }

    const Difficulty& difficulty_;
};

} // namespace detail

inline std::string paragraph(const Difficulty& difficulty) { return detail::DifficultyWriter{difficulty}.write(); }

inline std::string paragraph(const Difficulty& mover, const Difficulty& waiter) {
    return paragraph(mover) + ' ' + paragraph(waiter);
}

} // namespace keysquare
