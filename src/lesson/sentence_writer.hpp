// SentenceWriter: fills the placeholders of templates for a finding.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <keysquare/lesson/explain.hpp>

#include "words.hpp"

namespace keysquare::detail {

/// Fills the placeholders of one template for one finding.
class SentenceWriter {
  public:
    SentenceWriter(const Position& position, const Finding& finding, const Words& words) noexcept
        : from_(start_of_line(position, finding)), finding_(finding), words_(words) {}

    [[nodiscard]] std::string fill(std::string_view pattern) const {
        return filled(pattern, [this](std::string_view key) { return value_of(key); });
    }

    /// What a placeholder stands for, without its brackets.
    [[nodiscard]] std::string value_of(std::string_view key) const {
        const Finding& f = finding_;
        const Placeholder asked{key};
        const std::string_view thing = asked.name;
        if (thing == "Side") return words_.side(f.side);
        if (thing == "Other") return words_.side(other(f.side));
        if (thing == "man") return piece(0, asked);
        if (thing == "Man") return capitalised(piece(0, asked));
        if (thing == "second") return piece(1, asked);
        if (thing == "third") return piece(2, asked);
        if (key == "squares") return words_.squares(f.squares);
        if (thing == "file") return words_.files(f.squares, asked.form);
        if (thing == "colour") return words_.colour(f.detail == Detail::dark);
        if (thing == "move") return f.line.empty() ? std::string{} : words_.move(from_, f.line.front());
        if (thing == "line") return words_.line(from_, f.line);
        if (thing == "point") return words_.line(from_, f.point);
        if (thing == "punish") return punishment();
        if (thing == "win" || thing == "wins") return words_.win(f.gain, f.mate, f.line.size(), key);
        if (thing == "loses") return words_.loss(-f.gain, f.mated, key);
        if (thing == "count") return who_is_ahead();
        if (thing == "ledger") return ledger();
        if (has(thing)) return words_.count(number(thing), asked);
        if (thing == "pieces") return all_pieces(asked);
        if (thing == "Pieces") return capitalised(all_pieces(asked));
        if (thing == "others") return other_pieces(asked);
        return unknown(key);
    }

  private:
    [[nodiscard]] std::string piece(std::size_t at, const Placeholder& asked) const {
        return at < finding_.pieces.size() ? words_.man(finding_.pieces[at], asked.form)
                                           : std::string{words_.vocabulary().no_man};
    }

    [[nodiscard]] std::string all_pieces(const Placeholder& asked) const {
        const auto& pieces = finding_.pieces;
        if (asked.chooses) return words_.count(static_cast<int>(pieces.size()), asked);
        return words_.men(pieces, asked.form);
    }

    /// All pieces but the first.
    [[nodiscard]] std::string other_pieces(const Placeholder& asked) const {
        const auto& pieces = finding_.pieces;
        return words_.men(BoundedList<Placed, 8>(pieces.begin() + (pieces.empty() ? 0 : 1), pieces.end()), asked.form);
    }

    /// " (12...Rxd5)": what follows on the first move.
    [[nodiscard]] std::string punishment() const {
        if (finding_.line.size() < 2) return {};
        const Line rest(finding_.line.begin() + 1, finding_.line.end());
        return " (" + words_.line(after(from_, finding_.line.front()), rest) + ")";
    }

    [[nodiscard]] std::string who_is_ahead() const {
        const int lead = finding_.number(Measure::material);
        if (lead == 0) return std::string{words_.vocabulary().level};
        const Side leader = lead > 0 ? finding_.side : other(finding_.side);
        return filled(words_.vocabulary().ahead, [&](std::string_view key) {
            const Placeholder asked{key};
            return asked.name == "Side" ? words_.side(leader) : words_.count(lead > 0 ? lead : -lead, asked);
        });
    }

    /// The items of the exchange ledger that speak for the side that is the exchange down.
    [[nodiscard]] std::string ledger() const {
        const Finding& f = finding_;
        const LedgerWords& words = words_.vocabulary().ledger;
        const bool for_giver =
            f.detail == Detail::enough_compensation || f.detail == Detail::more_than_enough_compensation;
        std::vector<std::string> items;
        const auto add = [&](int count, std::string_view pattern) {
            if (count <= 0) return;
            items.push_back(
                filled(pattern, [&](std::string_view key) { return words_.count(count, Placeholder{key}); }));
        };
        add(for_giver ? f.number(Measure::pawns) : -f.number(Measure::pawns), words.pawns);
        add(f.number(Measure::bishop_pairs), words.bishop_pair);
        add(f.number(Measure::outposts), words.outposts);
        add(f.number(Measure::passed_pawns), words.passed_pawns);
        add(f.number(Measure::missing_shield), words.exposed_king);
        add(f.number(Measure::bearing_men), words.bearing_men);
        add(f.number(Measure::rook_files, 1) == 0, words.no_rook_file);
        add(f.number(Measure::weak_pawns), words.weak_pawns);
        return items.empty() ? std::string{words.points} : words_.listed(items);
    }

    [[nodiscard]] bool has(std::string_view measure) const noexcept {
        return any_of(finding_.numbers, [&](const Number& number) { return name(number.measure) == measure; });
    }
    [[nodiscard]] int number(std::string_view measure) const noexcept {
        for (const Number& number : finding_.numbers)
            if (name(number.measure) == measure) return number.value;
        return 0;
    }

    Position from_;
    const Finding& finding_;
    const Words& words_;
};

} // namespace keysquare::detail
