// JSON: the writer against RFC 8259, the documents against what they are made of, the names against the published schemas.
#include <boost/test/unit_test.hpp>

#include <cstdint>
#include <fstream>
#include <sstream>

#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/json.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/thinking/move_facts.hpp>

#include "lesson/json_writer.hpp"

namespace {

using namespace keysquare;

std::string text_as_json(std::string_view bytes) {
    JsonWriter json;
    json.text(bytes);
    return std::move(json).take();
}

const std::string replacement = "\xEF\xBF\xBD"; // U+FFFD

Position position_of(std::string_view text) { return read_fen(text).value(); }

/// `"key":"text"`.
std::string member(std::string_view key, const std::string& text) {
    return text_as_json(key) + ":" + text_as_json(text);
}

bool holds(const std::string& json, std::string_view part) { return json.find(part) != std::string::npos; }

/// The texts of the list "enum" that follows `"name": {` in a schema file.
std::vector<std::string> names_in_schema(std::string_view file, const std::string& name) {
    std::ifstream in("bindings/schema/" + std::string{file});
    BOOST_REQUIRE_MESSAGE(in, "the schemas are not found: run the tests in the top folder");
    std::stringstream all;
    all << in.rdbuf();
    const std::string text = all.str();
    const std::size_t place = text.find("\"" + name + "\": {");
    BOOST_REQUIRE(place != std::string::npos);
    const std::size_t begin = text.find("\"enum\": [", place) + 9;
    std::vector<std::string> names;
    std::stringstream list{text.substr(begin, text.find(']', begin) - begin)};
    for (std::string part; std::getline(list, part, '"');)
        if (std::getline(list, part, '"')) names.push_back(part);
    return names;
}

/// The names of all members of an enum, from `first` on.
template <class Enum> std::vector<std::string> names_of_all(int first = 0) {
    std::vector<std::string> names;
    for (int at = first; at < static_cast<int>(Enum::end_); ++at) names.emplace_back(name(static_cast<Enum>(at)));
    return names;
}

} // namespace

BOOST_AUTO_TEST_SUITE(lesson_json)

BOOST_AUTO_TEST_CASE(texts_are_escaped) { // RFC 8259, section 7
    BOOST_TEST(text_as_json("") == R"("")");
    BOOST_TEST(text_as_json("plain / text") == R"("plain / text")");
    BOOST_TEST(text_as_json(R"(a "quote" and a \)") == R"("a \"quote\" and a \\")");
    BOOST_TEST(text_as_json("\x7F") == R"("\u007f")");
    for (int code = 0; code < 0x20; ++code) {
        const char byte = static_cast<char>(code);
        const std::string_view digits = "0123456789abcdef";
        const std::string expected = std::string{"\"\\u00"} + digits[static_cast<std::size_t>(code / 16)] +
                                     digits[static_cast<std::size_t>(code % 16)] + "\"";
        BOOST_TEST(text_as_json({&byte, 1}) == expected);
    }
}

BOOST_AUTO_TEST_CASE(utf8_is_kept) {
    for (const std::string_view text : {"é", "中", "\xF0\x9F\x99\x82", "\xEF\xBB\xBF", "\xC2\x80", "\xE0\xA0\x80",
                                        "\xED\x9F\xBF", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        BOOST_TEST(text_as_json(text) == "\"" + std::string{text} + "\"");
}

BOOST_AUTO_TEST_CASE(what_is_no_utf8_is_replaced_byte_by_byte) { // RFC 3629, sections 3 and 4
    const auto replaced = [](std::string_view bytes, std::string_view expected) {
        BOOST_TEST(text_as_json(bytes) == "\"" + std::string{expected} + "\"");
    };
    replaced("a\xFFz", "a" + replacement + "z");
    replaced("\x80", replacement);
    replaced("\xC0\x80", replacement + replacement);                   // overlong
    replaced("\xED\xA0\x80", replacement + replacement + replacement); // a surrogate
    replaced("\xE2\x82", replacement + replacement);                   // breaks off
    replaced("\xE2\x82\"", replacement + replacement + "\\\"");
    replaced("\xF4\x90\x80\x80", replacement + replacement + replacement + replacement); // above U+10FFFF
    replaced("\xC3\xC3\xA9", replacement + "é");
}

BOOST_AUTO_TEST_CASE(values_are_separated) {
    JsonWriter json;
    json.object([&] {
        json.key("none").list(std::vector<int>{}, [](int) {});
        json.key("some").list(std::vector<int>{1, -2, 3}, [&](int value) { json.number(value); });
        json.key("inner").object([&] {
            json.key("yes").truth(true);
            json.key("no").truth(false);
        });
        json.key("empty").object([] {});
        json.key("nothing").null();
        json.key("there").text_if(true, "x");
        json.key("not there").text_if(false, "x");
        json.key("least").number(INT64_MIN);
        json.key("most").number(INT64_MAX);
    });
    BOOST_TEST(std::move(json).take() ==
               R"({"none":[],"some":[1,-2,3],"inner":{"yes":true,"no":false},"empty":{},"nothing":null,"there":"x",)"
               R"("not there":null,"least":-9223372036854775808,"most":9223372036854775807})");
}

BOOST_AUTO_TEST_CASE(a_finding_is_written_with_its_witness) {
    const Position position = position_of("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
    Findings found = findings(position);
    std::erase_if(
        found, [](const Finding& finding) { return finding.theme != Theme::hanging || finding.side != Side::white; });
    BOOST_REQUIRE(found.size() == 1);
    BOOST_TEST(
        findings_json(position, found) ==
        R"({"schema":"keysquare findings 1","language":"en","fen":"4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1","findings":[)"
        R"({"fen":"4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1","theme":"hanging","detail":"unguarded","side":"white",)"
        R"("squares":["d5"],"pieces":[{"square":"d5","piece":"black rook"},{"square":"e3","piece":"white knight"}],)"
        R"("gain":5,"mate":false,"mated":false,"line":["e3d5"],"line_san":"1.Nxd5","point":[],"point_san":"",)"
        R"("after_pass":false,"removed":null,"numbers":{"attackers":1,"guards":0},"weight":)" +
            std::to_string(found.front().weight) +
            R"(,"sentence":"White can win material worth 5 pawns with Nxd5: the rook on d5 has no guard."}]})");
    BOOST_TEST(
        findings_json(position, {}) ==
        R"({"schema":"keysquare findings 1","language":"en","fen":"4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1","findings":[]})");
}

BOOST_AUTO_TEST_CASE(threats_tell_whether_they_can_be_known) {
    const Position calm = position_of("4k3/8/8/3r4/8/4N3/8/4K3 b - - 0 1");
    const std::string json = threats_json(calm, Side::white, threats(calm));
    BOOST_TEST(holds(json, R"("side":"white","known":true,"threats":[{)"));
    BOOST_TEST(
        holds(json, R"("gain":5,"mate":false,"after_pass":true,"target":"d5","squares":["d5"],"line":["e3d5"])"));
    const Position check = position_of("4k3/8/8/4r3/8/2N5/8/4K3 w - - 0 1");
    BOOST_TEST(holds(threats_json(check, Side::black, threats(check)), R"("side":"black","known":false,"threats":[])"));
    BOOST_TEST(holds(threats_json(check, Side::white, threats(check, Side::white)), R"("known":true)"));
}

BOOST_AUTO_TEST_CASE(a_mate_is_a_candidate_and_an_outlook) {
    const Position position = position_of("6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1");
    const std::string moves = candidates_json(position, candidates(position));
    BOOST_TEST(holds(moves, R"("candidates":[{"fen":"6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1","move":"a1a8","san":"Ra8#",)"
                            R"("won":{"gain":0,"mate":true,"mated":false,"complete":true,"line":["a1a8"]})"));
    BOOST_TEST(holds(moves, R"("parried":null,"allowed":null)"));
    const std::string both = outlook_json(position, outlook(position));
    BOOST_TEST(holds(
        both,
        R"({"schema":"keysquare outlook 1","language":"en","fen":"6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - 0 1","white":{)"));
    BOOST_TEST(holds(both, R"({"move":"a1a8","san":"Ra8#","reasons":[{"fact":"mates","amount":1,)"));
}

BOOST_AUTO_TEST_CASE(a_report_holds_the_whole_game) {
    Game game = read_pgn("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0").value();
    game.set_tag("Event", "\"Quotes\", \\ and \xFF");
    const GameReport report = game_report(game);
    const std::string json = game_report_json(game, report);
    BOOST_TEST(holds(json, R"("schema":"keysquare game report 1")"));
    BOOST_TEST(holds(json, R"("Event":"\"Quotes\", \\ and )" + replacement + "\""));
    BOOST_TEST(holds(json, R"("result":"1-0","plies":[{"ply":0,"move":null,"numbered":"")"));
    BOOST_TEST(holds(json, R"({"ply":7,"move":"f3f7","numbered":"4.Qxf7#","fen":)"));
    BOOST_TEST(holds(json, R"("turning_points":[{"ply":6,"numbered":"3...Bc5","before":"level","after":"white_mates",)"
                           R"("effect":{"kind":"overlooked","theme":"mate_in_one")"));
    BOOST_TEST(holds(json, R"("better":"g8f6","better_san":"Nf6")"));
    BOOST_TEST(!holds(json, "\n"));
}

BOOST_AUTO_TEST_CASE(a_report_of_nothing_is_one_too) {
    BOOST_TEST(game_report_json(Game{}, GameReport{}) ==
               R"({"schema":"keysquare game report 1","language":"en","tags":{},"result":"*","plies":[],)"
               R"("turning_points":[],"moments":[]})");
}

BOOST_AUTO_TEST_CASE(a_document_is_in_the_language_that_it_names) {
    const Position position = position_of("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1");
    constexpr Language german = Language::german;
    const Findings found = findings(position);
    const std::string seen = findings_json(position, found, german);
    BOOST_TEST(seen.starts_with(R"({"schema":"keysquare findings 1","language":"de","fen":)"));
    for (const Finding& finding : found)
        BOOST_TEST(holds(seen, member("sentence", sentence(position, finding, german))));
    BOOST_TEST(holds(seen, R"("line_san":"1.Nxd5")"));
    BOOST_TEST(holds(
        seen,
        R"("sentence":"Weiß kann mit Sxd5 Material im Wert von 5 Bauern gewinnen: Der Turm auf d5 ist ungedeckt.")"));

    const auto threatened = threats(position, Side::white);
    BOOST_REQUIRE(!threatened.empty());
    BOOST_TEST(holds(threats_json(position, Side::white, threatened, german),
                     member("sentence", sentence(position, threatened.front(), german))));

    const auto moves = candidates(position);
    BOOST_REQUIRE(!moves.empty());
    const std::string listed = candidates_json(position, moves, german);
    for (const Candidate& candidate : moves)
        BOOST_TEST(holds(listed, member("sentence", sentence(position, candidate, german))));

    const Outlook both = outlook(position);
    const std::string told = outlook_json(position, both, german);
    BOOST_TEST(holds(told, member("paragraph", paragraph(position, both, german)) + "}"));
    for (const Side side : all_sides)
        BOOST_TEST(holds(told, member("paragraph", paragraph(position, both.of(side), german))));
    for (const Threat& threat : both.of(Side::white).threats)
        BOOST_TEST(holds(told, member("sentence", sentence(position, threat, german))));
}

BOOST_AUTO_TEST_CASE(a_report_is_in_the_language_that_is_asked_for) { // whatever it was made in
    const Game game = read_pgn("1. e4 e5 2. Bc4 Nc6 3. Qf3 Bc5 4. Qxf7# 1-0").value();
    const GameReport english = game_report(game);
    const GameReport german = game_report(game, most_moments, {}, Language::german);
    const std::string json = game_report_json(game, english, Language::german);
    BOOST_TEST(json == game_report_json(game, german, Language::german));
    BOOST_TEST(game_report_json(game, german) == game_report_json(game, english));
    BOOST_REQUIRE(!german.moments.empty());
    for (const Moment& moment : german.moments)
        BOOST_TEST(holds(json, member("question", moment.question) + "," + member("answer", moment.answer) + "," +
                                   member("verdict", moment.verdict)));
    BOOST_TEST(holds(json, "3...Lc5 übersieht, dass Weiß droht, mattzusetzen: 4.Dxf7#."));
    BOOST_TEST(holds(json, R"("numbered":"3...Bc5")"));
}

BOOST_AUTO_TEST_CASE(an_unknown_language_is_told_with_those_that_there_are) {
    BOOST_TEST(unknown_language("fr") == R"(no language is called "fr"; there are "en", "de")");
}

// A new name has to be added to the schema, where its documents would else be refused.
BOOST_AUTO_TEST_CASE(the_schemas_know_all_names) {
    const auto same = [](const std::vector<std::string>& of_schema, const std::vector<std::string>& of_library) {
        BOOST_TEST(of_schema == of_library, boost::test_tools::per_element());
    };
    same(names_in_schema("parts.schema.json", "theme"), names_of_all<Theme>());
    same(names_in_schema("parts.schema.json", "detail"), names_of_all<Detail>(1)); // none is null
    same(names_in_schema("parts.schema.json", "measure"), names_of_all<Measure>());
    same(names_in_schema("parts.schema.json", "fact"), names_of_all<MoveFact>());
    same(names_in_schema("parts.schema.json", "language"), names_of_all<Language>());
    same(names_in_schema("game_report.schema.json", "kind"), names_of_all<EffectKind>());
    std::vector<std::string> leads;
    for (int at = static_cast<int>(Lead::black_mates); at <= static_cast<int>(Lead::white_mates); ++at)
        leads.emplace_back(name(static_cast<Lead>(at)));
    same(names_in_schema("game_report.schema.json", "lead"), leads);
    std::vector<std::string> results;
    for (int at = 0; at <= static_cast<int>(GameResult::unknown); ++at)
        results.emplace_back(name(static_cast<GameResult>(at)));
    same(names_in_schema("game_report.schema.json", "result"), results);
}

BOOST_AUTO_TEST_SUITE_END()
