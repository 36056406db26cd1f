#include <keysquare/features/feature_facts.hpp>

#include <keysquare/board/attacks.hpp>
#include <keysquare/features/king_shelter.hpp>
#include <keysquare/features/scope.hpp>

namespace keysquare {

namespace {

/// Counts moves in groups, as the generator hands them over.
struct MoveCounter {
    const CheckFinder& checks;
    Squares enemies;
    MoveCounts found{};

    void piece(Square origin, Squares targets) noexcept {
        found.moves += targets.count();
        found.captures += (targets & enemies).count();
        found.checks += checks.checking(origin, targets).count();
    }
    void pawns(Squares targets, int step, MoveType) noexcept {
        found.moves += targets.count();
        found.captures += (targets & enemies).count();
        for (const Square target : targets& checks.reach(Kind::pawn))
            if (checks.checking(square_at(index(target) - step), Squares{target})) ++found.checks;
    }
    void promotions(Squares targets, int step) noexcept {
        found.moves += 4 * targets.count();
        found.captures += 4 * (targets & enemies).count();
        for (const Square target : targets)
            for (const Kind kind : promotion_kinds)
                if (checks.gives_check(Move{square_at(index(target) - step), target, promotion_to(kind)}))
                    ++found.checks;
    }
    void single(Move move) noexcept {
        ++found.moves;
        if (move.type() == MoveType::en_passant) {
            ++found.captures;
            ++found.en_passant;
        }
        if (checks.gives_check(move)) ++found.checks;
    }
};

/// Builds the facts of a position; one object a position, used once.
class FactFinder {
  public:
    FactFinder(const Position& position, FeatureFacts& facts) noexcept
        : position_(position), facts_(facts), occupied_(position.occupied()) {}

    void run() noexcept {
        for (const Side side : all_sides) {
            NearKing& near = of(side).near;
            near.squares = king_attacks(position_.king(side)).with(position_.king(side));
        }
        for (const Side side : all_sides) add_pawns(side);
        for (const Side side : all_sides) add_pieces(side);
        for (const Side side : all_sides) add_rest(side);
    }

  private:
    SideFacts& of(Side side) noexcept { return facts_.sides[index(side)]; }

    void add_pawns(Side side) noexcept {
        const Squares pawns = position_.men(side, Kind::pawn);
        const int advance = advance_of(side);
        const Squares to_the_left = (pawns & ~file_squares(0)).moved(advance - 1);
        const Squares to_the_right = (pawns & ~file_squares(7)).moved(advance + 1);
        detail::add_attacks(facts_.map, side, Kind::pawn, to_the_left);
        detail::add_attacks(facts_.map, side, Kind::pawn, to_the_right);
        NearKing& enemy = of(other(side)).near;
        enemy.attackers |= pawns & pawn_attacks(other(side), enemy.squares);
        enemy.attacked |= (to_the_left | to_the_right) & enemy.squares;
        NearKing& own = of(side).near;
        own.defenders |= pawns & pawn_attacks(other(side), own.squares);
    }

    void add_pieces(Side side) noexcept {
        const Squares men = position_.men(side);
        const Squares queens = men & position_.men(Kind::queen);
        const Squares rooks = men & position_.men(Kind::rook);
        const Squares bishops = men & position_.men(Kind::bishop);
        for (const Square knight : men& position_.men(Kind::knight))
            add_piece(side, Kind::knight, knight, knight_attacks(knight));
        for (const Square bishop : bishops) {
            const Squares seen = bishop_attacks(bishop, occupied_);
            add_piece(side, Kind::bishop, bishop, seen);
            of(side).batteries += (seen & (bishops | queens)).count();
        }
        for (const Square rook : rooks) {
            const Squares seen = rook_attacks(rook, occupied_);
            add_piece(side, Kind::rook, rook, seen);
            add_rook_pairs(of(side), rook, seen, rooks, queens);
        }
        for (const Square queen : queens) {
            const Squares along = rook_attacks(queen, occupied_);
            const Squares across = bishop_attacks(queen, occupied_);
            add_piece(side, Kind::queen, queen, along | across);
            of(side).batteries += ((along & (rooks | queens)) | (across & (bishops | queens))).count();
        }
        detail::add_attacks(facts_.map, side, Kind::king, king_attacks(position_.king(side)));
    }

    static void add_rook_pairs(SideFacts& side, Square rook, Squares seen, Squares rooks, Squares queens) noexcept {
        const Squares partners = seen & (rooks | queens);
        if (!partners) return;
        side.batteries += partners.count();
        side.doubled_rooks += (partners & rooks & file_squares(file_of(rook))).count();
        side.connected_rooks += (partners & rooks & rank_squares(rank_of(rook))).count();
    }

    void add_piece(Side side, Kind kind, Square square, Squares seen) noexcept {
        SideFacts& own = of(side);
        SideFacts& enemy = of(other(side));
        detail::add_attacks(facts_.map, side, kind, seen);
        const Squares scope = seen & ~(position_.men(side) | facts_.map.by(other(side), Kind::pawn));
        own.scope[index(kind)] += scope.count();
        if (!scope) own.stuck |= Squares{square};
        if (seen & own.near.squares) own.near.defenders |= Squares{square};
        const Squares reached = seen & enemy.near.squares;
        if (!reached) return;
        enemy.near.attackers |= Squares{square};
        enemy.near.attacked |= reached;
    }

    void add_rest(Side side) noexcept {
        SideFacts& own = of(side);
        own.escapes = escapes_of(side);
        own.shield = shield_of(position_, side);
        const KingLines ways = king_lines(position_, side, facts_.pawns);
        own.king_open_files = ways.open_files;
        own.king_half_open_files = ways.half_open_files;
        own.king_diagonals = static_cast<int>(ways.diagonals.size());
        own.passed = passed_pawns(facts_.pawns, side);
        own.blocked = blocked_pawns(position_, side);
        own.outposts = keysquare::outposts(position_, side);
        own.holes = holes_of(position_, side);
    }

    /// Only a slider that gives check looks through the king, so the attack map is nearly all that is needed.
    [[nodiscard]] Squares escapes_of(Side side) const noexcept {
        const Square king = position_.king(side);
        Squares attacked = facts_.map.once[index(other(side))];
        if (attacked.has(king))
            for (const Square man : attackers_of(position_, king, other(side)))
                if (const Piece piece = position_.piece_at(man); is_slider(piece.kind))
                    attacked |= attacks_of(piece, man, occupied_.without(king));
        return king_attacks(king) & ~position_.men(side) & ~attacked;
    }

    const Position& position_;
    FeatureFacts& facts_;
    Squares occupied_;
};

} // namespace

MoveCounts count_moves(const Position& position) noexcept {
    const CheckFinder checks{position};
    MoveCounter counter{checks, position.men(position.waiter())};
    each_legal_move(position, Limits{position}, all_squares, counter);
    return counter.found;
}

FeatureFacts::FeatureFacts(const Position& of) noexcept
    : position(of), pawns(pawn_structure(of)), moves(count_moves(of)) {
    FactFinder{of, *this}.run();
}

} // namespace keysquare
