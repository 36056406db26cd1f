// EPD: the standard's shapes, both ways, and the open test collections.
#include <keysquare/notation/epd.hpp>

#include <boost/test/unit_test.hpp>

#include "open_data.hpp"

using namespace keysquare;

namespace {

constexpr std::string_view fields = "1k1r4/pp1b1R2/3q2pp/4p3/2B5/4Q3/PPP2B2/2K5 b - -";

EpdRecord record_of(std::string_view operations) { return read_epd(std::string{fields}.append(operations)).value(); }

InputError error_of(std::string_view operations) { return read_epd(std::string{fields}.append(operations)).error(); }

} // namespace

BOOST_AUTO_TEST_SUITE(epd_records)

BOOST_AUTO_TEST_CASE(operations_and_operands) {
    const EpdRecord record = record_of(R"( bm Qd1+; id "BK.01"; c0 "a; b"; acd 12; ce -50; pv Qd1+ Kxd1 Bg4+; noop;)");
    BOOST_TEST(record.operations.size() == 7U);
    BOOST_CHECK(record.operation("bm")->operands == (std::vector<EpdOperand>{{"Qd1+", false}}));
    BOOST_CHECK(record.operation("id")->operands == (std::vector<EpdOperand>{{"BK.01", true}}));
    BOOST_CHECK(record.operation("c0")->operands == (std::vector<EpdOperand>{{"a; b", true}}));
    BOOST_CHECK(record.operation("ce")->operands == (std::vector<EpdOperand>{{"-50", false}}));
    BOOST_TEST(record.operation("pv")->operands.size() == 3U);
    BOOST_TEST(record.operation("noop")->operands.empty());
    BOOST_CHECK(record.operation("am") == nullptr);
    BOOST_CHECK(record.position == read_fen(std::string{fields} + " 0 1").value());
}

BOOST_AUTO_TEST_CASE(written_as_it_was) {
    const std::string line = std::string{fields} + R"( bm Qd1+ Qd2+; id "BK.01"; c0 ""; noop;)";
    BOOST_TEST(epd(read_epd(line).value()) == line);
    EpdRecord record = record_of("");
    BOOST_TEST(epd(record) == fields);
    record.operations.push_back({"c0", {{"say \"check\"", true}}});
    BOOST_TEST(epd(record) == std::string{fields} + " c0 \"say 'check'\";");
}

BOOST_AUTO_TEST_CASE(spaces_and_a_missing_last_semicolon) {
    BOOST_CHECK(record_of("  bm   Qd1+ ;id \"x\" ").operations == record_of(" bm Qd1+; id \"x\";").operations);
}

BOOST_AUTO_TEST_CASE(clocks) {
    const EpdRecord record = record_of(" hmvc 7; fmvn 31;");
    BOOST_TEST(record.position.halfmove_clock() == 7);
    BOOST_TEST(record.position.move_number() == 31);
    BOOST_CHECK(record_of(" 7 31 bm Qd1+;").operations == record_of(" hmvc 7; fmvn 31; bm Qd1+;").operations);
    BOOST_CHECK(record_of(" 7 31").position == record.position);
}

BOOST_AUTO_TEST_CASE(errors_with_their_place) {
    const auto check = [](const InputError& error, Reason reason, Field field, std::size_t column) {
        BOOST_TEST(name(error.reason) == name(reason));
        BOOST_TEST(name(error.field) == name(field));
        BOOST_TEST(error.column == column);
    };
    const std::size_t begin = fields.size();
    check(error_of(" 2bm Qd1+;"), Reason::bad_number, Field::halfmove_clock, begin + 2);
    check(error_of(" bm Qd1+; +c \"x\";"), Reason::bad_operation, Field::operation, begin + 11);
    check(error_of(" bm Qd1+;;"), Reason::bad_operation, Field::operation, begin + 10);
    check(error_of(" id \"open;"), Reason::bad_operation, Field::operation, begin + 5);
    check(error_of(" id \"a\"b;"), Reason::bad_operation, Field::operation, begin + 5);
    check(error_of(" averyveryverylongname 1;"), Reason::bad_operation, Field::operation, begin + 2);
    check(error_of(" hmvc x;"), Reason::bad_number, Field::halfmove_clock, begin + 7);
    check(error_of(" fmvn -1;"), Reason::bad_number, Field::move_number, begin + 7);
    check(read_epd("8/8/8/8/8/8/8/8 w - - id \"x\";").error(), Reason::no_king, Field::placement, 1);
    check(read_epd("4k3/8/8/8/8/8/8/4K3 w").error(), Reason::missing_field, Field::castling, 22);
}

BOOST_AUTO_TEST_CASE(open_collections) {
    const std::pair<const char*, std::size_t> collections[] = {
        {"bratko-kopec", 24},       {"encyclopedia-of-middlegames", 755}, {"kaufman", 25},      {"lct2", 35},
        {"silent-but-deadly", 134}, {"strategic-test-suite-a", 750},      {"win-at-chess", 300}};
    for (const auto& [file, expected] : collections) {
        const auto lines = test::open_data_lines("epd/" + std::string{file} + ".epd");
        if (!lines) continue;
        std::size_t read = 0;
        for (std::string line : *lines) {
            while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.pop_back();
            if (line.empty()) continue;
            BOOST_TEST_CONTEXT(line) {
                const Result<EpdRecord> record = read_epd(line);
                BOOST_REQUIRE(record);
                BOOST_TEST((record->operation("bm") != nullptr || record->operation("am") != nullptr));
                BOOST_TEST(epd(*record) == line);
                BOOST_CHECK(read_epd(epd(*record)).value() == *record);
                ++read;
            }
        }
        BOOST_TEST(read == expected, file << " has " << read << " records");
    }
}

BOOST_AUTO_TEST_SUITE_END()
