// The game report: what every move changed, where the game turned, where to stop.
#include "findings.hpp"
#include "games.hpp"
#include "threats.hpp"

#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/lesson/game_report.hpp>
#include <keysquare/lesson/theme_words.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/thinking/game_effects.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

py::object report_class(const char* name) { return py::module_::import("keysquare._report").attr(name); }

std::string_view name_or_other(Theme theme) { return theme == Theme::end_ ? std::string_view{"other"} : name(theme); }

/// None for no move.
py::object optional_move(Move move) { return move ? py::cast(move) : py::object{py::none()}; }

template <class Found> py::list python_findings(const Position& position, const Found& findings) {
    py::list list;
    for (const Finding& finding : findings) list.append(FoundIn{position, finding});
    return list;
}

py::list python_threats(const Position& position, const Threats& threats) {
    py::list list;
    for (const Threat& threat : threats) list.append(ThreatIn{position, threat});
    return list;
}

py::object python_standing(const Standing& standing) {
    return report_class("Standing")("pawns"_a = standing.pawns,
                                    "mating"_a = standing.mates ? py::cast(standing.mating) : py::object{py::none()},
                                    "lead"_a = name(lead_of(standing)));
}

/// `before` is the position that the move was made in.
py::object python_effect(const Position& before, Move move, const MoveEffect& effect) {
    const Position where = effect.is_after_move() ? after(before, move) : before;
    return report_class("MoveEffect")(
        "kind"_a = name(effect.kind), "theme"_a = name_or_other(effect.theme), "win"_a = ThreatIn{where, effect.win},
        "cost"_a = effect.cost, "left"_a = effect.left, "better"_a = optional_move(effect.better),
        "better_san"_a = effect.better ? py::cast(san(before, effect.better)) : py::object{py::none()},
        "sentence"_a = text_from(sentence(before, move, effect)),
        "texts"_a = in_languages([&](Language language) { return sentence(before, move, effect, language); }));
}

py::list python_plies(const std::shared_ptr<HeldGame>& held, const GameReport& report) {
    py::list plies;
    for (std::size_t at = 0; at < report.plies.size(); ++at) {
        const PlyReport& ply = report.plies[at];
        const Position& before = report.plies[at == 0 ? 0 : at - 1].position;
        const py::list findings = python_findings(ply.position, ply.findings);
        py::list created;
        for (const std::size_t place : ply.created) created.append(findings[place]);
        py::list effects;
        for (const MoveEffect& effect : ply.effects) effects.append(python_effect(before, ply.move, effect));
        plies.append(report_class("PlyReport")(
            "ply"_a = at, "step"_a = StepOf{held, ply.step}, "move"_a = optional_move(ply.move),
            "numbered"_a = ply.move ? numbered_san(before, ply.move) : std::string{}, "position"_a = ply.position,
            "findings"_a = findings, "chances"_a = python_threats(ply.position, ply.chances),
            "threats"_a = python_threats(ply.position, ply.threats), "standing"_a = python_standing(ply.standing),
            "created"_a = created, "removed"_a = python_findings(before, ply.removed), "effects"_a = effects));
    }
    return plies;
}

/// The effect among those of its ply, so that it is one object.
py::object effect_at(const py::list& plies, std::size_t ply, EffectKind kind) {
    for (const py::handle effect : plies[ply].attr("effects"))
        if (effect.attr("kind").cast<std::string>() == name(kind)) return py::reinterpret_borrow<py::object>(effect);
    return py::none();
}

py::list python_turning_points(const GameReport& report, const py::list& plies) {
    py::list points;
    for (const TurningPoint& point : report.turning_points)
        points.append(report_class("TurningPoint")(
            "ply"_a = point.ply, "numbered"_a = plies[point.ply].attr("numbered"), "before"_a = name(point.before),
            "after"_a = name(point.after), "effect"_a = effect_at(plies, point.ply, point.effect.kind)));
    return points;
}

py::list python_moments(const GameReport& report, const py::list& plies) {
    py::list moments;
    for (const Moment& moment : report.moments) {
        const bool is_about_move = moment.move_ply > 0;
        const Position where =
            report.plies[moment.effect == EffectKind::allowed ? moment.move_ply : moment.ply].position;
        const std::size_t next = moment.ply + 1;
        moments.append(report_class("Moment")(
            "ply"_a = moment.ply, "position"_a = report.plies[moment.ply].position,
            "moved"_a = plies[moment.ply].attr("numbered"),
            "played"_a = next < report.plies.size() ? plies[next].attr("numbered") : py::object{py::none()},
            "theme"_a = name_or_other(moment.theme),
            "effect"_a = is_about_move ? effect_at(plies, moment.move_ply, moment.effect) : py::object{py::none()},
            "worth"_a = moment.worth, "findings"_a = python_findings(where, moment.findings),
            "question"_a = text_from(moment.question), "answer"_a = text_from(moment.answer),
            "verdict"_a = text_from(moment.verdict),
            "texts"_a = in_languages([&](Language language) {
                const MomentTexts texts = texts_of(report, moment, language);
                return report_class("MomentTexts")(texts.question, texts.answer, texts.verdict);
            })));
    }
    return moments;
}

py::object report_of(const std::shared_ptr<HeldGame>& held, std::size_t at_most, const Options& options) {
    GameReport report;
    {
        const Game game = held->game; // the caller's may change while the GIL is released
        const py::gil_scoped_release released;
        report = game_report(game, at_most, options);
    }
    const py::list plies = python_plies(held, report);
    return report_class("GameReport")("game"_a = held, "plies"_a = plies,
                                      "turning_points"_a = python_turning_points(report, plies),
                                      "moments"_a = python_moments(report, plies));
}

py::list events_of(const std::shared_ptr<HeldGame>& held, const Options& options) {
    std::vector<MoveEffects> effects;
    {
        const Game game = held->game;
        const py::gil_scoped_release released;
        effects = game_effects(game, options);
    }
    const py::object event = report_class("MoveEvent");
    py::list events;
    Side side = held->game.start().mover();
    for (std::size_t at = 0; at < effects.size(); ++at) {
        for (const MoveEffect& effect : effects[at])
            events.append(event(at + 1, side, name(effect.kind), name_or_other(effect.theme), effect.win.gain,
                                effect.win.mate, effect.difference()));
        side = other(side);
    }
    return events;
}

} // namespace

void register_game_report(py::module_& module) {
    constexpr Options usual;

    module.def(
        "game_report",
        [](const std::shared_ptr<HeldGame>& game, std::size_t at_most, int least_gain, int plies, int check_plies,
           int nodes, const ValuesArgument& values) {
            if (!game) throw py::type_error("None is no game");
            return report_of(game, at_most, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("game"), py::arg("at_most") = most_moments, py::kw_only(), py::arg("least_gain") = usual.least_gain,
        py::arg("plies") = usual.bound.plies, py::arg("check_plies") = usual.bound.check_plies,
        py::arg("nodes") = usual.bound.nodes, py::arg("values") = py::none(),
        "A game as a teacher goes through it: a GameReport.\n\n"
        "For every ply of the main line the findings, what the move created and removed, and what it exploited, "
        "missed, allowed or overlooked; where the game turned, and why; and the moments worth stopping at, three to "
        "`at_most` where the game has them, each with a question and its answer. A null move ends the line. The other "
        "parameters as in `threats`. About a millisecond a ply.");

    module.def(
        "move_events",
        [](const std::shared_ptr<HeldGame>& game, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            if (!game) throw py::type_error("None is no game");
            return events_of(game, options_of(least_gain, plies, check_plies, nodes, values));
        },
        py::arg("game"), py::kw_only(), py::arg("least_gain") = usual.least_gain, py::arg("plies") = usual.bound.plies,
        py::arg("check_plies") = usual.bound.check_plies, py::arg("nodes") = usual.bound.nodes,
        py::arg("values") = py::none(),
        "What the moves of a game exploited, missed, allowed and overlooked: a list of MoveEvent, in the order of the "
        "moves.\n\n"
        "The part of `game_report` that statistics need, at half its cost. The parameters as in `threats`.");

    module.def(
        "theme_noun",
        [](Text theme, Language language) {
            if (theme.view == "other") return other_themes(language);
            const Theme named = theme_named(theme.view);
            if (named == Theme::end_) throw py::value_error(joined_text("no theme is called \"", theme.view, "\""));
            return words_of(named, language).several;
        },
        py::arg("theme"), py::arg("language") = "en",
        "What things of a theme are called in a sentence or a heading: \"guards that can be removed\" for "
        "\"removable_guard\".\n\n"
        "Raises ValueError for a theme or a language that is none; \"other\", which events without a theme have, is "
        "understood.");

    module.def(
        "theme_heading",
        [](Text theme, Language language) {
            const Theme named = theme_named(theme.view);
            if (named == Theme::end_) throw py::value_error(joined_text("no theme is called \"", theme.view, "\""));
            return words_of(named, language).heading;
        },
        py::arg("theme"), py::arg("language") = "en",
        "The heading over a finding of a theme: \"Removable guard\" for \"removable_guard\".\n\n"
        "Raises ValueError for a theme or a language that is none.");
}

} // namespace keysquare::python
