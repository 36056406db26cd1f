#include <keysquare/lesson/outlook_sentences.hpp>

#include <vector>

#include <keysquare/features/exchange_imbalance.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/thinking/stop.hpp>

#include "templates.hpp"
#include "words.hpp"

namespace keysquare {

namespace {

/// Writes about one side.
class OutlookWriter {
  public:
    OutlookWriter(const Position& position, const SideOutlook& side, Language language)
        : position_(position), side_(side), turn_(turn_of(position, side.side).value_or(position)), words_(language),
          rows_(detail::outlook_words[static_cast<std::size_t>(language)]),
          templates_(*detail::outlook_templates[static_cast<std::size_t>(language)]) {}

    /// `equilibrium`: that there is no plan is said of both sides together.
    [[nodiscard]] std::string write(bool equilibrium) const {
        if (!side_.exists) return fill(templates_.no_turn);
        if (side_.legal == 0)
            return side_.in_check ? fill(templates_.mated)
                                  : fill(now_or(templates_.no_move, templates_.no_move_after_pass));
        std::string text = side_.in_check ? fill(templates_.in_check) : useful();
        if (side_.only_move) add(text, fill(templates_.only));
        if (!side_.threats.empty()) add(text, sentence(position_, side_.threats.front(), words_.language()));
        if (side_.no_plan && !equilibrium) add(text, fill(templates_.no_plan));
        if (const BestSquare* best = most_gaining()) add(text, said(*best));
        return text;
    }

  private:
    static void add(std::string& text, const std::string& sentence) { text += " " + sentence; }

    [[nodiscard]] std::string useful() const {
        if (side_.useful.empty())
            return fill(side_.merely_safe.empty() ? now_or(templates_.none_safe, templates_.none_safe_after_pass)
                                                  : now_or(templates_.none_useful, templates_.none_useful_after_pass));
        std::size_t named = 0;
        std::vector<std::string> words;
        for (KindOfMove& kind : kinds()) {
            if (words.size() == most_useful_kinds) break;
            while (kind.moves.size() > most_useful_of_a_kind) kind.moves.pop_back();
            words.push_back(words_.listed(kind.moves) + " (" + kind.reason + ")");
            named += kind.moves.size();
        }
        const bool all = named == side_.useful.size();
        return fill(all ? now_or(templates_.named, templates_.named_after_pass)
                        : now_or(templates_.among, templates_.among_after_pass),
                    words_.listed(words));
    }

    /// Useful moves with the same first reason.
    struct KindOfMove {
        std::string reason;
        std::vector<std::string> moves;
    };

    /// What is told first at the front.
    [[nodiscard]] std::vector<KindOfMove> kinds() const {
        std::vector<const UsefulMove*> moves;
        for (const UsefulMove& move : side_.useful) moves.push_back(&move);
        const auto place = [this](const UsefulMove* move) { return place_of(move->reasons.front().fact); };
        detail::sort_few(moves, [&](const UsefulMove* a, const UsefulMove* b) { return place(a) < place(b); });
        std::vector<KindOfMove> kinds;
        for (const UsefulMove* move : moves) {
            const MoveReason& reason = move->reasons.front();
            const std::string text = said(reason, rows_.first[place_of(reason.fact)].of_moves);
            const std::size_t at = detail::place_of(kinds, [&](const KindOfMove& kind) { return kind.reason == text; });
            if (at == kinds.size()) kinds.push_back({text, {}});
            kinds[at].moves.push_back(words_.move(turn_, move->move));
        }
        return kinds;
    }

    [[nodiscard]] std::string_view now_or(std::string_view now, std::string_view after_pass) const noexcept {
        return side_.after_pass ? after_pass : now;
    }

    [[nodiscard]] std::string fill(std::string_view pattern, const std::string& moves = {}) const {
        return detail::filled(pattern, [&](std::string_view key) -> std::string {
            const detail::Placeholder asked{key};
            if (key == "Side") return words_.side(side_.side);
            if (key == "Other") return words_.side(other(side_.side));
            if (asked.name == "legal") return words_.count(side_.legal, asked);
            if (asked.name == "safe") return words_.count(static_cast<int>(side_.merely_safe.size()), asked);
            if (asked.name == "count") return words_.count(static_cast<int>(side_.useful.size()), asked);
            if (key == "move") return words_.move(turn_, side_.only_move);
            return moves;
        });
    }

    /// How early a reason is told.
    [[nodiscard]] std::size_t place_of(MoveFact fact) const noexcept {
        std::size_t at = 0;
        for (const OutlookWords& row : rows_) {
            if (row.fact == fact) break;
            ++at;
        }
        return at;
    }

    [[nodiscard]] std::string said(const MoveReason& reason, std::string_view pattern) const {
        return detail::filled(pattern, [&](std::string_view key) -> std::string {
            const detail::Placeholder asked{key};
            if (asked.name == "worth") return words_.worth(reason.amount, key);
            if (asked.name == "count") return words_.count(reason.amount, asked);
            return words_.squares(reason.squares);
        });
    }

    /// The best square with the most to be gained.
    [[nodiscard]] const BestSquare* most_gaining() const {
        const BestSquare* most = nullptr;
        for (const BestSquare& best : side_.best_squares)
            if (!most || gains_more(best.facts, most->facts)) most = &best;
        return most;
    }

    [[nodiscard]] std::string said(const BestSquare& best) const {
        std::vector<std::string> gains;
        for (const MoveReason& gain : best.gains)
            if (gains.size() < 2) gains.push_back(said(gain, rows_.first[place_of(gain.fact)].there));
        return detail::filled(best.route.size() == 1 ? templates_.best_in_one : templates_.best_in_two,
                              [&](std::string_view key) -> std::string {
                                  const detail::Placeholder asked{key};
                                  if (asked.name == "man") return words_.man(best.piece, asked.form);
                                  if (key == "square") return std::string{name(best.square)};
                                  if (key == "stop") return std::string{name(best.route.front().target())};
                                  return words_.listed(gains);
                              });
    }

    const Position& position_;
    const SideOutlook& side_;
    Position turn_;
    detail::Words words_;
    TableOf<OutlookWords> rows_;
    const OutlookTemplates& templates_;
};

/// "White has 6 useful moves and no threat".
std::string moves_and_threats(const SideOutlook& side, const detail::Words& words) {
    const OutlookTemplates& templates = *detail::outlook_templates[static_cast<std::size_t>(words.language())];
    return detail::filled(side.exists ? templates.has_turn : templates.has_no_turn, [&](std::string_view key) {
        const detail::Placeholder asked{key};
        if (key == "Side") return words.side(side.side);
        if (key == "Other") return words.side(other(side.side));
        const std::size_t count = asked.name == "useful" ? side.useful.size() : side.threats.size();
        return words.count(static_cast<int>(count), asked);
    });
}

/// What changed on the squares of the piece that left.
std::string said_of_guardian(const GuardianGone& gone, const detail::Words& words) {
    const Side side = gone.piece.piece.side;
    const auto held = [](const Grasp& grasp, Side of) { return std::to_string(grasp.held[index(of)].count()); };
    const std::string_view pattern = detail::outlook_templates[static_cast<std::size_t>(words.language())]->guardian;
    return detail::filled(pattern, [&](std::string_view key) -> std::string {
        if (key == "Man") return detail::capitalised(words.man(gone.piece));
        if (key == "colour") return words.colour(gone.complex == Complex::dark);
        if (key == "Side") return words.side(side);
        if (key == "Other") return words.side(other(side));
        if (key == "before") return held(gone.before, side);
        if (key == "now") return held(gone.now, side);
        return held(key == "other_before" ? gone.before : gone.now, other(side));
    });
}

} // namespace

std::string paragraph(const Position& position, const SideOutlook& side, Language language) {
    return OutlookWriter{position, side, language}.write(false);
}

std::string paragraph(const Position& position, const Outlook& outlook, Language language) {
    const auto written = [&](Side side) {
        return OutlookWriter{position, outlook.of(side), language}.write(outlook.equilibrium);
    };
    std::string text = written(position.mover()) + " " + written(position.waiter());
    if (outlook.equilibrium)
        text.append(" ").append(detail::outlook_templates[static_cast<std::size_t>(language)]->equilibrium);
    return text;
}

std::string paragraph(const Position& position, const ExchangeOutlook& exchange, Language language) {
    Findings findings;
    find_exchange_imbalance(BoardView{position}, findings);
    const detail::Words words{language};
    std::string text = sentence(position, findings.front(), language);
    if (exchange.ledger.guardian) text += " " + said_of_guardian(*exchange.ledger.guardian, words);
    const Side giver = exchange.ledger.giver();
    return text + " " + moves_and_threats(exchange.outlook.of(giver), words) + "; " +
           moves_and_threats(exchange.outlook.of(other(giver)), words) + ".";
}

} // namespace keysquare
