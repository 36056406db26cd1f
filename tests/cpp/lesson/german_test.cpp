// German: every table complete, the same facts as in English, and grammar held against a small table of its own.
#include <boost/test/unit_test.hpp>

#include <bit>
#include <set>

#include <keysquare/features/findings.hpp>
#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/difficulty_sentences.hpp>
#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/notation/fen.hpp>

#include "features/mirrored.hpp"
#include "lesson/effect_words.hpp"
#include "lesson/english_theme_words.hpp"
#include "lesson/german/theme_words.hpp"
#include "lesson/sentences.hpp"
#include "lesson/templates.hpp"
#include "lesson/threat_sentences.hpp"
#include "lesson/words.hpp"

namespace {

using namespace keysquare;
using Strings = std::vector<std::string>;

// ---- Tables ---------------------------------------------------------------------------------------------------------

/// The names of the placeholders of a template, without their forms.
std::set<std::string> placeholders(std::string_view pattern) {
    std::set<std::string> names;
    static_cast<void>(detail::filled(pattern, [&](std::string_view key) {
        std::string name{detail::Placeholder{key}.name};
        // "Man" and "man" are the same man.
        for (char& c : name) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        if (!detail::Placeholder{key}.chooses) names.insert(name);
        return std::string{};
    }));
    return names;
}

bool has_same_placeholders(std::string_view english, std::string_view german) {
    return placeholders(english) == placeholders(german);
}

/// Templates in a struct of nothing but texts.
template <class Templates> auto texts_of(const Templates& templates) {
    return std::bit_cast<std::array<std::string_view, sizeof(Templates) / sizeof(std::string_view)>>(templates);
}

template <class Templates> void compare_templates(const Templates& english, const Templates& german) {
    const auto ours = texts_of(english);
    const auto theirs = texts_of(german);
    for (std::size_t at = 0; at < ours.size(); ++at)
        BOOST_TEST((has_same_placeholders(ours[at], theirs[at]) && ours[at].empty() == theirs[at].empty()),
                   ours[at] << " | " << theirs[at]);
}

/// Every form that templates ask for, in tables of the vocabulary.
template <class Row> bool has_row(const TableOf<Row>& rows, Literal Row::*key, std::string_view wanted) {
    return detail::any_of(rows, [&](const Row& row) { return row.*key == wanted; });
}

/// Looks up whatever form a placeholder of the pattern asks for.
void check_forms(const Vocabulary& words, std::string_view pattern) {
    const std::set<std::string> men{"man", "second", "third", "pieces", "others", "men"};
    static_cast<void>(detail::filled(pattern, [&](std::string_view key) {
        const detail::Placeholder asked{key};
        std::string thing{asked.name};
        thing[0] = static_cast<char>(thing[0] >= 'A' && thing[0] <= 'Z' ? thing[0] - 'A' + 'a' : thing[0]);
        const bool man =
            men.count(thing) > 0 && !(thing == "pieces" && has_row(words.nouns, &CountedNoun::noun, asked.form));
        if (asked.chooses)
            BOOST_TEST(asked.form.find('|') != std::string_view::npos, pattern);
        else if (man)
            BOOST_TEST(has_row(words.men, &ManForm::form, asked.form), pattern);
        else if (thing == "file")
            BOOST_TEST(has_row(words.files, &FileForm::form, asked.form), pattern);
        else if (thing == "win" || thing == "wins")
            BOOST_TEST(has_row(words.wins, &WinForm::placeholder, key), pattern);
        else if (thing == "loses")
            BOOST_TEST(has_row(words.losses, &LossForm::placeholder, key), pattern);
        else if (thing == "worth")
            BOOST_TEST(has_row(words.worths, &WorthForm::placeholder, key), pattern);
        else if (!asked.form.empty())
            BOOST_TEST(has_row(words.nouns, &CountedNoun::noun, asked.form), pattern);
        return std::string{};
    }));
}

// ---- What a sentence says ---------------------------------------------------------------------------------------------

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) & 0x80);
}

Strings words_of_text(std::string_view text) {
    Strings words(1);
    for (const char c : text)
        if (is_letter(c) || (c >= '0' && c <= '9') || c == '#' || c == '+' || c == '=' || c == '-')
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    if (words.back().empty()) words.pop_back();
    return words;
}

bool is_square(std::string_view word) {
    return word.size() == 2 && word[0] >= 'a' && word[0] <= 'h' && word[1] >= '1' && word[1] <= '8';
}

/// A move by its look, in letters of the language; in English ones, or nothing.
std::string move_in(std::string_view word, Language language) {
    const std::string_view letters = vocabulary_of(language).move_letters;
    constexpr std::string_view english = "NBRQKO";
    std::string move;
    bool digit = false;
    for (const char c : word) {
        const auto at = letters.find(c);
        if (c == '0' && language == Language::german)
            move += 'O';
        else if (at != std::string_view::npos)
            move += english[at];
        else if ((c >= 'a' && c <= 'h') || (c >= '1' && c <= '8') ||
                 std::string_view{"x+#=-"}.find(c) != std::string_view::npos)
            move += c;
        else
            return {};
        digit = digit || (c >= '1' && c <= '8');
    }
    const bool castles = move.starts_with("O-O");
    return (digit && move.find_first_of("abcdefgh") != std::string::npos && move.size() > 1) || castles ? move
                                                                                                        : std::string{};
}

/// The squares, moves and numbers of a text; German words for one that have no English counterpart are not asked for.
Strings facts_of(std::string_view text, Language language) {
    Strings facts;
    for (const std::string& word : words_of_text(text)) {
        if (is_square(word) || !move_in(word, language).empty())
            facts.push_back(move_in(word, language));
        else if (word.find_first_not_of("0123456789") == std::string::npos)
            facts.push_back(word);
    }
    detail::sort_few(facts, [](const std::string& a, const std::string& b) { return a < b; });
    return facts;
}

/// Squares may be named once more in one language ("der Läufer auf d5" for "it"): as sets they must be the same.
std::set<std::string> fact_set(std::string_view text, Language language) {
    const Strings facts = facts_of(text, language);
    return {facts.begin(), facts.end()};
}

/// Function words and words of the trade that are no German ones.
const std::set<std::string> english_words{
    "the",   "and",   "with",   "of",     "on",    "to",     "is",        "it",     "its",     "are",
    "which", "can",   "if",     "no",     "one",   "two",    "move",      "moves",  "pawn",    "pawns",
    "queen", "rook",  "bishop", "knight", "king",  "White",  "Black",     "square", "squares", "material",
    "wins",  "loses", "by",     "for",    "only",  "they",   "each",      "than",   "that",    "there",
    "would", "has",   "have",   "side",   "piece", "pieces", "threatens", "or"};

/// A noun as a grammar has it: its gender ('m', 'f', 'n', 'p' for the plural), and its forms in the order nominative,
/// accusative, dative, genitive.
struct Noun {
    char gender;
    std::string_view forms[4];
};
const std::vector<Noun> nouns{
    {'m', {"Bauer", "Bauern", "Bauern", "Bauern"}},
    {'m', {"Springer", "Springer", "Springer", "Springers"}},
    {'m', {"Läufer", "Läufer", "Läufer", "Läufers"}},
    {'m', {"Turm", "Turm", "Turm", "Turms"}},
    {'f', {"Dame", "Dame", "Dame", "Dame"}},
    {'m', {"König", "König", "König", "Königs"}},
    {'p', {"Bauern", "Bauern", "Bauern", "Bauern"}},
    {'p', {"Springer", "Springer", "Springern", "Springer"}},
    {'p', {"Läufer", "Läufer", "Läufern", "Läufer"}},
    {'p', {"Türme", "Türme", "Türmen", "Türme"}},
    {'p', {"Damen", "Damen", "Damen", "Damen"}},
    {'n', {"Matt", "Matt", "Matt", "Matts"}},
    {'n', {"Feld", "Feld", "Feld", "Feldes"}},
    {'p', {"Felder", "Felder", "Feldern", "Felder"}},
    {'f', {"Linie", "Linie", "Linie", "Linie"}},
    {'m', {"Zug", "Zug", "Zug", "Zugs"}},
    {'f', {"Figur", "Figur", "Figur", "Figur"}},
    {'m', {"Stein", "Stein", "Stein", "Steins"}},
    {'m', {"Vorposten", "Vorposten", "Vorposten", "Vorpostens"}},
    {'m', {"Angreifer", "Angreifer", "Angreifer", "Angreifers"}},
    {'m', {"Verteidiger", "Verteidiger", "Verteidiger", "Verteidigers"}},
    {'m', {"Hebel", "Hebel", "Hebel", "Hebels"}},
    {'f', {"Gabel", "Gabel", "Gabel", "Gabel"}},
    {'m', {"Spieß", "Spieß", "Spieß", "Spießes"}},
    {'m', {"Abzug", "Abzug", "Abzug", "Abzugs"}},
    {'f', {"Qualität", "Qualität", "Qualität", "Qualität"}},
    {'n', {"Läuferpaar", "Läuferpaar", "Läuferpaar", "Läuferpaars"}},
    {'f', {"Grundreihe", "Grundreihe", "Grundreihe", "Grundreihe"}},
    {'f', {"Antwort", "Antwort", "Antwort", "Antwort"}},
    {'f', {"Drohung", "Drohung", "Drohung", "Drohung"}},
};

/// The articles in the same order of cases.
struct Articles {
    char gender;
    std::string_view definite[4];
    std::string_view indefinite[4];
    std::string_view negative[4];
};
const std::vector<Articles> articles{
    {'m', {"der", "den", "dem", "des"}, {"ein", "einen", "einem", "eines"}, {"kein", "keinen", "keinem", "keines"}},
    {'f', {"die", "die", "der", "der"}, {"eine", "eine", "einer", "einer"}, {"keine", "keine", "keiner", "keiner"}},
    {'n', {"das", "das", "dem", "des"}, {"ein", "ein", "einem", "eines"}, {"kein", "kein", "keinem", "keines"}},
    {'p', {"die", "die", "den", "der"}, {}, {"keine", "keine", "keinen", "keiner"}},
};

/// Whether an article and the noun behind it agree in some case; true for what the grammar does not know.
bool agrees(std::string article, const std::string& noun) {
    if (article[0] >= 'A' && article[0] <= 'Z') article[0] = static_cast<char>(article[0] - 'A' + 'a');
    bool known_noun = false;
    bool known_article = false;
    for (const Articles& row : articles)
        for (std::size_t at = 0; at < 4; ++at) {
            const bool fits =
                row.definite[at] == article || row.indefinite[at] == article || row.negative[at] == article;
            known_article = known_article || fits;
            for (const Noun& one : nouns) {
                known_noun = known_noun || one.forms[at] == noun;
                if (fits && one.gender == row.gender && one.forms[at] == noun) return true;
            }
        }
    return !known_noun || !known_article;
}

bool is_article(std::string_view word) {
    return detail::any_of(articles, [&](const Articles& row) {
        for (std::size_t at = 0; at < 4; ++at)
            if (row.definite[at] == word || row.indefinite[at] == word) return true;
        return false;
    });
}

/// One preposition, one case: what has to stand behind it.
struct Governed {
    std::string_view preposition;
    std::set<std::string> articles;
};
const std::vector<Governed> governed{
    {"durch", {"den", "die", "das", "einen", "eine", "einander", "ein"}},
    {"gegen", {"den", "die", "das", "einen", "eine", "ein"}},
    {"mit", {"dem", "der", "den", "einem", "einer"}},
    {"von", {"dem", "der", "den", "einem", "einer"}},
};

void check_german(const std::string& english, const std::string& german, std::string_view what) {
    const auto told = [&](std::string_view fault) {
        return std::string{fault} + ": " + std::string{what} + ": " + german + " | " + english;
    };
    BOOST_REQUIRE_MESSAGE(german.size() > 10 && (german.back() == '.' || german.back() == '?'), told("end"));
    BOOST_TEST(german.find_first_of("{}|") == std::string::npos, told("unfilled"));
    BOOST_TEST(german.find("  ") == std::string::npos, told("spaces"));
    const std::string first = words_of_text(german).front();
    BOOST_TEST(
        (is_square(first) || !move_in(first, Language::german).empty() || german.front() < 'a' || german.front() > 'z'),
        told("capital"));
    const bool same = fact_set(english, Language::english) == fact_set(german, Language::german);
    BOOST_TEST(same, told("facts"));
    const Strings words = words_of_text(german);
    for (std::size_t at = 0; at < words.size(); ++at) {
        BOOST_TEST(english_words.count(words[at]) == 0, told("English: " + words[at]));
        if (at + 1 == words.size()) continue;
        BOOST_TEST(agrees(words[at], words[at + 1]), told("agreement: " + words[at] + " " + words[at + 1]));
        for (const Governed& row : governed) {
            if (words[at] == row.preposition && is_article(words[at + 1]))
                BOOST_TEST(row.articles.count(words[at + 1]) > 0, told("case after " + words[at]));
        }
    }
}

const std::vector<Position>& some_positions() {
    static const std::vector<Position> positions = test::random_positions(60, 77);
    return positions;
}

std::string first_sentence(std::string_view fen, Theme theme) {
    const Position position = read_fen(fen).value();
    for (const Finding& finding : findings(position))
        if (finding.theme == theme) return sentence(position, finding, Language::german);
    return {};
}

} // namespace

BOOST_AUTO_TEST_SUITE(german)

BOOST_AUTO_TEST_CASE(languages_are_found_by_their_codes) {
    BOOST_TEST((language_named("de") == Language::german && language_named("en") == Language::english));
    BOOST_TEST((language_named("") == Language::end_ && language_named("xx") == Language::end_));
}

BOOST_AUTO_TEST_CASE(every_sentence_has_a_german_one_with_the_same_placeholders) {
    const auto& tables = sentence_tables;
    for (std::size_t table = 0; table < std::size(tables[0]); ++table) {
        const TableOf<SentenceRow>& english = tables[0][table];
        const TableOf<SentenceRow>& other = tables[1][table];
        BOOST_REQUIRE(english.end() - english.begin() == other.end() - other.begin());
        for (const SentenceRow *one = english.begin(), *two = other.begin(); one != english.end(); ++one, ++two) {
            BOOST_TEST((one->theme == two->theme && one->detail == two->detail), name(one->theme));
            for (const auto part : {&SentenceRow::now, &SentenceRow::after_pass, &SentenceRow::idle}) {
                BOOST_TEST(((one->*part).empty() == (two->*part).empty()), name(one->theme));
                BOOST_TEST(has_same_placeholders(one->*part, two->*part), one->*part << " | " << two->*part);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(every_other_template_has_a_german_one_with_the_same_placeholders) {
    compare_templates(english_plan_templates, german_plan_templates);
    compare_templates(english_outlook_templates, german_outlook_templates);
    compare_templates(threat_after_pass[0], threat_after_pass[1]);
    compare_templates(threat_at_once[0], threat_at_once[1]);
    compare_templates(parry_sentences[0], parry_sentences[1]);
    compare_templates(answer_sentences[0], answer_sentences[1]);
    compare_templates(rest_sentences[0], rest_sentences[1]);
    compare_templates(english_vocabulary.ledger, german_vocabulary.ledger);
    const auto english_difficulty = texts_of(english_difficulty_templates);
    const auto german_difficulty = texts_of(german_difficulty_templates);
    for (std::size_t at = 0; at < english_difficulty.size(); ++at) {
        auto expected = placeholders(english_difficulty[at]);
        auto found = placeholders(german_difficulty[at]);
        expected.erase("side"); // German names the side where English says "it"
        found.erase("side");
        BOOST_TEST((expected == found), english_difficulty[at] << " | " << german_difficulty[at]);
        BOOST_TEST(!german_difficulty[at].empty());
    }
    for (std::size_t at = 0; at < english_fact_words.size(); ++at) {
        BOOST_TEST(has_same_placeholders(english_fact_words[at].good, german_fact_words[at].good));
        BOOST_TEST(has_same_placeholders(english_fact_words[at].bad, german_fact_words[at].bad));
        BOOST_TEST((english_fact_words[at].good.empty() == german_fact_words[at].good.empty()));
        BOOST_TEST((english_fact_words[at].bad.empty() == german_fact_words[at].bad.empty()));
    }
    for (std::size_t at = 0; at < english_outlook_words.size(); ++at) {
        BOOST_TEST((english_outlook_words[at].fact == german_outlook_words[at].fact));
        BOOST_TEST((english_outlook_words[at].there.empty() == german_outlook_words[at].there.empty()));
        BOOST_TEST(has_same_placeholders(english_outlook_words[at].there, german_outlook_words[at].there));
    }
    for (std::size_t at = 0; at < english_theme_words.size(); ++at) {
        const ThemeWords& ours = english_theme_words[at];
        const ThemeWords& theirs = german_theme_words[at];
        BOOST_TEST((!theirs.several.empty() && !theirs.heading.empty()));
        BOOST_TEST((ours.means.empty() == theirs.means.empty() && ours.question.empty() == theirs.question.empty()));
        BOOST_TEST(has_same_placeholders(ours.question, theirs.question), theirs.question);
        BOOST_TEST((theirs.means.empty() || theirs.means.back() == ' '), theirs.means);
    }
    for (std::size_t kind = 0; kind < 4; ++kind)
        for (const auto part : {&EffectSentences::told, &EffectSentences::verdict, &EffectSentences::question})
            BOOST_TEST(has_same_placeholders(effect_sentences[0][kind].*part, effect_sentences[1][kind].*part));
}

BOOST_AUTO_TEST_CASE(every_form_that_a_template_asks_for_is_in_the_vocabulary) {
    for (std::size_t language = 0; language < language_count; ++language) {
        const Vocabulary& words = vocabulary_of(static_cast<Language>(language));
        const auto check_all = [&](const auto&... templates) {
            const auto check_texts = [&](const auto& texts) {
                for (const std::string_view pattern : texts) check_forms(words, pattern);
            };
            (check_texts(texts_of(templates)), ...);
        };
        for (const TableOf<SentenceRow>& table : sentence_tables[language])
            for (const SentenceRow& row : table)
                for (const std::string_view pattern : {row.now, row.after_pass, row.idle}) check_forms(words, pattern);
        check_all(threat_at_once[language], threat_after_pass[language], parry_sentences[language],
                  answer_sentences[language], rest_sentences[language], *detail::plan_templates[language],
                  *detail::outlook_templates[language], *detail::difficulty_templates[language]);
        for (const EffectSentences& row : effect_sentences[language])
            for (const std::string_view pattern : {row.told, row.verdict, row.question}) check_forms(words, pattern);
    }
    for (const auto& [words, facts] :
         {std::pair{&english_vocabulary, &english_fact_words}, std::pair{&german_vocabulary, &german_fact_words}})
        for (const FactWords& row : *facts)
            for (const std::string_view pattern : {row.good, row.bad}) check_forms(*words, pattern);
}

BOOST_AUTO_TEST_CASE(german_findings_say_what_the_english_ones_say) {
    for (const Position& position : some_positions())
        for (const Finding& finding : findings(position))
            check_german(sentence(position, finding), sentence(position, finding, Language::german),
                         name(finding.theme));
}

BOOST_AUTO_TEST_CASE(the_other_german_texts_say_what_the_english_ones_say) {
    for (std::size_t at = 0; at < some_positions().size(); at += 6) {
        const Position& position = some_positions()[at];
        for (const Side side : all_sides)
            for (const Threat& threat : threats(position, side)) {
                check_german(sentence(position, threat), sentence(position, threat, Language::german), "threat");
                if (!threat.after_pass) continue;
                const Parries found = parries(position, threat);
                check_german(sentence(position, threat, found), sentence(position, threat, found, Language::german),
                             "parries");
            }
        for (const Candidate& candidate : candidates(position, most_candidates)) {
            check_german(sentence(position, candidate), sentence(position, candidate, Language::german), "candidate");
            const Move moves[]{candidate.move};
            if (const auto plan = check_plan(position, position.mover(), std::span<const Move>{moves}))
                check_german(paragraph(plan.value()), paragraph(plan.value(), Language::german), "plan");
            const Answer answer = answers(position, candidate.move);
            check_german(sentence(position, answer), sentence(position, answer, Language::german), "answer");
        }
        const Outlook both = outlook(position);
        check_german(paragraph(position, both), paragraph(position, both, Language::german), "outlook");
        for (const Side side : all_sides) {
            const Difficulty found = difficulty(position, side);
            check_german(paragraph(found), paragraph(found, Language::german), "difficulty");
        }
        for (const Square square : position.men(position.mover()))
            if (const auto found = route(position, square, Square::d5))
                check_german(sentence(found.value()), sentence(found.value(), Language::german), "route");
    }
}

BOOST_AUTO_TEST_CASE(moves_have_the_letters_of_the_language) {
    const Position position = read_fen("r3k2r/1P6/8/8/8/5n2/6P1/R3K2R w KQkq - 0 1").value();
    BOOST_TEST(move_text(position, Move{Square::b7, Square::a8, promotion_to(Kind::queen)}, Language::german) ==
               "bxa8=D+");
    BOOST_TEST(move_text(position, Move{Square::b7, Square::a8, promotion_to(Kind::queen)}) == "bxa8=Q+");
    const Position free = read_fen("r3k2r/8/8/8/8/8/8/RNBQK2R w KQkq - 0 1").value();
    for (const Move move : legal_moves(free)) {
        const std::string english = san(free, move);
        const std::string ours = move_text(free, move, Language::german);
        if (english == "O-O") BOOST_TEST(ours == "0-0");
        if (english[0] == 'N') BOOST_TEST(ours[0] == 'S');
        if (english[0] == 'R') BOOST_TEST(ours[0] == 'T');
        if (english[0] == 'B') BOOST_TEST(ours[0] == 'L');
    }
}

BOOST_AUTO_TEST_CASE(a_german_teacher_would_say_so) {
    BOOST_TEST(first_sentence("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 w - - 0 1", Theme::hanging) ==
               "Weiß kann mit Txd6 Material im Wert von 3 Bauern gewinnen: Der Springer auf d6 ist ungedeckt.");
    BOOST_TEST(first_sentence("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 b - - 0 1", Theme::hanging) ==
               "Weiß droht, mit Txd6 Material im Wert von 3 Bauern zu gewinnen: Der Springer auf d6 ist ungedeckt.");
    BOOST_TEST(
        first_sentence("3rr1k1/pp3ppp/8/8/3N4/7P/PP2NPP1/6K1 w - - 0 1", Theme::mutual_guards) ==
        "Die Springer auf e2 und d4 sind aneinander gebunden: Sie brauchen einander, und jeder ihrer Züge verliert "
        "etwas; das kleinste Übel, Sc1, verliert Material im Wert von 3 Bauern (1...Txd4).");
    BOOST_TEST(
        first_sentence("3r2k1/5ppp/8/3b4/8/8/5PPP/3RR1K1 w - - 0 1", Theme::overloaded) ==
        "Der Turm auf d8 ist überlastet (d5 und e8): Txd5 gewinnt Material im Wert von 3 Bauern, denn schlägt er "
        "dort, vernachlässigt er die andere Aufgabe: 1.Txd5 Txd5 2.Te8#.");
    const std::string_view hole = "4k3/pp3ppp/3p4/4p3/4P3/2N5/PP3PPP/4K3 w - - 0 1";
    BOOST_TEST(first_sentence(hole, Theme::hole) ==
               "Schwarz hat ein schwaches Feld, auf dem sich eine Leichtfigur von Weiß festsetzen kann (d5).");
    BOOST_TEST(first_sentence(hole, Theme::outpost) ==
               "Der Springer auf c3 kann in einem Zug einen Vorposten erreichen (d5).");
    BOOST_TEST(
        first_sentence("4k3/pp3ppp/3p4/3N4/4P3/8/5PPP/4K3 w - - 0 1", Theme::outpost) ==
        "Der Springer auf d5 steht auf einem Vorposten: Ein Bauer deckt ihn, und kein gegnerischer Bauer kann ihn "
        "vertreiben.");
    const std::string_view opening = "rnbqkbnr/ppp2ppp/3pp3/8/2PPP3/5N2/PP3PPP/RNBQKB1R b KQkq - 0 4";
    BOOST_TEST(first_sentence(opening, Theme::space) == "Weiß hat mehr Raum: 11 Felder hinter den Bauern gegen 6.");
    BOOST_TEST(
        first_sentence(opening, Theme::undeveloped) ==
        "Schwarz liegt in der Entwicklung zurück: 4 Leichtfiguren stehen noch auf dem Ausgangsfeld (b8, c8, f8 und "
        "g8).");
    const std::string_view french = "r1b1k3/pp3p1p/4p1p1/3pP3/3P4/3B4/PP3PPP/R3K3 w - - 0 1";
    BOOST_TEST(
        first_sentence(french, Theme::bad_bishop) ==
        "Der Läufer auf c8 ist ein schlechter Läufer: 3 eigene Bauern sind auf seiner Farbe festgelegt (d5, e6 und "
        "f7).");
    BOOST_TEST(
        first_sentence(french, Theme::good_bishop) ==
        "Der Läufer auf d3 ist ein guter Läufer: 2 eigene Bauern sind auf der anderen Farbe festgelegt (d4 und e5).");
    BOOST_TEST(first_sentence("4k3/p7/8/Np1p4/8/1P6/2P5/4K3 w - - 0 1", Theme::rim_knight) ==
               "Der Springer auf a5 steht am Rand und hat 2 Felder zur Verfügung.");
    BOOST_TEST(first_sentence("4k3/8/8/8/4P3/3P4/P1P5/1B2K2R w - - 0 1", Theme::passive_piece) ==
               "Der Läufer auf b1 steht passiv: kein Feld zur Verfügung, üblich sind 4.");
    BOOST_TEST(
        first_sentence("r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1", Theme::guarding_only) ==
        "Der Turm auf a1 erfüllt nur Deckungsaufgaben (a2) und greift weder einen gegnerischen Stein noch ein Feld "
        "der gegnerischen Hälfte an.");
    BOOST_TEST(first_sentence("4k3/8/8/8/1b6/2N5/8/4K3 w - - 0 1", Theme::pin) ==
               "Der Springer auf c3 ist durch den Läufer auf b4 an den König gefesselt.");
    BOOST_TEST(first_sentence("3r2k1/5ppp/8/8/8/3Q4/5PPP/6K1 b - - 0 1", Theme::hanging) ==
               "Schwarz kann mit Txd3 Material im Wert von 9 Bauern gewinnen: Die Dame auf d3 ist ungedeckt.");
    BOOST_TEST(first_sentence("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", Theme::mate_in_one) ==
               "Weiß setzt mit Td8# matt.");
    BOOST_TEST(first_sentence("6k1/5ppp/8/8/8/8/5PPP/3R2K1 b - - 0 1", Theme::mate_in_one) ==
               "Weiß droht mit Td8# matt.");
    BOOST_TEST(first_sentence("4k3/8/8/8/3P4/8/8/R3K3 w - - 0 1", Theme::isolated_pawn) ==
               "Weiß hat einen vereinzelten Bauern (d4).");
    BOOST_TEST(first_sentence("4k3/8/8/3P4/8/8/8/4K3 w - - 0 1", Theme::passed_pawn) ==
               "Der Bauer auf d5 ist ein Freibauer; bis zur Umwandlung fehlen 3 Schritte.");
    BOOST_TEST(first_sentence("4k3/pp6/8/8/8/8/PPP5/4K3 w - - 0 1", Theme::pawn_majority) ==
               "Weiß hat die Mehrheit am Damenflügel: 3 Bauern gegen 2.");
    BOOST_TEST(first_sentence("4k3/pp3p2/8/8/8/8/PP3P2/R3K3 w - - 0 1", Theme::open_file) ==
               "Der Turm auf a1 kann eine offene Linie besetzen (c1 und d1).");
}

BOOST_AUTO_TEST_CASE(threats_and_answers_in_german) {
    const Position position = read_fen("6k1/5ppp/3n4/8/8/8/5PPP/3R2K1 b - - 0 1").value();
    const Threats found = threats(position, Side::white);
    BOOST_REQUIRE(!found.empty());
    BOOST_TEST(sentence(position, found.front(), Language::german) ==
               "Weiß droht, mit Txd6 Material im Wert von 3 Bauern zu gewinnen.");
    const Position mated = read_fen("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1").value();
    const Candidates best = candidates(mated, 1);
    BOOST_REQUIRE(!best.empty());
    BOOST_TEST(sentence(mated, best.front(), Language::german) == "Td8# setzt matt (1.Td8#).");
}

BOOST_AUTO_TEST_CASE(a_diagram_in_german_words) {
    const Position position = read_fen("r5k1/8/8/8/8/8/P5PP/R5K1 w - - 0 1").value();
    BOOST_TEST(position_in_words(position, Language::german) ==
               "Weiß: König g1, Turm a1, Bauern a2, g2 und h2. Schwarz: König g8, Turm a8. Weiß am Zug.");
    DiagramOptions options;
    options.language = Language::german;
    options.arrows = {{Square::a1, Square::b1, LineStyle::dashed, 1}};
    const std::string drawn = diagram(position, options);
    BOOST_TEST(drawn.find("Schachstellung, Weiß am Zug") != std::string::npos);
    BOOST_TEST(drawn.find("Pfeile: gestrichelt von a1 nach b1 (1).") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
