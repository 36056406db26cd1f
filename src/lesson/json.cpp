// The JSON documents about one position.
#include <keysquare/lesson/json.hpp>

#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/thinking/stop.hpp>

#include "json_parts.hpp"

namespace keysquare {
namespace {

/// "white knight".
std::string name_of(const Piece& piece) { return std::string{name(piece.side)}.append(" ").append(name(piece.kind)); }

/// The members that every document about a position begins with.
void write_head(JsonWriter& json, std::string_view schema, const Position& position, Language language) {
    json.key("schema").text(schema);
    json.key("language").text(name(language));
    json.key("fen").text(fen(position));
}

void write(JsonWriter& json, const Outcome& outcome) {
    json.object([&] {
        json.key("gain").number(outcome.gain);
        json.key("mate").truth(outcome.mate);
        json.key("mated").truth(outcome.mated);
        json.key("complete").truth(outcome.complete);
        write(json.key("line"), outcome.line);
    });
}

void write_if_any(JsonWriter& json, const Outcome& outcome) {
    if (outcome.line.empty())
        json.null();
    else
        write(json, outcome);
}

void write(JsonWriter& json, const ReasonList& reasons) {
    json.list(reasons, [&](const MoveReason& reason) {
        json.object([&] {
            json.key("fact").text(name(reason.fact));
            json.key("amount").number(reason.amount);
            write(json.key("squares"), reason.squares);
        });
    });
}

void write(JsonWriter& json, const Position& position, const Candidate& candidate, Language language) {
    json.object([&] {
        json.key("fen").text(fen(position));
        json.key("move").text(coordinate(candidate.move));
        json.key("san").text(san(position, candidate.move));
        write_if_any(json.key("won"), candidate.won);
        write(json.key("kept"), candidate.kept);
        write_if_any(json.key("threat"), candidate.threat);
        json.key("loses").truth(candidate.loses);
        write(json.key("reasons"), candidate.reasons);
        write(json.key("drawbacks"), candidate.drawbacks);
        json.key("parried");
        if (candidate.parried.line.empty())
            json.null();
        else
            write(json, position, candidate.parried, language);
        write_if_any(json.key("allowed"), candidate.allowed);
        json.key("sentence").text(said(position, candidate, language));
    });
}

/// `turn` is the position with the side to move.
void write(JsonWriter& json, const Position& turn, const UsefulMove& useful) {
    json.object([&] {
        json.key("move").text(coordinate(useful.move));
        json.key("san").text(san(turn, useful.move));
        write(json.key("reasons"), useful.reasons);
        write_if_any(json.key("won"), useful.won);
        write_if_any(json.key("threat"), useful.threat);
    });
}

void write(JsonWriter& json, const BestSquare& best) {
    json.object([&] {
        json.key("piece").text(name_of(best.piece.piece));
        json.key("from").text(name(best.piece.square));
        json.key("square").text(name(best.square));
        json.key("route").list(best.route, [&](Move move) { write(json, move); });
        write(json.key("gains"), best.gains);
    });
}

void write(JsonWriter& json, const Position& position, const SideOutlook& side, Language language) {
    const Position turn = turn_of(position, side.side).value_or(position); // without a turn there are no moves
    json.object([&] {
        json.key("fen").text(fen(position));
        json.key("side").text(name(side.side));
        json.key("known").truth(side.exists);
        json.key("after_pass").truth(side.after_pass);
        json.key("in_check").truth(side.in_check);
        json.key("legal").number(side.legal);
        json.key("useful").list(side.useful, [&](const UsefulMove& useful) { write(json, turn, useful); });
        json.key("merely_safe").list(side.merely_safe, [&](Move move) { write(json, move); });
        write(json.key("only_move"), side.only_move);
        json.key("threats").list(side.threats, [&](const Threat& threat) { write(json, position, threat, language); });
        json.key("best_squares").list(side.best_squares, [&](const BestSquare& best) { write(json, best); });
        json.key("no_plan").truth(side.no_plan);
        json.key("paragraph").text(said(position, side, language));
    });
}

} // namespace

std::string said(const Position& position, const Finding& finding, Language language) {
    return sentence(position, finding, language);
}
std::string said(const Position& position, const Threat& threat, Language language) {
    return sentence(position, threat, language);
}
std::string said(const Position& position, const Candidate& candidate, Language language) {
    return sentence(position, candidate, language);
}
std::string said(const Position& position, const SideOutlook& side, Language language) {
    return paragraph(position, side, language);
}
std::string said(const Position& position, const Outlook& outlook, Language language) {
    return paragraph(position, outlook, language);
}
std::string said(const Position& position, Move move, const MoveEffect& effect, Language language) {
    return sentence(position, move, effect, language);
}

void write(JsonWriter& json, Squares squares) {
    json.list(squares, [&](Square square) { json.text(name(square)); });
}

void write(JsonWriter& json, const Line& line) {
    json.list(line, [&](Move move) { write(json, move); });
}

void write(JsonWriter& json, Move move) {
    if (move)
        json.text(coordinate(move));
    else
        json.null();
}

void write(JsonWriter& json, const Position& position, const Finding& finding, Language language) {
    const Position start = start_of_line(position, finding);
    json.object([&] {
        json.key("fen").text(fen(position));
        json.key("theme").text(name(finding.theme));
        json.key("detail").text_if(finding.detail != Detail::none, name(finding.detail));
        json.key("side").text(name(finding.side));
        write(json.key("squares"), finding.squares);
        json.key("pieces").list(finding.pieces, [&](const Placed& placed) {
            json.object([&] {
                json.key("square").text(name(placed.square));
                json.key("piece").text(name_of(placed.piece));
            });
        });
        json.key("gain").number(finding.gain);
        json.key("mate").truth(finding.mate);
        json.key("mated").truth(finding.mated);
        write(json.key("line"), finding.line);
        json.key("line_san").text(line_text(start, finding.line));
        write(json.key("point"), finding.point);
        json.key("point_san").text(line_text(start, finding.point));
        json.key("after_pass").truth(finding.after_pass);
        json.key("removed").text_if(finding.removed != Square::none, name(finding.removed));
        json.key("numbers").object([&] {
            for (const Number& number : finding.numbers) json.key(name(number.measure)).number(number.value);
        });
        json.key("weight").number(finding.weight);
        json.key("sentence").text(said(position, finding, language));
    });
}

void write(JsonWriter& json, const Position& position, const Threat& threat, Language language) {
    json.object([&] {
        json.key("fen").text(fen(position));
        json.key("side").text(name(threat.side));
        json.key("gain").number(threat.gain);
        json.key("mate").truth(threat.mate);
        json.key("after_pass").truth(threat.after_pass);
        json.key("target").text(name(threat.target));
        write(json.key("squares"), threat.squares);
        write(json.key("line"), threat.line);
        json.key("line_san").text(line_text(threat.after_pass ? turned(position) : position, threat.line));
        json.key("sentence").text(said(position, threat, language));
    });
}

std::string findings_json(const Position& position, std::span<const Finding> findings, Language language) {
    JsonWriter json;
    json.object([&] {
        write_head(json, findings_schema, position, language);
        json.key("findings").list(findings, [&](const Finding& finding) { write(json, position, finding, language); });
    });
    return std::move(json).take();
}

std::string threats_json(const Position& position, Side side, std::span<const Threat> threats, Language language) {
    JsonWriter json;
    json.object([&] {
        write_head(json, threats_schema, position, language);
        json.key("side").text(name(side));
        json.key("known").truth(turn_of(position, side).has_value());
        json.key("threats").list(threats, [&](const Threat& threat) { write(json, position, threat, language); });
    });
    return std::move(json).take();
}

std::string candidates_json(const Position& position, std::span<const Candidate> candidates, Language language) {
    JsonWriter json;
    json.object([&] {
        write_head(json, candidates_schema, position, language);
        json.key("candidates").list(candidates, [&](const Candidate& candidate) {
            write(json, position, candidate, language);
        });
    });
    return std::move(json).take();
}

std::string outlook_json(const Position& position, const Outlook& outlook, Language language) {
    JsonWriter json;
    json.object([&] {
        write_head(json, outlook_schema, position, language);
        for (const Side side : all_sides) write(json.key(name(side)), position, outlook.of(side), language);
        json.key("equilibrium").truth(outlook.equilibrium);
        json.key("paragraph").text(said(position, outlook, language));
    });
    return std::move(json).take();
}

} // namespace keysquare
