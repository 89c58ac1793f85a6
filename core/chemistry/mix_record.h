// Mixes and bottles as the notebook has them: what a mix holds, and what the shelf has to say about age and what
// is left.
//
// Nothing is taken off silently: what is left in a bottle is what was seen, less what was weighed out of it since, and
// the sentence says both.
#pragma once

#include "core/chemistry/audit.h"
#include "core/trial/print_reader.h"

namespace washfast::chemistry {

/// What was weighed for a mix; the bottle's label decides where the written name leaves the form open.
[[nodiscard]] Batch batchOf(const Notebook& notebook, qint64 mix);
/// Keys of the substances in the mixes of a session's prints, each once.
[[nodiscard]] QStringList substancesOfSession(const Notebook& notebook, qint64 session);
/// The mix that most prints of a session were coated with; 0 for none.
[[nodiscard]] qint64 mixOfSession(const Notebook& notebook, qint64 session);

/// Bottles on the shelf that hold the substance or stand for it; retired ones are left out, the last opened comes
/// first.
[[nodiscard]] std::vector<qint64> bottlesOf(const Notebook& notebook, const QString& substance);
/// Key of the substance in a bottle; empty when the label cannot be read.
[[nodiscard]] QString substanceInBottle(const Notebook& notebook, qint64 chemical);

enum class ShelfWarning : quint8 { Old, Low, NoLabel };
[[nodiscard]] QString warningWord(ShelfWarning warning); // old, low, no label noted

struct BottleState {
    std::optional<double> left_g;
    double weighed_out_g = 0; // of that, taken off since it was seen
    QString says; // how left_g came to be
    std::vector<ShelfWarning> warnings;
};
[[nodiscard]] BottleState bottleState(const Notebook& notebook, qint64 chemical, const Instant& now);

/// Days after which a mix is said to be old, without a word on it: a mixed citrate sensitiser is for the same day
/// (Ware for the oxalate, which keeps; the citrate from memory).
inline constexpr double citrateMixKeepsDays = 1, oxalateMixKeepsDays = 180;
inline constexpr double lowMixMl = 2; // less than three A5 sheets; our own choice
inline constexpr double openedBottleKeepsDays = 730; // our own choice; a best-before date wins

struct MixState {
    std::optional<double> age_days;
    std::optional<double> left_ml;
    bool at_most = false; // a coat of unknown volume was taken as well
    int prints = 0;
    QString says; // how left_ml came to be
    std::vector<ShelfWarning> warnings;
};
[[nodiscard]] MixState mixState(const Notebook& notebook, qint64 mix, const Instant& now);

/// One print of a mix: its age when the print was coated, h, and the net density that came out.
struct AgePoint {
    double age_h = 0, net_density = 0;
    qint64 print = 0;
};
[[nodiscard]] std::vector<AgePoint> densityWithAge(const PrintReader& reader, qint64 mix);

} // namespace washfast::chemistry
