#include <keysquare/lesson/explain_threats.hpp>

#include <vector>

#include "thinking/threat_parts.hpp"
#include "threat_sentences.hpp"
#include "threat_writer.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

/// More moves than this are counted, not named.
constexpr std::size_t most_moves_named = 6;

/// "f4, g3 and h3", "a3, a4, b3, b4, c3, c4 and 5 more".
template <class Wanted>
std::string moves_named(const Position& position, const Parries& parries, const detail::Words& words, Wanted wanted) {
    std::vector<std::string> list;
    int more = 0;
    for (const Parry& parry : parries.moves) {
        if (!wanted(parry)) continue;
        if (list.size() < most_moves_named)
            list.push_back(words.move(position, parry.move));
        else
            ++more;
    }
    if (more > 0)
        list.push_back(
            detail::filled(parry_sentences[static_cast<std::size_t>(words.language())].more,
                           [&](std::string_view key) { return words.count(more, detail::Placeholder{key}); }));
    return words.listed(list);
}

Position start_of_line(const Position& position, const Threat& threat) noexcept {
    return threat.after_pass ? turned(position) : position;
}

} // namespace

Finding as_finding(const Position& position, const Threat& threat) {
    Finding finding;
    finding.side = threat.side;
    finding.after_pass = threat.after_pass;
    finding.mate = threat.mate;
    finding.gain = threat.gain;
    finding.line = threat.line;
    finding.squares = threat.squares;
    if (threat.target == Square::none) return finding;
    if (const Piece man = position.piece_at(threat.target)) {
        finding.pieces.push_back({threat.target, man});
        finding.squares = finding.squares.without(threat.target);
    } else {
        finding.squares = finding.squares.with(threat.target);
    }
    return finding;
}

std::string sentence(const Position& position, const Threat& threat, Language language) {
    if (threat.line.empty()) return {};
    const Position start = start_of_line(position, threat);
    const Move first = threat.line.front();
    const bool at_once =
        captured_by(start, first) != Kind::none ? detail::taken_on(start, first) == threat.target : first.promotes();
    const ThreatSentences& rows =
        (threat.after_pass ? threat_after_pass : threat_at_once)[static_cast<std::size_t>(language)];
    return detail::filled_for(position, threat,
                              threat.mate ? rows.mate
                              : at_once   ? rows.at_once
                                          : rows.aimed,
                              detail::Words{language});
}

std::string sentence(const Position& position, const Threat& threat, const Parries& parries, Language language) {
    const ParrySentences& rows = parry_sentences[static_cast<std::size_t>(language)];
    const detail::Words words{language};
    std::string moves;
    std::ptrdiff_t count = 0;
    const auto fill = [&](std::string_view pattern) {
        return detail::filled(pattern, [&](std::string_view key) -> std::string {
            const detail::Placeholder asked{key};
            if (key == "threat") return words.move(start_of_line(position, threat), threat.line.front());
            if (key == "moves") return moves;
            if (asked.name == "count") return words.count(static_cast<int>(count), asked);
            if (key == "legal") return std::to_string(parries.legal);
            if (key == "natural") return std::to_string(parries.natural);
            return std::to_string(parries.natural_stopping);
        });
    };
    const auto add_those = [&](std::string& text, std::string_view pattern, auto wanted) {
        count = detail::count_if(parries.moves, wanted);
        moves = moves_named(position, parries, words, wanted);
        if (count > 0) text += (text.empty() ? "" : " ") + fill(pattern);
        return count > 0;
    };
    if (parries.moves.empty()) return fill(rows.nothing);
    std::string text;
    const auto ends_all = [](const Parry& parry) { return parry.ends_all; };
    const bool one = detail::count_if(parries.moves, ends_all) == 1;
    if (!add_those(text, one ? rows.only : rows.several, ends_all))
        add_those(text, rows.none_ends, [](const Parry& parry) { return parry.stops; });
    add_those(text, rows.counters, [](const Parry& parry) { return parry.counters; });
    add_those(text, rows.useful,
              [](const Parry& parry) { return parry.ends_all && !parry.counters && parry.is_useful(); });
    if (parries.every_natural_reply_stops())
        text += " " + fill(rows.every);
    else if (parries.most_natural_replies_stop())
        text += " " + fill(rows.most);
    return text;
}

std::string sentence(const Position& position, const Answer& answer, Language language) {
    const AnswerSentences& rows = answer_sentences[static_cast<std::size_t>(language)];
    const detail::Words words{language};
    Threat reply = answer.reply;
    reply.side = position.waiter();
    const std::string_view row = reply.line.empty()  ? rows.nothing
                                 : answer.walks_into ? rows.walks_into
                                 : answer.leaves     ? rows.leaves
                                                     : rows.even;
    return detail::filled_for(after(position, answer.move), reply, row, words, words.move(position, answer.move));
}

} // namespace keysquare
