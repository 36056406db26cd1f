// Prints what the library computes, as text, one thing a line. tests/cross.sh holds the text of other processors, standard
// libraries and ways to build the library to that of the usual build, byte for byte.
//
// usage: same_results POSITIONS.epd EVERY_GAME EVERY_PLY GAMES.pgn...
//
// Of the records, the leaves of perft to the depth of the first operation (D3 means 3). Of each so manyth game, a report,
// and each so manyth ply: all columns of a scan, findings, threats, candidates, outlook and difficulty, as numbers and in
// words, and a diagram.
#include <cstring>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>
#include <string_view>

#include <keysquare/keysquare.hpp>
#include <keysquare/lesson/diagram.hpp>
#include <keysquare/lesson/finding_marks.hpp>
#include <keysquare/research/summary.hpp>

namespace {

using namespace keysquare;

/// All bits of a number: two that are different never look alike.
std::string bits_of(double number) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::uint64_t bits = 0;
    std::memcpy(&bits, &number, sizeof bits);
    std::string text;
    for (int shift = 60; shift >= 0; shift -= 4) text += digits[bits >> shift & 15U];
    return text;
}

std::string text_of(const CellValue& value) {
    if (const auto* const whole = std::get_if<std::int64_t>(&value)) return std::to_string(*whole);
    if (const auto* const real = std::get_if<double>(&value)) return bits_of(*real);
    if (const auto* const words = std::get_if<std::string_view>(&value)) return std::string{*words};
    return "nothing";
}

std::string text_of(Squares squares) {
    std::string text = "{";
    for (const Square square : squares) text.append(" ").append(name(square));
    return text + " }";
}

template <class Moves> std::string text_of_moves(const Moves& moves) {
    std::string text = "[";
    for (const Move move : moves) text += " " + coordinate(move);
    return text + " ]";
}

std::string text_of(const ReasonList& facts) {
    std::string text = "(";
    for (const MoveReason& fact : facts)
        text.append(" ").append(name(fact.fact)).append("=").append(std::to_string(fact.amount)) +=
            text_of(fact.squares);
    return text + " )";
}

void print(const Position& position, const Finding& finding) {
    std::cout << "finding " << name(finding.theme) << ' ' << name(finding.detail) << ' ' << name(finding.side) << ' '
              << finding.after_pass << finding.mate << finding.mated << ' ' << name(finding.removed) << " gain "
              << finding.gain << " weight " << finding.weight << ' ' << text_of(finding.squares) << " pieces";
    for (const Placed& placed : finding.pieces)
        std::cout << ' ' << name(placed.piece.side) << ' ' << name(placed.piece.kind) << ' ' << name(placed.square);
    std::cout << ' ' << text_of_moves(finding.line) << ' ' << text_of_moves(finding.point);
    for (const Number& number : finding.numbers) std::cout << ' ' << name(number.measure) << '=' << number.value;
    std::cout << " \"" << sentence(position, finding) << "\" "
              << line_text(start_of_line(position, finding), finding.line) << '\n';
}

void print(const Position& position, const Threat& threat) {
    std::cout << "threat " << name(threat.side) << ' ' << threat.after_pass << threat.mate << " gain " << threat.gain
              << ' ' << name(threat.target) << ' ' << text_of(threat.squares) << ' ' << text_of_moves(threat.line)
              << " \"" << sentence(position, threat) << "\"\n";
}

void print(const Position& position, const Candidate& candidate) {
    std::cout << "candidate " << coordinate(candidate.move) << " weight " << candidate.weight << ' '
              << text_of(candidate.facts) << ' ' << text_of(candidate.reasons) << ' ' << text_of(candidate.drawbacks)
              << " wins " << candidate.won.gain << ' ' << text_of_moves(candidate.won.line) << " allows "
              << candidate.allowed.gain << ' ' << text_of_moves(candidate.allowed.line) << " \""
              << sentence(position, candidate) << "\"\n";
}

void print_difficulty(const Position& position, Side side) {
    const Difficulty found = difficulty(position, side);
    std::cout << "difficulty " << name(side) << ' ' << text_of_moves(found.line);
    for (const DifficultyNumber& number : difficulty_numbers()) std::cout << ' ' << number.of(found);
    std::cout << '\n';
}

void print_columns(const GameRows& rows) {
    std::cout << "vector";
    std::array<std::int16_t, feature_count> numbers;
    feature_vector(rows.position(), numbers);
    for (const std::int16_t number : numbers) std::cout << ' ' << number;
    std::cout << "\ncolumns";
    for (const auto columns : {game_columns(), search_columns()})
        for (const ScanColumn& column : columns) std::cout << ' ' << column.name << '=' << text_of(column.value(rows));
    std::cout << '\n';
}

void print_studies(const Position& position) {
    const Findings found = findings(position);
    for (const Finding& finding : found) print(position, finding);
    for (const Side side : {Side::white, Side::black})
        for (const Threat& threat : threats(position, side)) print(position, threat);
    for (const Candidate& candidate : candidates(position)) print(position, candidate);
    std::cout << "outlook " << paragraph(position, outlook(position)) << '\n';
    for (const Side side : {Side::white, Side::black}) print_difficulty(position, side);
    std::cout << "diagram " << diagram(position, diagram_of(position, {found.data(), found.size()})) << '\n';
}

void print_report(const Game& game) {
    const GameReport report = game_report(game);
    for (std::size_t ply = 0; ply < report.plies.size(); ++ply)
        for (const MoveEffect& effect : report.plies[ply].effects)
            std::cout << "effect " << ply << ' ' << name(effect.kind) << ' ' << name(effect.theme) << ' ' << effect.cost
                      << ' ' << effect.left << ' ' << coordinate(effect.better) << '\n';
    for (const TurningPoint& turn : report.turning_points)
        std::cout << "turning point " << turn.ply << ' ' << name(turn.before) << ' ' << name(turn.after) << '\n';
    for (const Moment& moment : report.moments)
        std::cout << "moment " << moment.ply << ' ' << moment.worth << ' ' << name(moment.theme) << " \""
                  << moment.question << "\" \"" << moment.answer << "\"\n";
}

/// The groups, their sums, and the interval that a mean lies in.
void print(const Summary& summary) {
    for (const char byte : summary.bytes()) std::cout << static_cast<int>(static_cast<unsigned char>(byte)) << ' ';
    std::cout << '\n';
    for (const auto& [key, group] : summary.groups())
        for (const Statistics& column : group.columns) {
            const Interval interval = wilson(0.01 * static_cast<double>(group.positions % 100), group.positions);
            std::cout << "group " << bits_of(column.mean()) << ' ' << bits_of(column.variance()) << ' '
                      << bits_of(interval.low) << ' ' << bits_of(interval.high) << '\n';
        }
}

std::ifstream opened(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    if (!file) throw std::runtime_error{"can't read " + path};
    return file;
}

void print_leaves(const std::string& path) {
    std::ifstream file = opened(path);
    for (std::string line; std::getline(file, line);) {
        const EpdRecord record = read_epd(line).value();
        for (const EpdOperation& operation : record.operations) {
            if (operation.name.front() != 'D') continue;
            const int depth = std::stoi(operation.name.substr(1));
            std::cout << "perft " << depth << ' ' << perft(record.position, depth) << ' ' << fen(record.position)
                      << '\n';
            break;
        }
    }
}

/// All columns that can be summed up, by the rating of White.
Summary empty_summary() {
    std::vector<ChosenColumn> columns;
    const auto add = [&](std::string_view name) {
        if (const auto column = scan_column(name); column && is_summable(*column)) columns.push_back(*column);
    };
    for (const FeatureColumn& column : feature_schema()) add(column.name);
    for (const ScanColumn& column : game_columns()) add(column.name);
    return Summary{{scan_column("white_rating").value()}, std::move(columns)};
}

void print_games(const std::string& path, std::uint64_t every_game, std::size_t every_ply, Summary& summary) {
    std::ifstream file = opened(path);
    PgnReader reader{file};
    GameRows rows;
    Game game;
    for (Reading reading = reader.next(game); reading != Reading::end; reading = reader.next(game)) {
        if (reading != Reading::game) throw std::runtime_error{reader.error().what()};
        if ((reader.game_number() - 1) % every_game != 0) continue;
        std::cout << "game " << reader.game_number() << ' ' << reader.game_offset() << '\n' << write_pgn(game);
        print_report(game);
        rows.begin(game, "", reader.game_offset());
        for (std::size_t ply = 0; ply <= rows.last_ply(); ply += every_ply) {
            rows.go_to(ply);
            std::cout << "position " << fen(rows.position()) << ' ' << rows.position().key() << '\n';
            print_columns(rows);
            print_studies(rows.position());
            summary.add(rows);
        }
    }
}

/// The curve of the expected score, at every whole difference that ratings have.
void print_expectations() {
    for (int difference = -3000; difference <= 3000; ++difference)
        std::cout << "expected " << difference << ' ' << bits_of(expected_score(difference, 0)) << '\n';
}

} // namespace

int main(int count, char** arguments) {
    if (count < 5) {
        std::cerr << "usage: same_results POSITIONS.epd EVERY_GAME EVERY_PLY GAMES.pgn...\n";
        return 2;
    }
    try {
        print_leaves(arguments[1]);
        print_expectations();
        Summary summary = empty_summary();
        for (int at = 4; at < count; ++at)
            print_games(arguments[at], std::stoul(arguments[2]), std::stoul(arguments[3]), summary);
        print(summary);
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
