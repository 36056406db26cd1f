// Bodies of features/pawn_themes.hpp.
#pragma once

#include <keysquare/features/backward_pawns.hpp>
#include <keysquare/features/blocked_pawns.hpp>
#include <keysquare/features/finding_parts.hpp>
#include <keysquare/features/passed_pawns.hpp>
#include <keysquare/features/pawn_chains.hpp>
#include <keysquare/features/pawn_levers.hpp>
#include <keysquare/features/pawn_majority.hpp>
#include <keysquare/features/pawn_themes.hpp>

namespace keysquare {

namespace detail {

/// Finds the pawn themes one after the other.
class PawnThemes {
  public:
    PawnThemes(const Position& position, const PawnStructure& pawns, Findings& findings) noexcept
        : position_(position), pawns_(pawns), findings_(findings) {}

    void find() {
        for (const Side side : all_sides) {
            add_weak(Theme::isolated_pawn, side, pawns_.of(side).isolated);
            add_weak(Theme::doubled_pawns, side, pawns_.of(side).doubled);
            add_weak(Theme::backward_pawn, side, backward_pawns(pawns_, side));
            add_blockaded(side);
            add_passed(side);
            add_candidates(side);
            add_chains(side);
            add_levers(side);
            add_majorities(side);
        }
        add_islands();
        add_fixed();
    }

  private:
    void add_weak(Theme theme, Side side, Squares weak) {
        if (!weak) return;
        Finding& finding = add_count(findings_, theme, Detail::none, other(side), weak);
        name_men(position_, weak, finding);
        finding.count(Measure::pieces, weak.count());
    }

    void add_blockaded(Side side) {
        const Squares blocked = blocked_pawns(position_, side).blockaded;
        if (!blocked) return;
        const Squares blockers = blocked.moved(advance_of(side));
        Finding& finding = add_count(findings_, Theme::blocked_pawns, Detail::blocked_by_piece, other(side), blockers);
        name_men(position_, blocked, finding);
        name_men(position_, blockers, finding);
        finding.count(Measure::pieces, blocked.count());
    }

    void add_passed(Side side) {
        const PassedPawns passed = passed_pawns(pawns_, side);
        for (const Square pawn : passed.passed) {
            Squares company;
            Detail kind = Detail::none;
            if (passed.guarded.has(pawn)) {
                kind = Detail::guarded_by_pawn;
                company = pawns_.of(side).pawns & pawn_attacks(other(side), pawn);
            } else if (passed.connected.has(pawn)) {
                kind = Detail::connected;
                company = passed.passed & beside(file_squares(file_of(pawn)));
            } else if (passed.outside.has(pawn)) {
                kind = Detail::outside;
            }
            Finding& finding = add_count(findings_, Theme::passed_pawn, kind, side, path_ahead(side, pawn));
            name_men(position_, Squares{pawn}, finding);
            name_men(position_, company, finding);
            finding.count(Measure::steps, 7 - rank_for(side, pawn));
        }
    }

    void add_candidates(Side side) {
        for (const Square pawn : candidates_to_pass(pawns_, side)) {
            const PawnRace race = pawn_race(pawns_, side, pawn);
            const Squares counted = race.helpers | race.sentries;
            Finding& finding = add_count(findings_, Theme::candidate_to_pass, Detail::none, side, counted);
            name_men(position_, Squares{pawn}, finding);
            name_men(position_, race.helpers, finding);
            name_men(position_, race.sentries, finding);
            finding.count(Measure::squares, race.helpers.count());
            finding.count(Measure::squares_of_other, race.sentries.count());
        }
    }

    void add_chains(Side side) {
        const Side enemy = other(side);
        const Squares attacked = pawn_attacks(enemy, pawns_.of(enemy).pawns);
        const Squares attackable = pawn_attacks(enemy, pawn_lever_arrivals(position_, enemy));
        for (const PawnChain& chain : pawn_chains(position_, side)) {
            if (chain.base & attacked)
                add_chain(Detail::attacked_already, enemy, chain, chain.base & attacked);
            else if (chain.base & attackable)
                add_chain(Detail::attackable, enemy, chain, chain.base & attackable);
            else if (chain.deep)
                add_chain(Detail::none, side, chain, chain.base);
        }
    }

    void add_chain(Detail kind, Side side, const PawnChain& chain, Squares first) {
        Finding& finding = add_count(findings_, Theme::pawn_chain, kind, side, chain.pawns);
        name_men(position_, first, finding);
        name_men(position_, chain.pawns & ~first, finding);
        finding.count(Measure::pieces, chain.pawns.count());
    }

    void add_levers(Side side) {
        for (const Square arrival : pawn_lever_arrivals(position_, side)) {
            const PawnLever lever = pawn_lever_to(position_, side, arrival);
            const Squares occupied = position_.occupied().without(lever.pawn).with(arrival);
            const int guards = attackers_of(position_, arrival, side, occupied).count();
            const int attackers = attackers_of(position_, arrival, other(side), occupied).count();
            if (attackers > guards) continue;
            const Detail kind = lever.opens_file        ? Detail::on_open_file
                                : lever.half_opens_file ? Detail::on_half_open_file
                                                        : Detail::none;
            Finding& finding = add_count(findings_, Theme::pawn_lever, kind, side, Squares{arrival});
            name_men(position_, Squares{lever.pawn}, finding);
            name_men(position_, lever.targets, finding);
            finding.count(Measure::guards, guards);
            finding.count(Measure::attackers, attackers);
        }
    }

    void add_majorities(Side side) {
        for (const Wing wing : all_wings) {
            const WingPawns pawns = wing_pawns(position_, side, wing);
            if (pawns.majority() <= 0 || !pawns.enemy) continue;
            const Detail kind = wing == Wing::long_ ? Detail::queenside : Detail::kingside;
            Finding& finding = add_count(findings_, Theme::pawn_majority, kind, side, pawns.own | pawns.enemy);
            name_men(position_, pawns.own, finding);
            finding.count(Measure::squares, pawns.own.count());
            finding.count(Measure::squares_of_other, pawns.enemy.count());
            finding.count(Measure::majority, pawns.majority());
        }
    }

    void add_islands() {
        const int white = pawns_.of(Side::white).islands;
        const int black = pawns_.of(Side::black).islands;
        if (white == black || white == 0 || black == 0) return;
        const Side fewer = white < black ? Side::white : Side::black;
        Finding& finding = add_count(findings_, Theme::pawn_islands, Detail::none, fewer, position_.men(Kind::pawn));
        finding.count(Measure::islands, pawns_.of(fewer).islands);
        finding.count(Measure::islands_of_other, pawns_.of(other(fewer)).islands);
    }

    void add_fixed() {
        const Squares white = blocked_pawns(position_, Side::white).fixed;
        if (!white.several()) return;
        const Squares fixed = white | white.moved(advance_of(Side::white));
        Finding& finding = add_count(findings_, Theme::blocked_pawns, Detail::fixed_by_pawn, position_.mover(), fixed);
        name_men(position_, fixed, finding);
        finding.count(Measure::pieces, fixed.count());
    }

    const Position& position_;
    const PawnStructure& pawns_;
    Findings& findings_;
};

} // namespace detail

inline void find_pawn_themes(const BoardView& view, Findings& findings) {
    detail::PawnThemes{view.position(), view.pawns(), findings}.find();
}

} // namespace keysquare
