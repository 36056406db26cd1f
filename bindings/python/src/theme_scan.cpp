// Where a game shows given themes: a scan of all its positions that makes no Python object for those that don't.
#include "findings.hpp"
#include "games.hpp"

#include <algorithm>

#include <keysquare/features/findings.hpp>

namespace keysquare::python {

namespace {

/// A theme, and the detail that is asked for, or `none` for any.
struct Wanted {
    Theme theme = Theme::end_;
    Detail detail = Detail::none;
};

Detail detail_named(std::string_view text) {
    for (int at = 0; at < static_cast<int>(Detail::end_); ++at)
        if (name(static_cast<Detail>(at)) == text) return static_cast<Detail>(at);
    throw py::value_error(joined_text("no theme has the detail \"", text, "\""));
}

/// "mutual_guards" or "mutual_guards:locked".
Wanted wanted_in(std::string_view text) {
    const std::size_t colon = (std::min)(text.find(':'), text.size());
    Wanted wanted{.theme = theme_named(text.substr(0, colon)), .detail = Detail::none};
    if (wanted.theme == Theme::end_)
        throw py::value_error(joined_text("no theme is called \"", text.substr(0, colon), "\""));
    if (colon < text.size()) wanted.detail = detail_named(text.substr(colon + 1));
    return wanted;
}

/// Whose findings are asked for. The mover and the waiter change from one position to the next.
enum class Whose : std::uint8_t { any, white, black, mover, waiter };

Whose whose_named(const std::optional<Text>& text) {
    if (!text) return Whose::any;
    constexpr std::array<std::string_view, 5> names{"", "white", "black", "mover", "waiter"};
    for (const Whose whose : {Whose::white, Whose::black, Whose::mover, Whose::waiter})
        if (names[static_cast<std::size_t>(whose)] == text->view) return whose;
    throw py::value_error(R"(side is "white", "black", "mover" or "waiter")");
}

bool is_whose(Whose whose, Side side, const Position& position) {
    switch (whose) {
    case Whose::white: return side == Side::white;
    case Whose::black: return side == Side::black;
    case Whose::mover: return side == position.mover();
    case Whose::waiter: return side == position.waiter();
    case Whose::any: break;
    }
    return true;
}

struct Search {
    std::vector<Wanted> all; ///< a position must show each of them
    Whose whose = Whose::any;
    int gain = 0; ///< pawns at stake, at least

    [[nodiscard]] ThemeSet themes() const {
        ThemeSet set;
        for (const Wanted& wanted : all) set.add(wanted.theme);
        return set;
    }
    [[nodiscard]] bool fits(const Wanted& wanted, const Finding& finding, const Position& position) const {
        const int at_stake = finding.gain < 0 ? -finding.gain : finding.gain;
        return wanted.theme == finding.theme && (wanted.detail == Detail::none || wanted.detail == finding.detail) &&
               is_whose(whose, finding.side, position) && (at_stake >= gain || finding.mate || finding.mated);
    }
    [[nodiscard]] bool fits_any(const Finding& finding, const Position& position) const {
        return std::ranges::any_of(all, [&](const Wanted& wanted) { return fits(wanted, finding, position); });
    }
    [[nodiscard]] bool is_met_by(const Findings& found, const Position& position) const {
        return std::ranges::all_of(all, [&](const Wanted& wanted) {
            return std::ranges::any_of(found, [&](const Finding& one) { return fits(wanted, one, position); });
        });
    }
};

/// A ply of a game and what it shows of what was asked for.
using Shown = std::pair<std::size_t, std::vector<FoundIn>>;

/// The position is looked at for the wanted themes alone. What it then shows is told as `findings` tells it, with the
/// weights that depend on everything else that is found.
void look_at(const Position& position, std::size_t ply, const Search& search, Findings& found,
             std::vector<Shown>& shown) {
    found.clear();
    find_themes(BoardView{position, Options{}}, search.themes(), found);
    if (!search.is_met_by(found, position)) return;
    findings(position, found);
    Shown& one = shown.emplace_back(ply, std::vector<FoundIn>{});
    for (const Finding& finding : found)
        if (search.fits_any(finding, position)) one.second.push_back({position, finding});
}

std::vector<Shown> plies_with_themes(const HeldGame& held, const std::vector<Text>& themes,
                                     const std::optional<Text>& side, int gain, std::size_t first_ply,
                                     std::size_t last_ply) {
    Search search{.all = {}, .whose = whose_named(side), .gain = gain};
    for (const Text text : themes) search.all.push_back(wanted_in(text.view));
    const std::vector<Move> moves = held.game.main_line(); // games change, so this is taken while nobody else can
    Position position = held.game.start();
    const py::gil_scoped_release released; // nothing of Python is touched below
    std::vector<Shown> shown;
    Findings found;
    for (std::size_t ply = 0;; ++ply) {
        if (ply >= first_ply) look_at(position, ply, search, found, shown);
        if (ply >= (std::min)(last_ply, moves.size())) return shown;
        position = after_in_game(position, moves[ply]);
    }
}

} // namespace

void register_theme_scan(py::module_& module) {
    constexpr std::size_t no_last = static_cast<std::uint32_t>(-1);
    module.def("plies_with_themes", &plies_with_themes, py::arg("game"), py::arg("themes"),
               py::arg("side") = py::none(), py::arg("gain") = 0, py::arg("first_ply") = 0,
               py::arg("last_ply") = no_last,
               "The plies of a game's main line after which each of the themes (\"fork\", \"mutual_guards:locked\") is "
               "seen, with the findings of these themes, strongest first.\n\n"
               "`side`: only findings for \"white\", \"black\", the \"mover\" or the \"waiter\". `gain`: at least that "
               "many pawns are won, or in a warning lost, or there is mate. The start position has the ply 0.");
}

} // namespace keysquare::python
