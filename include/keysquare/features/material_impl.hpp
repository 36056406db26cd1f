// Bodies of features/material.hpp.
#pragma once

#include <keysquare/features/finding_parts.hpp>
#include <keysquare/features/material.hpp>

namespace keysquare {

namespace detail {

/// Differences seen from one side.
struct Difference {
    int queens = 0;
    int rooks = 0;
    int minors = 0;
    int pawns = 0;

    Difference(const MaterialSignature& signature, Side side) noexcept
        : queens(signature.more(side, Kind::queen)), rooks(signature.more(side, Kind::rook)),
          minors(signature.more_minors(side)), pawns(signature.more(side, Kind::pawn)) {}

    [[nodiscard]] bool same_pieces() const noexcept { return queens == 0 && rooks == 0 && minors == 0; }
    [[nodiscard]] bool only_more_pieces() const noexcept { return queens >= 0 && rooks >= 0 && minors >= 0; }
    [[nodiscard]] bool leads_in_dearest() const noexcept {
        for (const int more : {queens, rooks, minors, pawns})
            if (more != 0) return more > 0;
        return false;
    }
};

/// The row of the table that fits one side's differences; `mixed` when none does.
inline Detail name_of(const Difference& more) noexcept {
    const bool pays_pawns = more.pawns < 0;
    if (more.same_pieces()) {
        if (more.pawns == 0) return Detail::even;
        return pays_pawns ? Detail::mixed : Detail::pawns_up;
    }
    if (more.queens == 0 && more.rooks > 0 && more.minors == -more.rooks) {
        if (more.rooks > 1) return Detail::two_exchanges;
        return pays_pawns ? Detail::the_exchange_for_pawns : Detail::the_exchange;
    }
    if (more.queens == 0 && more.minors == 2 && more.rooks == -1)
        return pays_pawns ? Detail::two_minors_for_rook_and_pawns : Detail::two_minors_for_rook;
    if (more.only_more_pieces()) {
        if (!pays_pawns) return Detail::piece_up;
        return more.queens == 0 && more.rooks == 0 && more.minors == 1 ? Detail::minor_for_pawns
                                                                       : Detail::piece_for_pawns;
    }
    if (more.queens == 1 && more.rooks <= 0 && more.minors <= 0) return Detail::queen_for_pieces;
    return Detail::mixed;
}

inline Squares minors_of(const Position& position) noexcept {
    return position.men(Kind::knight) | position.men(Kind::bishop);
}

/// Of each class, the men of the side that has more of them.
inline Squares men_in_surplus(const Position& position, const Difference& more, Side side) noexcept {
    Squares men;
    const auto add = [&](int surplus, Squares of_class) {
        if (surplus != 0) men |= of_class & position.men(surplus > 0 ? side : other(side));
    };
    add(more.queens, position.men(Kind::queen));
    add(more.rooks, position.men(Kind::rook));
    add(more.minors, minors_of(position));
    add(more.pawns, position.men(Kind::pawn));
    return men;
}

inline Imbalance main_imbalance(const Position& position, const MaterialSignature& signature,
                                const Values& values) noexcept {
    Imbalance imbalance{Detail::mixed, position.mover(), {}};
    Side asset = position.mover();
    for (const Side side : all_sides) {
        const Difference more{signature, side};
        const Detail name = name_of(more);
        if (name == Detail::even) return {name, position.mover(), {}};
        if (name != Detail::mixed) {
            imbalance.name = name;
            asset = side;
            break;
        }
        if (more.leads_in_dearest()) asset = side;
    }
    const int ahead = balance(position, asset, values);
    imbalance.side = ahead >= 0 ? asset : other(asset);
    imbalance.men = men_in_surplus(position, Difference{signature, asset}, asset);
    return imbalance;
}

} // namespace detail

inline MaterialSignature material_signature(const Position& position) noexcept {
    MaterialSignature signature;
    for (const Side side : all_sides)
        for (const Kind kind : all_kinds)
            signature.counts[index(side)][index(kind)] = static_cast<std::uint8_t>(position.men(side, kind).count());
    return signature;
}

inline std::string text(const MaterialSignature& signature) {
    std::string written;
    for (const Side side : all_sides) {
        if (side == Side::black) written += " v ";
        for (const Kind kind : {Kind::king, Kind::queen, Kind::rook, Kind::bishop, Kind::knight, Kind::pawn})
            written.append(static_cast<std::size_t>(signature.count(side, kind)), letter(kind));
    }
    return written;
}

inline std::optional<ExchangeUp> exchange_up(const MaterialSignature& signature) noexcept {
    const int rooks = signature.more(Side::white, Kind::rook);
    if (rooks == 0 || signature.more(Side::white, Kind::queen) != 0 || signature.more_minors(Side::white) != -rooks)
        return std::nullopt;
    return rooks > 0 ? ExchangeUp{Side::white, rooks} : ExchangeUp{Side::black, -rooks};
}

inline Imbalances named_imbalances(const Position& position, const Values& values) noexcept {
    Imbalances named;
    named.push_back(detail::main_imbalance(position, material_signature(position), values));
    const Squares white = position.men(Side::white, Kind::bishop);
    const Squares black = position.men(Side::black, Kind::bishop);
    const bool white_pair = has_bishop_pair(position, Side::white);
    const bool black_pair = has_bishop_pair(position, Side::black);
    if (white_pair != black_pair)
        named.push_back({Detail::bishop_pair, white_pair ? Side::white : Side::black, white_pair ? white : black});
    else if (white.count() == 1 && black.count() == 1 && is_light(white.first()) != is_light(black.first()))
        named.push_back({Detail::opposite_bishops, named.front().side, white | black});
    return named;
}

inline void find_material(const BoardView& view, Findings& findings) {
    const Position& position = view.position();
    const MaterialSignature signature = material_signature(position);
    const auto exchange = exchange_up(signature);
    for (const Imbalance& imbalance : named_imbalances(position, view.options().values)) {
        Finding& finding = findings.emplace_back();
        finding.theme = Theme::material;
        finding.detail = imbalance.name;
        finding.side = imbalance.side;
        finding.squares = imbalance.men;
        for (const Side side : {imbalance.side, other(imbalance.side)})
            detail::name_men(position, imbalance.men & position.men(side) & ~position.men(Kind::pawn), finding);
        const detail::Difference more{signature, imbalance.side};
        finding.count(Measure::material, balance(position, imbalance.side, view.options().values));
        finding.count(Measure::queens, more.queens);
        finding.count(Measure::rooks, more.rooks);
        finding.count(Measure::minors, more.minors);
        finding.count(Measure::pawns, more.pawns);
        const bool speaks_of_exchange = imbalance.name == Detail::the_exchange ||
                                        imbalance.name == Detail::the_exchange_for_pawns ||
                                        imbalance.name == Detail::two_exchanges;
        if (speaks_of_exchange && exchange) finding.count(Measure::exchanges, exchange->times);
    }
}

} // namespace keysquare
