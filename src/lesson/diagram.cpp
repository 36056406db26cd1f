// Drawing of diagrams. All lengths are in hundredths of a square unless a name says otherwise.
#include <keysquare/lesson/diagram.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string_view>

#include "diagram_words.hpp"
#include "piece_outlines.hpp"
#include "words.hpp"

namespace keysquare {
namespace {

constexpr int cell = 100;
constexpr int board = 8 * cell;
constexpr double disc_radius = 17;

/// Stands for the prefix of the ids until it is known. It can't come from a title: `escaped` lets no controls through.
constexpr std::string_view id_prefix = "\x01";

struct Point {
    double x;
    double y;
    friend constexpr Point operator+(Point a, Point b) noexcept { return {a.x + b.x, a.y + b.y}; }
    friend constexpr Point operator-(Point a, Point b) noexcept { return {a.x - b.x, a.y - b.y}; }
    friend constexpr Point operator*(Point a, double by) noexcept { return {a.x * by, a.y * by}; }
};

// sqrt is exactly rounded everywhere, unlike hypot: the same input gives the same text on every platform.
double length(Point p) { return std::sqrt(p.x * p.x + p.y * p.y); }

template <class... Parts> std::string joined(const Parts&... parts) {
    std::string text;
    (text.append(std::string_view{parts}), ...);
    return text;
}

/// At most one decimal, whatever the locale.
std::string text_of(double value) {
    const long tenths = std::lround(value * 10);
    const long size = std::abs(tenths);
    const std::string whole = joined(tenths < 0 ? "-" : "", std::to_string(size / 10));
    return size % 10 == 0 ? whole : joined(whole, ".", std::to_string(size % 10));
}
std::string text_of(Point p) { return joined(text_of(p.x), " ", text_of(p.y)); }

/// The length of the well-formed UTF-8 sequence at the start of `text` that XML may hold; 0 when there is none.
std::size_t character_length(std::string_view text) {
    const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
    const unsigned lead = byte(0);
    if (lead < 0x80) return lead >= 0x20 || lead == '\t' || lead == '\n' || lead == '\r' ? 1 : 0;
    const std::size_t size = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < size) return 0;
    unsigned code = lead & (0x7FU >> size);
    for (std::size_t at = 1; at < size; ++at) {
        if ((byte(at) & 0xC0U) != 0x80U) return 0;
        code = code << 6 | (byte(at) & 0x3FU);
    }
    constexpr std::array smallest{0U, 0U, 0x80U, 0x800U, 0x10000U};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < smallest[size] || code > 0x10FFFF || surrogate || code == 0xFFFE || code == 0xFFFF) return 0;
    return size;
}

/// `text` as XML character data or attribute value. What XML can't hold becomes U+FFFD, byte by byte.
std::string escaped(std::string_view text) {
    std::string result;
    while (!text.empty()) {
        const std::size_t size = character_length(text);
        switch (size == 1 ? text[0] : '\0') {
        case '&': result += "&amp;"; break;
        case '<': result += "&lt;"; break;
        case '>': result += "&gt;"; break;
        case '"': result += "&quot;"; break;
        case '\'': result += "&#39;"; break;
        default: size == 0 ? result += "\xEF\xBF\xBD" : result += text.substr(0, size);
        }
        text.remove_prefix(std::max<std::size_t>(size, 1));
    }
    return result;
}

bool on_board(Square square) { return index(square) < 64; }
bool is_drawn(const SquareMark& mark) { return on_board(mark.square); }
bool is_drawn(const Arrow& arrow) { return on_board(arrow.from) && on_board(arrow.to) && arrow.from != arrow.to; }

std::string numbered(int number) { return number > 0 ? joined(" (", std::to_string(number), ")") : std::string{}; }

const DiagramWords& words_in(Language language) { return diagram_words[static_cast<std::size_t>(language)]; }

std::string words_of(const DiagramOptions& options) {
    const DiagramWords& words = words_in(options.language);
    const auto told = [](std::string_view pattern, const std::vector<std::string>& list) {
        std::string text;
        for (const std::string& one : list) text.append(text.empty() ? "" : ", ").append(one);
        return list.empty() ? text : detail::filled(pattern, [&](std::string_view) { return text; });
    };
    std::vector<std::string> marks;
    for (const SquareMark& mark : options.marks)
        if (is_drawn(mark))
            marks.push_back(detail::filled(words.mark, [&](std::string_view key) {
                if (key == "style") return std::string{words.mark_styles[static_cast<std::size_t>(mark.style)]};
                return key == "square" ? std::string{name(mark.square)} : numbered(mark.number);
            }));
    std::vector<std::string> arrows;
    for (const Arrow& arrow : options.arrows)
        if (is_drawn(arrow))
            arrows.push_back(
                detail::filled(words.arrow_of[static_cast<std::size_t>(arrow.style)], [&](std::string_view key) {
                    if (key == "number") return numbered(arrow.number);
                    return std::string{name(key == "from" ? arrow.from : arrow.to)};
                }));
    return told(words.marks, marks) + told(words.arrows, arrows);
}

std::string of_mover(std::string_view pattern, const Position& position, Language language) {
    return detail::filled(pattern, [&](std::string_view) { return detail::Words{language}.side(position.mover()); });
}

class Drawing {
  public:
    Drawing(const Position& position, const DiagramOptions& options) : position_(position), options_(options) {}

    std::string draw() {
        head();
        outlines();
        hatching();
        frame();
        marks();
        shafts();
        men();
        crosses();
        heads();
        numbers();
        coordinates();
        mover();
        put("</svg>\n");
        return with_ids();
    }

  private:
    template <class... Parts> void put(const Parts&... parts) { (svg_.append(std::string_view{parts}), ...); }
    static std::string n(double value) { return text_of(value); }

    // Geometry. The upper left corner of the board is the origin.

    [[nodiscard]] Point corner(Square square) const {
        const bool white = options_.bottom == Side::white;
        const int column = white ? file_of(square) : 7 - file_of(square);
        const int row = white ? 7 - rank_of(square) : rank_of(square);
        return {static_cast<double>(column * cell), static_cast<double>(row * cell)};
    }
    [[nodiscard]] Point centre(Square square) const { return corner(square) + Point{cell / 2.0, cell / 2.0}; }

    // The parts of the picture, in the order of painting.

    void head() {
        const int left = options_.coordinates ? 58 : 20;
        const int below = options_.coordinates ? 62 : 20;
        const int right = options_.mover_mark ? 58 : 20;
        const int above = 20;
        const double scale = std::clamp(options_.square_size, 8, 512) / static_cast<double>(cell);
        const int width = left + board + right;
        const int height = above + board + below;
        const std::string box = joined(n(-left), " ", n(-above), " ", n(width), " ", n(height));
        const std::string title = options_.title.empty()
                                      ? of_mover(words_in(options_.language).title, position_, options_.language)
                                      : options_.title;
        put("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"", id_prefix, "t ", id_prefix,
            "d\" viewBox=\"", box, "\" width=\"", n(width * scale), "\" height=\"", n(height * scale), "\">\n");
        put("<title id=\"", id_prefix, "t\">", escaped(title), "</title>\n");
        put("<desc id=\"", id_prefix, "d\">",
            escaped(position_in_words(position_, options_.language) + words_of(options_)), "</desc>\n");
        // White paper of our own: the page around the diagram may be dark.
        put("<path d=\"M", n(-left), " ", n(-above), "h", n(width), "v", n(height), "h", n(-width),
            "z\" fill=\"#fff\"/>\n");
    }

    /// One definition per kind of man on the board, used by both sides: `fill` is the body, `color` the inner lines.
    void outlines() {
        put("<defs>\n");
        for (const Kind kind : all_kinds) {
            if (position_.men(kind).empty()) continue;
            const detail::PieceOutline& outline = detail::piece_outlines[index(kind)];
            const std::string id = joined(id_prefix, name(kind));
            put("<path id=\"", id, "-body\" d=\"", outline.body, "\"/>\n");
            // The white edge outside the contour keeps the hatching and the marks away from the man.
            put("<g id=\"", id, "\" transform=\"scale(.1)\" stroke-linejoin=\"round\"><use href=\"#", id,
                "-body\" stroke=\"#fff\" stroke-width=\"120\"/><use href=\"#", id,
                "-body\" stroke=\"#000\" stroke-width=\"50\"/>");
            if (!outline.solid.empty()) put("<path fill=\"currentColor\" d=\"", outline.solid, "\"/>");
            if (!outline.lines.empty())
                put("<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"44\" d=\"", outline.lines, "\"/>");
            put("</g>\n");
        }
        put("<path id=\"", id_prefix, "hatch\" d=\"", hatch(), "\"/>\n</defs>\n");
    }

    /// Diagonal stripes, cut at the edges of the square. Shapes rather than a pattern: sharp in every renderer. A small
    /// diagram gets fewer stripes, so that they stay stripes.
    [[nodiscard]] std::string hatch() const {
        const int stripes = std::clamp(4 + options_.square_size / 12, 5, 12);
        const double step = static_cast<double>(cell) / stripes;
        const double half = step * 0.135;
        std::string path;
        for (int stripe = 0; stripe < 2 * stripes; ++stripe) {
            // A stripe lies where x + y is between `low` and `high`; none crosses a corner of the square.
            const double low = (stripe + 0.5) * step - half;
            const double high = low + 2 * half;
            const double cut = stripe < stripes ? 0 : cell;
            path += joined("M", text_of(Point{low - cut, cut}), "L", text_of(Point{high - cut, cut}), " ",
                           text_of(Point{cut, high - cut}), " ", text_of(Point{cut, low - cut}), "z");
        }
        return path;
    }

    void hatching() {
        put("<g data-part=\"hatching\">\n");
        for (const Square square : dark_squares) use("hatch", square);
        put("</g>\n");
    }

    void frame() {
        put("<g data-part=\"frame\" fill=\"none\" stroke=\"#000\" shape-rendering=\"crispEdges\">");
        put("<path d=\"M-2-2h804v804h-804z\" stroke-width=\"3\"/><path d=\"M-12-12h824v824h-824z\" "
            "stroke-width=\"5\"/></g>\n");
    }

    void use(std::string_view what, Square square) {
        const Point at = corner(square);
        put("<use href=\"#", id_prefix, what, "\"");
        if (at.x != 0) put(" x=\"", n(at.x), "\"");
        if (at.y != 0) put(" y=\"", n(at.y), "\"");
        put("/>\n");
    }

    void men() {
        put("<g data-part=\"men\">\n");
        for (const Side side : all_sides) {
            put(side == Side::white ? "<g fill=\"#fff\" color=\"#000\">\n" : "<g fill=\"#000\" color=\"#fff\">\n");
            for (const Square square : position_.men(side)) use(name(position_.kind_at(square)), square);
            put("</g>\n");
        }
        put("</g>\n");
    }

    /// A shape with a white casing, so that it stands clear of hatching, men and other shapes.
    void cased(const std::string& path, double width, std::string_view more = {}) {
        put("<path d=\"", path, "\" stroke=\"#fff\" stroke-width=\"", n(width + 8), "\"/>");
        put("<path d=\"", path, "\" stroke-width=\"", n(width), "\"", more, "/>\n");
    }

    static std::string square_path(Point from, double inset) {
        const std::string side = n(cell - 2 * inset);
        return joined("M", text_of(from + Point{inset, inset}), "h", side, "v", side, "h-", side, "z");
    }
    static std::string circle_path(Point middle, double radius) {
        const std::string r = n(radius);
        const std::string across = n(2 * radius);
        const std::string half = joined("a", r, " ", r, " 0 1 0 ");
        return joined("M", text_of(middle - Point{radius, 0}), half, across, " 0", half, "-", across, " 0z");
    }

    void marks() {
        put("<g data-part=\"marks\" fill=\"none\" stroke=\"#000\">\n");
        for (const SquareMark& mark : options_.marks)
            if (is_drawn(mark)) shape(mark.style, corner(mark.square));
        put("</g>\n");
    }

    /// A cross strikes out what stands on the square, so it lies above the men.
    void crosses() {
        put("<g data-part=\"crosses\" fill=\"none\" stroke=\"#000\">\n");
        for (const SquareMark& mark : options_.marks)
            if (is_drawn(mark) && mark.style == MarkStyle::cross)
                cased(joined("M", text_of(corner(mark.square) + Point{12, 12}), "l76 76m-76 0l76-76"), 6);
        put("</g>\n");
    }

    void shape(MarkStyle style, Point at) {
        const Point middle = at + Point{cell / 2.0, cell / 2.0};
        switch (style) {
        case MarkStyle::outline: cased(square_path(at, 7), 6); break;
        case MarkStyle::double_outline:
            cased(square_path(at, 5), 3.5);
            cased(square_path(at, 13), 3.5);
            break;
        case MarkStyle::dotted_outline:
            // 86 is ten gaps a side: a dot in every corner.
            cased(square_path(at, 7), 7.5, " stroke-linecap=\"round\" stroke-dasharray=\"0 14.33\"");
            break;
        case MarkStyle::corners:
            for (const double x : {6.0, 94.0})
                for (const double y : {6.0, 94.0}) {
                    const double along = x < 50 ? 24 : -24;
                    const double down = y < 50 ? 24 : -24;
                    const Point tip = at + Point{x, y};
                    cased(joined("M", text_of(tip + Point{along, 0}), "L", text_of(tip), " ",
                                 text_of(tip + Point{0, down})),
                          7);
                }
            break;
        case MarkStyle::ring: cased(circle_path(middle, 43), 6); break;
        case MarkStyle::dot:
            put("<path d=\"", circle_path(middle, 15), "\" fill=\"#000\" stroke=\"#fff\" stroke-width=\"6\"/>\n");
            break;
        case MarkStyle::cross:
        case MarkStyle::bare: break;
        }
    }

    /// An arrow as it is drawn: a shaft from `start` to `tip`, the last `head` of which is the head.
    struct Flight {
        Point start;
        Point tip;
        Point way;
        double head;
    };

    /// The shaft begins behind the man and ends short of the next; two arrows that answer each other keep to their own
    /// side.
    [[nodiscard]] Flight flight(const Arrow& arrow) const {
        const Point from = centre(arrow.from);
        const Point to = centre(arrow.to);
        const Point way = (to - from) * (1 / length(to - from));
        const Point left{way.y, -way.x};
        const bool answered = std::any_of(options_.arrows.begin(), options_.arrows.end(), [&](const Arrow& that) {
            return that.from == arrow.to && that.to == arrow.from;
        });
        const Point aside = left * (answered ? 11.0 : 0.0);
        const bool close = length(to - from) < 1.2 * cell;
        const double gap = position_.piece_at(arrow.to) ? (close ? 27 : 33) : 8;
        return {from + aside + way * 16, to + aside - way * gap, way, close ? 24.0 : 28.0};
    }

    void shafts() {
        put("<g data-part=\"shafts\" fill=\"none\" stroke=\"#000\">\n");
        for (const Arrow& arrow : options_.arrows) {
            if (!is_drawn(arrow)) continue;
            const auto [start, tip, way, head] = flight(arrow);
            const std::string line = joined("M", text_of(start), "L", text_of(tip - way * (head - 2)));
            put("<path d=\"", line, "\" stroke=\"#fff\" stroke-width=\"16\"/><path d=\"", line,
                "\" stroke-width=\"8\"");
            if (arrow.style == LineStyle::dashed) put(" stroke-dasharray=\"17 9\"");
            if (arrow.style == LineStyle::dotted) put(" stroke-linecap=\"round\" stroke-dasharray=\"0 13\"");
            put("/>\n");
        }
        put("</g>\n");
    }

    void heads() {
        put("<g data-part=\"heads\" stroke-width=\"8\" stroke-linejoin=\"round\">\n");
        for (const Arrow& arrow : options_.arrows) {
            if (!is_drawn(arrow)) continue;
            const auto [start, tip, way, head] = flight(arrow);
            const Point neck = tip - way * head;
            const Point across = Point{way.y, -way.x} * (head / 2);
            const std::string shape =
                joined("M", text_of(tip), "L", text_of(neck + across), " ", text_of(neck - across), "z");
            put("<path d=\"", shape, "\" stroke=\"#fff\"/><path d=\"", shape, "\"/>\n");
        }
        put("</g>\n");
    }

    void numbers() {
        put("<g data-part=\"numbers\" font-family=\"sans-serif\" font-weight=\"bold\" text-anchor=\"middle\">\n");
        std::array<std::vector<int>, 64> on_square;
        std::vector<Point> taken;
        for (const SquareMark& mark : options_.marks) {
            if (!is_drawn(mark) || mark.number <= 0) continue;
            std::vector<int>& before = on_square[static_cast<std::size_t>(index(mark.square))];
            if (std::find(before.begin(), before.end(), mark.number) != before.end()) continue;
            // Corners first, upper right to lower left, then the middles of the edges.
            constexpr std::array<Point, 8> places{
                {{84, 16}, {16, 16}, {84, 84}, {16, 84}, {50, 10}, {90, 50}, {50, 90}, {10, 50}}};
            taken.push_back(corner(mark.square) + places[before.size() % places.size()]);
            before.push_back(mark.number);
            disc(taken.back(), mark.number, true);
        }
        for (const Arrow& arrow : options_.arrows) {
            if (!is_drawn(arrow) || arrow.number <= 0) continue;
            taken.push_back(place_on(flight(arrow), taken));
            disc(taken.back(), arrow.number, false);
        }
        put("</g>\n");
    }

    /// Near the middle of the shaft, clear of other numbers and if possible of the men.
    [[nodiscard]] Point place_on(const Flight& flight, std::span<const Point> taken) const {
        const auto at = [&](double part) { return flight.start + (flight.tip - flight.start) * part; };
        const auto clear_of_numbers = [&](Point point) {
            return std::none_of(taken.begin(), taken.end(),
                                [&](Point that) { return length(that - point) < 2 * disc_radius + 8; });
        };
        const auto clear_of_men = [&](Point point) {
            const Squares men = position_.occupied();
            return std::none_of(men.begin(), men.end(),
                                [&](Square square) { return length(centre(square) - point) < 44; });
        };
        constexpr std::array parts{0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.15};
        for (const double part : parts)
            if (clear_of_numbers(at(part)) && clear_of_men(at(part))) return at(part);
        for (const double part : parts)
            if (clear_of_numbers(at(part))) return at(part);
        return at(parts[0]);
    }

    void disc(Point at, int number, bool black) {
        const std::string digits = std::to_string(number);
        const double size = digits.size() == 1   ? 27
                            : digits.size() == 2 ? 22
                                                 : 44.0 / static_cast<double>(digits.size());
        const std::string_view paper = black ? "#000" : "#fff";
        const std::string_view ink = black ? "#fff" : "#000";
        put("<circle cx=\"", n(at.x), "\" cy=\"", n(at.y), "\" r=\"", n(disc_radius), "\" fill=\"", paper,
            "\" stroke=\"", ink, "\" stroke-width=\"3\"/>");
        put("<text x=\"", n(at.x), "\" y=\"", n(at.y + size * 0.36), "\" font-size=\"", n(size), "\" fill=\"", ink,
            "\">", digits, "</text>\n");
    }

    void coordinates() {
        if (!options_.coordinates) return;
        constexpr std::string_view files = "abcdefgh";
        constexpr std::string_view ranks = "12345678";
        put("<g data-part=\"coordinates\" font-family=\"serif\" font-size=\"36\" text-anchor=\"middle\">\n");
        for (std::size_t line = 0; line < 8; ++line) {
            const Point at = centre(square_at(static_cast<int>(9 * line)));
            put("<text x=\"", n(at.x), "\" y=\"848\">", files.substr(line, 1), "</text>");
            put("<text x=\"-37\" y=\"", n(at.y + 12), "\">", ranks.substr(line, 1), "</text>\n");
        }
        put("</g>\n");
    }

    void mover() {
        if (!options_.mover_mark) return;
        const Side side = position_.mover();
        const bool upwards = side == options_.bottom;
        put("<path data-part=\"mover\" d=\"", upwards ? "M822 780h32l-16-38z" : "M822 20h32l-16 38z", "\" fill=\"",
            side == Side::white ? "#fff" : "#000",
            "\" stroke=\"#000\" stroke-width=\"4\" stroke-linejoin=\"round\"/>\n");
    }

    /// FNV-1a over everything drawn and said.
    [[nodiscard]] std::string with_ids() const {
        std::uint64_t hash = 0xCBF29CE484222325;
        const auto mix = [&](unsigned char byte) { hash = (hash ^ byte) * 0x100000001B3; };
        for (const char c : svg_) mix(static_cast<unsigned char>(c));
        for (const char c : std::to_string(options_.serial)) mix(static_cast<unsigned char>(c));
        std::string prefix = "k";
        for (int digit = 0; digit < 10; ++digit, hash /= 36)
            prefix += "0123456789abcdefghijklmnopqrstuvwxyz"[hash % 36];
        prefix += '-';
        std::string result;
        result.reserve(svg_.size() + 100 * prefix.size());
        for (const char c : svg_) c == id_prefix[0] ? result += prefix : result += c;
        return result;
    }

    const Position& position_;
    const DiagramOptions& options_;
    std::string svg_;
};

} // namespace

std::string diagram(const Position& position, const DiagramOptions& options) {
    return Drawing{position, options}.draw();
}

std::string position_in_words(const Position& position, Language language) {
    const detail::Words words{language};
    std::string text;
    for (const Side side : all_sides) {
        text.append(words.side(side)).append(": ");
        if (position.men(side).empty()) text += words_in(language).no_men;
        bool first_kind = true;
        for (const Kind kind : {Kind::king, Kind::queen, Kind::rook, Kind::bishop, Kind::knight, Kind::pawn}) {
            const Squares men = position.men(side, kind);
            if (men.empty()) continue;
            if (!first_kind) text += ", ";
            first_kind = false;
            std::vector<Placed> placed;
            // By file, as people list them.
            std::vector<std::string_view> squares;
            for (int file = 0; file < 8; ++file)
                for (const Square square : men& file_squares(file)) {
                    placed.push_back({square, {side, kind}});
                    squares.push_back(name(square));
                }
            text.append(words.men(placed, "kind")).append(" ").append(words.listed(squares));
        }
        text += ". ";
    }
    return text + of_mover(words_in(language).to_move, position, language);
}

} // namespace keysquare
