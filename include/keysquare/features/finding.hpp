// Finding: one statement about a position with the witness that shows it is true.
#pragma once

#include <string_view>
#include <vector>

#include <keysquare/tactics/values.hpp>

namespace keysquare {

/// What a finding is about. Append only; `name(theme)` is the text that other languages and files use.
enum class Theme : std::uint8_t {
    hanging,            ///< a man that the other side can win on its square
    poisoned,           ///< a man that looks free and is not
    loose,              ///< a piece that is neither guarded nor attacked
    guard_duty,         ///< a man that holds something: without it, that falls
    overloaded,         ///< a man with more duties than it can fulfil
    tied,               ///< a man with a duty, every move of which gives something up
    mutual_guards,      ///< two men that guard each other
    shield_pair,        ///< one guards, the other shields its guard
    square_control,     ///< who holds how many squares
    colour_complex,     ///< squares of one colour that one side rules
    guardian,           ///< the piece that a colour complex stands or falls with
    denied_square,      ///< a square that looks free for a piece but loses material to a tactical point
    rook_scope,         ///< how many safe moves a rook has
    stuffed_rooks,      ///< rooks without a safe move
    open_file,          ///< a rook on an open or half-open file, or one move away from it
    seventh_rank,       ///< a rook on the seventh rank as its side counts
    doubled_rooks,      ///< two rooks on one file with nothing between them
    connected_rooks,    ///< two rooks that guard each other
    entry_square,       ///< a square in the enemy camp that a rook may safely enter
    material,           ///< a named imbalance of material
    exchange_imbalance, ///< the ledger of a position where one side is the exchange up
    // tactics
    pin,               ///< a man that shields something more valuable on a line, and what comes of it
    skewer,            ///< a man in front that must go, and one behind it that falls
    fork,              ///< a move after which one man attacks several
    double_attack,     ///< a quiet move that makes two threats by different men
    discovered_attack, ///< a move that uncovers an attack of the man behind
    battery,           ///< two men on one line that aim at the same target
    removable_guard,   ///< a guard that can be taken, driven off, lured away or cut off
    trapped_piece,     ///< a piece that is lost wherever it goes
    back_rank,         ///< a king shut in on its first rank
    mate_in_one,       ///< a move that mates
    mate_in_two,       ///< a move after which every reply is mated
    promotion_threat,  ///< a pawn that can't be kept from promoting without loss
    intermediate_move, ///< a move before the recapture that changes an exchange
    // squares and pieces
    hole,          ///< squares in a camp that its pawns can never guard
    outpost,       ///< a square in the enemy camp that a minor piece has or can reach
    space,         ///< the room behind the pawns
    good_bishop,   ///< a bishop whose own fixed pawns stand on the other colour
    bad_bishop,    ///< a bishop behind its own fixed pawns
    rim_knight,    ///< a knight on the edge of the board
    undeveloped,   ///< pieces that have not left their first square
    passive_piece, ///< the piece with the least scope for its kind
    guarding_only, ///< a piece that does nothing but guard
    // pawns
    isolated_pawn,     ///< a pawn without a neighbour
    doubled_pawns,     ///< pawns of one side on one file
    backward_pawn,     ///< a pawn that its neighbours have left behind
    passed_pawn,       ///< a pawn that no enemy pawn can stop
    candidate_to_pass, ///< a pawn that can become passed
    pawn_chain,        ///< pawns that guard each other along a diagonal, and the base
    pawn_islands,      ///< groups of pawns that can't help each other
    pawn_majority,     ///< more pawns on one wing
    pawn_lever,        ///< an advance that attacks an enemy pawn, and what it opens
    blocked_pawns,     ///< pawns that can't advance
    // king
    king_shelter,   ///< the pawns before the king
    king_lines,     ///< open files and diagonals on the king
    near_king,      ///< attackers and defenders near the king
    king_escape,    ///< where the king could go
    king_in_centre, ///< a king that has not castled and can't hide
    end_            ///< one past the last theme
};

/// The particular case within a theme. Which ones a theme uses is said where the theme is computed.
enum class Detail : std::uint8_t {
    none, ///< no particular case
    // hanging
    unguarded,        ///< no man guards it
    guard_pinned,     ///< it is guarded, but no guard may recapture
    outnumbered,      ///< it is attacked more often than guarded
    cheaper_attacker, ///< the taker is worth less than the man
    en_passant,       ///< a pawn that can be taken en passant
    // guard_duty
    guards_man,       ///< attacks the man, directly or through sliders of its own side
    blocks_line,      ///< stands between the man and a slider of the other side
    hinders_attacker, ///< holds an attacker back in another way, by a pin, say
    stops_mate,       ///< without it there is mate in one
    stops_promotion,  ///< without it a pawn promotes
    // mutual_guards, shield_pair
    only_each_other, ///< neither is attacked, and neither has another guard
    pressured,       ///< the other side attacks at least one of them
    locked,          ///< every legal move of either loses something
    // colours
    light, ///< the light squares
    dark,  ///< the dark squares
    // open_file
    on_open_file,            ///< a file without pawns
    on_half_open_file,       ///< a file without pawns of its own side
    can_take_open_file,      ///< it could go to an open file
    can_take_half_open_file, ///< it could go to a half-open file
    // material
    the_exchange,                  ///< rook for minor piece
    the_exchange_for_pawns,        ///< rook for minor piece and pawns
    two_exchanges,                 ///< two rooks or more for as many minor pieces
    two_minors_for_rook,           ///< two minor pieces for a rook
    two_minors_for_rook_and_pawns, ///< two minor pieces for a rook and pawns
    queen_for_pieces,              ///< the queen for other pieces
    minor_for_pawns,               ///< a minor piece for pawns
    piece_up,                      ///< pieces more, and no fewer pawns
    pawns_up,                      ///< pawns alone
    bishop_pair,                   ///< one side has the two bishops
    opposite_bishops,              ///< one bishop each, on different colours
    even,                          ///< no difference
    // exchange_imbalance: the compensation level
    no_compensation,               ///< none by the published formula
    some_compensation,             ///< some
    enough_compensation,           ///< enough
    more_than_enough_compensation, ///< more than enough
    // material
    piece_for_pawns, ///< more pieces, fewer pawns
    mixed,           ///< no other name fits
    // loose
    at_home, ///< on the first rank of its side
    in_play, ///< elsewhere
    // pin
    absolute, ///< the man behind is the king
    relative, ///< the man behind is another one
    // fork, discovered_attack: how it starts
    with_check,        ///< the first move gives check
    with_double_check, ///< it gives check by two men
    with_capture,      ///< it takes something
    quiet,             ///< neither check nor capture
    // removable_guard
    by_capture,     ///< the guard is taken
    by_driving_off, ///< the moved man threatens the guard
    by_luring,      ///< the guard may take, and then fails in another duty
    by_blocking,    ///< a man comes between the guard and what it guards
    // trapped_piece
    attacked_already, ///< it is attacked as things stand
    attackable,       ///< a move can attack it
    // outpost
    held_by_piece, ///< a piece stands on it
    within_reach,  ///< a piece can get there
    // passed_pawn
    guarded_by_pawn, ///< a pawn of its side guards it
    connected,       ///< a passed pawn of its side is on a neighbouring file
    outside,         ///< far from the pawns of the other side (`PassedPawns::outside`)
    // blocked_pawns
    fixed_by_pawn,    ///< an enemy pawn stands before it
    blocked_by_piece, ///< an enemy piece stands before it
    // king_lines
    on_diagonal, ///< a diagonal
    // king_in_centre
    may_castle,     ///< the king still has a right to castle
    may_not_castle, ///< it has none
    // pawn_majority
    queenside, ///< the a-file to the d-file
    kingside,  ///< the e-file to the h-file
    // king_escape
    no_luft, ///< no square to step out to when its first rank is checked
    // pin: one that a move makes
    absolute_next, ///< a move pins a man to the king
    relative_next, ///< a move pins a man to another one
    end_           ///< one past the last detail
};

/// In snake case, as Python shows it.
[[nodiscard]] std::string_view name(Theme theme) noexcept;
/// In snake case, as Python shows it.
[[nodiscard]] std::string_view name(Detail detail) noexcept;
/// The theme of that name, or `Theme::end_`.
[[nodiscard]] Theme theme_named(std::string_view text) noexcept;

/// What is counted. Append only, like themes; the text is `name(measure)`.
enum class Measure : std::uint8_t {
    attackers,        ///< men that attack the subject
    guards,           ///< men that guard the subject
    duties,           ///< duties of one man
    moves,            ///< legal moves of the subject
    safe_moves,       ///< those of them that are safe
    losing_moves,     ///< those of them that lose material
    least_loss,       ///< what the best of the losing moves loses, in pawns
    held,             ///< squares held by `side`
    held_by_other,    ///< squares held by the other side
    held_without,     ///< squares held by `side` without the piece
    change,           ///< squares that change hands
    holes,            ///< squares of the complex in the other side's half that its pawns can never guard
    fixed_pawns,      ///< pawns of the other side that are fixed on the other colour
    pawns_on_colour,  ///< pawns of the other side on the colour
    bishops,          ///< bishops of `side` on the colour
    bishops_of_other, ///< bishops of the other side on the colour
    rooks,            ///< rooks
    minors,           ///< knights and bishops
    pawns,            ///< more pawns for `side` (may be negative)
    material,         ///< balance in pawns for `side`
    compensation,     ///< points of the published formula
    // material and exchange_imbalance
    queens,    ///< queens
    exchanges, ///< how many times one side is the exchange up
    // exchange_imbalance: what the side that gave the exchange has for it
    bishop_pairs,   ///< 1 when it has the bishop pair
    outposts,       ///< its minor pieces on outposts
    passed_pawns,   ///< its passed pawns
    missing_shield, ///< shield pawns that the other king has fewer than its own
    bearing_men,    ///< its men that bear on the other king
    weak_pawns,     ///< isolated pawns and files with doubled ones that the other side has more
    rook_files,     ///< open and half-open files that the rooks of the other side can use
    // colour_complex and guardian
    attacked,          ///< squares attacked at least once by `side`
    attacked_by_other, ///< squares attacked at least once by the other side
    attacked_without,  ///< squares attacked at least once by `side` without the piece
    // tactics
    targets,     ///< men that are attacked at once
    moves_to_go, ///< moves of `side` until it happens
    // squares, pieces, pawns and king
    squares,          ///< squares that were counted for `side`
    squares_of_other, ///< the same for the other side
    scope,            ///< squares that the piece attacks and could go to
    usual_scope,      ///< the scope that a piece of its kind has on average
    pieces,           ///< pieces that were counted
    steps,            ///< steps of a pawn to its last rank
    islands,          ///< groups of pawns of `side` with a file without its pawns between them
    islands_of_other, ///< the same of the other side
    majority,         ///< pawns more on that wing
    shield_pawns,     ///< files before the king that a pawn shields
    open_files,       ///< open files on the king
    half_open_files,  ///< files on the king that are half-open for the other side
    defenders,        ///< men near the king that guard squares around it
    escape_squares,   ///< squares to which the king could step
    at_once,          ///< what the best capture wins at once
    end_              ///< one past the last measure
};

/// In snake case, as Python shows it.
[[nodiscard]] std::string_view name(Measure measure) noexcept;

/// A named count.
struct Number {
    Measure measure = Measure::end_; ///< what was counted
    std::int16_t value = 0;          ///< how many
};

/// A piece where it stands.
struct Placed {
    Square square = Square::none; ///< where it stands
    Piece piece;                  ///< what it is
    /// Whether all of it is equal.
    friend bool operator==(const Placed&, const Placed&) noexcept = default;
};

/// One statement about one position, with its witness. A sentence for people is made from it alone.
///
/// What holds for every finding, and what the tests check with an independent program:
/// - `line` is legal from the position; from the position with the move handed over where `after_pass`; with the man on
///   `removed` taken off the board first where that is set (a counterfactual: "without this piece ..."). It starts with
///   a move of `side`, and `gain` is what it wins for `side` in pawns; with `mate` it ends in checkmate by `side`;
/// - no reply inside the search bound does better for the other side than `gain` says;
/// - a warning (`poisoned`, `denied_square`, `tied`, and `locked` pairs) is told from the view of the side that must
/// beware:
///   `gain` is zero or less, or `mated` is set; the first move is the mistake of `side`, the rest shows why, and `side`
///   can do no better after that move;
/// - `point` is a second line from the same place that shows the idea when the other side plays along; it is legal, but
///   nothing is claimed about the replies in it;
/// - a finding without a line is a count: `squares` holds the squares that were counted, `numbers` the counts.
struct Finding {
    Theme theme = Theme::end_;    ///< what it is about
    Detail detail = Detail::none; ///< the case within the theme; which ones there are is said with each theme
    Side side = Side::white;      ///< the side that the finding is good for; in a warning, the side that is warned
    bool after_pass = false;      ///< the line starts with the move handed over: the mover passes
    bool mate = false;            ///< the line ends in checkmate by `side`
    bool mated = false; ///< a warning whose line ends in checkmate of `side`; `gain` is the material on the way
    Square removed = Square::none; ///< the man that is taken off the board first; else `Square::none`
    int gain = 0;                  ///< what the line wins for `side`, in pawns; see above
    int weight = 0;                ///< place in the ranking, larger is mentioned earlier (`features/ranking.hpp`)
    Squares squares;               ///< the squares that it is about, or that were counted
    /// The pieces that the finding is about, the main one first; roles are said with each theme.
    BoundedList<Placed, 8> pieces;
    Line line;                       ///< the witness; empty where nothing is won or lost
    Line point;                      ///< shows the idea when the other side plays along; see above
    BoundedList<Number, 12> numbers; ///< the counts; which ones is said with each theme

    /// The count of that kind, or `otherwise`.
    [[nodiscard]] int number(Measure measure, int otherwise = 0) const noexcept {
        for (const Number& number : numbers)
            if (number.measure == measure) return number.value;
        return otherwise;
    }
    /// Appends a count.
    void count(Measure measure, int value) { numbers.push_back({measure, static_cast<std::int16_t>(value)}); }
};

/// Findings of a position. Keeps its room when cleared and used again.
using Findings = std::vector<Finding>;

} // namespace keysquare

#include <keysquare/features/finding_impl.hpp>
