// The features that answer with counts and squares: mobility, square control, colour complexes, guardian, the exchange.
#include "outlook.hpp"

#include <keysquare/features/guardian.hpp>
#include <keysquare/features/mobility.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>

namespace keysquare::python {

using namespace py::literals;

namespace {

/// Both sides' values as a dict from Side.
template <class Value> py::dict by_side(const Value& value_of) {
    py::dict sides;
    for (const Side side : all_sides) sides[py::cast(side)] = value_of(side);
    return sides;
}

constexpr std::string_view name_of(Complex complex) noexcept { return complex == Complex::light ? "light" : "dark"; }

Complex complex_named(std::string_view text) {
    for (const Complex complex : all_complexes)
        if (name_of(complex) == text) return complex;
    throw py::value_error(joined_text("the colour must be \"light\" or \"dark\", not \"", text, "\""));
}

py::object python_mobility(const Position& position, const Mobility& mobility) {
    const py::object destination_class = result_class("Destination");
    py::list destinations;
    for (const Destination& to : mobility.destinations)
        destinations.append(destination_class("square"_a = to.square, "verdict"_a = name(to.verdict),
                                              "duty"_a = to.duty, "line"_a = to.outcome.line,
                                              "gain"_a = to.outcome.gain, "mated"_a = to.outcome.mated));
    return result_class("Mobility")("position"_a = position, "piece"_a = mobility.piece, "known"_a = mobility.known,
                                    "destinations"_a = destinations, "scope"_a = mobility.scope());
}

py::object python_control(const SquareControl& control) {
    const py::object grip_class = result_class("Grip");
    const py::object square_class = result_class("ControlledSquare");
    const auto python_grip = [&](const Grip& grip) {
        const auto cheapest = grip.cheapest == Kind::none ? std::nullopt : std::optional{name(grip.cheapest)};
        return grip_class(grip.attackers, grip.support, cheapest, grip.denies);
    };
    py::dict squares;
    for (const Square square : all_squares)
        squares[py::cast(square)] =
            square_class(square, python_grip(control.grip(Side::white, square)),
                         python_grip(control.grip(Side::black, square)), control.holder(square));
    return result_class("SquareControl")(
        "squares"_a = squares, "held"_a = by_side([&](Side side) { return py::cast(control.held[index(side)]); }),
        "denied"_a = by_side([&](Side side) { return py::cast(control.denied[index(side)]); }),
        "attacked"_a = by_side([&](Side side) { return py::cast(control.attacked[index(side)]); }));
}

py::object python_complex_side(const Position& position, Side side, const ComplexSide& of) {
    constexpr std::array<std::string_view, 6> region_names{"board",  "own_half", "other_half",
                                                           "centre", "own_king", "other_king"};
    const py::object count_class = result_class("RegionCounts");
    py::dict regions;
    for (const Region region : all_regions) {
        const Squares squares = region_squares(position, side, region);
        regions[text_from(region_names[static_cast<std::size_t>(region)])] =
            count_class((of.held & squares).count(), (of.attacked & squares).count(), (of.holes & squares).count());
    }
    return result_class("ComplexSide")("held"_a = of.held, "attacked"_a = of.attacked, "holes"_a = of.holes,
                                       "bishops"_a = of.bishops, "pawns"_a = of.pawns, "fixed_pawns"_a = of.fixed_pawns,
                                       "pawns_off"_a = of.pawns_off, "fixed_pawns_off"_a = of.fixed_pawns_off,
                                       "regions"_a = regions);
}

py::dict python_complexes(const Position& position, const ColourComplexes& complexes, const Values& values) {
    py::dict colours;
    for (const Complex complex : all_complexes)
        colours[text_from(name_of(complex))] = result_class("ColourComplex")(
            "colour"_a = name_of(complex), "weak_side"_a = weak_side(position, complex, values),
            "sides"_a =
                by_side([&](Side side) { return python_complex_side(position, side, complexes.of(side, complex)); }));
    return colours;
}

py::object python_grasp(const Grasp& grasp) {
    return result_class("Grasp")(by_side([&](Side side) { return py::cast(grasp.held[index(side)]); }),
                                 by_side([&](Side side) { return py::cast(grasp.attacked[index(side)]); }));
}

py::object python_guardian(Side side, Complex complex, const Guardian& guardian) {
    return result_class("Guardian")("side"_a = side, "colour"_a = name_of(complex), "piece"_a = guardian.absence.piece,
                                    "lost"_a = guardian.absence.lost, "now"_a = python_grasp(guardian.now),
                                    "without"_a = python_grasp(guardian.absence.after));
}

/// Whole files as their letters.
py::list file_letters(Squares files) {
    py::list letters;
    for (int file = 0; file < 8; ++file)
        if (files & file_squares(file)) letters.append(std::string(1, static_cast<char>('a' + file)));
    return letters;
}

py::object python_page(const Position& position, const LedgerPage& page, const SideOutlook& outlook) {
    py::dict rooks;
    for (const RookScope& scope : page.rooks)
        rooks[py::cast(scope.rook)] = page.scope_known ? py::cast(scope.safe) : py::object{py::none()};
    const py::object king = result_class("KingShelter")(
        "king"_a = page.king.king, "shield"_a = page.king.shield, "open_files"_a = file_letters(page.king.open_files),
        "half_open_files"_a = file_letters(page.king.half_open_files), "bearing_men"_a = page.king.bearing_men);
    return result_class("LedgerPage")(
        "pawns"_a = page.pawns.pawns, "more_pawns"_a = page.more_pawns, "passed_pawns"_a = page.pawns.passed,
        "isolated_pawns"_a = page.pawns.isolated, "doubled_pawns"_a = page.pawns.doubled,
        "pawn_islands"_a = page.pawns.islands, "weak_pawns"_a = page.weak_pawns(), "bishop_pair"_a = page.pair,
        "outposts"_a = page.outposts, "rooks"_a = rooks, "open_files"_a = file_letters(page.open_files),
        "half_open_files"_a = file_letters(page.half_open_files), "king"_a = king,
        "threats"_a = python_threats(position, outlook), "useful_moves"_a = python_useful_moves(position, outlook));
}

py::object python_ledger(const Position& position, const ExchangeOutlook& exchange) {
    const ExchangeLedger& ledger = exchange.ledger;
    py::dict items;
    for (std::size_t at = 0; at < compensation_items; ++at)
        items[text_from(name(static_cast<CompensationItem>(at)))] = ledger.compensation.by_item[at];
    py::object guardian = py::none();
    if (ledger.guardian)
        guardian = result_class("GuardianGone")(
            "piece"_a = ledger.guardian->piece, "colour"_a = name_of(ledger.guardian->complex),
            "before"_a = python_grasp(ledger.guardian->before), "now"_a = python_grasp(ledger.guardian->now));
    return result_class("ExchangeLedger")(
        "side"_a = ledger.up.side, "giver"_a = ledger.giver(), "times"_a = ledger.up.times,
        "pages"_a =
            by_side([&](Side side) { return python_page(position, ledger.of(side), exchange.outlook.of(side)); }),
        "guardian"_a = guardian,
        "compensation"_a =
            result_class("Compensation")(name(ledger.compensation.level), ledger.compensation.points, items),
        "paragraph"_a = text_from(paragraph(position, exchange)),
        "texts"_a = in_languages([&](Language language) { return paragraph(position, exchange, language); }));
}

} // namespace

void register_features(py::module_& module) {
    constexpr Bound usual;

    module.def(
        "mobility",
        [](const Position& position, Square square, int least_gain, int plies, int check_plies, int nodes,
           const ValuesArgument& values) {
            const Options options = options_of(least_gain, plies, check_plies, nodes, values);
            if (!position.piece_at(square))
                throw InputError{Reason::no_such_piece, Field::none, 1, keysquare::name(square)};
            const auto answer = [&] {
                const py::gil_scoped_release released;
                return mobility(position, square, options);
            }();
            return python_mobility(position, answer);
        },
        py::arg("position"), py::arg("square"), py::kw_only(), py::arg("least_gain") = 1,
        py::arg("plies") = usual.plies, py::arg("check_plies") = usual.check_plies, py::arg("nodes") = usual.nodes,
        py::arg("values") = py::none(),
        "Every square that the piece on a square could reach, with a verdict and its reason: a Mobility.\n\n"
        "It goes with the turn of the piece's side, after a pass where the other side is to move. Moves that lose less "
        "than `least_gain` pawns are no loss; the bound as in `resolve`. Raises InputError (`no_such_piece`) for an "
        "empty square.");

    module.def(
        "square_control",
        [](const Position& position, const ValuesArgument& values) {
            const Options options{.values = values_of(values)};
            const auto answer = [&] {
                const py::gil_scoped_release released;
                return square_control(position, options);
            }();
            return python_control(answer);
        },
        py::arg("position"), py::kw_only(), py::arg("values") = py::none(),
        "Who attacks each square, with what, and which side holds it: a SquareControl.\n\n"
        "A side denies a square when a knight of the other side put there would be lost by `exchange`; it holds the "
        "square when it denies it and the other side does not. `values` as in `exchange`.");

    module.def(
        "colour_complex",
        [](const Position& position, const ValuesArgument& values) {
            const Options options{.values = values_of(values)};
            const auto answer = [&] {
                const py::gil_scoped_release released;
                return colour_complexes(position, options);
            }();
            return python_complexes(position, answer, options.values);
        },
        py::arg("position"), py::kw_only(), py::arg("values") = py::none(),
        "What each side has of the light and of the dark squares: a dict from \"light\" and \"dark\" to "
        "ColourComplex.\n\n"
        "`values` as in `exchange`.");

    module.def(
        "guardian",
        [](const Position& position, Side side, Text colour, const ValuesArgument& values) -> py::object {
            const Options options{.values = values_of(values)};
            const Complex complex = complex_named(colour.view);
            const auto answer = [&] {
                const py::gil_scoped_release released;
                return guardian(position, side, complex, options);
            }();
            return answer ? python_guardian(side, complex, *answer) : py::object{py::none()};
        },
        py::arg("position"), py::arg("side"), py::arg("colour"), py::kw_only(), py::arg("values") = py::none(),
        "The minor piece that a side's squares of one colour (\"light\" or \"dark\"), in its own half, stand or fall "
        "with: a Guardian, or None when there is none.\n\n"
        "Only where the pawns have left the colour to the pieces. `values` as in `exchange`.");

    module.def(
        "exchange_context",
        [](const Position& position, const Position* earlier, int plies, int check_plies, int nodes,
           const ValuesArgument& values) -> py::object {
            const Options options = options_of(1, plies, check_plies, nodes, values);
            const auto answer = [&] {
                const py::gil_scoped_release released;
                return exchange_outlook(position, options, earlier);
            }();
            return answer ? python_ledger(position, *answer) : py::object{py::none()};
        },
        py::arg("position"), py::arg("earlier") = py::none(), py::kw_only(), py::arg("plies") = usual.plies,
        py::arg("check_plies") = usual.check_plies, py::arg("nodes") = usual.nodes, py::arg("values") = py::none(),
        "What each side has where one of them is the exchange up (rooks for as many minor pieces, queens equal): an "
        "ExchangeLedger, or None elsewhere.\n\n"
        "It counts what stands on the board and adds who has threats and useful moves now (`outlook`). "
        "Given `earlier`, a position of the same game from before the exchange was given, the ledger also names the "
        "guardian that left the board. The bound, for everything that is not only counted, as in `resolve`.");
}

} // namespace keysquare::python
