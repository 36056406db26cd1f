// The sentences for threats, parries and answers, as tables of templates beside sentences.hpp.
#pragma once

#include <keysquare/board/literal.hpp>
#include <keysquare/lesson/language.hpp>

namespace keysquare {

/// The sentence for a threat: the first row that fits its kind. Placeholders as in `SentenceRow`; {man} is the man, or
/// the square, that the threat is aimed at.
struct ThreatSentences {
    Literal mate;    ///< a mate
    Literal at_once; ///< the first move takes what the threat is aimed at
    Literal aimed;   ///< it falls later
};

/// Of a threat that needs the mover to pass.
inline constexpr ThreatSentences threat_after_pass[language_count]{
    {
        "{Side} threatens to {win}: {line}.",
        "{Side} threatens to {win} with {move}{punish}.",
        "{Side} threatens to {win} with {move}, aimed at {man}{punish}.",
    },
    {
        "{Side} droht {win:zu}: {line}.",
        "{Side} droht, mit {move} {win:zu}{punish}.",
        "{Side} droht, mit {move} {win:zu}, gerichtet gegen {man:acc}{punish}.",
    },
};
/// Of what the mover can do at once.
inline constexpr ThreatSentences threat_at_once[language_count]{
    {
        "{Side} can {win}: {line}.",
        "{Side} can {win} with {move}{punish}.",
        "{Side} can {win} with {move}, aimed at {man}{punish}.",
    },
    {
        "{Side} kann {win}: {line}.",
        "{Side} kann mit {move} {win}{punish}.",
        "{Side} kann mit {move} {win}, gerichtet gegen {man:acc}{punish}.",
    },
};

/// {threat} is the move that is threatened, {moves} a list of moves, {count} how many there are, {legal}, {natural} and
/// {stopping} counts of `Parries`.
struct ParrySentences {
    Literal nothing;   ///< no move stops the threat or ends all
    Literal only;      ///< one move ends all
    Literal several;   ///< some do
    Literal none_ends; ///< some stop it, none ends all
    Literal useful;    ///< those of them that are useful anyway
    Literal counters;  ///< those of them that answer a threat with a threat
    Literal every;     ///< every natural reply stops it
    Literal most;      ///< at least half of them do
    Literal more;      ///< {more}: moves that are not named, as the last word of {moves}
};

/// What is said about parries.
inline constexpr ParrySentences parry_sentences[language_count]{
    {
        "Nothing parries {threat}.",
        "Of {legal} legal moves only {moves} parries {threat} and leaves the other side nothing else.",
        "Of {legal} legal moves {count} parry {threat} and leave the other side nothing else: {moves}.",
        "No move leaves the other side nothing, but {moves} at least stop {threat}.",
        "Good for something else as well: {moves}.",
        "By a threat of its own: {moves}.",
        "Every natural reply stops it.",
        "Most natural replies stop it anyway ({stopping} of {natural}).",
        "{more:further}",
    },
    {
        "Nichts pariert {threat}.",
        "Von {legal} legalen Zügen pariert nur {moves} die Drohung {threat} und lässt der anderen Seite auch sonst nichts.",
        "Von {legal} legalen Zügen parieren {count} die Drohung {threat} und lassen der anderen Seite auch sonst nichts: "
        "{moves}.",
        "Kein Zug lässt der anderen Seite gar nichts, aber immerhin {count?verhindert|verhindern} {moves} den Zug "
        "{threat}.",
        "Auch sonst nützlich: {moves}.",
        "Durch eine eigene Drohung: {moves}.",
        "Jede natürliche Antwort pariert sie.",
        "Die meisten natürlichen Antworten parieren sie ohnehin ({stopping} von {natural}).",
        "{more:further}",
    },
};

/// {answer} is the answering move, {asked} the move that was asked about; the others as for threats.
struct AnswerSentences {
    Literal nothing;    ///< no reply wins anything
    Literal even;       ///< a reply wins something, but not on balance
    Literal leaves;     ///< the threat was there before
    Literal walks_into; ///< it is new
};

/// What is said about answers.
inline constexpr AnswerSentences answer_sentences[language_count]{
    {
        "After {asked} {Side} has no capture or threat that wins anything.",
        "After {asked} {Side} has {move}, which wins no more than the move took{punish}.",
        "{asked} leaves what {Side} threatened before: {line} {wins}.",
        "{asked} walks into {move}, which {wins}{punish}.",
    },
    {
        "Nach {asked} hat {Side} weder einen Schlagzug noch eine Drohung, die etwas einbringt.",
        "Nach {asked} hat {Side} {move}, was nicht mehr gewinnt, als der Zug geschlagen hat{punish}.",
        "{asked} lässt zu, was {Side} schon vorher drohte: {line} {wins}.",
        "{asked} läuft in {move}, was {wins:last}{punish}.",
    },
};

} // namespace keysquare
