// Any position through every feature. The bytes are a position, so that nearly all of them are one that is accepted.
#pragma once

#include <array>

#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/lesson/json.hpp>

#include "witness.hpp"

namespace keysquare::fuzz {

/// Bytes: flags (1: Black to move; 2, 4, 8, 16: castling K, Q, k, q), both kings' squares, file of a double step (0 to 7),
/// plies of the bound, what a claim must win and the nodes, and then a square and a man for each further one.
class PositionBytes {
  public:
    explicit PositionBytes(std::string_view bytes) : bytes_(bytes) {}

    [[nodiscard]] std::string fen() const {
        std::array<char, 64> board{};
        for (std::size_t at = 6; at + 1 < bytes_.size(); at += 2)
            board[at_byte(at) % 64] = "PNBRQpnbrq"[at_byte(at + 1) % 10];
        board[at_byte(1) % 64] = 'K';
        board[at_byte(2) % 64] = 'k';
        std::string text;
        for (std::size_t rank = 8; rank-- > 0;) {
            for (std::size_t file = 0; file < 8; ++file) {
                const char man = board[8 * rank + file];
                if (man != '\0')
                    text += man;
                else if (file > 0 && is_digit(text.back()))
                    ++text.back();
                else
                    text += '1';
            }
            text += rank > 0 ? '/' : ' ';
        }
        const bool black = (at_byte(0) & 1U) != 0;
        return text + (black ? "b " : "w ") + castling() + ' ' + en_passant(black) + " 0 1";
    }

    [[nodiscard]] Options options() const {
        Options options;
        options.bound.plies = static_cast<int>(at_byte(4) % longest_line);
        options.bound.nodes = 1 << at_byte(5) % 12U;
        options.least_gain = 1 + at_byte(5) / 64;
        return options;
    }

  private:
    [[nodiscard]] unsigned char at_byte(std::size_t at) const {
        return at < bytes_.size() ? static_cast<unsigned char>(bytes_[at]) : 0;
    }
    static bool is_digit(char sign) { return sign >= '1' && sign <= '8'; }

    [[nodiscard]] std::string castling() const {
        std::string text;
        for (unsigned right = 0; right < 4; ++right)
            if ((at_byte(0) >> (right + 1) & 1U) != 0) text += "KQkq"[right];
        return text.empty() ? "-" : text;
    }
    [[nodiscard]] std::string en_passant(bool black) const {
        if (at_byte(3) > 7) return "-";
        return {static_cast<char>('a' + at_byte(3)), black ? '3' : '6'};
    }

    std::string_view bytes_;
};

/// One of the list, another one in another position; null when it is empty. What costs most is asked about that alone.
template <class List> const typename List::value_type* any_of(const Position& position, const List& list) {
    return list.empty() ? nullptr : &list[position.key() % list.size()];
}

inline void require_parried(const Position& position, const Threat& threat, const Options& options) {
    const Parries found = parries(position, threat, options);
    if (const Parry* const one = any_of(position, found.moves)) require_stopped(position, threat, *one, options);
    require_sentence([&](Language language) { return sentence(position, threat, found, language); }, "parries");
}

inline void try_findings(const Position& position, const Options& options) {
    const Findings found = findings(position, options);
    for (const Finding& finding : found) {
        require(finding.mate || finding.mated || finding.gain >= options.least_gain || finding.gain <= 0,
                "a claim that wins too little: " + std::string{name(finding.theme)});
        require_witness(position, finding);
    }
    const DiagramOptions marks = diagram_of(position, {found.data(), found.size()});
    require(diagram(position, marks).find("</svg>") != std::string::npos, "a diagram without end");
    require(findings_json(position, {found.data(), found.size()}).back() == '}', "JSON without end");
    std::array<std::int16_t, feature_count> numbers{};
    feature_vector(position, numbers);

    const BoardView view{position, options};
    for (const Square square : position.occupied()) require_witness(view, mobility(view, square));
}

inline void try_questions(const Position& position, const Options& options) {
    for (const Side side : all_sides) {
        const Threats found = threats(position, side, options);
        for (const Threat& threat : found) require_witness(position, threat);
        const Threat* const threat = side == position.waiter() ? any_of(position, found) : nullptr;
        if (threat != nullptr) require_parried(position, *threat, options);
        require_witness(difficulty(position, side, options));
    }
    const Candidates found = candidates(position, static_cast<int>(most_candidates), options);
    for (const Candidate& candidate : found) require_witness(position, candidate);
    if (const Candidate* const one = any_of(position, found))
        require_witness(position, answers(position, one->move, options), options);
    const Outlook seen = outlook(position, options);
    for (const SideOutlook& side : seen.sides) require_witness(position, side);
    require_sentence([&](Language language) { return paragraph(position, seen, language); }, "outlook");
    if (const auto exchanged = exchange_outlook(position, options))
        require_sentence([&](Language language) { return paragraph(position, *exchanged, language); }, "ledger");
}

inline void try_position(std::string_view bytes) {
    const PositionBytes input{bytes};
    const Result<Position> position = read_fen(input.fen(), Strictness::lenient);
    if (!position) return;
    try_findings(*position, input.options());
    try_questions(*position, input.options());
}

} // namespace keysquare::fuzz
