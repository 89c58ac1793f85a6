// What the evidence looks like, worked out without a widget and painted at any size: every print along one factor, the
// effects of the factors beside one another, and how strongly factors moved together.
#pragma once

#include "core/causes/answer.h"
#include "ui/common/theme.h"

#include <QPainter>

namespace washfast::ui {

/// Every print along one factor: failed above, kept below; with an outcome that is a number, by its value.
struct StripData {
    QString title, across; // label, and label with unit
    QStringList codes;
    std::vector<double> x; // value, or the place of the level
    std::vector<double> y; // 1 failed, 0 kept; or the outcome itself
    QStringList levels; // of a choice or a yes/no; empty: x is a number
    bool outcome_is_number = false;
    QString up; // label of an outcome that is a number
    std::optional<double> median_failed, median_kept;
    int unknown = 0; // prints that are not shown because one of the two was not recorded
};
[[nodiscard]] StripData stripOf(const causes::FactorTable& table, const causes::FactorEvidence& evidence);
/// Gives the place of each print.
std::vector<QPointF> paintStrip(
    QPainter& painter, const QRectF& area, const StripData& strip, const Theme& theme, int pointed = -1);

/// One factor's effect as odds of failing: by how much they are multiplied for one step.
struct Effect {
    QString label, step; // "for 12 min more", "yes against no"
    double odds = 1;
    std::optional<double> low, high; // 95 % profile interval
    bool together = false; // fitted together with others, not alone
    bool named = false;
};
[[nodiscard]] std::vector<Effect> effectsOf(const causes::FactorTable& table, const causes::Answer& answer);
void paintEffects(QPainter& painter, const QRectF& area, const std::vector<Effect>& effects, const Theme& theme);

/// How strongly factors moved together, 0 to 1, those with the smallest p first.
struct TogetherData {
    QStringList labels;
    std::vector<std::vector<std::optional<double>>> association; // [row][column]; nothing: not worth a mention
    std::vector<std::vector<std::optional<int>>> disagree; // prints in which the two say different things
};
[[nodiscard]] TogetherData togetherOf(const causes::Answer& answer, int most = 14);
void paintTogether(QPainter& painter, const QRectF& area, const TogetherData& data, const Theme& theme);

} // namespace washfast::ui
