// The numeric vector: its schema, numbers counted by hand, its symmetry, and its facts against the functions whose
// answers they repeat.
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <set>
#include <string>

#include <keysquare/features/feature_facts.hpp>
#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/king_shelter.hpp>
#include <keysquare/features/scope.hpp>

#include "features/feature_tables.hpp"
#include "features/mirrored.hpp"

namespace {

using namespace keysquare;

using Row = std::array<std::int16_t, feature_count>;

Row row_of(const Position& position) {
    Row row;
    feature_vector(position, row);
    return row;
}

/// The numbers of one position by name.
class Numbers {
  public:
    explicit Numbers(std::string_view fen) : row_(row_of(read_fen(fen).value())) {}

    int operator()(std::string_view name) const {
        const std::size_t at = feature_column(name);
        BOOST_REQUIRE_MESSAGE(at < feature_count, "no column " << name);
        return row_[at];
    }

  private:
    Row row_;
};

bool is_snake_case(std::string_view name) {
    const auto is_fit = [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; };
    return !name.empty() && std::ranges::all_of(name, is_fit) && name.front() != '_' && name.back() != '_' &&
           name.find("__") == std::string_view::npos;
}

/// The name with one word put for another, either way round.
std::string exchanged(std::string name, std::string_view one, std::string_view other) {
    for (const auto& [from, to] : {std::pair{one, other}, std::pair{other, one}})
        if (const auto at = name.find(from); at != std::string::npos) return name.replace(at, from.size(), to);
    return name;
}

/// The column that counts the same on a board whose ranks or files are in the opposite order: the colours of the squares
/// change.
std::string on_the_other_colour(std::string_view name) { return exchanged(std::string{name}, "light", "dark"); }
std::string on_the_other_wing(std::string_view name) {
    return exchanged(on_the_other_colour(name), "queenside", "kingside");
}

/// `count` positions from random games, with the castling rights that they have.
std::vector<Position> positions_with_rights(std::size_t count, unsigned seed) {
    std::mt19937 random{seed};
    std::vector<Position> positions;
    while (positions.size() < count) {
        Position position = start_position();
        for (auto plies = random() % 60; plies > 0; --plies) {
            const MoveList moves = legal_moves(position);
            if (moves.empty()) break;
            position = after(position, moves[random() % moves.size()]);
        }
        positions.push_back(position);
    }
    return positions;
}

} // namespace

BOOST_AUTO_TEST_SUITE(feature_vectors)

BOOST_AUTO_TEST_CASE(names_are_unique_and_in_snake_case) {
    std::set<std::string_view> names;
    for (const FeatureColumn& column : feature_schema()) {
        BOOST_TEST(is_snake_case(column.name), column.name);
        BOOST_TEST(names.insert(column.name).second, column.name);
    }
    BOOST_TEST(names.size() == feature_count);
}

BOOST_AUTO_TEST_CASE(every_column_says_what_it_is) {
    for (const FeatureColumn& column : feature_schema()) {
        BOOST_TEST(column.type == "int16");
        BOOST_TEST(!name(column.unit).empty());
        BOOST_TEST(column.definition.size() > 10U, column.name);
        BOOST_TEST(column.definition.ends_with('.'), column.name);
        BOOST_TEST(column.name.starts_with("white_") ==
                       (column.view == FeatureView::white || column.name == "white_to_move"),
                   column.name);
        BOOST_TEST(column.name.starts_with("black_") == (column.view == FeatureView::black), column.name);
        BOOST_TEST(column.name.ends_with("_difference") == (column.view == FeatureView::difference), column.name);
    }
}

BOOST_AUTO_TEST_CASE(columns_are_found_by_name) {
    for (std::size_t at = 0; at < feature_count; ++at) BOOST_TEST(feature_column(feature_schema()[at].name) == at);
    BOOST_TEST(feature_column("white_unicorns") == feature_count);
    BOOST_TEST(feature_column("") == feature_count);
}

/// What stands at the beginning of version 1 may never move: stored tables rely on it.
BOOST_AUTO_TEST_CASE(the_first_and_last_columns_of_version_1_stay) {
    static_assert(feature_schema_version == 1);
    BOOST_TEST(feature_column("white_pawns") == 0U);
    BOOST_TEST(feature_column("pawns_difference") == 2U);
    BOOST_TEST(feature_column("white_space") == 73U);
    BOOST_TEST(feature_column("legal_moves") == 234U);
    BOOST_TEST(feature_column("move_number") == 248U);
}

BOOST_AUTO_TEST_CASE(a_difference_is_whites_number_minus_blacks) {
    for (const Position& position : test::random_positions(200, 71)) {
        const Row row = row_of(position);
        for (std::size_t at = 2; at < feature_count; ++at)
            if (feature_schema()[at].view == FeatureView::difference)
                BOOST_TEST(row[at] == row[at - 2] - row[at - 1], feature_schema()[at].name);
    }
}

BOOST_AUTO_TEST_CASE(exchanging_the_sides_exchanges_their_columns) {
    for (const Position& position : positions_with_rights(300, 72)) {
        const Row row = row_of(position);
        const Row other = row_of(test::flipped(position));
        for (std::size_t at = 0; at < feature_count; ++at) {
            const FeatureColumn& column = feature_schema()[at];
            const std::size_t same = feature_column(on_the_other_colour(column.name));
            int expected = row[same];
            if (column.view == FeatureView::white) expected = row[same + 1];
            if (column.view == FeatureView::black) expected = row[same - 1];
            if (column.view == FeatureView::difference) expected = -row[same];
            if (column.name == "white_to_move") expected = 1 - row[at];
            BOOST_TEST(other[at] == expected, column.name << " of " << fen(position));
        }
    }
}

BOOST_AUTO_TEST_CASE(exchanging_left_and_right_changes_the_wings_alone) {
    // The usual first squares of knights and bishops are looked at with the king, so this one has no mirror.
    const auto has_mirror = [](std::string_view name) {
        return name.find("undeveloped") == std::string_view::npos && name.find("passive") == std::string_view::npos;
    };
    for (const Position& position : test::random_positions(300, 73)) {
        const Row row = row_of(position);
        const Row other = row_of(test::mirrored(position));
        for (std::size_t at = 0; at < feature_count; ++at)
            if (has_mirror(feature_schema()[at].name))
                BOOST_TEST(other[feature_column(on_the_other_wing(feature_schema()[at].name))] == row[at],
                           feature_schema()[at].name << " of " << fen(position));
    }
}

BOOST_AUTO_TEST_CASE(facts_are_what_the_functions_say) {
    for (const Position& position : test::random_positions(500, 74)) {
        const FeatureFacts facts{position};
        const AttackMap map = attack_map(position);
        BOOST_TEST((facts.map.by_kind == map.by_kind && facts.map.once == map.once && facts.map.twice == map.twice &&
                    facts.map.thrice == map.thrice));
        for (const Side side : all_sides) {
            const SideFacts& of = facts.of(side);
            const NearKing zone = near_king(position, side);
            BOOST_TEST((of.near.squares == zone.squares && of.near.attackers == zone.attackers &&
                        of.near.attacked == zone.attacked && of.near.defenders == zone.defenders));
            BOOST_TEST((of.escapes == king_escape(position, side).squares));
            BOOST_TEST((of.shield == king_shelter(position, side).shield));
            int scope = 0;
            Squares stuck;
            for (const Square square : facts.men_but_king(side) & ~position.men(Kind::pawn)) {
                scope += scope_of(position, square).count();
                if (!scope_of(position, square)) stuck |= Squares{square};
            }
            BOOST_TEST(detail::scope_of_all(of) == scope);
            BOOST_TEST((of.stuck == stuck));
        }
    }
}

BOOST_AUTO_TEST_CASE(moves_are_counted_as_they_are_made) {
    MoveCounts all;
    for (const Position& position : positions_with_rights(600, 75)) {
        MoveCounts made;
        for (const Move move : legal_moves(position)) {
            ++made.moves;
            if (captured_by(position, move) != Kind::none) ++made.captures;
            if (in_check(after(position, move))) ++made.checks;
            if (move.type() == MoveType::en_passant) ++made.en_passant;
        }
        const MoveCounts counted = count_moves(position);
        BOOST_TEST(counted.moves == made.moves);
        BOOST_TEST(counted.captures == made.captures);
        BOOST_TEST(counted.checks == made.checks, fen(position));
        BOOST_TEST(counted.en_passant == made.en_passant);
        all.checks += made.checks;
        all.en_passant += made.en_passant;
    }
    BOOST_TEST(all.checks > 100);
    BOOST_TEST(all.en_passant > 0);
}

BOOST_AUTO_TEST_CASE(columns_hold_the_rows) {
    const std::vector<Position> positions = test::random_positions(77, 76); // two blocks and a rest
    constexpr std::size_t stride = 80;
    constexpr std::int16_t untouched = -31000;
    std::vector<std::int16_t> out(feature_count * stride, untouched);
    feature_columns(positions, out, stride);
    for (std::size_t at = 0; at < stride; ++at) {
        const Row row = at < positions.size() ? row_of(positions[at]) : Row{};
        for (std::size_t column = 0; column < feature_count; ++column)
            BOOST_TEST(out[column * stride + at] == (at < positions.size() ? row[column] : untouched));
    }
    feature_columns({}, {}, 0); // nothing to do, nothing touched
}

// Numbers counted by hand on the board.

BOOST_AUTO_TEST_CASE(the_start_position) {
    const Numbers at{start_fen};
    for (const std::string_view name :
         {"pawns_difference", "material_difference", "attacked_squares_difference", "space_difference"})
        BOOST_TEST(at(name) == 0);
    BOOST_TEST(at("white_material") == 39);
    BOOST_TEST(at("white_attacked_squares") == 22); // ranks 1 (b to g), 2 and 3
    BOOST_TEST(at("white_attacked_other_half") == 0);
    BOOST_TEST(at("white_attacked_by_pawns") == 8);
    BOOST_TEST(at("white_space") == 4); // c1 to f1 are behind the pawns
    BOOST_TEST(at("white_piece_scope") == 4);
    BOOST_TEST(at("white_stuck_pieces") == 5);
    BOOST_TEST(at("white_undeveloped_pieces") == 4);
    BOOST_TEST(at("white_loose_men") == 2); // the rooks
    BOOST_TEST(at("white_batteries") == 0);
    BOOST_TEST(at("white_pawn_islands") == 1);
    BOOST_TEST(at("white_shielded_files") == 3);
    BOOST_TEST(at("white_king_defenders") == 5); // the queen, both bishops and both knights (d2, e2)
    BOOST_TEST(at("white_may_castle_short") == 1);
    BOOST_TEST(at("legal_moves") == 20);
    BOOST_TEST(at("legal_captures") == 0);
    BOOST_TEST(at("men") == 32);
    BOOST_TEST(at("pieces") == 14);
    BOOST_TEST(at("move_number") == 1);
    BOOST_TEST(at("kings_distance") == 7);
}

BOOST_AUTO_TEST_CASE(pawns_of_every_sort) {
    // White: a2, b5, d4, d5, g4. Black: c7, e6, g5, h7.
    const Numbers at{"4k3/2p4p/4p3/1P1P2p1/3P2P1/8/P7/4K3 w - - 3 40"};
    BOOST_TEST(at("white_isolated_pawns") == 3); // d4, d5, g4; a2 and b5 are neighbours
    BOOST_TEST(at("white_doubled_pawns") == 2);
    BOOST_TEST(at("white_passed_pawns") == 1);         // a2: no black pawn on the a- or b-file
    BOOST_TEST(at("white_outside_passed_pawns") == 0); // c7 is two files away
    BOOST_TEST(at("white_most_advanced_passed_pawn") == 2);
    BOOST_TEST(at("black_passed_pawns") == 0); // g4 stops h7
    BOOST_TEST(at("white_pawn_islands") == 3);
    BOOST_TEST(at("black_pawn_islands") == 3);
    BOOST_TEST(at("locked_pawn_pairs") == 1);
    BOOST_TEST(at("white_pawns_in_contact") == 1); // d5 and e6
    BOOST_TEST(at("black_pawns_in_contact") == 1);
    BOOST_TEST(at("white_half_open_files") == 3); // c, e, h
    BOOST_TEST(at("black_half_open_files") == 3); // a, b, d
    BOOST_TEST(at("open_files") == 1);            // f
    BOOST_TEST(at("queenside_pawns_difference") == 3);
    BOOST_TEST(at("kingside_pawns_difference") == -2);
    BOOST_TEST(at("white_centre_pawns") == 2);
    BOOST_TEST(at("white_pawns_blocked_by_own_men") == 1);
    BOOST_TEST(at("white_pawn_levers") == 2); // b6 and d6, against c7
    BOOST_TEST(at("endgame") == 1);
    BOOST_TEST(at("halfmove_clock") == 3);
    BOOST_TEST(at("move_number") == 40);
}

BOOST_AUTO_TEST_CASE(pieces_and_kings) {
    // White: Kg1, Qd2, Rd1, Re7, pawns f2 g2 h2. Black: Kg8, Qb6, Rf8, Bc5, Nd5, pawns f7 g7 h7.
    const Numbers at{"5rk1/4Rppp/1q6/2bn4/8/8/3Q1PPP/3R2K1 b - - 0 25"};
    BOOST_TEST(at("material_difference") == 19 + 3 - (9 + 5 + 3 + 3 + 3));
    BOOST_TEST(at("white_rooks_on_open_files") == 2);
    BOOST_TEST(at("white_rooks_on_seventh") == 1);
    BOOST_TEST(at("white_connected_rooks") == 0);
    BOOST_TEST(at("white_batteries") == 1);               // the queen and the rook on d1
    BOOST_TEST(at("black_batteries") == 1);               // the queen and the bishop on the diagonal to f2
    BOOST_TEST(at("white_pinned_men") == 1);              // f2 by the bishop
    BOOST_TEST(at("white_attacked_men") == 2);            // e7 by bishop and knight, f2 by the bishop
    BOOST_TEST(at("white_attacked_unguarded_men") == 1);  // e7
    BOOST_TEST(at("white_men_attacked_by_cheaper") == 1); // e7
    BOOST_TEST(at("white_outnumbered_men") == 1);
    BOOST_TEST(at("black_attacked_men") == 2);           // d5 by the queen, f7 by the rook
    BOOST_TEST(at("black_attacked_unguarded_men") == 1); // d5
    BOOST_TEST(at("king_attackers_difference") == 0);    // the bishop on f2; the rook on f7
    BOOST_TEST(at("white_luft_squares") == 0);
    BOOST_TEST(at("white_king_escapes") == 2); // f1 and h1
    BOOST_TEST(at("black_king_escapes") == 1); // h8
    BOOST_TEST(at("white_to_move") == 0);
    BOOST_TEST(at("opposite_bishops") == 0);
    BOOST_TEST(at("kings_on_opposite_wings") == 0);
    BOOST_TEST(at("black_king_in_centre") == 0);
}

BOOST_AUTO_TEST_CASE(checks_and_special_moves) {
    // The rook checks along the rank; the king must not go back on its line.
    const Numbers check{"8/8/8/8/r3K3/8/8/4k3 w - - 0 1"};
    BOOST_TEST(check("in_check") == 1);
    BOOST_TEST(check("checkers") == 1);
    BOOST_TEST(check("white_king_escapes") == 6);
    BOOST_TEST(check("legal_moves") == 6);
    const Numbers passing{"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 2"};
    BOOST_TEST(passing("en_passant_captures") == 1);
    BOOST_TEST(passing("legal_captures") == 1);
    // Promotion on a8 to queen or rook checks; so it does on b8, taking the knight.
    const Numbers promoting{"1n5k/P7/8/8/8/8/8/K7 w - - 0 1"};
    BOOST_TEST(promoting("legal_captures") == 4);
    BOOST_TEST(promoting("legal_checks") == 2);
    BOOST_TEST(promoting("legal_moves") == 11);
}

BOOST_AUTO_TEST_CASE(clocks_beyond_sixteen_bits_are_cut) {
    PositionParts parts = start_position().parts();
    parts.halfmove_clock = 65535;
    parts.move_number = 40000;
    const Row row = row_of(Position{parts});
    BOOST_TEST(row[feature_column("halfmove_clock")] == 32767);
    BOOST_TEST(row[feature_column("move_number")] == 32767);
}

BOOST_AUTO_TEST_SUITE_END()
