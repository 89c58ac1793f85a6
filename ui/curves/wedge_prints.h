// The prints of a notebook that a curve can be made of, by mix and paper, and the doses that their exposures got.
#pragma once

#include "core/density/wedge_points.h"

#include <vector>

namespace washfast::ui::curves {

/// A print of which steps were read.
struct SteppedPrint {
    qint64 id = 0;
    int row = -1;
    QString code;
    qint64 mix = 0, formula = 0, paper = 0; // 0: not recorded
    std::optional<double> mix_age_d; // when it was coated
};
[[nodiscard]] std::vector<SteppedPrint> steppedPrints(const PrintReader& reader);

/// The id that a link of this record holds; 0 when it is not recorded.
[[nodiscard]] qint64 linkOf(const Notebook& notebook, Ref ref, QStringView key);

/// What a curve is of: all mixes of one formula, one mix, or one print; of the first two on one paper.
struct CurveOf {
    enum class By { Formula, Mix, Print };
    By by = By::Formula;
    qint64 id = 0; // of the formula, the mix or the print
    qint64 paper = 0; // 0: not recorded
    friend bool operator==(const CurveOf&, const CurveOf&) = default;
};
[[nodiscard]] bool belongs(const SteppedPrint& print, const CurveOf& of);

struct CurveGroup {
    CurveOf of;
    QString name; // "Traditional on Rag 300"
    int prints = 0;
};
/// All that a curve can be made of: formulas, then mixes, each with the most prints first, then single prints.
[[nodiscard]] std::vector<CurveGroup> curveGroups(const Notebook& notebook, const std::vector<SteppedPrint>& prints);

/// Of each exposure of a print, in the order of their rows.
[[nodiscard]] std::vector<density::GivenDose> dosesOf(const PrintReader& reader, int print_row);

} // namespace washfast::ui::curves
