// The risk sheet and the teaching sheet on paper.
#pragma once

#include "core/chemistry/risk_sheet.h"
#include "core/chemistry/teaching_sheet.h"
#include "ui/sheets/page.h"

namespace washfast::ui::sheets {

/// Pages: substances and signature, then cautions with room for the school's own measures.
inline constexpr int riskPages = 2;
[[nodiscard]] PaintPage riskPainter(chemistry::RiskSheet sheet);
/// The questions, then the answers.
inline constexpr int teachingPages = 2;
[[nodiscard]] PaintPage teachingPainter(chemistry::TeachingSheet sheet);

} // namespace washfast::ui::sheets
