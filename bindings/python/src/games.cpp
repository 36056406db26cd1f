// Games: reading them from files and streams, their trees, writing them.
#include "games.hpp"

#include <algorithm>
#include <functional>

#include <keysquare/lesson/diagram.hpp>
#include <keysquare/notation/characters.hpp>
#include <keysquare/notation/comment_commands.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/game_state.hpp>

namespace keysquare::python {

namespace {

py::dict tags_of(const Game& game) {
    py::dict tags;
    for (std::size_t at = 0; at < game.tag_count(); ++at)
        tags[text_from(game.tag_at(at).name)] = text_from(game.tag_at(at).value);
    return tags;
}

/// A tag with any other name could not be read again.
void set_tag(HeldGame& held, Text name, Text value) {
    const bool is_name = !name.view.empty() && name.view.size() <= 255 && std::ranges::all_of(name.view, [](char c) {
        return detail::is_letter(c) || detail::is_digit(c) || c == '_';
    });
    if (!is_name) throw py::value_error("a tag's name has letters, digits and underscores only");
    if (name.view == "FEN" || name.view == "SetUp" || name.view == "Variant")
        throw py::value_error("the start position is given when the game is made");
    if (name.view == "Result") throw py::value_error("set the game's result instead");
    held.game.set_tag(name.view, value.view);
}

void set_result(HeldGame& held, Text text) {
    for (const GameResult result :
         {GameResult::white_wins, GameResult::black_wins, GameResult::draw, GameResult::unknown})
        if (name(result) == text.view) {
            held.game.set_result(result);
            if (held.game.has_tag("Result")) held.game.set_tag("Result", text.view);
            return;
        }
    throw py::value_error("a result is \"1-0\", \"0-1\", \"1/2-1/2\" or \"*\"");
}

std::vector<Position> positions_of(const HeldGame& held) {
    std::vector<Position> positions{held.game.start()};
    for (const Move move : held.game.main_line()) positions.push_back(after_in_game(positions.back(), move));
    return positions;
}

std::vector<StepOf> steps_of(const std::shared_ptr<HeldGame>& held) {
    std::vector<StepOf> nodes;
    for (StepIndex at = 0; at < held->game.steps().size(); ++at) nodes.push_back({held, at});
    return nodes;
}

std::optional<std::string> numbered(const StepOf& node);

py::object python_state(const GameState& state) {
    return result_class("GameState")(state.mover, state.occurrences, state.quiet_plies, state.mover_is_mated,
                                     state.mover_is_stalemated, state.has_occurred_five_times,
                                     state.is_quiet_for_75_moves, state.is_dead, state.claimable_by_repetition,
                                     state.claimable_by_quiet_moves, state.repeating_moves);
}

py::list states_of(const HeldGame& held) {
    py::list states;
    for (const GameState& state : game_states(held.game)) states.append(python_state(state));
    return states;
}

std::vector<StepOf> nodes_of(const std::shared_ptr<HeldGame>& held, const std::vector<StepIndex>& steps) {
    std::vector<StepOf> nodes;
    for (const StepIndex at : steps) nodes.push_back({held, at});
    return nodes;
}

/// The node of the main line after so many plies, counted from the end when negative.
StepOf at_ply(const std::shared_ptr<HeldGame>& held, std::int64_t ply) {
    std::vector<StepIndex> steps = held->game.main_steps();
    steps.insert(steps.begin(), root_step);
    const auto size = static_cast<std::int64_t>(steps.size());
    if (ply < -size || ply >= size)
        throw py::index_error("no ply " + std::to_string(ply) + ": the game has " + std::to_string(size - 1));
    return {held, steps[static_cast<std::size_t>(ply < 0 ? ply + size : ply)]};
}

/// The node of the main line that is this side's move of this number.
StepOf at_move(const std::shared_ptr<HeldGame>& held, std::int64_t number, Side side) {
    const std::vector<StepIndex> steps = held->game.main_steps();
    const Position& start = held->game.start();
    const auto plies_before_number = [&](std::int64_t move, Side mover) {
        return 2 * (move - start.move_number()) + (mover == Side::black) - (start.mover() == Side::black);
    };
    const auto size = static_cast<std::int64_t>(steps.size());
    const bool is_near = number >= start.move_number() && number <= start.move_number() + size;
    const std::int64_t at = is_near ? plies_before_number(number, side) : -1;
    if (at >= 0 && at < size) return {held, steps[static_cast<std::size_t>(at)]};
    const std::string asked = "no move " + std::to_string(number) + " of " + (side == Side::white ? "White" : "Black");
    if (steps.empty()) throw py::index_error(asked + ": the game has no moves");
    throw py::index_error(asked + ": the game goes from " + *numbered({held, steps.front()}) + " to " +
                          *numbered({held, steps.back()}));
}

std::string player(const Game& game, std::string_view colour) {
    const std::string_view name = game.tag(colour);
    return std::string{name.empty() ? "?" : name};
}

std::string in_short(const HeldGame& held) {
    return joined_text("<keysquare.Game ", player(held.game, "White"), " - ", player(held.game, "Black"), ", ",
                       name(held.game.result()), ", ", std::to_string(held.game.main_line().size()), " plies>");
}

/// The players, the position at the end and the moves as text.
py::str html_of(const HeldGame& held) {
    // One function makes foreign text safe for pages, and it is written in Python.
    const py::object safe = py::module_::import("keysquare._displays").attr("html_text");
    const auto escaped = [&](const std::string& text) { return safe(text_from(text)).cast<std::string>(); };
    const Position last = positions_of(held).back();
    return text_from(joined_text("<figure>", diagram(last), "<figcaption>", escaped(player(held.game, "White")), " - ",
                                 escaped(player(held.game, "Black")), ", ", name(held.game.result()),
                                 "</figcaption></figure><pre>", escaped(write_pgn(held.game)), "</pre>"));
}

// The tree.

const GameStep& node_of(const StepOf& node) { return node.held->game.step(node.at); }

std::vector<StepOf> children_of(const StepOf& node) {
    std::vector<StepOf> children;
    for (StepIndex at = node_of(node).first_child; at != root_step; at = node.held->game.step(at).next_sibling)
        children.push_back({node.held, at});
    return children;
}

std::optional<StepOf> parent_of(const StepOf& node) {
    if (node.at == root_step) return std::nullopt;
    return StepOf{node.held, node_of(node).parent};
}

std::optional<StepOf> next_of(const StepOf& node) {
    const StepIndex at = node_of(node).first_child;
    if (at == root_step) return std::nullopt;
    return StepOf{node.held, at};
}

Position position_of(const StepOf& node) { return node.held->game.position_at(node.at); }

std::optional<Move> move_of(const StepOf& node) {
    if (node.at == root_step) return std::nullopt;
    return node_of(node).move;
}

std::optional<std::string> san_of(const StepOf& node) {
    if (node.at == root_step) return std::nullopt;
    return san(node.held->game.position_at(node_of(node).parent), node_of(node).move);
}

std::optional<int> move_number_of(const StepOf& node) {
    if (node.at == root_step) return std::nullopt;
    return node.held->game.position_at(node_of(node).parent).move_number();
}

std::optional<std::string> numbered(const StepOf& node) {
    if (node.at == root_step) return std::nullopt;
    return numbered_san(node.held->game.position_at(node_of(node).parent), node_of(node).move);
}

bool is_main_line(const StepOf& node) {
    for (StepIndex at = node.at; at != root_step; at = node.held->game.step(at).parent)
        if (node.held->game.step(node.held->game.step(at).parent).first_child != at) return false;
    return true;
}

CommentPlace place_named(std::string_view text) {
    constexpr std::array<std::string_view, 3> names{"before", "after", "beyond"};
    for (const CommentPlace place : all_comment_places)
        if (names[static_cast<std::size_t>(place)] == text) return place;
    throw py::value_error("a comment stands \"before\", \"after\" or \"beyond\"");
}

StepOf add_move(const StepOf& node, const MoveArgument& argument) {
    const Position position = position_of(node);
    const auto* text = std::get_if<Text>(&argument);
    const bool is_null = text ? text->view == "--" : !std::get<Move>(argument);
    if (!is_null) return {node.held, node.held->game.add_move(node.at, move_in(position, argument))};
    // Nobody passes in the game itself, and nobody may pass out of a check.
    const bool varies = node_of(node).first_child != root_step || !is_main_line(node);
    if (!varies || in_check(position)) throw InputError{Reason::illegal_move, Field::move, 1, "--"};
    return {node.held, node.held->game.add_move(node.at, Move{})};
}

/// Words of a line of moves, with or without their numbers ("12.", "12...", "12.Nf3").
std::vector<std::string_view> moves_in(std::string_view text) {
    std::vector<std::string_view> words;
    while (!(text = detail::trimmed(text)).empty()) {
        std::string_view word = text.substr(0, text.find_first_of(" \t\r\n"));
        text.remove_prefix(word.size());
        const std::size_t digits = (std::min)(word.find_first_not_of("0123456789"), word.size());
        const std::size_t number = (std::min)(word.find_first_not_of('.', digits), word.size());
        if (number > digits) word.remove_prefix(number); // without a dot it is castling with zeros, or no move
        if (!word.empty()) words.push_back(word);
    }
    return words;
}

/// All moves are read before the first is added, so that a bad one leaves the game as it was.
StepOf add_line(const StepOf& node, Text text) {
    std::vector<Move> moves;
    Position position = position_of(node);
    for (const std::string_view word : moves_in(text.view)) {
        const Result<Move> move = read_move(position, word);
        if (!move) throw InputError{move.error().reason, Field::step, move.error().column, word, moves.size() + 1};
        moves.push_back(*move);
        position = after(position, *move);
    }
    StepOf last = node;
    for (const Move move : moves) last.at = node.held->game.add_move(last.at, move);
    return last;
}

void set_comment(const StepOf& node, Text text, Text place) {
    node.held->game.set_comment(node.at, text.view, place_named(place.view));
}

void set_command(const StepOf& node, Text name, const std::optional<Text>& value) {
    const bool is_name = !name.view.empty() && std::ranges::all_of(name.view, [](char c) {
        return detail::is_letter(c) || detail::is_digit(c) || c == '_';
    });
    if (!is_name) throw py::value_error("a command's name has letters, digits and underscores only");
    if (value && value->view.find_first_of("]\r\n") != std::string_view::npos)
        throw py::value_error("a command's value is one line without \"]\"");
    Game& game = node.held->game;
    if (value)
        game.set_command(node.at, name.view, value->view);
    else
        game.set_comment(node.at, without_command(game.comment(node.at), name.view));
}

std::optional<double> seconds_of(const StepOf& node, std::string_view command_name) {
    const auto text = command(node.held->game.comment(node.at), command_name);
    return text ? seconds_in(*text) : std::nullopt;
}

py::object evaluation_of(const StepOf& node) {
    const auto text = command(node.held->game.comment(node.at), "eval");
    const auto evaluation = text ? evaluation_in(*text) : std::nullopt;
    if (!evaluation) return py::none();
    return result_class("Evaluation")(evaluation->pawns, evaluation->mate_in, evaluation->depth);
}

void add_comment(const StepOf& node, Text text, Text place) {
    node.held->game.add_comment(node.at, text.view, place_named(place.view));
}

void add_nag(const StepOf& node, int nag) {
    if (nag < 0 || nag > 255) throw py::value_error("a numeric annotation glyph is a number from 0 to 255");
    if (node.at == root_step) throw py::value_error("a glyph belongs to a move, and the root has none");
    node.held->game.add_nag(node.at, static_cast<std::uint8_t>(nag));
}

void register_node(py::module_& module) {
    py::class_<StepOf> type(module, "GameStep",
                            "One move of a game's tree. The root stands for the start position, before any move.\n\n"
                            "Keeps its game alive. Equal when it is the same node of the same Game object; hashable.");

    type.def_property_readonly("move", &move_of, "The move, None at the root; the null move \"--\" in some variations.")
        .def_property_readonly("san", &san_of, "The move as SAN, None at the root.")
        .def_property_readonly("position", &position_of, "The position after the move, replayed from the start.")
        .def_property_readonly(
            "ply", [](const StepOf& node) { return node.held->game.path_to(node.at).size(); },
            "How many moves it is away from the root.")
        .def_property_readonly("move_number", &move_number_of, "The number of the move, None at the root.")
        .def_property_readonly("numbered", &numbered,
                               "The move as SAN with its number, \"23.Rc4\" or \"23...Rc4\"; None at the root.")
        .def_property_readonly(
            "line", [](const StepOf& node) { return nodes_of(node.held, node.held->game.path_to(node.at)); },
            "The steps from the first move to this one, both included; empty at the root.")
        .def_property_readonly(
            "state", [](const StepOf& node) { return python_state(game_state(node.held->game, node.at)); },
            "What the Laws of Chess say of the position because of the moves that led to it: a GameState. "
            "Takes time for these moves; `Game.states` goes along a whole game at once.")
        .def_property_readonly("parent", &parent_of, "The node before it, None at the root.")
        .def_property_readonly("next", &next_of, "The node that goes on with the same line, None at its end.")
        .def_property_readonly(
            "children", &children_of,
            "The nodes after it: the first goes on with the line, the others are variations that replace "
            "the first.")
        .def_property_readonly("is_main_line", &is_main_line, "Whether it belongs to the game as it was played.")
        .def_property_readonly(
            "comment", [](const StepOf& node) { return text_from(node.held->game.comment(node.at)); },
            "The comment after the move; at the root, before the first move. Empty when there is none.")
        .def_property_readonly(
            "comment_before",
            [](const StepOf& node) { return text_from(node.held->game.comment(node.at, CommentPlace::before)); },
            "The comment before the first move of a variation, inside its bracket.")
        .def_property_readonly(
            "comment_beyond",
            [](const StepOf& node) { return text_from(node.held->game.comment(node.at, CommentPlace::beyond)); },
            "The comment after the closing bracket of the variation that the node begins.")
        .def_property_readonly(
            "plain_comment",
            [](const StepOf& node) { return text_from(without_commands(node.held->game.comment(node.at))); },
            "The comment without its commands (\"[%clk 0:03:00]\").")
        .def_property_readonly(
            "seconds_left", [](const StepOf& node) { return seconds_of(node, "clk"); },
            "The seconds on the mover's clock after the move (\"[%clk 1:23:45]\"); None without the command or when it "
            "can't be read.")
        .def_property_readonly(
            "seconds_used", [](const StepOf& node) { return seconds_of(node, "emt"); },
            "The seconds that the move took (\"[%emt 0:00:12]\"); None without the command or when it can't be read.")
        .def_property_readonly("evaluation", &evaluation_of,
                               "What \"[%eval 0.35]\" or \"[%eval #-3,20]\" holds: an Evaluation, None without the "
                               "command or when it can't be read.")
        .def_property_readonly(
            "nags",
            [](const StepOf& node) {
                py::list nags;
                for (const std::uint8_t nag : node.held->game.nags(node.at)) nags.append(nag);
                return nags;
            },
            "The numeric annotation glyphs of the move, in order.");

    type.def(
            "command",
            [](const StepOf& node, Text name) -> py::object {
                const auto text = command(node.held->game.comment(node.at), name.view);
                return text ? py::object{text_from(*text)} : py::object{py::none()};
            },
            py::arg("name"),
            "The text of a command in the comment: \"0:03:00\" for \"clk\" in \"[%clk 0:03:00]\"; None without it.")
        .def("add_move", &add_move, py::arg("move"),
             "Adds a move after this one and returns its node: the first goes on with the line, further ones are "
             "variations. \"--\" is a null move, in variations only.\n\n"
             "Raises InputError as `Position.after` does.")
        .def(
            "add_line", &add_line, py::arg("moves"),
            "Adds several moves in a row, \"Nf3 Nc6 Bb5\" or \"2.Nf3 Nc6 3.Bb5\", and returns the node of the last.\n\n"
            "Raises InputError, with the number of the move as `step`; then none of them is added.")
        .def("set_comment", &set_comment, py::arg("text"), py::arg("place") = Text{"after"},
             "Puts a comment in the place of the one that stands there; an empty text removes it. Places as in "
             "`add_comment`.")
        .def("set_command", &set_command, py::arg("name"), py::arg("value"),
             "Gives a command in the comment after the move its value, or adds it at the front; None takes it out. The "
             "rest of the comment stays.")
        .def("add_comment", &add_comment, py::arg("text"), py::arg("place") = Text{"after"},
             "Adds a comment \"before\" (inside a variation's bracket), \"after\" the move, or \"beyond\" the "
             "variation that begins here. Line breaks become spaces.")
        .def("add_nag", &add_nag, py::arg("nag"), "Adds a numeric annotation glyph, 0 to 255.");

    type.def(
            "__eq__", [](const StepOf& a, const StepOf& b) { return a.held == b.held && a.at == b.at; },
            py::is_operator())
        .def("__hash__",
             [](const StepOf& node) { return std::hash<const void*>{}(node.held.get()) ^ std::size_t{node.at}; })
        .def("__repr__",
             [](const StepOf& node) { return "<keysquare.GameStep " + numbered(node).value_or("(start)") + ">"; })
        .def("_repr_svg_", [](const StepOf& node) { return diagram(position_of(node)); });
}

py::tuple stored(const HeldGame& held) {
    py::list notices;
    for (const InputError& notice : held.notices)
        notices.append(py::make_tuple(static_cast<int>(notice.reason), static_cast<int>(notice.field), notice.line,
                                      notice.column, py::bytes(notice.token), py::bytes(notice.file), notice.game,
                                      notice.offset));
    return py::make_tuple(py::bytes(write_pgn(held.game)), held.number, held.offset, notices, py::bytes(held.file));
}

std::shared_ptr<HeldGame> restored(const py::tuple& state) {
    auto held = std::make_shared<HeldGame>();
    held->game = read_pgn(state[0].cast<std::string>(), unbounded_reading()).value();
    held->number = state[1].cast<std::uint64_t>();
    held->offset = state[2].cast<std::uint64_t>();
    for (const py::handle item : state[3]) {
        const auto [reason, field, line, column, token, file, game, offset] = item.cast<
            std::tuple<int, int, std::size_t, std::size_t, std::string, std::string, std::uint64_t, std::uint64_t>>();
        const InputError notice{static_cast<Reason>(reason), static_cast<Field>(field), column, token, line};
        held->notices.push_back(notice.in_game(file, game, offset));
    }
    held->file = state[4].cast<std::string>();
    return held;
}

void register_game(py::module_& module) {
    py::class_<HeldGame, std::shared_ptr<HeldGame>> type(
        module, "Game",
        "One game: tags, a start position, and a tree of moves with variations, comments and glyphs.\n\n"
        "Made by a reader, or from a start position and then filled move by move. `str(game)` is PGN in export format. "
        "Games compare by content, pickle, and draw themselves in notebooks.");

    type.def(py::init([](const Position* start) {
                 auto held = std::make_shared<HeldGame>();
                 if (start) held->game.set_start(*start);
                 return held;
             }),
             py::arg("start") = py::none(),
             "A game without moves, from a position or from the start position of chess.");

    type.def_property_readonly(
            "tags", [](const HeldGame& held) { return tags_of(held.game); },
            "The tags in the order in which they were read, a new dict; `set_tag` changes them.")
        .def_property_readonly(
            "start", [](const HeldGame& held) { return held.game.start(); }, "The start position.")
        .def_property(
            "result", [](const HeldGame& held) { return name(held.game.result()); }, &set_result,
            "\"1-0\", \"0-1\", \"1/2-1/2\", or \"*\" when it is unknown.")
        .def_property_readonly(
            "main_line", [](const HeldGame& held) { return held.game.main_line(); },
            "The moves of the game as it was played.")
        .def_property_readonly(
            "root",
            [](const std::shared_ptr<HeldGame>& held) {
                return StepOf{held, root_step};
            },
            "The node of the start position.")
        .def_property_readonly("steps", &steps_of, "All steps, the root first, every node after its parent.")
        .def_property_readonly(
            "main_steps", [](const std::shared_ptr<HeldGame>& held) { return nodes_of(held, held->game.main_steps()); },
            "The steps of the game as it was played, without the root.")
        .def_property_readonly(
            "file", [](const HeldGame& held) { return text_from(held.file); },
            "The file that the game was read from, as it was named; empty when it was not read from a file.")
        .def_property_readonly(
            "number", [](const HeldGame& held) { return held.number; },
            "The number of the game in the text that it was read from, from 1; 0 when it was not read.")
        .def_property_readonly(
            "offset", [](const HeldGame& held) { return held.offset; }, "Where the game begins in that text, in bytes.")
        .def_property_readonly(
            "notices",
            [](const HeldGame& held) {
                py::list notices;
                for (const InputError& notice : held.notices) notices.append(python_error(notice));
                return notices;
            },
            "What was odd about the game though it was read, as InputError objects: `missing_result`, "
            "or the fault after which the moves were cut off.");

    type.def("positions", &positions_of, "The positions along the main line: the start, then one after each move.")
        .def(
            "states", &states_of,
            "What the Laws of Chess say along the main line, as GameState objects: of the start, then after each move. "
            "One pass.")
        .def("at_ply", &at_ply, py::arg("ply"),
             "The step of the main line after so many plies: 0 is the start, -1 the end.\n\n"
             "Raises IndexError when the game is shorter.")
        .def("at_move", &at_move, py::arg("number"), py::arg("side") = Side::white,
             "The step of the main line that is this side's move of this number; numbers go on from the start "
             "position's.\n\nRaises IndexError, which tells the first and the last move, when there is none.")
        .def("set_tag", &set_tag, py::arg("name"), py::arg("value"),
             "Gives a tag its value, whether or not it had one.")
        .def(
            "pgn", [](const HeldGame& held) { return text_from(write_pgn(held.game)); },
            "The game as PGN in export format (1994 PGN standard, 8.1), with an empty line at its end.");

    type.def(
            "__eq__", [](const HeldGame& a, const HeldGame& b) { return a.game == b.game; }, py::is_operator())
        .def("__str__", [](const HeldGame& held) { return text_from(write_pgn(held.game)); })
        .def("__repr__", [](const HeldGame& held) { return text_from(in_short(held)); })
        .def("_repr_html_", &html_of)
        .def(py::pickle(&stored, &restored));
    type.attr("__hash__") = py::none(); // games change
}

} // namespace

void register_games(py::module_& module) {
    register_game(module);
    register_node(module);
    register_game_reader(module);
    register_game_writer(module);
}

} // namespace keysquare::python
