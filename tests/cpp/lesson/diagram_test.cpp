// Diagrams: what is drawn where, that the text is safe XML, and that the words say what the picture shows.
#include <keysquare/lesson/diagram.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <boost/test/unit_test.hpp>

using namespace keysquare;

namespace {

PositionParts opening_parts() {
    constexpr std::array back{Kind::rook, Kind::knight, Kind::bishop, Kind::queen,
                              Kind::king, Kind::bishop, Kind::knight, Kind::rook};
    PositionParts parts;
    for (int file = 0; file < 8; ++file) {
        const auto put = [&](int rank, Piece piece) {
            parts.pieces[static_cast<std::size_t>(index(square_at(file, rank)))] = piece;
        };
        put(0, {Side::white, back[static_cast<std::size_t>(file)]});
        put(1, {Side::white, Kind::pawn});
        put(6, {Side::black, Kind::pawn});
        put(7, {Side::black, back[static_cast<std::size_t>(file)]});
    }
    return parts;
}

Position ending(Side mover = Side::white) {
    PositionParts parts;
    const auto put = [&](Square square, Side side, Kind kind) {
        parts.pieces[static_cast<std::size_t>(index(square))] = {side, kind};
    };
    put(Square::g1, Side::white, Kind::king);
    put(Square::a1, Side::white, Kind::rook);
    put(Square::f1, Side::white, Kind::rook);
    put(Square::h2, Side::white, Kind::pawn);
    put(Square::b4, Side::white, Kind::pawn);
    put(Square::f2, Side::white, Kind::pawn);
    put(Square::g8, Side::black, Kind::king);
    put(Square::d5, Side::black, Kind::knight);
    parts.mover = mover;
    return Position{parts};
}

std::size_t count(std::string_view text, std::string_view what) {
    std::size_t found = 0;
    for (std::size_t at = 0; (at = text.find(what, at)) != std::string_view::npos; at += what.size()) ++found;
    return found;
}

bool has(std::string_view text, std::string_view what) { return text.find(what) != std::string_view::npos; }

std::string_view text_between(std::string_view text, std::string_view before, std::string_view after) {
    const std::size_t start = text.find(before);
    BOOST_REQUIRE_MESSAGE(start != std::string_view::npos, "no " << before);
    text.remove_prefix(start + before.size());
    const std::size_t end = text.find(after);
    BOOST_REQUIRE_MESSAGE(end != std::string_view::npos, "no " << after);
    return text.substr(0, end);
}

/// The drawing of one named part, up to the next part.
std::string_view part(std::string_view svg, std::string_view name) {
    const std::string start = "data-part=\"" + std::string{name} + '"';
    const std::size_t at = svg.find(start);
    BOOST_REQUIRE_MESSAGE(at != std::string_view::npos, "no part " << name);
    svg.remove_prefix(at + start.size());
    return svg.substr(0, svg.find("data-part"));
}

struct Element {
    std::string name;
    std::map<std::string, std::string> attributes;
};

/// A strict reader of the XML that a diagram may consist of: elements, quoted attributes, text with the five predefined
/// entities and character references. Reports the first fault.
struct Reader {
    std::vector<Element> elements;
    std::string fault;

    explicit Reader(std::string_view xml) : rest_(xml) {
        while (fault.empty() && !rest_.empty()) rest_[0] == '<' ? tag() : text();
        if (fault.empty() && !open_.empty()) fault = "not closed: " + open_.back();
    }

  private:
    void text() {
        const std::string_view run = rest_.substr(0, rest_.find('<'));
        check(run);
        rest_.remove_prefix(run.size());
        if (open_.empty() && run.find_first_not_of('\n') != std::string_view::npos) fault = "text outside the root";
    }
    void check(std::string_view run) {
        for (std::size_t at = 0; at < run.size(); ++at) {
            const auto byte = static_cast<unsigned char>(run[at]);
            if (byte < 0x20 && byte != '\n' && byte != '\t' && byte != '\r') fault = "control character";
            if (byte == '<' || byte == '>') fault = "bare angle";
            if (byte != '&') continue;
            const std::string_view entity = run.substr(at, run.find(';', at) - at + 1);
            const std::set<std::string_view> known{"&amp;", "&lt;", "&gt;", "&quot;", "&apos;", "&#39;"};
            if (!known.contains(entity)) fault = "bare ampersand";
        }
    }
    void tag() {
        const std::size_t end = rest_.find('>');
        if (end == std::string_view::npos) {
            fault = "tag without end";
            return;
        }
        std::string_view inside = rest_.substr(1, end - 1);
        rest_.remove_prefix(end + 1);
        if (inside.starts_with('/')) {
            if (open_.empty() || open_.back() != inside.substr(1))
                fault = "wrong end tag " + std::string{inside};
            else
                open_.pop_back();
            return;
        }
        const bool empty = inside.ends_with('/');
        if (empty) inside.remove_suffix(1);
        if (open_.empty() && !elements.empty()) fault = "second root";
        Element element{std::string{inside.substr(0, inside.find(' '))}, {}};
        inside.remove_prefix(element.name.size());
        while (!inside.empty() && fault.empty()) {
            const std::size_t equals = inside.find("=\"");
            const std::size_t quote = equals == std::string_view::npos ? equals : inside.find('"', equals + 2);
            if (inside[0] != ' ' || quote == std::string_view::npos) {
                fault = "bad attribute in " + element.name;
                return;
            }
            const std::string_view value = inside.substr(equals + 2, quote - equals - 2);
            check(value);
            if (!element.attributes.emplace(inside.substr(1, equals - 1), value).second) fault = "attribute twice";
            inside.remove_prefix(quote + 1);
        }
        if (!empty) open_.push_back(element.name);
        elements.push_back(std::move(element));
    }

    std::string_view rest_;
    std::vector<std::string> open_;
};

/// Where each man stands in the picture: kind, column, row in hundredths of a square.
std::multiset<std::string> placed(std::string_view part) {
    std::multiset<std::string> result;
    const Reader reader{"<g" + std::string{part.substr(0, part.rfind("</g>"))} + "</g>"};
    BOOST_REQUIRE_EQUAL(reader.fault, "");
    for (Element element : reader.elements) {
        if (element.name != "use") continue;
        const std::string what = element.attributes["href"];
        const auto number = [&](const char* key) {
            return element.attributes[key].empty() ? "0" : element.attributes[key];
        };
        result.insert(what.substr(what.find('-') + 1) + ' ' + number("x") + ' ' + number("y"));
    }
    return result;
}

DiagramOptions everything() {
    DiagramOptions options;
    options.title = "The <b>\"rook\"</b> & friends";
    int number = 0;
    for (const MarkStyle style :
         {MarkStyle::outline, MarkStyle::double_outline, MarkStyle::dotted_outline, MarkStyle::corners, MarkStyle::ring,
          MarkStyle::cross, MarkStyle::dot, MarkStyle::bare})
        options.marks.push_back({square_at(9 + 3 * number), style, number + 1}), ++number;
    options.arrows = {{Square::a1, Square::a8, LineStyle::solid, 1},
                      {Square::d5, Square::f4, LineStyle::dashed, 2},
                      {Square::f4, Square::d5, LineStyle::dotted, 0}};
    return options;
}

} // namespace

BOOST_AUTO_TEST_SUITE(diagram_)

BOOST_AUTO_TEST_CASE(draws_every_man_once_in_its_place) {
    const std::string svg = diagram(Position{opening_parts()});
    const auto men = placed(part(svg, "men"));
    BOOST_CHECK_EQUAL(men.size(), 32U);
    BOOST_CHECK_EQUAL(men.count("king 400 700"), 1U);
    BOOST_CHECK_EQUAL(men.count("king 400 0"), 1U);
    BOOST_CHECK_EQUAL(men.count("queen 300 700"), 1U);
    BOOST_CHECK_EQUAL(men.count("rook 0 0"), 1U);
    BOOST_CHECK_EQUAL(men.count("pawn 700 600"), 1U);
    const std::string_view white = text_between(svg, "<g fill=\"#fff\" color=\"#000\">", "</g>");
    const std::string_view black = text_between(svg, "<g fill=\"#000\" color=\"#fff\">", "</g>");
    BOOST_CHECK_EQUAL(count(white, "<use"), 16U);
    BOOST_CHECK_EQUAL(count(black, "<use"), 16U);
    BOOST_CHECK(has(white, "-king\" x=\"400\" y=\"700\""));
    BOOST_CHECK(has(black, "-king\" x=\"400\"/>"));
}

BOOST_AUTO_TEST_CASE(defines_only_the_kinds_on_the_board) {
    const std::string svg = diagram(ending());
    BOOST_CHECK_EQUAL(count(svg, "-king-body\" d="), 1U);
    BOOST_CHECK_EQUAL(count(svg, "-knight-body\" d="), 1U);
    BOOST_CHECK(!has(svg, "-queen"));
    BOOST_CHECK(!has(svg, "-bishop"));
}

BOOST_AUTO_TEST_CASE(hatches_the_dark_squares) {
    for (const Side bottom : all_sides) {
        DiagramOptions options;
        options.bottom = bottom;
        const auto hatched = placed(part(diagram(Position{}, options), "hatching"));
        BOOST_CHECK_EQUAL(hatched.size(), 32U);
        BOOST_CHECK_EQUAL(hatched.count("hatch 0 700"), 1U); // a1 or h8, dark either way
        BOOST_CHECK_EQUAL(hatched.count("hatch 0 0"), 0U);
        BOOST_CHECK_EQUAL(hatched.count("hatch 700 0"), 1U);
    }
}

BOOST_AUTO_TEST_CASE(turns_the_board) {
    DiagramOptions options;
    const auto upright = placed(part(diagram(ending(), options), "men"));
    options.bottom = Side::black;
    const auto turned = placed(part(diagram(ending(), options), "men"));
    BOOST_CHECK(upright != turned);
    std::multiset<std::string> expected;
    for (const std::string& man : upright) {
        const std::size_t first = man.find(' ');
        const std::size_t second = man.rfind(' ');
        expected.insert(man.substr(0, first) + ' ' + std::to_string(700 - std::stoi(man.substr(first))) + ' ' +
                        std::to_string(700 - std::stoi(man.substr(second))));
    }
    BOOST_CHECK(turned == expected);
}

BOOST_AUTO_TEST_CASE(is_well_formed_and_stands_alone) {
    for (const DiagramOptions& options : {DiagramOptions{}, everything()})
        for (const Position& position : {Position{}, Position{opening_parts()}, ending(Side::black)}) {
            const std::string svg = diagram(position, options);
            const Reader reader{svg};
            BOOST_CHECK_EQUAL(reader.fault, "");
            std::set<std::string> ids;
            std::vector<std::string> references;
            for (const Element& element : reader.elements)
                for (const auto& [key, value] : element.attributes) {
                    if (key == "id") BOOST_CHECK_MESSAGE(ids.insert(value).second, "id twice: " << value);
                    if (key == "href") references.push_back(value);
                    if (key == "fill" || key == "stroke" || key == "color")
                        BOOST_CHECK_MESSAGE(
                            value == "#000" || value == "#fff" || value == "none" || value == "currentColor", value);
                }
            BOOST_CHECK(!references.empty());
            for (const std::string& reference : references)
                BOOST_CHECK_MESSAGE(reference[0] == '#' && ids.contains(reference.substr(1)), reference);
            BOOST_CHECK_EQUAL(count(svg, "http"), 1U); // the name space
            for (const char* foreign : {"url(", "<style", "<script", "<image", "\x01"}) BOOST_CHECK(!has(svg, foreign));
            BOOST_CHECK(has(svg, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby="));
            for (const std::string_view label : {"<title id=\"", "<desc id=\""}) {
                const std::string id{text_between(svg, label, "\"")};
                BOOST_CHECK(has(text_between(svg, "aria-labelledby=\"", "\""), id));
            }
        }
}

BOOST_AUTO_TEST_CASE(escapes_hostile_titles) {
    const auto title = [](std::string text) {
        DiagramOptions options;
        options.title = std::move(text);
        const std::string svg = diagram(ending(), options);
        BOOST_CHECK_EQUAL(Reader{svg}.fault, "");
        const std::string_view inside = text_between(svg, "<title id=", "</title>");
        return std::string{inside.substr(inside.find('>') + 1)};
    };
    const std::string stand_in = "\xEF\xBF\xBD";
    BOOST_CHECK_EQUAL(title("</title><script>x('&\")</script>"),
                      "&lt;/title&gt;&lt;script&gt;x(&#39;&amp;&quot;)&lt;/script&gt;");
    BOOST_CHECK_EQUAL(title("]]>&amp;"), "]]&gt;&amp;amp;");
    BOOST_CHECK_EQUAL(title("J\xC3\xA1n \xE2\x99\x9E \xF0\x9F\x82\xA1"), "J\xC3\xA1n \xE2\x99\x9E \xF0\x9F\x82\xA1");
    BOOST_CHECK_EQUAL(title(std::string{"a\0b\x01\x1B"
                                        "c",
                                        6}),
                      "a" + stand_in + "b" + stand_in + stand_in + "c");
    BOOST_CHECK_EQUAL(title("\xE9t\xE9"), stand_in + "t" + stand_in);                        // Latin-1
    BOOST_CHECK_EQUAL(title("\xC0\xBC"), stand_in + stand_in);                               // overlong '<'
    BOOST_CHECK_EQUAL(title("\xE0\x80\xBC"), stand_in + stand_in + stand_in);                // the same in three bytes
    BOOST_CHECK_EQUAL(title("\xF0\x80\x80\xBC"), stand_in + stand_in + stand_in + stand_in); // and in four
    BOOST_CHECK_EQUAL(title("\xED\xA0\x80"), stand_in + stand_in + stand_in);                // surrogate
    BOOST_CHECK_EQUAL(title("\xEF\xBF\xBF"), stand_in + stand_in + stand_in);                // not an XML character
    BOOST_CHECK_EQUAL(title("\xF4\x90\x80\x80"), stand_in + stand_in + stand_in + stand_in); // beyond Unicode
    BOOST_CHECK_EQUAL(title("x\xE2\x99"), "x" + stand_in + stand_in);                        // cut off
    BOOST_CHECK_EQUAL(title(""), "Chess position, White to move");
}

BOOST_AUTO_TEST_CASE(marks_the_mover) {
    const auto mark = [](Side mover, Side bottom) {
        DiagramOptions options;
        options.bottom = bottom;
        return std::string{text_between(diagram(ending(mover), options), "<path data-part=\"mover\" d=\"", "/>")};
    };
    const std::string low = "M822 780";
    const std::string high = "M822 20";
    BOOST_CHECK(mark(Side::white, Side::white).starts_with(low));
    BOOST_CHECK(mark(Side::black, Side::white).starts_with(high));
    BOOST_CHECK(mark(Side::white, Side::black).starts_with(high));
    BOOST_CHECK(mark(Side::black, Side::black).starts_with(low));
    BOOST_CHECK(has(mark(Side::white, Side::black), "fill=\"#fff\""));
    BOOST_CHECK(has(mark(Side::black, Side::white), "fill=\"#000\""));

    DiagramOptions without;
    without.mover_mark = false;
    const std::string svg = diagram(ending(Side::black), without);
    BOOST_CHECK(!has(svg, "data-part=\"mover\""));
    BOOST_CHECK(has(svg, "Black to move.</desc>"));
}

BOOST_AUTO_TEST_CASE(writes_coordinates) {
    DiagramOptions options;
    std::string svg = diagram(ending(), options);
    BOOST_CHECK_EQUAL(count(part(svg, "coordinates"), "<text"), 16U);
    BOOST_CHECK(has(svg, "<text x=\"50\" y=\"848\">a</text>"));
    BOOST_CHECK(has(svg, "y=\"762\">1</text>"));
    options.bottom = Side::black;
    svg = diagram(ending(), options);
    BOOST_CHECK(has(svg, "<text x=\"50\" y=\"848\">h</text>"));
    BOOST_CHECK(has(svg, "y=\"762\">8</text>"));
    options.coordinates = false;
    BOOST_CHECK(!has(diagram(ending(), options), "<text"));
}

BOOST_AUTO_TEST_CASE(scales_with_the_square_size) {
    const auto width = [](int square_size) {
        DiagramOptions options;
        options.square_size = square_size;
        const std::string svg = diagram(ending(), options);
        return std::pair{std::stod(std::string{text_between(svg, " width=\"", "\"")}),
                         std::string{text_between(svg, "viewBox=\"", "\"")}};
    };
    BOOST_CHECK_EQUAL(width(48).second, "-58 -20 916 882");
    BOOST_CHECK_EQUAL(width(96).second, width(24).second);
    BOOST_CHECK_CLOSE(width(96).first, 2 * width(48).first, 0.1);
    BOOST_CHECK_EQUAL(width(-5).first, width(8).first);
    BOOST_CHECK_EQUAL(width(1'000'000).first, width(512).first);
}

BOOST_AUTO_TEST_CASE(draws_each_mark_in_its_own_way) {
    std::set<std::string> drawings;
    const auto options = everything();
    for (SquareMark mark : options.marks) {
        mark.square = Square::c3;
        mark.number = 0;
        DiagramOptions one;
        one.marks = {mark};
        const std::string svg = diagram(ending(), one);
        drawings.insert(std::string{part(svg, "marks").substr(0, part(svg, "marks").find("</g>"))} +
                        std::string{part(svg, "crosses")});
        BOOST_CHECK_EQUAL(count(svg, "<circle"), 0U);
    }
    BOOST_CHECK_EQUAL(drawings.size(), options.marks.size());
}

BOOST_AUTO_TEST_CASE(sets_numbers) {
    DiagramOptions options;
    options.marks = {{Square::a1, MarkStyle::ring, 1},
                     {Square::a1, MarkStyle::bare, 12},
                     {Square::a1, MarkStyle::dot, 1},
                     {Square::h8, MarkStyle::bare, 0},
                     {Square::h8, MarkStyle::bare, -3}};
    options.arrows = {{Square::b1, Square::b8, LineStyle::solid, 7}};
    const std::string svg = diagram(ending(), options);
    const std::string_view numbers = part(svg, "numbers");
    BOOST_CHECK_EQUAL(count(numbers, "<circle"), 3U); // the second 1 on a1 says nothing new
    BOOST_CHECK(has(numbers, "<circle cx=\"84\" cy=\"716\" r=\"17\" fill=\"#000\""));
    BOOST_CHECK(has(numbers, "<circle cx=\"16\" cy=\"716\" r=\"17\" fill=\"#000\""));
    BOOST_CHECK(has(numbers, "fill=\"#fff\">12</text>"));
    BOOST_CHECK(has(numbers, "<circle cx=\"150\""));
    BOOST_CHECK(has(numbers, "fill=\"#000\">7</text>"));
}

BOOST_AUTO_TEST_CASE(keeps_numbers_of_arrows_apart) {
    DiagramOptions options;
    for (int number = 1; number <= 4; ++number)
        options.arrows.push_back({Square::a4, Square::h4, LineStyle::solid, number});
    const std::string svg = diagram(Position{}, options);
    std::set<std::string> centres;
    for (const Element& element : Reader{svg}.elements)
        if (element.name == "circle") centres.insert(element.attributes.at("cx"));
    BOOST_CHECK_EQUAL(centres.size(), 4U);
}

BOOST_AUTO_TEST_CASE(draws_arrows) {
    DiagramOptions options;
    options.arrows = {{Square::a4, Square::h4, LineStyle::solid, 0}};
    const std::string solid = diagram(Position{}, options);
    BOOST_CHECK(has(solid, "M66 450L"));                 // from the middle of a4 along the rank
    BOOST_CHECK(has(part(solid, "heads"), "M742 450L")); // to the middle of an empty h4
    BOOST_CHECK_EQUAL(count(solid, "stroke-dasharray"), 0U);
    options.arrows[0].style = LineStyle::dashed;
    const std::string dashed = diagram(Position{}, options);
    options.arrows[0].style = LineStyle::dotted;
    const std::string dotted = diagram(Position{}, options);
    BOOST_CHECK_EQUAL(count(dashed, "stroke-dasharray"), 1U);
    BOOST_CHECK_EQUAL(count(dotted, "stroke-dasharray"), 1U);
    BOOST_CHECK(part(dashed, "shafts") != part(dotted, "shafts"));

    // Two arrows that answer each other must not lie on one line.
    options.arrows.push_back({Square::h4, Square::a4, LineStyle::solid, 0});
    const std::string mutual = diagram(Position{}, options);
    BOOST_CHECK(has(mutual, "M66 439L"));
    BOOST_CHECK(has(mutual, "M734 461L"));
}

BOOST_AUTO_TEST_CASE(leaves_out_what_names_no_square) {
    DiagramOptions options;
    const std::string plain = diagram(ending(), options);
    options.marks = {{Square::none, MarkStyle::ring, 1}, {static_cast<Square>(200), MarkStyle::cross, 2}};
    options.arrows = {{Square::a1, Square::a1, LineStyle::solid, 1},
                      {Square::none, Square::a1, LineStyle::solid, 2},
                      {Square::a1, static_cast<Square>(99), LineStyle::solid, 3}};
    BOOST_CHECK_EQUAL(diagram(ending(), options), plain);
}

BOOST_AUTO_TEST_CASE(shares_a_document_with_others) {
    const auto prefix = [](const std::string& svg) {
        return std::string{text_between(svg, "aria-labelledby=\"", "t ")};
    };
    DiagramOptions options;
    const std::string one = diagram(ending(), options);
    BOOST_CHECK_EQUAL(diagram(ending(), options), one);
    std::set<std::string> prefixes{prefix(one), prefix(diagram(ending(Side::black), options))};
    options.square_size = 96;
    prefixes.insert(prefix(diagram(ending(), options)));
    options.serial = 1;
    prefixes.insert(prefix(diagram(ending(), options)));
    BOOST_CHECK_EQUAL(prefixes.size(), 4U);
}

BOOST_AUTO_TEST_CASE(stays_small) {
    BOOST_CHECK_LT(diagram(Position{opening_parts()}).size(), 12'000U);
    BOOST_CHECK_LT(diagram(Position{opening_parts()}, everything()).size(), 20'000U);
}

BOOST_AUTO_TEST_CASE(says_the_position_in_words) {
    BOOST_CHECK_EQUAL(position_in_words(ending()), "White: king g1, rooks a1 and f1, pawns b4, f2 and h2. "
                                                   "Black: king g8, knight d5. White to move.");
    BOOST_CHECK_EQUAL(position_in_words(Position{}), "White: no men. Black: no men. White to move.");
    BOOST_CHECK(has(diagram(ending(Side::black)), position_in_words(ending(Side::black)) + "</desc>"));
}

BOOST_AUTO_TEST_CASE(says_marks_and_arrows_in_words) {
    DiagramOptions options;
    options.marks = {{Square::d5, MarkStyle::double_outline, 1}, {Square::e4, MarkStyle::ring, 0}};
    options.arrows = {{Square::d5, Square::f4, LineStyle::solid, 2}, {Square::a1, Square::a8, LineStyle::dashed, 0}};
    BOOST_CHECK(has(diagram(ending(), options), "White to move. Marks: double outline on d5 (1), ring on e4. "
                                                "Arrows: from d5 to f4 (2), dashed from a1 to a8.</desc>"));
}

BOOST_AUTO_TEST_SUITE_END()
