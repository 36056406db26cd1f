// The JSON document about a game.
#include <keysquare/lesson/json.hpp>

#include <numeric>
#include <utility>
#include <vector>

#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/san.hpp>

#include "json_parts.hpp"

namespace keysquare {
namespace {

/// What a teacher calls it; "other" where no theme says it.
std::string_view name_or_other(Theme theme) { return theme == Theme::end_ ? std::string_view{"other"} : name(theme); }

class ReportWriter {
  public:
    ReportWriter(const Game& game, const GameReport& report, Language language)
        : game_(game), report_(report), language_(language) {}

    [[nodiscard]] std::string run() && {
        json_.object([&] {
            json_.key("schema").text(game_report_schema);
            json_.key("language").text(name(language_));
            add_tags();
            json_.key("result").text(name(game_.result()));
            add_plies();
            json_.key("turning_points").list(report_.turning_points, [&](const TurningPoint& point) {
                add_turning_point(point);
            });
            json_.key("moments").list(report_.moments, [&](const Moment& moment) { add_moment(moment); });
        });
        return std::move(json_).take();
    }

  private:
    [[nodiscard]] const Position& before(std::size_t ply) const {
        return report_.plies[ply == 0 ? 0 : ply - 1].position;
    }

    /// "23...Rc4"; empty for the start.
    [[nodiscard]] std::string numbered(std::size_t ply) const {
        const Move move = report_.plies[ply].move;
        return move ? numbered_san(before(ply), move) : std::string{};
    }

    void add_tags() {
        json_.key("tags").object([&] {
            for (std::size_t at = 0; at < game_.tag_count(); ++at) {
                const GameTag tag = game_.tag_at(at);
                json_.key(tag.name).text(tag.value);
            }
        });
    }

    void add_plies() {
        std::vector<std::size_t> places(report_.plies.size());
        std::iota(places.begin(), places.end(), std::size_t{0});
        json_.key("plies").list(places, [&](std::size_t at) { add_ply(at); });
    }

    void add_findings(std::string_view key, const Position& position, const std::vector<Finding>& findings) {
        json_.key(key).list(findings, [&](const Finding& finding) { write(json_, position, finding, language_); });
    }

    void add_threats(std::string_view key, const Position& position, const Threats& threats) {
        json_.key(key).list(threats, [&](const Threat& threat) { write(json_, position, threat, language_); });
    }

    void add_standing(const Standing& standing) {
        json_.key("standing").object([&] {
            json_.key("pawns").number(standing.pawns);
            json_.key("mating").text_if(standing.mates, name(standing.mating));
            json_.key("lead").text(name(lead_of(standing)));
        });
    }

    /// An effect of the move of that ply.
    void add_effect(std::size_t ply, const MoveEffect& effect) {
        const Position& position = before(ply);
        const Move move = report_.plies[ply].move;
        json_.object([&] {
            json_.key("kind").text(name(effect.kind));
            json_.key("theme").text(name_or_other(effect.theme));
            write(json_.key("win"), effect.is_after_move() ? after(position, move) : position, effect.win, language_);
            json_.key("cost").number(effect.cost);
            json_.key("left").number(effect.left);
            write(json_.key("better"), effect.better);
            json_.key("better_san").text_if(static_cast<bool>(effect.better), san(position, effect.better));
            json_.key("sentence").text(said(position, move, effect, language_));
        });
    }

    void add_ply(std::size_t at) {
        const PlyReport& ply = report_.plies[at];
        json_.object([&] {
            json_.key("ply").number(static_cast<std::int64_t>(at));
            write(json_.key("move"), ply.move);
            json_.key("numbered").text(numbered(at));
            json_.key("fen").text(fen(ply.position));
            add_claims(ply, at);
            add_standing(ply.standing);
            json_.key("effects").list(ply.effects, [&](const MoveEffect& effect) { add_effect(at, effect); });
        });
    }

    void add_claims(const PlyReport& ply, std::size_t at) {
        add_findings("findings", ply.position, ply.findings);
        json_.key("created").list(ply.created,
                                  [&](std::size_t place) { json_.number(static_cast<std::int64_t>(place)); });
        add_findings("removed", before(at), ply.removed);
        add_threats("chances", ply.position, ply.chances);
        add_threats("threats", ply.position, ply.threats);
    }

    void add_turning_point(const TurningPoint& point) {
        json_.object([&] {
            json_.key("ply").number(static_cast<std::int64_t>(point.ply));
            json_.key("numbered").text(numbered(point.ply));
            json_.key("before").text(name(point.before));
            json_.key("after").text(name(point.after));
            json_.key("effect");
            add_effect(point.ply, point.effect);
        });
    }

    void add_moment(const Moment& moment) {
        const std::size_t next = moment.ply + 1;
        const bool is_played = next < report_.plies.size();
        json_.object([&] {
            json_.key("ply").number(static_cast<std::int64_t>(moment.ply));
            json_.key("fen").text(fen(report_.plies[moment.ply].position));
            json_.key("moved").text(numbered(moment.ply));
            json_.key("played").text_if(is_played, is_played ? numbered(next) : std::string{});
            json_.key("theme").text(name_or_other(moment.theme));
            add_effect_of(moment);
            json_.key("worth").number(moment.worth);
            const bool is_after_move = moment.effect == EffectKind::allowed;
            add_findings("findings", report_.plies[is_after_move ? moment.move_ply : moment.ply].position,
                         moment.findings);
            const MomentTexts texts = texts_of(report_, moment, language_);
            json_.key("question").text(texts.question);
            json_.key("answer").text(texts.answer);
            json_.key("verdict").text(texts.verdict);
        });
    }

    /// The effect that the moment is about; null when it is about the position as such.
    void add_effect_of(const Moment& moment) {
        json_.key("effect");
        for (const MoveEffect& effect : report_.plies[moment.move_ply].effects)
            if (effect.kind == moment.effect) return add_effect(moment.move_ply, effect);
        json_.null();
    }

    const Game& game_;
    const GameReport& report_;
    Language language_;
    JsonWriter json_;
};

} // namespace

std::string game_report_json(const Game& game, const GameReport& report, Language language) {
    return ReportWriter{game, report, language}.run();
}

} // namespace keysquare
